"""Crank and slotted lever: a crank pin that slides in a slot of a swinging lever.

Frame: lever pivot at the origin, crank centre at the distance `distance` from it along +x.
Crank angle and lever angle are both measured from that line, anticlockwise positive, so that
at crank angle 0 the pin is farthest from the lever pivot and the lever points at it.
A crank longer than the distance takes the lever right round (Whitworth's motion).
"""

from __future__ import annotations

import numpy as np

from turnercalc.mechanics.numeric import (
    Array,
    Numeric,
    arccos_or_nan,
    arcsin_or_nan,
    arrays,
    divide_or_nan,
    nan_unless,
)


def block_distance(crank: Numeric, distance: Numeric, angle: Numeric) -> Array:
    """Return how far the crank pin (the sliding block) stands from the lever pivot.

    Parameters
    ----------
    crank : numeric
        Crank radius r. [m]
    distance : numeric
        Lever pivot to crank centre d. [m]
    angle : numeric
        Crank angle t. [rad]

    Returns
    -------
    Array
        sqrt(r² + d² + 2 r d cos t). [m] Between d - r and d + r: the slot must be that long.
    """
    r, d, t = arrays(crank, distance, angle)
    return np.hypot(d + r * np.cos(t), r * np.sin(t))


def lever_angle(crank: Numeric, distance: Numeric, angle: Numeric) -> Array:
    """Return the lever's angle from the line of centres.

    Parameters
    ----------
    crank, distance : numeric
        Crank radius r; lever pivot to crank centre d. [m]
    angle : numeric
        Crank angle t. [rad]

    Returns
    -------
    Array
        atan2(r sin t, d + r cos t), anticlockwise positive. [rad] NaN where the crank pin
        lies on the lever pivot and the lever has no direction.
    """
    r, d, t = arrays(crank, distance, angle)
    along = d + r * np.cos(t)
    across = r * np.sin(t)
    return nan_unless((along != 0.0) | (across != 0.0), np.arctan2(across, along))


def lever_rate(crank: Numeric, distance: Numeric, angle: Numeric) -> Array:
    """Return d lever angle / d crank angle.

    Parameters
    ----------
    crank, distance : numeric
        Crank radius r; lever pivot to crank centre d. [m]
    angle : numeric
        Crank angle t. [rad]

    Returns
    -------
    Array
        r (r + d cos t)/(r² + d² + 2 r d cos t). [-] The frictionless shaft torque is the load
        torque times this.
    """
    r, d, t = arrays(crank, distance, angle)
    return divide_or_nan(r * (r + d * np.cos(t)), r**2 + d**2 + 2.0 * r * d * np.cos(t))


def lever_second(crank: Numeric, distance: Numeric, angle: Numeric) -> Array:
    """Return d² lever angle / d crank angle².

    Parameters
    ----------
    crank, distance : numeric
        Crank radius r; lever pivot to crank centre d. [m]
    angle : numeric
        Crank angle t. [rad]

    Returns
    -------
    Array
        r d (r² - d²) sin t/(r² + d² + 2 r d cos t)². [1/rad]
    """
    r, d, t = arrays(crank, distance, angle)
    square = r**2 + d**2 + 2.0 * r * d * np.cos(t)
    return divide_or_nan(r * d * (r**2 - d**2) * np.sin(t), square**2)


def slip_rate(crank: Numeric, distance: Numeric, angle: Numeric) -> Array:
    """Return how fast the block slides outwards in the slot, per radian of crank.

    Parameters
    ----------
    crank, distance : numeric
        Crank radius r; lever pivot to crank centre d. [m]
    angle : numeric
        Crank angle t. [rad]

    Returns
    -------
    Array
        d (block distance)/dt = -r d sin t/(block distance); negative: inwards. [m/rad]
    """
    r, d, t = arrays(crank, distance, angle)
    return divide_or_nan(-r * d * np.sin(t), block_distance(r, d, t))


