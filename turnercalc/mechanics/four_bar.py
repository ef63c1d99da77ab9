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

from turnercalc.mechanics.numeric import cos_sin

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
    with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
        _, _, ax, ay, f, g = _reach(crank, link, arm, across, height, crank_angle)
    towards, aside = np.arctan2(ay, ax) - np.asarray(zero, float), np.arctan2(g, f)
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
    with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
        rx, ry, bx, by, ux, uy = _pins(crank, link, arm, across, height, crank_angle, branch)
        lever = ux * by - uy * bx  # u . dB/dpsi, with its sign turned: dB/dpsi = (-by, bx)
        rate = (ux * ry - uy * rx) / lever
        # B' - A' and B'' - A'' without the term in psi''.
        dx, dy = ry - by * rate, bx * rate - rx
        rate2 = rate * rate
        second = (dx * dx + dy * dy + ux * (rx - bx * rate2) + uy * (ry - by * rate2)) / lever
    return Loop(_direction(bx, by, zero), rate, second, ux, uy)


def follow_loop(
    crank: ArrayLike,
    link: ArrayLike,
    arm: ArrayLike,
    across: ArrayLike,
    height: ArrayLike,
    crank_angle: ArrayLike,
    branch: ArrayLike,
    zero: ArrayLike = 0.0,
) -> tuple[Array, Array]:
    """Return the arm angle [rad] and its first derivative, as `close_loop` does, and no more."""
    with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
        rx, ry, bx, by, ux, uy = _pins(crank, link, arm, across, height, crank_angle, branch)
        rate = (ux * ry - uy * rx) / (ux * by - uy * bx)
    return _direction(bx, by, zero), rate


def _pins(
    crank: ArrayLike,
    link: ArrayLike,
    arm: ArrayLike,
    across: ArrayLike,
    height: ArrayLike,
    crank_angle: ArrayLike,
    branch: ArrayLike,
) -> tuple[Array, ...]:
    """Return the crank, the arm pin from the arm's pivot, and the link: (x, y) of each [m]."""
    rx, ry, ax, ay, f, g = _reach(crank, link, arm, across, height, crank_angle)
    g = np.asarray(branch, float) * g
    bx, by = ax * f - ay * g, ay * f + ax * g
    return rx, ry, bx, by, bx - ax, by - ay


def _reach(
    crank: ArrayLike,
    link: ArrayLike,
    arm: ArrayLike,
    across: ArrayLike,
    height: ArrayLike,
    crank_angle: ArrayLike,
) -> tuple[Array, ...]:
    """Return the crank (x, y), the crank pin A from the arm's pivot (x, y), and f and g.

    From the two circles about the pivot and about A, the arm pin of branch ``+1`` is
    B = A f + (A turned by 90 degrees) g.
    """
    r, b, a = np.asarray(crank, float), np.asarray(link, float), np.asarray(arm, float)
    cos, sin = cos_sin(crank_angle)
    # Designs next to each other in memory, position after position: long runs for the processor.
    rx, ry = np.multiply(r, cos, order="F"), np.multiply(r, sin, order="F")
    ax, ay = np.asarray(across, float) + rx, np.asarray(height, float) + ry
    share = 1.0 / (ax * ax + ay * ay)
    f = 0.5 + (0.5 * (a * a - b * b)) * share
    return rx, ry, ax, ay, f, np.sqrt((a * a) * share - f * f)


def _direction(x: Array, y: Array, zero: ArrayLike) -> Array:
    """Return the direction of (x, y), counted from `zero` [rad]."""
    if np.any(zero):
        cos, sin = np.cos(zero), np.sin(zero)
        x, y = x * cos + y * sin, y * cos - x * sin
    return np.asarray(np.arctan2(y, x))
