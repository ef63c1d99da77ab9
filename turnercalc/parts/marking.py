"""What can be marked with a rule or tape: the nearest sizes, and the best set of them."""

from __future__ import annotations

import itertools
import math
from collections.abc import Collection, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.drives.base import Drive
from turnercalc.swing import Ends, ends, ends_with, lengths, sensitivities
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]

INCH = 25.4e-3  # m, exact by definition
#: Sets of marks that look best by their slopes and are then closed in full.
LOOKED_AT = 40
#: Ends that are off by no more than this from each other are taken as equally good, for a part
#: that swings [rad] and for one that slides [m].
ALIKE = {"rad": 1e-3, "m": 1e-4}


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
        """Return the marks near a length, two to either side, nearest first [m]."""
        below = math.floor(value / self.step + 1e-6)
        marks = ((below + n) * self.step for n in (-1, 0, 1, 2))
        return tuple(sorted(marks, key=lambda mark: abs(mark - value)))


#: Half millimetres can be marked with a sharp pencil, and 1/32 in with a machinist's rule.
METRIC = Marks(0.5e-3)
MILLIMETRES = Marks(1e-3)
SIXTEENTHS = Marks(INCH / 16, 16)
THIRTY_SECONDS = Marks(INCH / 32, 32)


def marked_lengths(
    turner: Turner, drive: Drive, marks: Marks, leave: Collection[str] = ()
) -> Mapping[str, float]:
    """Return the lengths that decide the swing as they are best marked: field path -> length [m].

    Every length may go to one of the marks near it; of all the sets the one is taken whose ends
    come nearest to the designed ones, and of those that do alike the one that moves the lengths
    least. Those of `leave` follow from others and are not marked.
    """
    nominal = {path: x for path, x in lengths(turner, drive).items() if path not in leave}
    wanted = ends(turner, drive)
    if not nominal or not np.isfinite(wanted.total):
        return {path: marks.nearest(value) for path, value in nominal.items()}
    values = np.array(list(nominal.values()))
    sets = np.array(list(itertools.product(*map(marks.around, values))))
    slopes = {one.field: (one.low, one.high) for one in sensitivities(turner, drive)}
    off = np.abs((sets - values) @ np.array([slopes[path] for path in nominal])).max(axis=1)
    alike = ALIKE[turner.coordinate_unit]
    moved = np.abs(sets - values).sum(axis=1)
    likely = np.lexsort((moved, np.round(off / alike)))[:LOOKED_AT]

    def cost(chosen: Array) -> tuple[float, float]:
        changes = dict(zip(nominal, (chosen - values).tolist(), strict=True))
        found = _off(ends_with(turner, drive, changes), wanted)
        away = float(np.abs(chosen - values).sum())
        return (round(found / alike) if math.isfinite(found) else math.inf), away

    best = min(sets[likely], key=cost)
    return dict(zip(nominal, best.tolist(), strict=True))


def _off(found: Ends, wanted: Ends) -> float:
    """Return by how much the worse end is off [rad or m]; infinite where it does not close."""
    off = max(abs(found.low - wanted.low), abs(found.high - wanted.high))
    return off if np.isfinite(off) else math.inf
