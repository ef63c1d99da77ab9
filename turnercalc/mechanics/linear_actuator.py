"""Linear actuator across a pivot: two eyes, one fixed to the box and one to the moving part.

The pivot and the two eyes make a triangle. `between` is the angle at the pivot from the line
to the fixed eye to the line to the moving eye, anticlockwise positive.
"""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.numeric import (
    Array,
    Numeric,
    arccos_or_nan,
    arrays,
    divide_or_nan,
)


def eye_distance(pivot_to_fixed: Numeric, pivot_to_moving: Numeric, between: Numeric) -> Array:
    """Return the length of the actuator from eye to eye.

    Parameters
    ----------
    pivot_to_fixed, pivot_to_moving : numeric
        Pivot to fixed eye p; pivot to moving eye q. [m]
    between : numeric
        Angle gamma at the pivot between the two. [rad]

    Returns
    -------
    Array
        sqrt(p² + q² - 2 p q cos gamma). [m]
    """
    p, q, gamma = arrays(pivot_to_fixed, pivot_to_moving, between)
    return np.hypot(p - q * np.cos(gamma), q * np.sin(gamma))


def actuator_moment_arm(
    pivot_to_fixed: Numeric, pivot_to_moving: Numeric, between: Numeric
) -> Array:
    """Return the moment arm of the actuator's force about the pivot.

    Parameters
    ----------
    pivot_to_fixed, pivot_to_moving : numeric
        Pivot to fixed eye p; pivot to moving eye q. [m]
    between : numeric
        Angle gamma at the pivot between the two. [rad]

    Returns
    -------
    Array
        h = p q sin gamma / L = dL/dgamma, positive where a growing actuator opens the angle
        anticlockwise. [m] NaN where the eyes lie on each other.
    """
    p, q, gamma = arrays(pivot_to_fixed, pivot_to_moving, between)
    return divide_or_nan(p * q * np.sin(gamma), eye_distance(p, q, gamma))


def actuator_moment_arm_rate(
    pivot_to_fixed: Numeric, pivot_to_moving: Numeric, between: Numeric
) -> Array:
    """Return d moment arm / d angle, the second derivative of the length.

    Parameters
    ----------
    pivot_to_fixed, pivot_to_moving : numeric
        Pivot to fixed eye p; pivot to moving eye q. [m]
    between : numeric
        Angle gamma at the pivot between the two. [rad]

    Returns
    -------
    Array
        (p q cos gamma - h²)/L. [m/rad]
    """
    p, q, gamma = arrays(pivot_to_fixed, pivot_to_moving, between)
    length = eye_distance(p, q, gamma)
    arm = actuator_moment_arm(p, q, gamma)
    return divide_or_nan(p * q * np.cos(gamma) - arm**2, length)


def angle_at_length(pivot_to_fixed: Numeric, pivot_to_moving: Numeric, length: Numeric) -> Array:
    """Return the angle at the pivot for a given length from eye to eye.

    Parameters
    ----------
    pivot_to_fixed, pivot_to_moving : numeric
        Pivot to fixed eye p; pivot to moving eye q. [m]
    length : numeric
        Eye to eye. [m]

    Returns
    -------
    Array
        Between 0 and π; the mirrored triangle has the same with a minus sign. [rad] NaN where
        the actuator is too short or too long to join the eyes.
    """
    p, q, eye_to_eye = arrays(pivot_to_fixed, pivot_to_moving, length)
    return arccos_or_nan(divide_or_nan(p**2 + q**2 - eye_to_eye**2, 2.0 * p * q))


def actuator_stroke(
    pivot_to_fixed: Numeric, pivot_to_moving: Numeric, from_angle: Numeric, to_angle: Numeric
) -> Array:
    """Return the change of length between two angles; positive where the actuator grows.

    Parameters
    ----------
    pivot_to_fixed, pivot_to_moving : numeric
        Pivot to fixed eye p; pivot to moving eye q. [m]
    from_angle, to_angle : numeric
        Angles at the pivot at the start and at the end of the travel. [rad]

    Returns
    -------
    Array
        L(to) - L(from). [m]
    """
    start = eye_distance(pivot_to_fixed, pivot_to_moving, from_angle)
    return eye_distance(pivot_to_fixed, pivot_to_moving, to_angle) - start


def actuator_force(
    torque: Numeric, pivot_to_fixed: Numeric, pivot_to_moving: Numeric, between: Numeric
) -> Array:
    """Return the frictionless actuator force that gives a torque about the pivot.

    Parameters
    ----------
    torque : numeric
        Torque the actuator has to give, anticlockwise positive. [N·m]
    pivot_to_fixed, pivot_to_moving : numeric
        Pivot to fixed eye p; pivot to moving eye q. [m]
    between : numeric
        Angle gamma at the pivot between the two. [rad]

    Returns
    -------
    Array
        torque / moment arm: positive pushes, negative pulls. [N] It grows without limit as
        pivot and eyes come into one line, and is NaN where the moment arm is exactly zero.
    """
    t, p, q, gamma = arrays(torque, pivot_to_fixed, pivot_to_moving, between)
    return divide_or_nan(t, actuator_moment_arm(p, q, gamma))
