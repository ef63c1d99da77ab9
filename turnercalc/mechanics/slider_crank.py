"""Slider-crank: a crank pin joined by a link to a point that moves on a straight line.

Frame: crank centre at the origin, the slide runs along x at the height `offset` above the
crank centre (negative: below). Crank angle from +x, anticlockwise positive. `branch` +1 has
the slider on the +x side of the crank pin, -1 on the other side; a turning crank never
changes from one to the other by itself.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from turnercalc.mechanics.numeric import (
    Array,
    Numeric,
    arccos_or_nan,
    arcsin_or_nan,
    arrays,
    divide_or_nan,
    nan_unless,
    sqrt_or_nan,
)


class Slide(NamedTuple):
    """Pose and motion of a slider-crank; NaN where the link cannot reach the line.

    Attributes
    ----------
    position : Array
        Place of the slider along x, from the crank centre. [m]
    rate : Array
        d position / d crank angle. [m/rad]
    second : Array
        d² position / d crank angle². [m/rad²]
    link_angle : Array
        Direction from crank pin to slider, from +x. [rad]
    link_rate : Array
        d link angle / d crank angle. [-]
    """

    position: Array
    rate: Array
    second: Array
    link_angle: Array
    link_rate: Array


def close_slider(
    crank: Numeric, link: Numeric, offset: Numeric, angle: Numeric, branch: Numeric = 1
) -> Slide:
    """Return position, first and second derivative of the slider, and the link's direction.

    Parameters
    ----------
    crank : numeric
        Crank radius r. [m]
    link : numeric
        Link length L. [m]
    offset : numeric
        Height e of the slide's line above the crank centre. [m]
    angle : numeric
        Crank angle t from the direction of the slide, anticlockwise positive. [rad]
    branch : numeric
        +1: slider on the +x side of the crank pin; -1: on the other side.

    Returns
    -------
    Slide
        NaN where the link is too short to reach the line. Exactly where it just reaches
        (link square to the slide) the derivatives do not exist and are NaN too.

    Notes
    -----
    With u = r sin t - e: s = r cos t ± sqrt(L² - u²), differentiated twice.

    References
    ----------
    R. L. Norton, Design of Machinery, chapters 4, 6 and 7. Norton measures the link's
    angle at the slider, half a turn from the one here.
    """
    r, L, e, t, side = arrays(crank, link, offset, angle, branch)
    u = r * np.sin(t) - e
    u_rate = r * np.cos(t)
    u_second = -r * np.sin(t)
    reach = sqrt_or_nan(L**2 - u**2) * np.sign(side)
    slope = divide_or_nan(u * u_rate, reach)
    bend = divide_or_nan(u_rate**2 + u * u_second, reach) + divide_or_nan(slope**2, reach)
    return Slide(
        position=r * np.cos(t) + reach,
        rate=-r * np.sin(t) - slope,
        second=-r * np.cos(t) - bend,
        link_angle=np.arctan2(-u, reach),
        link_rate=divide_or_nan(-u_rate, reach),
    )


def slider_limits(crank: Numeric, link: Numeric, offset: Numeric) -> tuple[Array, Array]:
    """Return the farthest and the nearest place of the slider over a whole turn.

    Parameters
    ----------
    crank, link : numeric
        Crank radius and link length. [m]
    offset : numeric
        Height of the slide's line above the crank centre. [m]

    Returns
    -------
    tuple of Array
        (far, near), from the crank centre along the slide. [m] NaN unless the crank can go
        right round, that is unless crank + |offset| <= link.

    Notes
    -----
    sqrt((L ± r)² - e²): at both ends crank and link lie in line (rest points).
    """
    r, L, e = arrays(crank, link, offset)
    goes_round = r + np.abs(e) <= L
    far = sqrt_or_nan((L + r) ** 2 - e**2)
    near = sqrt_or_nan((L - r) ** 2 - e**2)
    return nan_unless(goes_round, far), nan_unless(goes_round, near)


def slider_stroke(crank: Numeric, link: Numeric, offset: Numeric) -> Array:
    """Return the stroke of the slider: far limit less near limit.

    Parameters
    ----------
    crank, link : numeric
        Crank radius and link length. [m]
    offset : numeric
        Height of the slide's line above the crank centre. [m]

    Returns
    -------
    Array
        Stroke. [m] NaN where the crank cannot go right round.
    """
    far, near = slider_limits(crank, link, offset)
    return far - near


def slider_time_ratio(crank: Numeric, link: Numeric, offset: Numeric) -> Array:
    """Return slow stroke's time over fast stroke's time at a steady crank speed.

    Parameters
    ----------
    crank, link : numeric
        Crank radius and link length. [m]
    offset : numeric
        Height of the slide's line above the crank centre. [m]

    Returns
    -------
    Array
        Time ratio, 1 or more. [-] NaN where the crank cannot go right round.

    Notes
    -----
    delta = asin(e/(L - r)) - asin(e/(L + r)); ratio = (π + |delta|)/(π - |delta|).
    """
    r, L, e = arrays(crank, link, offset)
    goes_round = r + np.abs(e) <= L
    near = arcsin_or_nan(divide_or_nan(e, L - r))
    far = arcsin_or_nan(divide_or_nan(e, L + r))
    delta = np.abs(near - far)
    # crank = link with no offset stands still for half a turn: no ratio to speak of
    return nan_unless(goes_round, (np.pi + delta) / (np.pi - delta))


def crank_angles_at(
    crank: Numeric, link: Numeric, offset: Numeric, position: Numeric
) -> tuple[Array, Array]:
    """Return the two crank angles that put the slider at a given place.

    Parameters
    ----------
    crank, link : numeric
        Crank radius and link length. [m]
    offset : numeric
        Height of the slide's line above the crank centre. [m]
    position : numeric
        Place of the slider along x. [m]

    Returns
    -------
    tuple of Array
        The anticlockwise one and the clockwise one of the line from the crank centre to the
        slider, between -2π and 2π. [rad] NaN where the slider cannot get there.

    Notes
    -----
    Law of cosines in the triangle crank centre, crank pin, slider.
    """
    r, L, e, s = arrays(crank, link, offset, position)
    distance = np.hypot(s, e)
    to_slider = np.arctan2(e, s)
    opening = arccos_or_nan(divide_or_nan(r**2 + distance**2 - L**2, 2.0 * r * distance))
    return to_slider + opening, to_slider - opening


def slider_shaft_torque(force: Numeric, rate: Numeric) -> Array:
    """Return the frictionless crank torque that pushes the slider against a force.

    Parameters
    ----------
    force : numeric
        Force the slider has to push towards +x. [N]
    rate : numeric
        d position / d crank angle. [m/rad]

    Returns
    -------
    Array
        Shaft torque, positive where the motor pushes an anticlockwise crank. [N·m]

    Notes
    -----
    Virtual work: T dt = F ds.
    """
    f, s1 = arrays(force, rate)
    return f * s1
