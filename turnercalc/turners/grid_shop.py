"""A sliding grid in the workshop: bars, rails and floor, made and seen from the side."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from turnercalc.ingredients import Ingredients
from turnercalc.pieces import Hole, Made, Piece
from turnercalc.sight import AREA, BAR, Sight, through

if TYPE_CHECKING:
    from turnercalc.turners.sliding_grid import SlidingGrid

Array = NDArray[np.float64]

#: Room along a cell beyond its eggs end to end, for each egg [m].
PLAY_ALONG = 0.003
ROUND_POINTS = 16


def bar_places(grid: SlidingGrid) -> Array:
    """Return the middle of every bar from the driven pin, left first [m]."""
    eggs = grid.egg_places()
    return np.append(eggs - 0.5 * grid.pitch, eggs[-1] + 0.5 * grid.pitch)


def grid_made(grid: SlidingGrid, ingredients: Ingredients) -> Made:
    """Return the bars, the two rails that join them, and the floor under them."""
    along = grid.eggs_per_cell * (ingredients.lot.largest.length + PLAY_ALONG)
    height, thick = grid.bars.top - grid.bars.bottom, grid.bars.thickness
    bar = Piece(
        "bar",
        "bar",
        grid.cells + 1,
        size=(along, height, thick),
        shape="round" if grid.bars.round else "bar",
        template=False,
        says=f"Clear length between the rails. {1e3 * grid.bars.bottom:.4g} mm clear of the floor, "
        "smooth where eggs rub on it.",
    )
    places = bar_places(grid) - 0.5 * (bar_places(grid)[0] + bar_places(grid)[-1])
    hole = thick if grid.bars.round else None  # a slat stands in a notch
    rail = Piece(
        "rail",
        "side rail",
        2,
        tuple(Hole(f"bar {n + 1}", float(x), 0.0, hole) for n, x in enumerate(places)),
        size=(grid.length, height, None),
        shape="sheet",
        template=False,
        says="One in front, one behind; mark both together, so that the bars stand square.",
        critical=("eggs.cell_room", "grid.bar_thickness"),
    )
    reach = grid.cells * grid.pitch + grid.stroke
    floor = Piece(
        "floor",
        "floor for the eggs",
        1,
        size=(reach, along, None),
        shape="sheet",
        template=False,
        says="Level, and rough enough to grip the eggs. It reaches as far as the last egg rolls.",
    )
    return Made((bar, rail, floor), marked=MappingProxyType({"grid.bar_top": grid.bars.top}))


def grid_sights(grid: SlidingGrid, coordinate: Array) -> tuple[Sight, ...]:
    """Return the bars, the floor, and a mark on every egg, which shows how it rolls."""
    q = np.asarray(coordinate, float)
    return (_floor(grid), *(_bar(grid, x, q) for x in bar_places(grid)), *_marks(grid, q))


def _floor(grid: SlidingGrid) -> Sight:
    places = grid.egg_places()
    half = 0.5 * (grid.pitch + grid.stroke)
    ends = np.array([places[0] - half, places[-1] + half])
    rise = ends * np.tan(grid.lean)
    return through(
        "floor", BAR, *((x, y - grid.pin_height) for x, y in zip(ends, rise, strict=True))
    )


def _bar(grid: SlidingGrid, middle: float, coordinate: Array) -> Sight:
    """Return one bar as it slides: a rectangle, or a circle of corners."""
    low, high, half = grid.bars.bottom, grid.bars.top, 0.5 * grid.bars.thickness
    if grid.bars.round:
        turn = np.linspace(0.0, 2.0 * np.pi, ROUND_POINTS, endpoint=False)
        radius, up = 0.5 * (high - low), 0.5 * (high + low)
        x, y = middle + radius * np.cos(turn), up + radius * np.sin(turn)
    else:
        x, y = middle + half * np.array([-1, 1, 1, -1]), np.array([low, low, high, high])
    along = np.cos(grid.lean), np.sin(grid.lean)
    return Sight(
        "bar",
        AREA,
        x[:, None] + coordinate * along[0],
        y[:, None] - grid.pin_height + coordinate * along[1],
    )


def _marks(grid: SlidingGrid, coordinate: Array) -> tuple[Sight, ...]:
    """Return a line from the middle of every egg to its rim, up half way through the stroke."""
    radius = grid.largest_radius or grid.egg_radius
    up = radius - grid.pin_height
    marks = []
    for place in grid.egg_places():
        middle = grid.path_of(place, up).point(coordinate)
        rim = grid.path_of(place, up + 0.98 * radius).point(coordinate)
        marks.append(through("mark", BAR, middle, rim))
    return tuple(marks)
