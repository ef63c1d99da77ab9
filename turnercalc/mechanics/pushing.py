"""One round thing rolled along a floor by a bar behind it, or held back by a bar before it.

Angles and signs: the thing moves to the right and turns clockwise. The bar that pushes touches it
on its left, the bar that holds it back on its right, at an angle `contact` above its middle
height. The floor touches it straight below its middle, or ahead of that by an angle `climb` where
it has to climb over something. The floor rises by `slope` the way it moves.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from turnercalc.mechanics.numeric import (
    Array,
    Numeric,
    arcsin_or_nan,
    arrays,
    choose,
    divide_or_nan,
    nan_unless,
)


class Pushed(NamedTuple):
    """Forces on a round thing that rolls steadily between a floor and a bar.

    Attributes
    ----------
    push : Array
        Force of the bar along the floor, the way it moves; negative where the bar holds it
        back. [N] NaN where bar and floor jam it: it cannot roll.
    lift : Array
        Force of the thing on the bar, away from the floor. [N]
    floor : Array
        Force of the floor square to itself. [N]
    grip : Array
        Friction coefficient that the floor has to have, so that the thing rolls and does not
        slide. [-] Infinite where it is lifted off the floor.
    rub : Array
        Force with which the bar rubs it. [N]
    """

    push: Array
    lift: Array
    floor: Array
    grip: Array
    rub: Array


def contact_angle(radius: Numeric, height: Numeric, bar_radius: Numeric = 0.0) -> Array:
    """Return how far above a thing's middle height a bar touches it, as an angle.

    Parameters
    ----------
    radius : numeric
        Radius of the thing R. [m]
    height : numeric
        The bar's middle above the floor h, or the height of a sharp edge. [m]
    bar_radius : numeric
        Radius of a round bar r; 0 for a sharp edge. [m]

    Returns
    -------
    Array
        asin((h - R)/(R + r)). [rad] NaN where the bar passes over it or under it.
    """
    big, h, small = arrays(radius, height, bar_radius)
    return arcsin_or_nan(divide_or_nan(h - big, big + small))


def climb_angle(radius: Numeric, pitch: Numeric, wire_radius: Numeric = 0.0) -> Array:
    """Return the angle at the middle of a thing between straight down and a wire of its nest.

    Parameters
    ----------
    radius : numeric
        Radius of the thing R. [m]
    pitch : numeric
        From one wire of the floor to the next a. [m]
    wire_radius : numeric
        Radius of the wires w. [m]

    Returns
    -------
    Array
        asin((a/2)/(R + w)). [rad] NaN where it drops through.
    """
    big, a, wire = arrays(radius, pitch, wire_radius)
    return arcsin_or_nan(divide_or_nan(0.5 * a, big + wire))


def mesh_rolling_radius(radius: Numeric, pitch: Numeric, wire_radius: Numeric = 0.0) -> Array:
    """Return the travel per radian of a thing that rolls from nest to nest over wires.

    Parameters
    ----------
    radius, pitch, wire_radius : numeric
        As for `climb_angle`. [m]

    Returns
    -------
    Array
        a/(2 A) with A the climb angle: over each wire it turns by 2 A. [m/rad]
    """
    _, a, _ = arrays(radius, pitch, wire_radius)
    return divide_or_nan(a, 2.0 * climb_angle(radius, pitch, wire_radius))


def mesh_drop(radius: Numeric, pitch: Numeric, wire_radius: Numeric = 0.0) -> Array:
    """Return how far a thing goes up and down over the wires of a mesh floor.

    Parameters
    ----------
    radius, pitch, wire_radius : numeric
        As for `climb_angle`. [m]

    Returns
    -------
    Array
        (R + w)(1 - cos A). [m]
    """
    big, _, wire = arrays(radius, pitch, wire_radius)
    return (big + wire) * (1.0 - np.cos(climb_angle(radius, pitch, wire_radius)))


def pushed(
    weight: Numeric,
    radius: Numeric,
    rolling_arm: Numeric,
    bar_friction: Numeric,
    contact: Numeric = 0.0,
    climb: Numeric = 0.0,
    slope: Numeric = 0.0,
    hinders: Numeric = 0.0,
) -> Pushed:
    """Return the forces that keep a round thing rolling steadily before a bar.

    Parameters
    ----------
    weight : numeric
        Weight W. [N]
    radius : numeric
        Radius R. [m]
    rolling_arm : numeric
        Arm of rolling friction on the floor f. [m]
    bar_friction : numeric
        Friction coefficient between thing and bar mu. [-]
    contact : numeric
        Where the bar touches it above its middle height, d. [rad]
    climb : numeric
        Where the floor touches it ahead of straight below its middle, A. [rad]
    slope : numeric
        The floor rises by this the way it moves, b. [rad]
    hinders : numeric
        Moment that turns it back, of a heavy side that has to be lifted. [N·m]

    Returns
    -------
    Pushed

    Notes
    -----
    The back of the thing climbs along the bar, so the bar rubs it towards the floor. With B the
    force of the bar square to the surface, moments about the floor contact::

        B [R (sin d + cos A)(cos d - mu sin d) - (R cos d + c)(sin d + mu cos d)]
            = W (c cos b + R cos A sin b) + hinders             c = R sin A + f

    For d = A = b = 0 this is P = W f/(R (1 - mu) - mu f). Where the right side is negative the
    thing runs ahead until the bar before it holds it back; its front goes down along that bar,
    which rubs it away from the floor::

        B [R (sin d + cos A)(cos d + mu sin d) + (R cos d - c)(mu cos d - sin d)] = - right side
    """
    w, r, f, mu, d, a, b, moment = arrays(
        weight, radius, rolling_arm, bar_friction, contact, climb, slope, hinders
    )
    sin_d, cos_d, sin_b, cos_b = np.sin(d), np.cos(d), np.sin(b), np.cos(b)
    ahead, below = r * np.sin(a) + f, r * np.cos(a)
    needed = w * (ahead * cos_b + below * sin_b) + moment
    holds_back = np.asarray(needed < 0.0)
    # Direction of the bar's force on the thing, along the floor and towards it.
    along = choose(holds_back, -cos_d - mu * sin_d, cos_d - mu * sin_d)
    down = choose(holds_back, sin_d - mu * cos_d, sin_d + mu * cos_d)
    reach = choose(holds_back, -(r * cos_d - ahead), -(r * cos_d + ahead))
    lever = (r * sin_d + below) * np.abs(along) + reach * down
    bar = nan_unless(lever > 0.0, divide_or_nan(np.abs(needed), lever))
    push, lift = bar * along, bar * down
    floor, hold = w * cos_b + lift, push - w * sin_b
    pressing = floor * np.cos(a) + hold * np.sin(a)
    sliding = np.abs(hold * np.cos(a) - floor * np.sin(a))
    grip = choose(pressing > 0.0, divide_or_nan(sliding, pressing), np.inf)
    return Pushed(push, lift, floor, nan_unless(np.isfinite(bar), grip), mu * bar)


def dragged(
    weight: Numeric, radius: Numeric, rolling_arm: Numeric, floor_friction: Numeric
) -> tuple[Array, Array]:
    """Return the push that drags a thing along a level floor without turning it, and its lift.

    Parameters
    ----------
    weight, radius, rolling_arm : numeric
        As for `pushed`. [N, m, m]
    floor_friction : numeric
        Friction coefficient on the floor k. [-]

    Returns
    -------
    tuple of Array
        (push, lift on the bar). [N]

    Notes
    -----
    The floor would turn it with k N R, and is held back by N f and by the bar's rubbing T R, so
    that T = N (k - f/R) and N = W + T; the push is k N. Where k is less than f/R the floor could
    not turn it anyway, and the bar rubs nothing.
    """
    w, r, f, k = arrays(weight, radius, rolling_arm, floor_friction)
    held = np.asarray(np.maximum(k - divide_or_nan(f, r), 0.0))[()]
    floor = nan_unless(held < 1.0, divide_or_nan(w, 1.0 - held))
    return k * floor, held * floor


def grid_stroke(turn: Numeric, radius: Numeric, play: Numeric = 0.0) -> Array:
    """Return how far a grid has to slide to turn its eggs.

    Parameters
    ----------
    turn : numeric
        Wanted turn of the egg. [rad]
    radius : numeric
        Radius of the egg, or its travel per radian. [m]
    play : numeric
        How much wider a cell is than the egg. [m]

    Returns
    -------
    Array
        turn x radius + play. [m]
    """
    angle, r, slack = arrays(turn, radius, play)
    return angle * r + slack


def turn_by_grid(stroke: Numeric, radius: Numeric, play: Numeric = 0.0) -> Array:
    """Return how far one stroke of a grid turns an egg.

    Parameters
    ----------
    stroke : numeric
        How far the grid slides from end to end. [m]
    radius, play : numeric
        As for `grid_stroke`. [m]

    Returns
    -------
    Array
        (stroke - play)/radius, and 0 where the stroke is used up by the play. [rad]
    """
    s, r, slack = arrays(stroke, radius, play)
    return np.asarray(np.maximum(divide_or_nan(s - slack, r), 0.0))[()]
