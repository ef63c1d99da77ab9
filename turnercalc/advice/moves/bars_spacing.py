"""Set the bars closer together or further apart, or take thicker ones."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.sizing import Sizing
from turnercalc.tables import limit

STEPS = (-0.008, -0.004, 0.004, 0.008)  # m
#: Thicker bars of round sizes that shops have, tubes and dowels [m].
SIZES = (0.012, 0.016, 0.020, 0.025, 0.030, 0.032, 0.040)


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the pitch at which the largest just keep clear, others near it, and thicker bars."""
    bars = sizing.design.get("bars")
    if bars is None:
        return
    clear = sizing.ingredients.lot.largest.breadth + 1e-3 * (limit("egg_gap").fine or 0.0)
    nearest = math.ceil(1e3 * clear) / 1e3
    for pitch in sorted({nearest, nearest + 0.002, *(bars.pitch + step for step in STEPS)}):
        if abs(pitch - bars.pitch) > 1e-6 and holds(sizing, pitch):
            text = f"{1e3 * pitch:.4g} mm"
            say = f"Set the bars {text} apart, from middle to middle."
            yield Proposal("bar_pitch", {"bars.pitch": text}, say)
    for size in [size for size in SIZES if bars.diameter < size < bars.pitch][:3]:
        text = f"{1e3 * size:.4g} mm"
        say = f"Take thicker bars, {text}."
        yield Proposal("thicker_bars", {"bars.diameter": text}, say)


def holds(sizing: Sizing, pitch: float) -> bool:
    """Tell whether bars so far apart hold the smallest egg, and go into the box."""
    bars, width = sizing.design["bars"], sizing.design["box"].width
    gap = pitch - bars.diameter
    fits = (bars.count - 1) * pitch + bars.diameter <= width
    return bool(0.0 < gap < sizing.ingredients.lot.smallest.breadth and fits)