def lever_swing(crank: Numeric, distance: Numeric) -> Array:
    """Return the lever's whole swing from one end to the other.

    Parameters
    ----------
    crank, distance : numeric
        Crank radius r; lever pivot to crank centre d. [m]

    Returns
    -------
    Array
        2 asin(r/d). [rad] NaN unless r < d: a longer crank takes the lever right round.
    """
    r, d = arrays(crank, distance)
    return nan_unless(r < d, 2.0 * arcsin_or_nan(divide_or_nan(r, d)))


def crank_for_swing(distance: Numeric, swing: Numeric) -> Array:
    """Return the crank radius that gives a wanted swing.

    Parameters
    ----------
    distance : numeric
        Lever pivot to crank centre d. [m]
    swing : numeric
        Whole swing of the lever, between 0 and π. [rad]

    Returns
    -------
    Array
        d sin(swing/2). [m] NaN outside 0 to π.
    """
    d, swing_ = arrays(distance, swing)
    return nan_unless((swing_ > 0.0) & (swing_ < np.pi), d * np.sin(swing_ / 2.0))


def lever_end_angles(crank: Numeric, distance: Numeric) -> tuple[Array, Array]:
    """Return the two crank angles at which the lever is at an end (rest points).

    Parameters
    ----------
    crank, distance : numeric
        Crank radius r; lever pivot to crank centre d. [m]

    Returns
    -------
    tuple of Array
        (at the anticlockwise end, at the clockwise end): ±acos(-r/d). [rad] NaN unless r < d.
    """
    r, d = arrays(crank, distance)
    end = nan_unless(r < d, arccos_or_nan(divide_or_nan(-r, d)))
    return end, -end


def lever_time_ratio(crank: Numeric, distance: Numeric) -> Array:
    """Return slow swing's time over fast swing's time at a steady crank speed.

    Parameters
    ----------
    crank, distance : numeric
        Crank radius r; lever pivot to crank centre d. [m]

    Returns
    -------
    Array
        (π + swing)/(π - swing), 1 or more. [-] NaN unless r < d.
    """
    swing = lever_swing(crank, distance)
    return (np.pi + swing) / (np.pi - swing)


def lever_fastest_rates(crank: Numeric, distance: Numeric) -> tuple[Array, Array]:
    """Return the largest d lever / d crank of the slow swing and of the fast swing.

    Parameters
    ----------
    crank, distance : numeric
        Crank radius r; lever pivot to crank centre d. [m]

    Returns
    -------
    tuple of Array
        (r/(d + r), r/(d - r)), magnitudes. [-] NaN unless r < d. The fast swing asks the
        motor for (d + r)/(d - r) times the torque of the slow one.
    """
    r, d = arrays(crank, distance)
    slow = nan_unless(r < d, divide_or_nan(r, d + r))
    fast = nan_unless(r < d, divide_or_nan(r, d - r))
    return slow, fast


def lever_stroke(length: Numeric, crank: Numeric, distance: Numeric) -> Array:
    """Return the straight-line stroke of a point on the lever, end to end.

    Parameters
    ----------
    length : numeric
        Lever pivot to the point. [m]
    crank, distance : numeric
        Crank radius r; lever pivot to crank centre d. [m]

    Returns
    -------
    Array
        Chord 2 length r/d. [m] NaN unless r < d.
    """
    reach, r, d = arrays(length, crank, distance)
    return nan_unless(r < d, 2.0 * reach * divide_or_nan(r, d))


def whitworth_time_ratio(crank: Numeric, distance: Numeric) -> Array:
    """Return slow stroke's time over fast stroke's time of a slotted lever that goes round.

    Parameters
    ----------
    crank, distance : numeric
        Crank radius r; lever pivot to crank centre d, less than r. [m]

    Returns
    -------
    Array
        (2π - beta)/beta with beta = 2 acos(d/r). [-] NaN unless d < r.
    """
    r, d = arrays(crank, distance)
    beta = nan_unless(d < r, 2.0 * arccos_or_nan(divide_or_nan(d, r)))
    return divide_or_nan(2.0 * np.pi - beta, beta)
