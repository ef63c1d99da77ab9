"""Bars of a sliding grid that touch the eggs at half their height, and rub them little."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal, millimetres
from turnercalc.checks.on_grid import contacts
from turnercalc.sizing import Sizing
from turnercalc.turners.sliding_grid import SlidingGrid

SMOOTH = "smooth plastic"
#: Over and under the middle of the largest and of the smallest egg [m].
BEYOND = 0.008


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield bars of the right height, and a smoother face."""
    grid, design = sizing.turner, sizing.design
    if not isinstance(grid, SlidingGrid):
        return
    if any(not abs(angle) < 0.01 for angle in contacts(grid).values()):
        yield _height(grid)
    measured = design.origin["grid.bar_friction"].how != "taken for granted"
    if measured or design["grid"].bar_surface != SMOOTH:
        # What was measured on the old bars says nothing of new ones.
        forgotten = {"grid.bar_friction": "unknown"} if measured else {}
        yield Proposal(
            "smoother_bars",
            {"grid.bar_surface": SMOOTH, **forgotten},
            "Face the bars with smooth plastic, so that they rub the eggs less.",
        )


def _height(grid: SlidingGrid) -> Proposal:
    if grid.bars.round:
        half = 0.5 * grid.bars.thickness
        bottom, top = grid.egg_radius - half, grid.egg_radius + half
        say = f"Set the middle of the rods {millimetres(grid.egg_radius)} above the floor."
    else:
        bottom = (grid.smallest_radius or grid.egg_radius) - BEYOND
        top = (grid.largest_radius or grid.egg_radius) + BEYOND
        say = f"Let the slats reach from {millimetres(bottom)} to {millimetres(top)} up."
    settings = {"grid.bar_bottom": millimetres(bottom), "grid.bar_top": millimetres(top)}
    return Proposal("half_egg_bars", settings, say)
