"""Rules that give an egg's mass, volume, surface or density from a few easy measures.

They are averages over many eggs or many species: good to a few per cent, and a check on each
other. SI units in and out; the constants stand in the units of their authors.

References
----------
.. [1] D. F. Hoyt, "Practical methods of estimating volume and fresh weight of bird eggs",
   Auk 96 (1979) 73-77. Constants from memory.
.. [2] C. V. Paganelli, A. Olszowka and A. Ar, "The avian egg: surface area, volume, and
   density", Condor 76 (1974) 319-325. Constants from memory.
.. [3] V. G. Narushin, "Egg geometry calculation using the measurements of length and breadth",
   Poultry Sci. 84 (2005) 482-484.
.. [4] A. Ar and H. Rahn, "Water in the avian egg", Am. Zool. 20 (1980) 373-384.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

HOYT_VOLUME = 0.51  # cm3 per cm3 of length times breadth squared [1]
HOYT_MASS = 0.548  # g per cm3 of length times breadth squared, fresh egg [1]
NARUSHIN_BREADTH = (0.040, 0.050)  # m; hens' eggs, the only ones the formulas were made for [3]


def _floats(*values: ArrayLike) -> tuple[Array, ...]:
    return tuple(np.asarray(v, float) for v in values)


def hoyt_volume(length: ArrayLike, breadth: ArrayLike) -> Array:
    """Return the volume of a bird's egg [m3] from length and breadth [m], after Hoyt [1]_."""
    L, B = _floats(length, breadth)
    return HOYT_VOLUME * L * B**2


def hoyt_mass(length: ArrayLike, breadth: ArrayLike) -> Array:
    """Return the fresh mass of a bird's egg [kg] from length and breadth [m], after Hoyt [1]_."""
    L, B = _floats(length, breadth)
    return HOYT_MASS * 1e3 * L * B**2  # 1 g/cm3 is 1000 kg/m3


def hoyt_gap(length: ArrayLike, breadth: ArrayLike, mass: ArrayLike) -> Array:
    """Return how far Hoyt's mass lies above (+) or below (-) a given mass, as a share of it.

    Up to about 7 % either way is usual where size and mass come from different eggs; more says
    that one of the figures is wrong.
    """
    ratio: Array = hoyt_mass(length, breadth) / np.asarray(mass, float)
    return ratio - 1


def geometric_mean_diameter(length: ArrayLike, breadth: ArrayLike) -> Array:
    """Return the diameter of the sphere with the egg's L B^2 [m]."""
    L, B = _floats(length, breadth)
    return np.asarray(np.cbrt(L * B**2))


def surface_by_mean_diameter(length: ArrayLike, breadth: ArrayLike) -> Array:
    """Return the surface of the sphere of the geometric mean diameter [m2]."""
    return np.pi * geometric_mean_diameter(length, breadth) ** 2


def shape_index(length: ArrayLike, breadth: ArrayLike) -> Array:
    """Return breadth over length [-]; the trade gives it in per cent."""
    L, B = _floats(length, breadth)
    return B / L


def paganelli_surface(mass: ArrayLike) -> Array:
    """Return the surface of a bird's egg [m2] from its fresh mass [kg], after Paganelli [2]_."""
    (m,) = _floats(mass)
    return np.asarray(4.835e-4 * (m * 1e3) ** 0.662)


def paganelli_density(mass: ArrayLike) -> Array:
    """Return the density of a fresh bird's egg [kg/m3] from its mass [kg], after [2]_."""
    (m,) = _floats(mass)
    return np.asarray(1.031e3 * (m * 1e3) ** 0.014)


def narushin_volume(length: ArrayLike, breadth: ArrayLike) -> Array:
    """Return the volume of a hen's egg [m3] from length and breadth [m], after Narushin [3]_.

    NaN outside breadths of 40 to 50 mm: for other species the formula is far off (it puts quail
    above a spheroid and ostrich a quarter low).
    """
    L, B = _floats(length, breadth)
    b = B * 1e3
    return np.where(_is_hen(B), (0.6057 - 0.0018 * b) * L * B**2, np.nan)[()]


def narushin_surface(length: ArrayLike, breadth: ArrayLike) -> Array:
    """Return the surface of a hen's egg [m2] from length and breadth [m], after [3]_; see there."""
    L, B = _floats(length, breadth)
    return np.where(_is_hen(B), (3.155 - 13.6 * L + 11.5 * B) * L * B, np.nan)[()]


def _is_hen(B: Array) -> NDArray[np.bool_]:
    low, high = NARUSHIN_BREADTH
    return np.asarray((low <= B) & (high >= B))


def mass_after_water_loss(fresh_mass: ArrayLike, share: ArrayLike = 0.15) -> Array:
    """Return the mass left [kg] after a share of the fresh mass has gone as water.

    0.15 is the mean over the incubation of 81 species, with 0.025 either way [4]_. Designs are
    made for the fresh mass, the heaviest state.
    """
    m, loss = _floats(fresh_mass, share)
    return m * (1 - loss)
