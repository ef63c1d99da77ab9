"""Rolling bars in the workshop: bars and their bearings, made and seen from the side."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from turnercalc.ingredients import Ingredients
from turnercalc.pieces import Fastener, Fixed, Made, Piece
from turnercalc.sight import BAR, Sight, through

if TYPE_CHECKING:
    from turnercalc.turners.base import Outline
    from turnercalc.turners.rolling_bars import RollingBars

Array = NDArray[np.float64]


def bars_made(bars: RollingBars, ingredients: Ingredients) -> Made:
    """Return the bars, the holes of their journals, and the bearings."""
    del ingredients
    journal = bars.journal_diameter or None
    bar = Piece(
        "bar",
        "bar",
        bars.count,
        size=(None, 2.0 * bars.bar_radius, 2.0 * bars.bar_radius),
        shape="round",
        template=False,
        says="As long as the box is deep inside, less what the journals take.",
    )
    return Made(
        (bar,),
        tuple(Fixed(f"bar {n + 1}", n * bars.pitch, 0.0, journal) for n in range(bars.count)),
        (Fastener("bearing", 2 * bars.count, journal, "both ends of every bar"),),
        MappingProxyType({"bars.pitch": bars.pitch}),
    )


def bar_sights(bars: RollingBars, coordinate: Array) -> tuple[Sight, ...]:
    """Return a mark on every bar and every egg, which shows how it turns."""
    q = np.asarray(coordinate, float)
    return tuple(_mark(bars, outline, q) for outline in bars.outlines())


def _mark(bars: RollingBars, outline: Outline, coordinate: Array) -> Sight:
    """Return a line from the middle of a round outline to its rim, up at q = 0."""
    x, y = float(outline.across.mean()), float(outline.height.mean())
    rim = y + 0.49 * float(np.ptp(outline.height))
    middle = (x + 0.0 * coordinate, y + 0.0 * coordinate)
    return through("mark", BAR, middle, bars.path_of(x, rim).point(coordinate))
