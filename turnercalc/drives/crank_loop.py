"""Closing the loop of crank and link on each kind of path.

A circle and a straight line have closed forms; any other path is solved by one vectorised
Newton iteration. The branch names how the linkage is put together: ``+1`` where a longer link
would raise the coordinate, ``-1`` where it would lower it. A linkage keeps its branch as long
as it closes.
"""

from __future__ import annotations

from functools import singledispatch
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from turnercalc.drives.base import Closing
from turnercalc.mechanics.four_bar import both_branches, close_loop, follow_loop
from turnercalc.paths import CirclePath, LinePath, Number, Path, RaisedCirclePath

Array = NDArray[np.float64]

#: Widest swing searched on a path without a closed form [rad]; a cradle past it has fallen over.
WIDEST_SWING = np.radians(120.0)
NEWTON_STEPS = 12
#: Crank angles of a turn where the shortest and longest link have no closed form.
ONCE_ROUND = 1440
#: A step smaller than this closes the loop as well as can be told apart [rad].
CLOSED = 1e-14


class Crank(NamedTuple):
    """The fixed lengths of crank and link [m]; the centre is measured from the turner's origin."""

    radius: Number
    link: Number
    across: Number
    height: Number


class Closed(NamedTuple):
    """The coordinate, its derivatives by the crank angle, and the link's vector [m]."""

    coordinate: Array
    rate: Array
    second: Array
    bar_x: Array
    bar_y: Array


def crank_pin(crank: Crank, theta: Array) -> tuple[Array, Array]:
    """Return the crank pin's place [m]."""
    return crank.across + crank.radius * np.cos(theta), crank.height + crank.radius * np.sin(theta)


def differentiate(path: Path, crank: Crank, theta: Array, q: Array) -> Closed:
    """Return the derivatives of a closed loop by implicit differentiation.

    Notes
    -----
    With A the crank pin, p(q) the driven pin and u = p - A::

        u.(t q' - A') = 0
        u.(t q'' + k q'2 - A'') + (t q' - A').(t q' - A') = 0        t = dp/dq, k = d2p/dq2
    """
    ax, ay = crank_pin(crank, theta)
    px, py = path.point(q)
    ux, uy = px - ax, py - ay
    rx, ry = crank.radius * np.cos(theta), crank.radius * np.sin(theta)
    tx, ty = path.tangent(q)
    kx, ky = path.second(q)
    with np.errstate(divide="ignore", invalid="ignore"):
        lever = ux * tx + uy * ty
        rate = (uy * rx - ux * ry) / lever
        vx, vy = tx * rate + ry, ty * rate - rx
        bend = ux * (kx * rate**2 + rx) + uy * (ky * rate**2 + ry)
        second = -(bend + vx * vx + vy * vy) / lever
    return Closed(q, rate, second, ux, uy)


@singledispatch
def close_on(path: Path, crank: Crank, theta: Array, branch: Number) -> Closed:
    """Close the loop on any path: look for the turn of sign of the branch, then Newton.

    NaN where no coordinate within the widest swing closes the loop.
    """
    ax, ay = crank_pin(crank, theta)
    link2 = np.asarray(crank.link, float) ** 2
    grid = np.linspace(-WIDEST_SWING, WIDEST_SWING, 241)
    # The searched coordinates lie on an axis before all others: designs, ..., positions.
    at_level, _ = path.point(np.zeros(1))
    axes = max(np.ndim(part) for part in (ax, link2, branch, at_level))
    px, py = path.point(grid.reshape(-1, *(1,) * axes))
    # Rising through zero is branch +1, falling is -1; the crossing nearest to level is taken.
    value = ((px - ax) ** 2 + (py - ay) ** 2 - link2) * np.asarray(branch)
    crossing = (value[:-1] < 0.0) & (value[1:] >= 0.0)
    away = np.abs(grid[:-1]).reshape(-1, *(1,) * axes)
    best = np.where(crossing, away, np.inf).argmin(axis=0)
    q = np.where(crossing.any(axis=0), 0.5 * (grid[best] + grid[best + 1]), np.nan)
    for _ in range(NEWTON_STEPS):
        px, py = path.point(q)
        tx, ty = path.tangent(q)
        ux, uy = px - ax, py - ay
        with np.errstate(divide="ignore", invalid="ignore"):
            step = 0.5 * (ux * ux + uy * uy - link2) / (ux * tx + uy * ty)
        q = q - step
        if not (np.abs(step) > CLOSED).any():
            break
    return differentiate(path, crank, theta, q)


