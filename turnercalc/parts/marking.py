"""What can be marked with a rule or tape: the nearest sizes, and the best set of them."""

from __future__ import annotations

import itertools
import math
from collections.abc import Collection, Mapping
from dataclasses import dataclass

import numpy as np

from turnercalc.drives.base import Drive
from turnercalc.swing import Ends, ends, ends_with, lengths
from turnercalc.turners.base import Turner

INCH = 25.4e-3  # m, exact by definition
#: More lengths than this are rounded one by one and not tried in every combination.
TRIED_TOGETHER = 7


@dataclass(frozen=True)
class Marks:
    """The marks of a rule.

    Attributes
    ----------
    step : float
        From one mark to the next [m].
    per_inch : int
        Marks in an inch; 0 for a metric rule.
    """

    step: float
    per_inch: int = 0

    def nearest(self, value: float) -> float:
        """Return the nearest mark [m]."""
        return round(value / self.step) * self.step

    def around(self, value: float) -> tuple[float, ...]:
        """Return the marks to either side, nearest first; one where it is on a mark [m]."""
        marks = {math.floor(value / self.step + 1e-6), math.ceil(value / self.step - 1e-6)}
        return tuple(sorted((n * self.step for n in marks), key=lambda mark: abs(mark - value)))


#: Half millimetres can be marked with a sharp pencil, and 1/32 in with a machinist's rule.
METRIC = Marks(0.5e-3)
MILLIMETRES = Marks(1e-3)
SIXTEENTHS = Marks(INCH / 16, 16)
THIRTY_SECONDS = Marks(INCH / 32, 32)


def marked_lengths(
    turner: Turner, drive: Drive, marks: Marks, leave: Collection[str] = ()
) -> Mapping[str, float]:
    """Return the lengths that decide the swing as they are best marked: field path -> length [m].

    Every length goes to a mark beside it; of all the combinations the one is taken whose ends
    come nearest to the designed ones, the nearest marks where two do alike. Those of `leave`
    follow from others and are not marked.
    """
    nominal = {path: x for path, x in lengths(turner, drive).items() if path not in leave}
    wanted = ends(turner, drive)
    choices = [
        marks.around(value) if len(nominal) <= TRIED_TOGETHER else (marks.nearest(value),)
        for value in nominal.values()
    ]
    if not np.isfinite(wanted.total):
        return {path: marks.nearest(value) for path, value in nominal.items()}

    def cost(combination: tuple[float, ...]) -> tuple[float, float]:
        changes = {
            path: marked - value
            for (path, value), marked in zip(nominal.items(), combination, strict=True)
        }
        found = ends_with(turner, drive, changes)
        moved = sum(abs(change) for change in changes.values())
        return round(_off(found, wanted), 6), moved

    best = min(itertools.product(*choices), key=cost)
    return dict(zip(nominal, best, strict=True))


def _off(found: Ends, wanted: Ends) -> float:
    """Return by how much the worse end is off [rad or m]; infinite where it does not close."""
    off = max(abs(found.low - wanted.low), abs(found.high - wanted.high))
    return off if np.isfinite(off) else math.inf
