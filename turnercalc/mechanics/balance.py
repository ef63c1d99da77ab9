"""Balance of turning parts: where the centre of mass lies, and what it takes to hold it.

A *mass moment* is mass times distance from the axis [kg·m]; times gravity it is the torque
the part needs with its heavy side level with the axis.
"""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.mechanics.numeric import (
    Array,
    Numeric,
    arrays,
    choose,
    cos_sin,
    divide_or_nan,
    nan_unless,
)


def mass_moment(mass: Numeric, x: Numeric, y: Numeric) -> tuple[Array, Array]:
    """Return the mass moment of several masses, added along the last axis.

    Parameters
    ----------
    mass : numeric
        Masses. [kg]
    x, y : numeric
        Their places from the axis, right and up. [m]

    Returns
    -------
    tuple of Array
        (sum m x, sum m y). [kg·m]
    """
    m, right, up = arrays(mass, x, y)
    return np.sum(np.atleast_1d(m * right), axis=-1), np.sum(np.atleast_1d(m * up), axis=-1)


def gravity_torque(moment_x: Numeric, moment_y: Numeric, turned: Numeric) -> Array:
    """Return the torque that turns a part against its own weight, friction not included.

    Parameters
    ----------
    moment_x, moment_y : numeric
        Mass moment with the part unturned, right and up. [kg·m]
    turned : numeric
        How far the part is turned, anticlockwise positive. [rad]

    Returns
    -------
    Array
        g (Mx cos q - My sin q), the slope of the potential g (Mx sin q + My cos q). [N·m]
        Positive: it hinders an anticlockwise turn.
    """
    mx, my, q = arrays(moment_x, moment_y, turned)
    cos, sin = cos_sin(q)
    return STANDARD_GRAVITY * (mx * cos - my * sin)


def station_moment(masses: Numeric, radius: Numeric) -> tuple[Array, Array]:
    """Return the mass moment of equally spaced stations round a drum.

    Parameters
    ----------
    masses : numeric
        Mass on each station along the last axis; the first stands at +x, the others follow
        anticlockwise. [kg]
    radius : numeric
        Radius of the circle of stations. [m]

    Returns
    -------
    tuple of Array
        (x, y) of the mass moment. [kg·m]
    """
    m, r = arrays(masses, radius)
    m = np.atleast_1d(m)
    at = 2.0 * np.pi * np.arange(m.shape[-1]) / m.shape[-1]
    return r * np.sum(m * np.cos(at), axis=-1), r * np.sum(m * np.sin(at), axis=-1)


def contiguous_moment(mass: Numeric, radius: Numeric, stations: Numeric, filled: Numeric) -> Array:
    """Return the mass moment of a run of neighbouring filled stations.

    Parameters
    ----------
    mass : numeric
        Mass on each filled station. [kg]
    radius : numeric
        Radius of the circle of stations. [m]
    stations : numeric
        Number of stations N, 2 or more. [-]
    filled : numeric
        Number of neighbours filled n, 0 to N. [-]

    Returns
    -------
    Array
        m R sin(n π/N)/sin(π/N), towards the middle of the run. [kg·m] Largest at half full.
        NaN outside 0 to N.

    Notes
    -----
    Sum of n unit vectors 2π/N apart (a geometric series of complex numbers).
    """
    m, r, all_, n = arrays(mass, radius, stations, filled)
    allowed = (n >= 0.0) & (n <= all_) & (all_ >= 2.0)
    step = np.pi / choose(all_ >= 2.0, all_, np.nan)
    # n = N sums to nothing exactly; the sine of a rounded π would leave dust behind
    run = choose(n == all_, 0.0, np.sin(n * step))
    return nan_unless(allowed, m * r * run / np.sin(step))


def contiguous_eccentricity(radius: Numeric, stations: Numeric, filled: Numeric) -> Array:
    """Return how far a run of neighbouring filled stations has its centre from the axis.

    Parameters
    ----------
    radius : numeric
        Radius of the circle of stations. [m]
    stations : numeric
        Number of stations N, 2 or more. [-]
    filled : numeric
        Number of neighbours filled n, 1 to N. [-]

    Returns
    -------
    Array
        Mass moment / (n m). [m] NaN for an empty drum, which has no centre.
    """
    (n,) = arrays(filled)
    return divide_or_nan(contiguous_moment(1.0, radius, stations, filled), n)


def counterweight_mass(moment: Numeric, radius: Numeric) -> Array:
    """Return the counterweight that cancels a mass moment.

    Parameters
    ----------
    moment : numeric
        Size of the mass moment. [kg·m]
    radius : numeric
        Where the counterweight sits, on the opposite side. [m]

    Returns
    -------
    Array
        moment/radius. [kg]
    """
    moment_, r = arrays(moment, radius)
    return divide_or_nan(moment_, r)


def two_plane_split(
    moment: Numeric, position: Numeric, first_plane: Numeric, second_plane: Numeric
) -> tuple[Array, Array]:
    """Return the share of a mass moment that each of two planes along the axle carries.

    Parameters
    ----------
    moment : numeric
        Mass moment (or any force square to the axle). [kg·m]
    position, first_plane, second_plane : numeric
        Places along the axle of the moment and of the two planes. [m]

    Returns
    -------
    tuple of Array
        (first, second), by lever arms; one is negative where the moment overhangs. [kg·m]
    """
    m, at, a, b = arrays(moment, position, first_plane, second_plane)
    share = divide_or_nan(at - a, b - a)
    return m * (1.0 - share), m * share
