"""Scotch yoke and eccentric: the two drives whose stroke follows one sine exactly.

Crank angle t anticlockwise from the direction of the stroke.
"""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.numeric import Array, Numeric, arrays


def yoke_position(crank: Numeric, angle: Numeric) -> Array:
    """Return the place of a scotch yoke from the middle of its stroke.

    Parameters
    ----------
    crank : numeric
        Crank radius r. [m]
    angle : numeric
        Crank angle t. [rad]

    Returns
    -------
    Array
        r cos t; the whole stroke is 2 r. [m]
    """
    r, t = arrays(crank, angle)
    return r * np.cos(t)


def yoke_rate(crank: Numeric, angle: Numeric) -> Array:
    """Return d yoke position / d crank angle.

    Parameters
    ----------
    crank : numeric
        Crank radius r. [m]
    angle : numeric
        Crank angle t. [rad]

    Returns
    -------
    Array
        -r sin t. [m/rad] The frictionless shaft torque is the pushing force times this.
    """
    r, t = arrays(crank, angle)
    return -r * np.sin(t)


def yoke_second(crank: Numeric, angle: Numeric) -> Array:
    """Return d² yoke position / d crank angle².

    Parameters
    ----------
    crank : numeric
        Crank radius r. [m]
    angle : numeric
        Crank angle t. [rad]

    Returns
    -------
    Array
        -r cos t. [m/rad²]
    """
    r, t = arrays(crank, angle)
    return -r * np.cos(t)


def eccentric_lift(eccentricity: Numeric, angle: Numeric) -> Array:
    """Return the lift of a flat follower on a round cam set off its centre.

    Parameters
    ----------
    eccentricity : numeric
        Shaft centre to cam centre e. [m]
    angle : numeric
        Cam angle t from the lowest place of the follower. [rad]

    Returns
    -------
    Array
        e (1 - cos t); the whole stroke is 2 e. [m]
    """
    e, t = arrays(eccentricity, angle)
    return e * (1.0 - np.cos(t))


def eccentric_shaft_torque(
    force: Numeric, eccentricity: Numeric, angle: Numeric, cam_radius: Numeric, friction: Numeric
) -> Array:
    """Return the shaft torque of an eccentric that lifts a flat follower anticlockwise.

    Parameters
    ----------
    force : numeric
        Force of the follower on the cam, along the stroke. [N]
    eccentricity : numeric
        Shaft centre to cam centre e. [m]
    angle : numeric
        Cam angle t from the lowest place of the follower. [rad]
    cam_radius : numeric
        Radius of the round cam. [m]
    friction : numeric
        Sliding friction coefficient between cam and follower. [-]

    Returns
    -------
    Array
        F e sin t + friction F (cam radius - e cos t). [N·m]

    Notes
    -----
    The friction force acts along the flat follower at the height of the contact,
    cam radius - e cos t beyond the shaft centre, so its arm is not the cam radius alone.
    """
    f, e, t, radius, coefficient = arrays(force, eccentricity, angle, cam_radius, friction)
    return f * e * np.sin(t) + coefficient * f * (radius - e * np.cos(t))
