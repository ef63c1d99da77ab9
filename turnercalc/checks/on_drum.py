"""What the checks of a drum share: the drum itself."""

from __future__ import annotations

import math

from turnercalc.checks.evidence import Evidence
from turnercalc.turners.rotating_drum import RotatingDrum


def on_drum(evidence: Evidence) -> RotatingDrum | None:
    """Return the drum of a design; None: it has none."""
    return evidence.turner if isinstance(evidence.turner, RotatingDrum) else None


def shelf_words(shelves: tuple[int, ...]) -> str:
    """Return shelves counted from 0 as a builder counts them: ``1, 4, 2``."""
    return ", ".join(str(shelf + 1) for shelf in shelves)


def between_shelves(shelf: float, shelves: int) -> str:
    """Return a direction from the axle, counted in shelves from 1, to half a shelf."""
    near = 1.0 + round(2.0 * (shelf - 1.0)) / 2.0 % shelves
    if near.is_integer():
        return f"shelf {near:.0f}"
    after = math.floor(near) % shelves + 1
    return f"the middle between shelves {math.floor(near)} and {after}"
