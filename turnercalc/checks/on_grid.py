"""What the checks of a sliding grid have in common."""

from __future__ import annotations

import numpy as np

from turnercalc.checks.evidence import Evidence
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.mechanics.pushing import Pushed, pushed
from turnercalc.turners.sliding_grid import SlidingGrid


def on_grid(evidence: Evidence) -> SlidingGrid | None:
    """Return the grid; None where something else turns the eggs."""
    return evidence.turner if isinstance(evidence.turner, SlidingGrid) else None


def hardest_egg(grid: SlidingGrid, level: str) -> Pushed:
    """Return the forces on a typical egg where it is hardest to roll, at a friction level.

    In its nest where the floor is a mesh, uphill where the floor leans, its heavy side lifted.
    """
    heavy = grid.egg_mass * STANDARD_GRAVITY * getattr(grid.off_centre, level)
    return pushed(
        grid.egg_mass * STANDARD_GRAVITY,
        grid.egg_radius,
        getattr(grid.rolling_arm, level),
        getattr(grid.bar_friction, level),
        grid.bars.contact(grid.egg_radius),
        grid.climb(grid.egg_radius),
        abs(grid.lean),
        heavy,
    )


def contacts(grid: SlidingGrid) -> dict[str, float]:
    """Return where a bar touches the smallest, typical and largest egg above its middle [rad]."""
    radii = {
        "smallest": grid.smallest_radius or grid.egg_radius,
        "typical": grid.egg_radius,
        "largest": grid.largest_radius or grid.egg_radius,
    }
    return {size: float(np.asarray(grid.bars.contact(radius))) for size, radius in radii.items()}
