"""The crank, link and arm on two fixed centres (four-bar linkage), in closed form.

Frame: origin at the arm's pivot, x right, y up, angles anticlockwise from +x. The crank turns
about a fixed centre at ``(across, height)``; the link joins the crank pin to the arm pin.

The branch names on which side of the line from the arm pivot to the crank pin the arm pin
lies: ``+1`` anticlockwise of that line, ``-1`` clockwise of it. A linkage keeps its branch as
long as it closes; changing it takes unbolting.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


class Loop(NamedTuple):
    """A closed crank-link-arm loop at each crank angle; NaN where it does not close.

    Attributes
    ----------
    arm_angle : ndarray
        Direction from the arm's pivot to the arm pin, from `zero`, in (-pi, pi] [rad].
    arm_rate, arm_second : ndarray
        First and second derivative of the arm angle by the crank angle [-].
    link_x, link_y : ndarray
        Vector along the link, from crank pin to arm pin [m].
    """

    arm_angle: Array
    arm_rate: Array
    arm_second: Array
    link_x: Array
    link_y: Array


def both_branches(
    crank: ArrayLike,
    link: ArrayLike,
    arm: ArrayLike,
    across: ArrayLike,
    height: ArrayLike,
    crank_angle: ArrayLike,
    zero: ArrayLike = 0.0,
) -> tuple[Array, Array]:
    """Return only the arm angle, for both ways of putting the linkage together.

    Parameters
    ----------
    crank, link, arm, across, height, crank_angle, zero : array_like
        As in `close_loop` [m, rad].

    Returns
    -------
    tuple of ndarray
        Of branch ``+1`` and of branch ``-1``, from -pi to pi [rad]; NaN where it cannot close.
        The arm pin lies as far to one side of the line from pivot to crank pin as to the other.
    """
    r, b, a = np.asarray(crank, float), np.asarray(link, float), np.asarray(arm, float)
    theta = np.asarray(crank_angle, float)
    ax, ay = across + r * np.cos(theta), height + r * np.sin(theta)
    distance2 = ax * ax + ay * ay
    with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
        f = 0.5 * (1.0 + (a * a - b * b) / distance2)
        aside = np.arctan2(np.sqrt(a * a / distance2 - f * f), f)
    towards = np.arctan2(ay, ax) - zero
    return _half_turn(towards + aside), _half_turn(towards - aside)


def _half_turn(angle: Array) -> Array:
    """Return the same direction between minus and plus half a turn [rad]."""
    return angle - 2.0 * np.pi * np.round(angle / (2.0 * np.pi))


def close_loop(
    crank: ArrayLike,
    link: ArrayLike,
    arm: ArrayLike,
    across: ArrayLike,
    height: ArrayLike,
    crank_angle: ArrayLike,
    branch: ArrayLike,
    zero: ArrayLike = 0.0,
) -> Loop:
    """Close the loop of crank, link and arm, with first and second derivatives.

    All arguments broadcast; put designs on leading axes and crank angles on the last.

    Parameters
    ----------
    crank, link, arm : array_like
        Crank radius, link length between its holes, arm length [m].
    across, height : array_like
        Crank centre relative to the arm's pivot: right and up are positive [m].
    crank_angle : array_like
        Crank direction, anticlockwise from +x [rad].
    branch : array_like
        ``+1`` or ``-1``, see the module's head.
    zero : array_like
        Direction from which the arm angle is counted [rad].

    Returns
    -------
    Loop
        NaN where the link cannot reach (no clipping); at a jam point, with link and arm in
        line, the derivatives are infinite or NaN.

    Notes
    -----
    With A the crank pin, B the arm pin and D = abs(A)::

        cos(angle of B from A) = (arm2 + D2 - link2) / (2 arm D)            cosine rule
        u.(B' - A') = 0                                                     u = B - A
        u.(B'' - A'') + (B' - A').(B' - A') = 0

    References
    ----------
    R. L. Norton, Design of Machinery, chapters 4, 6 and 7 (vector loop, equations from memory);
    the circle-intersection form is ours because it says cleanly where the loop does not close.
    """
    r, b, a = np.asarray(crank, float), np.asarray(link, float), np.asarray(arm, float)
    theta = np.asarray(crank_angle, float)
    rx, ry = r * np.cos(theta), r * np.sin(theta)
    ax, ay = across + rx, height + ry
    distance2 = ax * ax + ay * ay
    with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
        # B = A f + (A turned by 90 degrees) g, from the two circles about the pivot and about A.
        f = 0.5 * (1.0 + (a * a - b * b) / distance2)
        g = branch * np.sqrt(a * a / distance2 - f * f)
        bx, by = ax * f - ay * g, ay * f + ax * g
        ux, uy = bx - ax, by - ay
        lever = ux * by - uy * bx  # u . dB/dpsi, with its sign turned: dB/dpsi = (-by, bx)
        rate = (ux * ry - uy * rx) / lever
        # B' - A' and B'' - A'' without the term in psi''.
        dx, dy = ry - by * rate, bx * rate - rx
        rate2 = rate * rate
        second = (dx * dx + dy * dy + ux * (rx - bx * rate2) + uy * (ry - by * rate2)) / lever
    if np.any(zero):
        cos, sin = np.cos(zero), np.sin(zero)
        bx, by = bx * cos + by * sin, by * cos - bx * sin
    return Loop(np.arctan2(by, bx), rate, second, ux, uy)
