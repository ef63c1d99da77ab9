"""The few array habits every module of this package shares.

*Numeric* means: a float or anything numpy can make an array of floats from. All
arguments of a function broadcast together, and floats in give a float out (a numpy
scalar). NaN in gives NaN out. A pose that cannot exist gives NaN, never the nearest pose
that could: nothing is clipped on its way into an inverse function.
"""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

Numeric: TypeAlias = ArrayLike
Array: TypeAlias = NDArray[np.float64]
Mask: TypeAlias = NDArray[np.bool_]

#: Freed memory that the process may keep, see `keep_freed_memory` [bytes].
KEPT = 30_000_000


def arrays(*values: Numeric) -> tuple[Array, ...]:
    """Return every value as an array of floats, in the order given."""
    return tuple(np.asarray(value, dtype=np.float64) for value in values)


def choose(condition: Mask, if_true: Array | float, if_false: Array | float) -> Array:
    """Pick element by element, and keep a float a float (np.where alone would not)."""
    picked: Array = np.where(condition, if_true, if_false)[()]
    return picked


def nan_unless(condition: Mask, value: Array | float) -> Array:
    """Return the value where the condition holds and NaN everywhere else."""
    return choose(condition, value, np.nan)


def sqrt_or_nan(value: Array) -> Array:
    """Square root; NaN below zero, without a warning."""
    with np.errstate(invalid="ignore"):
        root: Array = np.sqrt(value)
    return root


def arccos_or_nan(value: Array) -> Array:
    """Arc cosine [rad]; NaN outside -1 to 1, without a warning."""
    with np.errstate(invalid="ignore"):
        angle: Array = np.arccos(value)
    return angle


def arcsin_or_nan(value: Array) -> Array:
    """Arc sine [rad]; NaN outside -1 to 1, without a warning."""
    with np.errstate(invalid="ignore"):
        angle: Array = np.arcsin(value)
    return angle


def magnitude(x: Array, y: Array) -> Array:
    """Length of the vector (x, y): of forces and the like, whose squares are ordinary numbers.

    An eighth of the time of np.hypot, which takes care of squares that cannot be written; here
    those come out infinite or 0.
    """
    length: Array = np.sqrt(x * x + y * y)
    return length


def divide_or_nan(above: Array | float, below: Array) -> Array:
    """Quotient; NaN where the divisor is exactly zero, without a warning."""
    nought = below == 0.0
    return nan_unless(~nought, above / np.where(nought, 1.0, below))


def cos_sin(angle: Numeric) -> tuple[Array, Array]:
    """Cosine and sine of the same angle [rad], to the last digit or the one before.

    From the tangent t of half the angle, (1 - t2)/(1 + t2) and 2 t/(1 + t2): numpy has a
    vectorised tangent but no vectorised cosine, so that one tangent takes a fraction of the time
    of a cosine and a sine.
    """
    t = np.tan(0.5 * np.asarray(angle, dtype=np.float64))
    square = t * t
    share = 1.0 / (1.0 + square)
    return (1.0 - square) * share, 2.0 * t * share


def keep_freed_memory() -> None:
    """Have the process keep the memory that arrays free, for the next ones of their size.

    Call it before work that makes and frees many arrays of 0.1 to 1 MB. The GNU C library hands
    each of these back to the system and asks for it anew, page by page, which takes several times
    as long as the arithmetic; once one large block has been freed it keeps as much as that. The
    block itself is never written to, so it takes no memory. Other C libraries do not mind.
    """
    np.empty(KEPT, dtype=np.uint8)
