"""Motion in time: how long a move takes, means over time, speeds and accelerations."""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.numeric import Array, Numeric, arrays, choose, divide_or_nan, magnitude


def _step_times(angle: Numeric, speed: Numeric) -> Array:
    """Time of each step of a path on which the speed changes evenly with the angle."""
    theta, w = arrays(angle, speed)
    theta, w = np.broadcast_arrays(theta, w)
    here, there = w[..., :-1], w[..., 1:]
    turned = np.abs(np.diff(theta, axis=-1))
    stands = (here <= 0.0) | (there <= 0.0)
    start = np.where(stands, 1.0, here)
    gain = np.where(stands, 0.0, there - here) / start
    even = gain == 0.0
    # integral of dx/(1 + gain x) over one step: ln(1 + gain)/gain, 1 for a steady speed
    stretch = np.where(even, 1.0, np.log1p(gain) / np.where(even, 1.0, gain))
    return np.where(stands, np.inf, turned / start * stretch)


def time_along(angle: Numeric, speed: Numeric) -> Array:
    """Return the time a move takes whose speed is known at places along it.

    Parameters
    ----------
    angle : numeric
        Places along the path on the last axis, rising or falling (an angle, or a length in
        metres with the speed in m/s). [rad]
    speed : numeric
        Speed at each place, positive along the path. [rad/s]

    Returns
    -------
    Array
        Time from the first place to the last. [s] Infinite where the speed falls to zero or
        below anywhere: it never arrives. NaN where a speed is NaN.

    Notes
    -----
    Integral of dtheta/w with w straight between the places, done exactly:
    dt = dtheta ln(w2/w1)/(w2 - w1). Coarse grids are thus exact on a straight motor line under
    a load that changes evenly.
    """
    total: Array = np.sum(_step_times(angle, speed), axis=-1)
    return total


def times_along(angle: Numeric, speed: Numeric) -> Array:
    """Return the time at which each place of a path is reached.

    Parameters
    ----------
    angle : numeric
        Places along the path on the last axis. [rad]
    speed : numeric
        Speed at each place, positive along the path. [rad/s]

    Returns
    -------
    Array
        Same shape as the broadcast inputs, starting with 0. [s] Infinite after a standstill.
    """
    steps = _step_times(angle, speed)
    start = np.zeros((*steps.shape[:-1], 1))
    return np.concatenate([start, np.cumsum(steps, axis=-1)], axis=-1)


def rms_of_steps(value: Numeric, duration: Numeric) -> Array:
    """Return the root mean square of a quantity that is steady for a while, then another.

    Parameters
    ----------
    value : numeric
        Value during each step, on the last axis (torque, current). [any]
    duration : numeric
        Length of each step, on the last axis. [s]

    Returns
    -------
    Array
        sqrt(sum v² t/sum t). [as value] NaN for no duration at all.
    """
    v, t = arrays(value, duration)
    v, t = np.broadcast_arrays(np.atleast_1d(v), np.atleast_1d(t))
    return np.sqrt(divide_or_nan(np.sum(v**2 * t, axis=-1), np.sum(t, axis=-1)))


def rms_of_ramps(value: Numeric, time: Numeric) -> Array:
    """Return the root mean square of a quantity that runs straight from point to point in time.

    Parameters
    ----------
    value : numeric
        Value at each moment, on the last axis. [any]
    time : numeric
        The moments, rising, on the last axis; two equal ones make a jump. [s]

    Returns
    -------
    Array
        Exact for straight pieces: each gives dt (v1² + v1 v2 + v2²)/3. [as value]
    """
    v, t = arrays(value, time)
    v, t = np.broadcast_arrays(v, t)
    first, second, lasts = v[..., :-1], v[..., 1:], np.diff(t, axis=-1)
    square = lasts * (first**2 + first * second + second**2) / 3.0
    return np.sqrt(divide_or_nan(np.sum(square, axis=-1), np.sum(lasts, axis=-1)))


