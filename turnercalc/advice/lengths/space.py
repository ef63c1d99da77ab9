"""Room for shaft and crank: inside the box and clear of the moving parts."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from turnercalc.design import Design
from turnercalc.drives.base import Motion
from turnercalc.parts.clearances import LINK_END, clearances
from turnercalc.parts.outlines import corners
from turnercalc.tables import limit
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]

SWING_STEPS = 13


class Walls(NamedTuple):
    """The walls of the box from the turner's origin [m]; infinite where nobody said."""

    left: float
    right: float
    low: float
    high: float


def walls(design: Design, turner: Turner) -> Walls:
    """Return the walls of the box from the turner's origin, as `checks.room` judges them."""
    box = design["box"]
    from_left = turner.origin_from_left
    left = 0.5 * box.width if from_left is None else from_left
    floor = turner.origin_height
    return Walls(
        left=-left,
        right=box.width - left,
        low=-np.inf if floor is None else -floor,
        high=np.inf if floor is None else box.height - floor,
    )


def wall_margin() -> float:
    """Return what has to stay free at a wall [m]."""
    rule = limit("clearance")
    assert rule.fine is not None
    return 1e-3 * rule.fine


def inside(around: Walls, x: Array, y: Array, radius: Array, margin: float | None = None) -> Mask:
    """Say which circles, a link's end added, stay inside the box with a margin, else the usual."""
    room = radius + LINK_END + (wall_margin() if margin is None else margin)
    return np.asarray(
        (x - room >= around.left)
        & (x + room <= around.right)
        & (y - room >= around.low)
        & (y + room <= around.high)
    )


def parts_too_big(design: Design, turner: Turner, low: float, high: float) -> str:
    """Return why the moving parts do not fit at all, whatever drives them; empty where they do."""
    q = np.linspace(low, high, 2)
    still = Motion(q, q, q, q, np.ones(q.shape, bool), round_and_round=False)
    box = design["box"]
    from_left = turner.origin_from_left
    room = clearances(
        turner,
        still,
        (low, high),
        width=box.width,
        height=box.height,
        origin_across=None if from_left is None else from_left - 0.5 * box.width,
    )
    gaps = {
        "at the left wall": room.turner.left,
        "at the right wall": room.turner.right,
        "above": room.turner.above,
        "below": room.turner.below,
        "between one and the next": room.neighbours,
    }
    known = {where: gap for where, gap in gaps.items() if gap is not None}
    where, least = min(known.items(), key=lambda item: item[1], default=("", 0.0))
    if least >= 0.0:
        return ""
    return (
        f"What is turned does not fit the box by itself: {-1e3 * least:.0f} mm too little {where} "
        "at the wanted ends. Nothing that drives it can change that."
    )


class Swept(NamedTuple):
    """Outlines of the moving parts at steps of the swing, shape (outline, corner) each [m]."""

    x: Array
    y: Array


def swept(turner: Turner, low: float, high: float) -> Swept:
    """Return where the hull of every equal part is at steps of the swing."""
    across, height = corners(turner)
    q = np.linspace(low, high, SWING_STEPS)
    x, y = turner.path_of(across[:, None], height[:, None]).point(q)
    places = np.array(turner.stack)
    return Swept(
        np.concatenate([x.T + dx for dx in places[:, 0]]),
        np.concatenate([y.T + dy for dy in places[:, 1]]),
    )


def distance_to(parts: Swept, x: Array, y: Array) -> Array:
    """Return how far points are from the swept outlines, shape as `x`; 0 inside one [m].

    Corners stand anticlockwise round each outline, which is convex.
    """
    nearest = np.full(np.shape(x), np.inf)
    inner = np.zeros(np.shape(x), bool)
    for ox, oy in zip(parts.x, parts.y, strict=True):
        ex, ey = np.roll(ox, -1) - ox, np.roll(oy, -1) - oy
        px, py = np.asarray(x)[..., None] - ox, np.asarray(y)[..., None] - oy
        length2 = np.maximum(ex * ex + ey * ey, 1e-18)
        along = np.clip((px * ex + py * ey) / length2, 0.0, 1.0)
        away = np.hypot(px - along * ex, py - along * ey).min(axis=-1)
        nearest = np.minimum(nearest, away)
        inner |= (ex * py - ey * px >= 0.0).all(axis=-1)
    return np.where(inner, 0.0, nearest)
