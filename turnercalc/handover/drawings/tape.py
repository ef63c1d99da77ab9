"""Lengths as a tape shows them: millimetres or fractions of an inch."""

from __future__ import annotations

from turnercalc.parts.marking import Marks
from turnercalc.units.showing import inch_fraction, plain

MILLIMETRE = 1e-3


def on_tape(value: float, marks: Marks) -> str:
    """Return a length [m] to the nearest mark, with its unit, as a design file reads it."""
    if marks.per_inch:
        return inch_fraction(value, marks.per_inch)
    return f"{plain(marks.nearest(value) / MILLIMETRE, 6)} mm"


def on_both(value: float, marks: Marks, other: Marks | None) -> str:
    """Return a length to the nearest mark, and beside it on another tape where one is wanted."""
    told = on_tape(value, marks)
    return f"{told} ({on_tape(value, other)})" if other else told