@close_on.register
def _(path: CirclePath, crank: Crank, theta: Array, branch: Number) -> Closed:
    return Closed(
        *close_loop(
            crank.radius,
            crank.link,
            path.radius,
            crank.across,
            crank.height,
            theta,
            branch,
            zero=path.angle,
        )
    )


@close_on.register
def _(path: RaisedCirclePath, crank: Crank, theta: Array, branch: Number) -> Closed:
    return close_on(path.circle, _lowered(crank, path), theta, branch)


def _lowered(crank: Crank, path: RaisedCirclePath) -> Crank:
    """Return the crank as it stands from the middle of a raised circle."""
    return crank._replace(height=crank.height - path.middle)


@close_on.register
def _(path: LinePath, crank: Crank, theta: Array, branch: Number) -> Closed:
    ax, ay = crank_pin(crank, theta)
    ex, ey = np.cos(path.angle), np.sin(path.angle)
    dx, dy = ax - path.across, ay - path.height
    aside = ey * dx - ex * dy
    with np.errstate(invalid="ignore"):
        reach = np.sqrt(np.asarray(crank.link, float) ** 2 - aside * aside)
    return differentiate(path, crank, theta, ex * dx + ey * dy + branch * reach)


@singledispatch
def follow_on(path: Path, crank: Crank, theta: Array, branch: Number) -> tuple[Array, Array]:
    """Return the coordinate and its rate, and no more where a closed form allows."""
    closed = close_on(path, crank, theta, branch)
    return closed.coordinate, closed.rate


@follow_on.register
def _(path: CirclePath, crank: Crank, theta: Array, branch: Number) -> tuple[Array, Array]:
    lengths = (crank.radius, crank.link, path.radius, crank.across, crank.height)
    return follow_loop(*lengths, theta, branch, zero=path.angle)


@singledispatch
def both_branches_on(path: Path, crank: Crank, theta: Array) -> tuple[Array, Array]:
    """Return the coordinates of branch ``+1`` and of branch ``-1``; NaN where it cannot close."""
    one, other = (close_on(path, crank, theta, branch).coordinate for branch in (1.0, -1.0))
    return one, other


@both_branches_on.register
def _(path: CirclePath, crank: Crank, theta: Array) -> tuple[Array, Array]:
    lengths = (crank.radius, crank.link, path.radius, crank.across, crank.height)
    return both_branches(*lengths, theta, zero=path.angle)


@both_branches_on.register
def _(path: RaisedCirclePath, crank: Crank, theta: Array) -> tuple[Array, Array]:
    return both_branches_on(path.circle, _lowered(crank, path), theta)


def straying(path: Path, crank: Crank, theta: Array) -> tuple[Array, Array]:
    """Return how far branch ``+1`` and branch ``-1`` stray from q = 0, shape (..., 1).

    A branch that does not close counts as straying by half a turn.
    """
    one, other = (np.abs(q) for q in both_branches_on(path, crank, theta))
    return (
        np.where(np.isnan(one), np.pi, one).max(axis=-1, keepdims=True),
        np.where(np.isnan(other), np.pi, other).max(axis=-1, keepdims=True),
    )


@singledispatch
def reach_on(path: Path, crank: Crank, theta: Array | None) -> tuple[Array, Array]:
    """Return the shortest and the longest link that close at all given crank angles [m].

    Parameters
    ----------
    theta : ndarray or None
        Crank angles [rad]; None: once round, exactly.

    Returns
    -------
    tuple of ndarray
        As many axes as the lengths, the last one of size 1. No link closes where the shortest is
        longer than the longest.
    """
    angles = np.linspace(0.0, 2.0 * np.pi, ONCE_ROUND) if theta is None else theta
    ax, ay = crank_pin(crank, angles)
    at_level, _ = path.point(np.zeros(1))
    axes = max(np.ndim(ax), np.ndim(ay), np.ndim(at_level))
    q = np.linspace(-WIDEST_SWING, WIDEST_SWING, 481).reshape(-1, *(1,) * axes)
    px, py = path.point(q)
    distance = np.hypot(px - ax, py - ay)
    return (
        distance.min(axis=0).max(axis=-1, keepdims=True),
        distance.max(axis=0).min(axis=-1, keepdims=True),
    )


