"""The numbers that rolling bars put into their formulas."""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING

from turnercalc.handover.cycle_record import cycle_of, hardest_load
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.turners.rolling_bars import RollingBars

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing


def bar_numbers(sizing: Sizing) -> tuple[Mapping[str, float], str, str] | None:
    """Return letters with values, where they belong to, and what the whole calculation gives.

    One typical egg half way through a move, its heavy side level with its middle; a row of bars
    on the longer side of the driven one. None for a design without bars.
    """
    bars = sizing.turner
    if not isinstance(bars, RollingBars) or sizing.cycle is None:
        return None
    cycle, load, way = cycle_of(sizing), hardest_load(sizing), sizing.told_direction
    middle = cycle.levels.index("middle")
    cells = cycle.loads[load].cells[None].astype(float)
    weight = bars.egg_mass * STANDARD_GRAVITY
    sense = (1.0, -1.0)[way]
    alone = bars.bar_torques(cells, 0.0, sense, ("middle",)).reshape(bars.count)
    values = {
        "R": bars.egg_radius,
        "r": bars.bar_radius,
        "s": bars.pitch,
        "W": weight,
        "A": bars.nest,
        "N": 0.5 * weight / math.cos(bars.nest),
        "f": bars.rolling_arm.middle,
        "e": bars.off_centre.middle,
        "a": 0.5 * math.pi,
        "p": bars.travel[1] - bars.travel[0],
    }
    if bars.joining.bar_to_bar and bars.joining.efficiency.middle < 1.0:
        behind = max(bars.driven_bar, bars.count - 1 - bars.driven_bar)
        values |= {
            "T": float(alone.mean()),
            "eta": bars.joining.efficiency.middle,
            "n": float(behind),
        }
    if bars.joining.belt is not None:
        belt = bars.joining.belt
        values |= {"P": belt.pull, "mu": belt.friction.low, "b": belt.radius}
    where = "one typical egg half way; the mean bar, and the longer row from the driven one"
    peak = float(cycle.shaft_torque[load, middle, way].max())
    compare = (
        f"With {cycle.loads[load].name} and middle friction the whole calculation gives up to "
        f"{peak:.3g} N·m at the shaft."
    )
    return MappingProxyType(values), where, compare
