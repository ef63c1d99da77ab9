"""The design with every length as it can be marked, sized again."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from turnercalc.motors import MotorFile
from turnercalc.parts.marking import Marks, marked_lengths
from turnercalc.parts.workshop import made_for
from turnercalc.sizing import Sizing, size
from turnercalc.swing import lengths


@dataclass(frozen=True)
class AsMarked:
    """A design as it comes off the rule.

    Attributes
    ----------
    marks : Marks
        Of the rule.
    lengths : mapping
        Field path -> length as marked [m], every length that is marked out.
    changed : mapping
        Field path -> length before [m], of those that are not where they were.
    before, sizing : Sizing
        As designed, and as marked: its tilt and verdict are what the drawings give.
    """

    marks: Marks
    lengths: Mapping[str, float]
    changed: Mapping[str, float]
    before: Sizing
    sizing: Sizing


def as_marked(sizing: Sizing, marks: Marks, motor_file: MotorFile | None = None) -> AsMarked:
    """Return the design with every marked length on a mark, sized again.

    Lengths that decide the swing are rounded together, so that the ends stay where they were as
    well as the marks allow; the others go to the nearest mark.

    Parameters
    ----------
    sizing : Sizing
        As designed.
    marks : Marks
        Of the rule it will be marked with.
    motor_file : MotorFile, optional
        The file it was sized with.
    """
    made = made_for(sizing.turner, sizing.drive, sizing.ingredients)
    design = sizing.design
    decide = lengths(sizing.turner, sizing.drive)
    # What the builder left out follows from the rest, such as the place of an end switch.
    left_out = {path for path in decide if design.value(path) is None}
    before = dict(made.marked)
    wanted = {path: marks.nearest(value) for path, value in before.items()}
    wanted |= marked_lengths(sizing.turner, sizing.drive, marks, left_out)
    before |= {path: length for path, length in decide.items() if path not in left_out}
    changed = {path: old for path, old in before.items() if abs(wanted[path] - old) > 1e-9}
    if not changed:
        return AsMarked(marks, wanted, {}, sizing, sizing)
    changes = {path: wanted[path] for path in changed}
    rounded = design.replace(changes, si=True)
    return AsMarked(marks, wanted, changed, sizing, size(rounded, motor_file))
