"""The outline of a bird's egg as a formula of a few lengths.

Coordinates of the whole module: x runs along the axis from -L/2 to L/2 with its origin at half
length, the blunt end at x = -L/2 and the pointed end at x = +L/2; y is the radius there.
L is the length, B the greatest breadth, w the distance of the greatest breadth from half length
(it lies at x = -w) and D the diameter a quarter of the length from the pointed end (x = +L/4).

Without D the outline is the Hügelschäffer ovoid; with w = 0 that is a spheroid. With D it is the
universal formula, which also reaches pear-shaped eggs.

References
----------
.. [1] V. G. Narushin, M. N. Romanov and D. K. Griffin, "Egg and math: introducing a universal
   formula for egg shape", Ann. N.Y. Acad. Sci. 1505 (2021) 169, equation 5.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

# w = (L - B)/(2 n) with n >= 1 is Narushin's estimate (from memory). n = 3.5 is our choice: it
# gives the hen's egg of 57.5 x 43.5 mm its w of 2 mm, the middle of the 1 to 3 mm of hens' eggs.
ASYMMETRY_N = 3.5


class Profile(NamedTuple):
    """The outline at some places along the axis.

    Attributes
    ----------
    squared : ndarray
        y^2, the radius squared [m2].
    slope : ndarray
        y dy/dx [m]: finite everywhere, although dy/dx is not at the tips. The normal of the
        outline at x meets the axis at x + y dy/dx.
    """

    squared: Array
    slope: Array


def asymmetry(length: ArrayLike, breadth: ArrayLike) -> Array:
    """Return the usual distance w of the greatest breadth from half length [m].

    Parameters
    ----------
    length, breadth : numeric
        Length L and greatest breadth B [m].
    """
    gap: Array = np.asarray(length, float) - np.asarray(breadth, float)
    return gap / (2 * ASYMMETRY_N)


def profile(
    x: ArrayLike, length: ArrayLike, breadth: ArrayLike, w: ArrayLike, D: ArrayLike | None = None
) -> Profile:
    """Return radius squared and slope of the outline; see the head of the module for the letters.

    Parameters
    ----------
    x : numeric
        Places along the axis [m]; NaN comes back outside -L/2 to L/2.
    length, breadth, w : numeric
        L, B and w [m].
    D : numeric or None
        Diameter a quarter of the length from the pointed end [m]; None for the Hügelschäffer
        ovoid.

    Notes
    -----
    The universal formula is the ovoid's y times 1 - E (1 - F): E is one number for the egg, zero
    where D is the ovoid's own; F runs along the axis and is 1 at x = -w.
    """
    x, L, B, w = (np.asarray(a, float) for a in (x, length, breadth, w))
    inside = np.abs(x) <= L / 2
    chord = np.where(inside, L**2 - 4 * x**2, np.nan)
    P = L**2 + 8 * w * x + 4 * w**2
    squared = B**2 / 4 * chord / P
    slope = B**2 / 8 * (-8 * x * P - chord * 8 * w) / P**2
    if D is None:
        return Profile(squared, slope)
    E = _pear_share(L, B, w, np.asarray(D, float))
    F, dF = _pear_run(x, L, w, P)
    G = 1 - E * (1 - F)
    return Profile(squared * G**2, slope * G**2 + squared * G * E * dF)


def _pear_share(L: Array, B: Array, w: Array, D: Array) -> Array:
    """E of equation 5: how far the egg is on its way from the ovoid to the pear shape."""
    quarter = np.sqrt(L**2 + 2 * w * L + 4 * w**2)
    pear = np.sqrt(5.5 * L**2 + 11 * L * w + 4 * w**2)
    full = np.sqrt(3) * B * L
    share: Array = pear * (full - 2 * D * quarter) / (full * (pear - 2 * quarter))
    return share


def _pear_run(x: Array, L: Array, w: Array, P: Array) -> tuple[Array, Array]:
    """F of equation 5 and its derivative along x."""
    b = L**2 + 8 * L * w - 4 * w**2
    Q = 2 * (L - 2 * w) * x**2 + b * x + 2 * L * w**2 + L**2 * w + L**3
    dQ = 4 * (L - 2 * w) * x + b
    F = np.sqrt(L * P / Q)
    return F, L * (8 * w * Q - P * dQ) / Q**2 / (2 * F)


def radius(
    x: ArrayLike, length: ArrayLike, breadth: ArrayLike, w: ArrayLike, D: ArrayLike | None = None
) -> Array:
    """Return the radius y of the outline at x [m]; parameters as in `profile`."""
    # At a tip rounding can leave a radius squared of -1e-20; that is a zero, not an unreal egg.
    y: Array = np.sqrt(np.maximum(profile(x, length, breadth, w, D).squared, 0.0))
    return y


def quarter_diameter(length: ArrayLike, breadth: ArrayLike, w: ArrayLike) -> Array:
    """Return the Hügelschäffer ovoid's own D, its diameter at x = L/4 [m]."""
    L, B, w = (np.asarray(a, float) for a in (length, breadth, w))
    ovoid: Array = np.sqrt(3) * B * L / (2 * np.sqrt(L**2 + 2 * w * L + 4 * w**2))
    return ovoid


def pear_diameter(length: ArrayLike, breadth: ArrayLike, w: ArrayLike) -> Array:
    """Return D of the pear-shaped (pyriform) limit of the universal formula [m].

    Smaller D hollows the flank; the formula is not meant for that.
    """
    L, w = np.asarray(length, float), np.asarray(w, float)
    quarter = np.sqrt(L**2 + 2 * w * L + 4 * w**2)
    pear = np.sqrt(5.5 * L**2 + 11 * L * w + 4 * w**2)
    # E = 1 there; solved for D.
    limit: Array = quarter_diameter(L, breadth, w) * 2 * quarter / pear
    return limit


def outline(
    length: ArrayLike,
    breadth: ArrayLike,
    w: ArrayLike,
    D: ArrayLike | None = None,
    points: int = 361,
) -> tuple[Array, Array]:
    """Return one half of the outline as points from the pointed to the blunt tip.

    Parameters
    ----------
    length, breadth, w, D : numeric
        As in `profile`; their shape leads, the points come last.
    points : int
        Number of points, closest together at the tips where the outline bends most.

    Returns
    -------
    x, y : ndarray, shape (..., points)
        Places along the axis and radii [m].
    """
    L, B, w = (np.asarray(a, float)[..., None] for a in (length, breadth, w))
    D = None if D is None else np.asarray(D, float)[..., None]
    x = L / 2 * np.cos(np.linspace(0.0, np.pi, points))
    x, y = np.broadcast_arrays(x, radius(x, L, B, w, D))
    return x, y