@reach_on.register
def _(path: CirclePath, crank: Crank, theta: Array | None) -> tuple[Array, Array]:
    if theta is None:
        ground = np.hypot(crank.across, crank.height)
        far, near = ground + crank.radius, np.abs(ground - crank.radius)
    else:
        distance = np.hypot(*crank_pin(crank, theta))
        far, near = (of(axis=-1, keepdims=True) for of in (distance.max, distance.min))
    return np.maximum(far - path.radius, path.radius - near), np.asarray(path.radius + near)


@reach_on.register
def _(path: RaisedCirclePath, crank: Crank, theta: Array | None) -> tuple[Array, Array]:
    return reach_on(path.circle, _lowered(crank, path), theta)


@reach_on.register
def _(path: LinePath, crank: Crank, theta: Array | None) -> tuple[Array, Array]:
    if theta is None:
        shortest = np.abs(_aside(path, crank.across, crank.height)) + crank.radius
    else:
        aside = _aside(path, *crank_pin(crank, theta))
        shortest = np.abs(aside).max(axis=-1, keepdims=True)
    return np.asarray(shortest), np.full_like(shortest, np.inf)


def _aside(path: LinePath, across: Number, height: Number) -> Array:
    """Return how far a point lies beside a line [m]."""
    to_right, up = across - path.across, height - path.height
    return np.asarray(np.sin(path.angle) * to_right - np.cos(path.angle) * up)


@singledispatch
def closing_on(path: Path, crank: Crank, theta: Array | None) -> Closing:
    """Say whether the loop of one design closes at all given crank angles; None: once round."""
    return _closing(crank, *reach_on(path, crank, theta), "crank_and_runner")


@closing_on.register
def _(path: CirclePath, crank: Crank, theta: Array | None) -> Closing:
    kind = four_bar_kind(crank, float(np.asarray(path.radius)))
    return _closing(crank, *reach_on(path, crank, theta), kind)


@closing_on.register
def _(path: RaisedCirclePath, crank: Crank, theta: Array | None) -> Closing:
    return closing_on(path.circle, _lowered(crank, path), theta)


@closing_on.register
def _(path: LinePath, crank: Crank, theta: Array | None) -> Closing:
    return _closing(crank, *reach_on(path, crank, theta), "slider_crank")


def _closing(crank: Crank, least: Array, most: Array, kind: str) -> Closing:
    """Judge the link against the shortest and longest that close at every crank angle."""
    shortest, longest = (float(np.asarray(end).reshape(-1)[0]) for end in (least, most))
    link = float(np.asarray(crank.link))
    missing = max(shortest - link, link - longest)
    nearest: dict[str, float] = {}
    if shortest <= longest:
        nearest["link.length"] = min(max(link, shortest), longest)
    # Every millimetre off the crank brings the near and the far distance in by a millimetre.
    radius = float(np.asarray(crank.radius))
    if missing < radius:
        nearest["crank.radius"] = radius - max(missing, 0.0)
    return Closing(missing <= 0.0, kind, missing, nearest)


def four_bar_kind(crank: Crank, arm: float) -> str:
    """Return the kind of four-bar linkage by Grashof's rule.

    Source: R. L. Norton, Design of Machinery, section 2.13 on the Grashof condition (from
    memory): a link turns fully where shortest + longest is at most the sum of the other two.
    """
    radius, link = float(np.asarray(crank.radius)), float(np.asarray(crank.link))
    ground = float(np.hypot(crank.across, crank.height))
    lengths = {"crank": radius, "link": link, "arm": arm, "ground": ground}
    shortest = min(lengths, key=lambda name: lengths[name])
    excess = min(lengths.values()) + max(lengths.values()) - 0.5 * sum(lengths.values())
    if excess > 0.0:
        return "triple_rocker"
    if excess == 0.0:
        return "change_point"
    return {
        "crank": "crank_rocker",
        "arm": "rocker_crank",
        "ground": "double_crank",
        "link": "double_rocker",
    }[shortest]