def driven_speed(rate: Numeric, rotation: Numeric) -> Array:
    """Return the speed of a driven coordinate.

    Parameters
    ----------
    rate : numeric
        d q/d theta. [rad/rad or m/rad]
    rotation : numeric
        Shaft speed w. [rad/s]

    Returns
    -------
    Array
        q' w. [rad/s or m/s]
    """
    q1, w = arrays(rate, rotation)
    return q1 * w


def driven_acceleration(
    rate: Numeric, second: Numeric, rotation: Numeric, rotation_change: Numeric = 0.0
) -> Array:
    """Return the acceleration of a driven coordinate.

    Parameters
    ----------
    rate : numeric
        d q/d theta. [rad/rad or m/rad]
    second : numeric
        d² q/d theta². [as rate, per rad]
    rotation : numeric
        Shaft speed w. [rad/s]
    rotation_change : numeric
        d w/dt, 0 for a steady shaft. [rad/s²]

    Returns
    -------
    Array
        q'' w² + q' dw/dt. [rad/s² or m/s²]
    """
    q1, q2, w, change = arrays(rate, second, rotation, rotation_change)
    return q2 * w**2 + q1 * change


def swinging_acceleration(radius: Numeric, speed: Numeric, acceleration: Numeric) -> Array:
    """Return the whole acceleration of a point that swings about a pivot.

    Parameters
    ----------
    radius : numeric
        Pivot to the point. [m]
    speed : numeric
        Turning speed. [rad/s]
    acceleration : numeric
        Turning acceleration. [rad/s²]

    Returns
    -------
    Array
        radius x sqrt(acceleration² + speed⁴): tangential and centripetal at one moment. [m/s²]
    """
    r, w, change = arrays(radius, speed, acceleration)
    return r * np.hypot(change, w**2)


def moving_pin_acceleration(
    x_rate: Numeric,
    y_rate: Numeric,
    x_second: Numeric,
    y_second: Numeric,
    speed: Numeric,
    acceleration: Numeric,
) -> Array:
    """Return the acceleration of a point on any plane path driven along its coordinate.

    Parameters
    ----------
    x_rate, y_rate : numeric
        First derivatives of the point's place by the coordinate. [m/rad]
    x_second, y_second : numeric
        Second derivatives. [m/rad²]
    speed : numeric
        Speed of the coordinate. [rad/s]
    acceleration : numeric
        Acceleration of the coordinate. [rad/s²]

    Returns
    -------
    Array
        Size of p'' w² + p' dw/dt. [m/s²]
    """
    x1, y1, x2, y2, w, change = arrays(x_rate, y_rate, x_second, y_second, speed, acceleration)
    return magnitude(x2 * w**2 + x1 * change, y2 * w**2 + y1 * change)


def share_of_time_beyond(value: Numeric, time: Numeric, threshold: Numeric) -> Array:
    """Return the share of a stretch of time during which a quantity is above a threshold.

    Parameters
    ----------
    value : numeric
        Value at each moment, straight in between, on the last axis. [any]
    time : numeric
        The moments, rising, on the last axis. [s]
    threshold : numeric
        Threshold, without the time axis. [as value]

    Returns
    -------
    Array
        0 to 1; time spent exactly on the threshold does not count. [-] NaN where any value
        is NaN.
    """
    v, t, limit = arrays(value, time, threshold)
    v, t = np.broadcast_arrays(v - limit[..., np.newaxis], t)
    first, second, lasts = v[..., :-1], v[..., 1:], np.diff(t, axis=-1)
    span = np.abs(first) + np.abs(second)
    above = np.maximum(first, 0.0) + np.maximum(second, 0.0)
    # a straight piece that crosses zero spends (positive end)/(both ends) above it
    share = choose(span == 0.0, 0.0, above / np.where(span == 0.0, 1.0, span))
    return divide_or_nan(np.sum(share * lasts, axis=-1), np.sum(lasts, axis=-1))
