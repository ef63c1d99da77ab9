"""Volume, surface, centre of mass and moments of inertia of an egg of uniform density.

Coordinates and letters as in `turnercalc.eggs.shape`. No measured centre of mass of an egg was
found in print; uniform density is the assumption everywhere.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.eggs.shape import Profile, profile

Array = NDArray[np.float64]

# The integrands are smooth to the tips (y^2 and y dy/dx are), so the quadrature converges
# faster than any power; 40 nodes reach rounding for every species of the table.
_NODES = 40


@dataclass(frozen=True)
class SolidOfRevolution:
    """What a solid of revolution of uniform density is to mechanics.

    Attributes
    ----------
    volume : ndarray
        [m3].
    surface : ndarray
        [m2].
    centre : ndarray
        Place of the centre of mass along the axis, from half length toward the pointed end [m]:
        negative for eggs, whose blunt end is the heavy one.
    gyration_long, gyration_cross : ndarray
        Radii of gyration about the axis, and about any axis square to it through the centre of
        mass [m]; a moment of inertia is the mass times its square.
    """

    volume: Array
    surface: Array
    centre: Array
    gyration_long: Array
    gyration_cross: Array


@cache
def _gauss() -> tuple[Array, Array]:
    nodes, weights = np.polynomial.legendre.leggauss(_NODES)
    return nodes, weights


def mass_properties(
    length: ArrayLike, breadth: ArrayLike, w: ArrayLike, D: ArrayLike | None = None
) -> SolidOfRevolution:
    """Return volume, surface, centre and radii of gyration of an egg; parameters as in `profile`.

    All parameters broadcast together; every attribute of the result has their shape.
    """
    L = np.asarray(length, float)[..., None]
    nodes, weights = _gauss()
    x = L / 2 * nodes
    quarter = None if D is None else np.asarray(D, float)[..., None]
    at = profile(
        x, L, np.asarray(breadth, float)[..., None], np.asarray(w, float)[..., None], quarter
    )
    return revolve(x, L / 2 * weights, at)


def revolve(x: Array, weights: Array, at: Profile) -> SolidOfRevolution:
    """Return the properties of the solid that a profile sweeps out when it turns on its axis.

    Parameters
    ----------
    x, weights : ndarray, shape (..., n)
        Places along the axis and weights of a quadrature over the length [m].
    at : Profile
        The profile at those places.
    """
    y2, yyp = at.squared, at.slope
    area = np.sum(weights * y2, axis=-1)
    centre = np.sum(weights * y2 * x, axis=-1) / area
    fourth = np.sum(weights * y2**2, axis=-1)
    second = np.sum(weights * y2 * (x - centre[..., None]) ** 2, axis=-1)
    return SolidOfRevolution(
        volume=np.pi * area,
        # y sqrt(1 + y'^2), written so that it stays finite at the tips
        surface=2 * np.pi * np.sum(weights * np.sqrt(y2 + yyp**2), axis=-1),
        centre=centre,
        gyration_long=np.sqrt(fourth / (2 * area)),
        gyration_cross=np.sqrt(fourth / (4 * area) + second / area),
    )


def ovoid_volume(length: ArrayLike, breadth: ArrayLike, w: ArrayLike) -> Array:
    """Return the volume of the Hügelschäffer ovoid in closed form [m3].

    Parameters
    ----------
    length, breadth, w : numeric
        L, B and w [m], as in `turnercalc.eggs.shape.profile`.

    Notes
    -----
    With k = 2w/L the volume is that of the spheroid times a function of k alone. Its closed
    form, an integral of (1 - t^2)/(1 + k^2 + 2 k t), cancels to nothing as k goes to 0; there
    the first terms of its series stand in.
    """
    L, B = np.asarray(length, float), np.asarray(breadth, float)
    k = 2 * np.asarray(w, float) / L
    series = 1 - k**2 / 5 - k**4 / 35 - k**6 / 105
    small = np.abs(k) < 0.02
    safe = np.where(small, 0.5, k)
    full = 2 * safe * (1 + safe**2) - (1 - safe**2) ** 2 * np.log((1 + safe) / (1 - safe))
    closed = 3 / (16 * safe**3) * full
    shape: Array = np.pi / 6 * L * B**2 * np.where(small, series, closed)
    return shape
