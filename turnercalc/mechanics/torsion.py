"""Twist and stress of round shafts, and stresses put together."""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.numeric import Array, Numeric, arrays, divide_or_nan, nan_unless


def round_polar_moment(diameter: Numeric, bore: Numeric = 0.0) -> Array:
    """Return the polar moment of area of a round shaft or tube.

    Parameters
    ----------
    diameter : numeric
        Outer diameter D. [m]
    bore : numeric
        Inner diameter d, 0 for a solid shaft. [m]

    Returns
    -------
    Array
        π (D⁴ - d⁴)/32. [m⁴] NaN for a bore of the diameter or more.
    """
    big, small = arrays(diameter, bore)
    return nan_unless(small < big, np.pi * (big**4 - small**4) / 32.0)


def torsion_stress(torque: Numeric, diameter: Numeric, bore: Numeric = 0.0) -> Array:
    """Return the shear stress at the surface of a twisted round shaft.

    Parameters
    ----------
    torque : numeric
        Torque T. [N·m]
    diameter : numeric
        Outer diameter D. [m]
    bore : numeric
        Inner diameter, 0 for a solid shaft. [m]

    Returns
    -------
    Array
        T (D/2)/J; 16 T/(π D³) for a solid shaft. [Pa]
    """
    t, d = arrays(torque, diameter)
    return divide_or_nan(np.abs(t) * d / 2.0, round_polar_moment(diameter, bore))


def shaft_twist(
    torque: Numeric, length: Numeric, shear_modulus: Numeric, diameter: Numeric, bore: Numeric = 0.0
) -> Array:
    """Return the angle a round shaft twists over its length.

    Parameters
    ----------
    torque : numeric
        Torque T. [N·m]
    length : numeric
        Twisted length L. [m]
    shear_modulus : numeric
        Shear modulus G. [Pa]
    diameter : numeric
        Outer diameter. [m]
    bore : numeric
        Inner diameter, 0 for a solid shaft. [m]

    Returns
    -------
    Array
        T L/(G J), in the sense of the torque. [rad]
    """
    t, L, g = arrays(torque, length, shear_modulus)
    return divide_or_nan(t * L, g * round_polar_moment(diameter, bore))


def largest_shear_stress(bending: Numeric, torsion: Numeric) -> Array:
    """Return the largest shear stress of bending and torsion together.

    Parameters
    ----------
    bending, torsion : numeric
        Bending (normal) stress s; torsional shear stress t, at one place. [Pa]

    Returns
    -------
    Array
        sqrt((s/2)² + t²). [Pa]
    """
    s, t = arrays(bending, torsion)
    return np.hypot(s / 2.0, t)


def von_mises_stress(bending: Numeric, torsion: Numeric) -> Array:
    """Return the von Mises stress of bending and torsion together, to compare with yield.

    Parameters
    ----------
    bending, torsion : numeric
        Bending (normal) stress s; torsional shear stress t, at one place. [Pa]

    Returns
    -------
    Array
        sqrt(s² + 3 t²). [Pa]
    """
    s, t = arrays(bending, torsion)
    equivalent: Array = np.hypot(s, t * np.sqrt(3.0))
    return equivalent
