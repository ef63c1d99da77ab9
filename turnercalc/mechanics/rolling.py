"""Round things on bars, along a floor, and on a rocking runner.

Eggs are treated as round about the axis they turn on, with the radius at the contact. The
nest angle is the angle at the egg's centre between straight down and one bar.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from turnercalc.mechanics.numeric import (
    Array,
    Mask,
    Numeric,
    arcsin_or_nan,
    arrays,
    divide_or_nan,
    nan_unless,
    sqrt_or_nan,
)


def nest_angle(egg_radius: Numeric, bar_radius: Numeric, bar_spacing: Numeric) -> Array:
    """Return the nest angle of an egg between two bars.

    Parameters
    ----------
    egg_radius, bar_radius : numeric
        Radius of the egg where it touches, R; radius of the bars, r. [m]
    bar_spacing : numeric
        Centre to centre of the two bars, s. [m]

    Returns
    -------
    Array
        asin((s/2)/(R + r)). [rad] NaN where the egg drops through (gap of 2 R or more).
    """
    big, small, s = arrays(egg_radius, bar_radius, bar_spacing)
    half = s / 2.0
    angle = arcsin_or_nan(divide_or_nan(half, big + small))
    return nan_unless(half < big + small, angle)


def nest_height(egg_radius: Numeric, bar_radius: Numeric, bar_spacing: Numeric) -> Array:
    """Return the height of the egg's centre above the line of the bar axes.

    Parameters
    ----------
    egg_radius, bar_radius : numeric
        Radius of the egg where it touches, R; radius of the bars, r. [m]
    bar_spacing : numeric
        Centre to centre of the two bars, s. [m]

    Returns
    -------
    Array
        sqrt((R + r)² - (s/2)²). [m] NaN where the egg drops through.
    """
    big, small, s = arrays(egg_radius, bar_radius, bar_spacing)
    height = sqrt_or_nan((big + small) ** 2 - (s / 2.0) ** 2)
    return nan_unless(s / 2.0 < big + small, height)


def nest_force(weight: Numeric, nest: Numeric) -> Array:
    """Return the force of an egg on each of the two bars, frame level, no friction.

    Parameters
    ----------
    weight : numeric
        Weight of the egg. [N]
    nest : numeric
        Nest angle A. [rad]

    Returns
    -------
    Array
        W/(2 cos A). [N] The same for a drum on two support rollers.
    """
    w, a = arrays(weight, nest)
    return divide_or_nan(w, 2.0 * np.cos(a))


def leaning_nest_forces(weight: Numeric, nest: Numeric, lean: Numeric) -> tuple[Array, Array]:
    """Return the forces on the left and the right bar of a frame that leans.

    Parameters
    ----------
    weight : numeric
        Weight of the egg. [N]
    nest : numeric
        Nest angle A. [rad]
    lean : numeric
        Lean of the frame b, anticlockwise positive: the left bar goes down. [rad]

    Returns
    -------
    tuple of Array
        (left, right) = W sin(A + b)/sin 2A, W sin(A - b)/sin 2A. [N] NaN in both where the
        lean is more than the nest angle and the egg rolls out.
    """
    w, a, b = arrays(weight, nest, lean)
    stays = np.abs(b) <= a
    left = divide_or_nan(w * np.sin(a + b), np.sin(2.0 * a))
    right = divide_or_nan(w * np.sin(a - b), np.sin(2.0 * a))
    return nan_unless(stays, left), nan_unless(stays, right)


def egg_turn_ratio(egg_radius: Numeric, bar_radius: Numeric) -> Array:
    """Return turns of the egg per turn of its bars, without slip.

    Parameters
    ----------
    egg_radius, bar_radius : numeric
        Radius of the egg where it touches, R; radius of the bars, r. [m]

    Returns
    -------
    Array
        r/R, as a magnitude. [-] The egg turns in the sense opposite to the bars, and both bars
        must turn in one sense.
    """
    big, small = arrays(egg_radius, bar_radius)
    return divide_or_nan(small, big)


def rolling_loss_at_bar(
    contact_force: Numeric, rolling_arm: Numeric, egg_radius: Numeric, bar_radius: Numeric
) -> Array:
    """Return the torque one contact costs a bar because things flatten as they roll.

    Parameters
    ----------
    contact_force : numeric
        Force at the contact N. [N]
    rolling_arm : numeric
        Arm of rolling friction f. [m]
    egg_radius, bar_radius : numeric
        Radius of the egg R; radius of the bar r. [m]

    Returns
    -------
    Array
        N f (1 + r/R). [N·m]

    Notes
    -----
    The contact dissipates N f times the speed at which the two turn against each other,
    w + w r/R, and the bar's motor is the only one to pay.
    """
    n, arm, big, small = arrays(contact_force, rolling_arm, egg_radius, bar_radius)
    return np.abs(n) * arm * (1.0 + divide_or_nan(small, big))


def nest_slip_torque(weight: Numeric, radius: Numeric, nest: Numeric, friction: Numeric) -> Array:
    """Return the torque on an egg (or roller) at which it slips on both supports at once.

    Parameters
    ----------
    weight : numeric
        Weight of the egg. [N]
    radius : numeric
        Radius of the egg R. [m]
    nest : numeric
        Nest angle A. [rad]
    friction : numeric
        Friction coefficient f at both contacts. [-]

    Returns
    -------
    Array
        f W R/((1 + f²) cos A). [N·m] NaN where f > tan A: it climbs one support instead.

    References
    ----------
    MIT 8.01 Classical Mechanics, problem W13D1-6 (V groove, A = 45 degrees).
    """
    w, r, a, f = arrays(weight, radius, nest, friction)
    torque = divide_or_nan(f * w * r, (1.0 + f**2) * np.cos(a))
    return nan_unless(f <= np.tan(a), torque)


def lopsided_torque_at_bar(
    weight: Numeric, off_centre: Numeric, egg_radius: Numeric, bar_radius: Numeric, phase: Numeric
) -> Array:
    """Return the torque at the bars that lifts the heavy side of a lopsided egg.

    Parameters
    ----------
    weight : numeric
        Weight of the egg. [N]
    off_centre : numeric
        Centre of mass from the axis the egg turns on, e. [m]
    egg_radius, bar_radius : numeric
        Radius of the egg R; radius of the bars r. [m]
    phase : numeric
        Angle of the heavy side from straight down, positive where turning lifts it. [rad]

    Returns
    -------
    Array
        W e sin(phase) r/R, shared by the bars the egg touches. [N·m]
    """
    w, e, big, small, angle = arrays(weight, off_centre, egg_radius, bar_radius, phase)
    return w * e * np.sin(angle) * divide_or_nan(small, big)


def roll_angle(travel: Numeric, radius: Numeric) -> Array:
    """Return how far a thing turns that rolls along a floor without slip.

    Parameters
    ----------
    travel : numeric
        Travel of its centre. [m]
    radius : numeric
        Radius. [m]

    Returns
    -------
    Array
        travel/radius, as a magnitude with the sign of travel. [rad]
    """
    s, r = arrays(travel, radius)
    return divide_or_nan(s, r)


def rolling_push(
    weight: Numeric, radius: Numeric, rolling_arm: Numeric, pusher_friction: Numeric
) -> Array:
    """Return the level push at centre height that keeps an egg rolling along a floor.

    Parameters
    ----------
    weight : numeric
        Weight of the egg W. [N]
    radius : numeric
        Radius of the egg R. [m]
    rolling_arm : numeric
        Arm of rolling friction on the floor f. [m]
    pusher_friction : numeric
        Friction coefficient between egg and the bar that pushes it, mu. [-]

    Returns
    -------
    Array
        W f/(R (1 - mu) - mu f). [N] NaN where that is not positive: the egg jams between bar
        and floor and can only be dragged.

    Notes
    -----
    The back of a rolling egg climbs along the bar, so the bar rubs it downwards with mu P and
    is itself lifted: N = W + mu P. Moments about the centre: (floor friction) R = N f + mu P R,
    and the floor friction equals the push P.
    """
    w, r, f, mu = arrays(weight, radius, rolling_arm, pusher_friction)
    below = r * (1.0 - mu) - mu * f
    return nan_unless(below > 0.0, divide_or_nan(w * f, below))


def floor_force_under_push(weight: Numeric, push: Numeric, pusher_friction: Numeric) -> Array:
    """Return the force between a pushed egg and the floor.

    Parameters
    ----------
    weight : numeric
        Weight of the egg W. [N]
    push : numeric
        Level push of the bar P. [N]
    pusher_friction : numeric
        Friction coefficient between egg and bar, mu. [-]

    Returns
    -------
    Array
        W + mu P. [N] The bar is lifted by the mu P the egg is pressed down with.
    """
    w, p, mu = arrays(weight, push, pusher_friction)
    return w + mu * p


def drags(push: Numeric, floor_force: Numeric, floor_friction: Numeric) -> Mask:
    """Say whether a pushed egg slides along the floor instead of rolling.

    Parameters
    ----------
    push : numeric
        Push that rolling would take. [N]
    floor_force : numeric
        Force between egg and floor. [N]
    floor_friction : numeric
        Friction coefficient of egg on floor. [-]

    Returns
    -------
    Mask
        True where push > friction x floor force, and where the push is NaN (jammed).
    """
    p, n, f = arrays(push, floor_force, floor_friction)
    return np.asarray(~(p <= f * n))[()]


def dragging_push(
    weight: Numeric, slope: Numeric, floor_friction: Numeric
) -> tuple[Array, Array, Array]:
    """Return the push along a slope that drags a round thing up it without turning it.

    Parameters
    ----------
    weight : numeric
        Weight W. [N]
    slope : numeric
        Slope of the floor, rising the way it is pushed. [rad]
    floor_friction : numeric
        Friction coefficient on the floor f. [-]

    Returns
    -------
    tuple of Array
        (push, floor force, friction at the floor). [N] NaN for f of 1 or more. It does not
        turn, so the pusher rubs it with as much as the floor does; the caller checks that the
        pusher can (its coefficient x push >= that friction), else it turns.

    References
    ----------
    Hibbeler and Gupta, Engineering Mechanics, example 8.6 (pipe pushed up a slope).
    """
    w, beta, f = arrays(weight, slope, floor_friction)
    floor = nan_unless(f < 1.0, divide_or_nan(w * np.cos(beta), 1.0 - f))
    rubbing = f * floor
    return w * np.sin(beta) + rubbing, floor, rubbing


def creepage(
    grip: Numeric, press: Numeric, friction: Numeric, half_width: Numeric, radius: Numeric
) -> Array:
    """Return how much a rolling contact that is pushed creeps, per length rolled.

    Parameters
    ----------
    grip : numeric
        Friction force that the contact transmits T. [N]
    press : numeric
        Force that presses the contact together N. [N]
    friction : numeric
        Friction coefficient f. [-]
    half_width : numeric
        Half the width of the contact along the way it rolls, a. [m]
    radius : numeric
        Radius of what rolls on a flat floor R. [m]

    Returns
    -------
    Array
        (f a/R)(1 - sqrt(1 - |T|/(f N))). [-] As a magnitude, whichever way it rolls; NaN where it
        slides altogether.

    References
    ----------
    F. W. Carter, On the action of a locomotive driving wheel, Proc. R. Soc. A 112 (1926) 151,
    from memory; K. L. Johnson, Contact Mechanics, section 8.3, from memory.
    """
    t, n, f, a, r = arrays(grip, press, friction, half_width, radius)
    used = divide_or_nan(np.abs(t), f * n)
    return divide_or_nan(f * a, r) * (1.0 - sqrt_or_nan(nan_unless(n > 0.0, 1.0 - used)))


class RunnerPin(NamedTuple):
    """Where a point of a rolling runner goes, with its derivatives by the roll angle.

    Attributes
    ----------
    x, y : Array
        Place, from the floor contact when level. [m]
    x_rate, y_rate : Array
        First derivatives. [m/rad]
    x_second, y_second : Array
        Second derivatives. [m/rad²]
    """

    x: Array
    y: Array
    x_rate: Array
    y_rate: Array
    x_second: Array
    y_second: Array


def runner_pin(radius: Numeric, across: Numeric, height: Numeric, roll: Numeric) -> RunnerPin:
    """Return the path (a trochoid) of a point fixed to a runner that rolls on a level floor.

    Parameters
    ----------
    radius : numeric
        Radius of the runner's arc R. [m]
    across, height : numeric
        Place of the point when level: right of the contact a, above the floor h. [m]
    roll : numeric
        Roll angle q, anticlockwise positive: the runner moves left. [rad]

    Returns
    -------
    RunnerPin
        Frame: origin at the floor contact when level, x right, y up.

    Notes
    -----
    The arc's centre moves along (-R q, R) and the point turns about it:
    x = -R q + a cos q - (h - R) sin q, y = R + a sin q + (h - R) cos q.
    """
    r, a, h, q = arrays(radius, across, height, roll)
    cosine, sine, above = np.cos(q), np.sin(q), h - r
    return RunnerPin(
        x=-r * q + a * cosine - above * sine,
        y=r + a * sine + above * cosine,
        x_rate=-r - a * sine - above * cosine,
        y_rate=a * cosine - above * sine,
        x_second=-a * cosine + above * sine,
        y_second=-a * sine - above * cosine,
    )
