"""Buckling of a straight rod in compression: Euler for slender ones, Johnson for stout ones.

`end_factor` is the effective length over the real one: 1 for pins at both ends (any link),
0.5 for rigid ends, 2 for one rigid and one free end.
"""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.numeric import Array, Numeric, arrays, choose, divide_or_nan, nan_unless


def radius_of_gyration(second_moment: Numeric, area: Numeric) -> Array:
    """Return the radius of gyration of a section.

    Parameters
    ----------
    second_moment : numeric
        Smallest second moment of area I. [m⁴]
    area : numeric
        Cross-section A. [m²]

    Returns
    -------
    Array
        sqrt(I/A); a quarter of the diameter for a solid round rod. [m]
    """
    i, a = arrays(second_moment, area)
    return np.sqrt(divide_or_nan(i, a))


def _slenderness(
    second_moment: Numeric, area: Numeric, length: Numeric, end_factor: Numeric
) -> Array:
    L, k = arrays(length, end_factor)
    return divide_or_nan(k * L, radius_of_gyration(second_moment, area))


def transition_slenderness(modulus: Numeric, yield_stress: Numeric) -> Array:
    """Return the slenderness at which Johnson's parabola meets Euler's curve.

    Parameters
    ----------
    modulus : numeric
        Modulus of elasticity E. [Pa]
    yield_stress : numeric
        Yield stress in compression. [Pa]

    Returns
    -------
    Array
        sqrt(2 π² E/yield): both give half the yield load there, with one slope. [-]
    """
    e, y = arrays(modulus, yield_stress)
    return np.pi * np.sqrt(2.0 * divide_or_nan(e, y))


def euler_load(
    modulus: Numeric, second_moment: Numeric, length: Numeric, end_factor: Numeric = 1.0
) -> Array:
    """Return the compression at which a slender straight rod bows out.

    Parameters
    ----------
    modulus : numeric
        Modulus of elasticity E. [Pa]
    second_moment : numeric
        Smallest second moment of area I. [m⁴]
    length : numeric
        Pin to pin L. [m]
    end_factor : numeric
        Effective length over length, 1 for pins. [-]

    Returns
    -------
    Array
        π² E I/(K L)². [N]
    """
    e, i, L, k = arrays(modulus, second_moment, length, end_factor)
    return divide_or_nan(np.pi**2 * e * i, (k * L) ** 2)


def johnson_load(
    modulus: Numeric,
    second_moment: Numeric,
    area: Numeric,
    length: Numeric,
    yield_stress: Numeric,
    end_factor: Numeric = 1.0,
) -> Array:
    """Return the compression at which a stout straight rod fails.

    Parameters
    ----------
    modulus : numeric
        Modulus of elasticity E. [Pa]
    second_moment : numeric
        Smallest second moment of area I. [m⁴]
    area : numeric
        Cross-section A. [m²]
    length : numeric
        Pin to pin L. [m]
    yield_stress : numeric
        Yield stress in compression. [Pa]
    end_factor : numeric
        Effective length over length, 1 for pins. [-]

    Returns
    -------
    Array
        A y (1 - y (K L/rho)²/(4 π² E)). [N] NaN beyond the transition slenderness, where the
        rod is slender and Euler's load is the one.

    References
    ----------
    Shigley's Mechanical Engineering Design, equation 4-43 (J. B. Johnson), from memory.
    """
    e, i, a, L, y, k = arrays(modulus, second_moment, area, length, yield_stress, end_factor)
    slenderness = _slenderness(i, a, L, k)
    load = a * y * (1.0 - divide_or_nan(y * slenderness**2, 4.0 * np.pi**2 * e))
    return nan_unless(slenderness <= transition_slenderness(e, y), load)


def buckling_load(
    modulus: Numeric,
    second_moment: Numeric,
    area: Numeric,
    length: Numeric,
    yield_stress: Numeric,
    end_factor: Numeric = 1.0,
) -> Array:
    """Return the compression a straight rod stands, by whichever of the two laws applies.

    Parameters
    ----------
    modulus : numeric
        Modulus of elasticity E. [Pa]
    second_moment : numeric
        Smallest second moment of area I. [m⁴]
    area : numeric
        Cross-section A. [m²]
    length : numeric
        Pin to pin L. [m]
    yield_stress : numeric
        Yield stress in compression. [Pa]
    end_factor : numeric
        Effective length over length, 1 for pins. [-]

    Returns
    -------
    Array
        Johnson's load up to the transition slenderness, Euler's beyond. [N]
    """
    slenderness = _slenderness(second_moment, area, length, end_factor)
    slender = slenderness > transition_slenderness(modulus, yield_stress)
    euler = euler_load(modulus, second_moment, length, end_factor)
    johnson = johnson_load(modulus, second_moment, area, length, yield_stress, end_factor)
    return choose(slender, euler, johnson)
