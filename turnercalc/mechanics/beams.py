"""Bending of straight bars: moments, sag and stress, round and rectangular sections.

Sag is downwards and small against the length (the usual beam theory).
"""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.numeric import Array, Numeric, arrays, divide_or_nan, nan_unless


def round_second_moment(diameter: Numeric, bore: Numeric = 0.0) -> Array:
    """Return the second moment of area of a round bar or tube about a diameter.

    Parameters
    ----------
    diameter : numeric
        Outer diameter D. [m]
    bore : numeric
        Inner diameter d, 0 for a solid bar. [m]

    Returns
    -------
    Array
        π (D⁴ - d⁴)/64. [m⁴] NaN for a bore of the diameter or more.
    """
    big, small = arrays(diameter, bore)
    return nan_unless(small < big, np.pi * (big**4 - small**4) / 64.0)


def rectangle_second_moment(width: Numeric, depth: Numeric) -> Array:
    """Return the second moment of area of a flat bar.

    Parameters
    ----------
    width : numeric
        Width, square to the bending. [m]
    depth : numeric
        Depth, in the direction it bends. [m]

    Returns
    -------
    Array
        width depth³/12. [m⁴]
    """
    b, h = arrays(width, depth)
    return b * h**3 / 12.0


def bending_stress(moment: Numeric, second_moment: Numeric, half_depth: Numeric) -> Array:
    """Return the largest bending stress in a section.

    Parameters
    ----------
    moment : numeric
        Bending moment. [N·m]
    second_moment : numeric
        Second moment of area. [m⁴]
    half_depth : numeric
        Middle of the section to its outermost fibre: half the diameter or depth. [m]

    Returns
    -------
    Array
        M c/I. [Pa]
    """
    m, i, c = arrays(moment, second_moment, half_depth)
    return divide_or_nan(np.abs(m) * c, i)


def uniform_load_moment(load: Numeric, length: Numeric) -> Array:
    """Return the largest bending moment of a bar on two supports under an even load.

    Parameters
    ----------
    load : numeric
        Load per length w. [N/m]
    length : numeric
        Between supports L. [m]

    Returns
    -------
    Array
        w L²/8, at the middle. [N·m]
    """
    w, L = arrays(load, length)
    return w * L**2 / 8.0


def uniform_load_sag(
    load: Numeric, length: Numeric, modulus: Numeric, second_moment: Numeric
) -> Array:
    """Return the sag of a bar on two supports under an even load.

    Parameters
    ----------
    load : numeric
        Load per length w. [N/m]
    length : numeric
        Between supports L. [m]
    modulus : numeric
        Modulus of elasticity E. [Pa]
    second_moment : numeric
        Second moment of area I. [m⁴]

    Returns
    -------
    Array
        5 w L⁴/(384 E I), at the middle. [m]
    """
    w, L, e, i = arrays(load, length, modulus, second_moment)
    return divide_or_nan(5.0 * w * L**4, 384.0 * e * i)


def central_load_moment(force: Numeric, length: Numeric) -> Array:
    """Return the largest bending moment of a bar on two supports under a load at its middle.

    Parameters
    ----------
    force : numeric
        Load P. [N]
    length : numeric
        Between supports L. [m]

    Returns
    -------
    Array
        P L/4. [N·m]
    """
    p, L = arrays(force, length)
    return p * L / 4.0


def central_load_sag(
    force: Numeric, length: Numeric, modulus: Numeric, second_moment: Numeric
) -> Array:
    """Return the sag of a bar on two supports under a load at its middle.

    Parameters
    ----------
    force : numeric
        Load P. [N]
    length : numeric
        Between supports L. [m]
    modulus : numeric
        Modulus of elasticity E. [Pa]
    second_moment : numeric
        Second moment of area I. [m⁴]

    Returns
    -------
    Array
        P L³/(48 E I). [m]
    """
    p, L, e, i = arrays(force, length, modulus, second_moment)
    return divide_or_nan(p * L**3, 48.0 * e * i)


def fixed_uniform_load_moment(load: Numeric, length: Numeric) -> Array:
    """Return the largest bending moment of a bar held rigidly at both ends, even load.

    Parameters
    ----------
    load : numeric
        Load per length w. [N/m]
    length : numeric
        Between the ends L. [m]

    Returns
    -------
    Array
        w L²/12, at the ends. [N·m]
    """
    w, L = arrays(load, length)
    return w * L**2 / 12.0


def fixed_uniform_load_sag(
    load: Numeric, length: Numeric, modulus: Numeric, second_moment: Numeric
) -> Array:
    """Return the sag of a bar held rigidly at both ends under an even load.

    Parameters
    ----------
    load : numeric
        Load per length w. [N/m]
    length : numeric
        Between the ends L. [m]
    modulus : numeric
        Modulus of elasticity E. [Pa]
    second_moment : numeric
        Second moment of area I. [m⁴]

    Returns
    -------
    Array
        w L⁴/(384 E I), at the middle. [m]
    """
    w, L, e, i = arrays(load, length, modulus, second_moment)
    return divide_or_nan(w * L**4, 384.0 * e * i)


def fixed_central_load_moment(force: Numeric, length: Numeric) -> Array:
    """Return the largest bending moment of a bar held rigidly at both ends, central load.

    Parameters
    ----------
    force : numeric
        Load P. [N]
    length : numeric
        Between the ends L. [m]

    Returns
    -------
    Array
        P L/8, at the ends and at the middle. [N·m]
    """
    p, L = arrays(force, length)
    return p * L / 8.0


def fixed_central_load_sag(
    force: Numeric, length: Numeric, modulus: Numeric, second_moment: Numeric
) -> Array:
    """Return the sag of a bar held rigidly at both ends under a load at its middle.

    Parameters
    ----------
    force : numeric
        Load P. [N]
    length : numeric
        Between the ends L. [m]
    modulus : numeric
        Modulus of elasticity E. [Pa]
    second_moment : numeric
        Second moment of area I. [m⁴]

    Returns
    -------
    Array
        P L³/(192 E I). [m]
    """
    p, L, e, i = arrays(force, length, modulus, second_moment)
    return divide_or_nan(p * L**3, 192.0 * e * i)


def overhang_moment(force: Numeric, length: Numeric) -> Array:
    """Return the bending moment at the root of an overhanging shaft (a motor's, a crank pin).

    Parameters
    ----------
    force : numeric
        Load P at the free end. [N]
    length : numeric
        Overhang L. [m]

    Returns
    -------
    Array
        P L. [N·m]
    """
    p, L = arrays(force, length)
    return p * L


def overhang_sag(
    force: Numeric, length: Numeric, modulus: Numeric, second_moment: Numeric
) -> Array:
    """Return how far the loaded free end of an overhanging bar goes down.

    Parameters
    ----------
    force : numeric
        Load P at the free end. [N]
    length : numeric
        Overhang L. [m]
    modulus : numeric
        Modulus of elasticity E. [Pa]
    second_moment : numeric
        Second moment of area I. [m⁴]

    Returns
    -------
    Array
        P L³/(3 E I). [m]
    """
    p, L, e, i = arrays(force, length, modulus, second_moment)
    return divide_or_nan(p * L**3, 3.0 * e * i)
