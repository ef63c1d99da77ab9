"""Numbers as records hold them: rounded alike everywhere, and never NaN."""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np

#: Significant digits in records. More than any figure here deserves, and enough that a page,
#: which shows three, never disagrees with a record by its rounding.
DIGITS = 6


def rounded(value: float | np.floating | None, per_si: float = 1.0) -> float | int | None:
    """Return a number with so many digits; None where it is not finite or not known.

    Parameters
    ----------
    value : float or None
        In SI.
    per_si : float
        The figure is the value times this.
    """
    if value is None:
        return None
    number = float(value) * per_si
    if not math.isfinite(number):
        return None
    if number == 0.0:
        return 0.0
    return round(number, DIGITS - 1 - math.floor(math.log10(abs(number))))


def rounded_all(values: Iterable[float], per_si: float = 1.0) -> list[float | int | None]:
    """Return an array as a list of rounded numbers, None for what is not finite."""
    return [rounded(value, per_si) for value in values]
