"""How sets of lengths do, read along the swing: closed forms that need no loop to be closed.

The angle of a crank has no closed form where its pin follows a cycloid; the other way round it
has: at a coordinate q the pin is at P(q), and crank r and link l stand over the distance D from
shaft to pin as a triangle. Its angle at the pin says where the link points, its angle at the
crank pin how fast it goes there, so that force and torque follow for every place of the shaft at
once, whatever the path. Friction of the drive's own pins is left to the full look at the best.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.many import hardest_loads
from turnercalc.paths import Path
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Lengths4 = tuple[Array, Array, Array, Array]

POSITIONS = 32
NEWTON_STEPS = 2
#: An end is looked for so near to the wanted one [rad or m].
FARTHEST = 0.2
BOUNDS = (-FARTHEST, FARTHEST)
#: Sets looked at in one go.
BLOCK = 2000


class Swing(NamedTuple):
    """A turner along its swing, each shape (position,).

    Attributes
    ----------
    q : ndarray
        Coordinate, denser towards the ends [rad or m].
    x, y : ndarray
        Where the driven pin is [m].
    tx, ty : ndarray
        How it goes, by the coordinate [m/rad or -].
    up, down : ndarray
        The largest planned load torque against a move up and down, with the turner's own friction
        but for what the drive's force adds [N·m or N].
    """

    q: Array
    x: Array
    y: Array
    tx: Array
    ty: Array
    up: Array
    down: Array


class Judged(NamedTuple):
    """What comes of sets of lengths, each shape (set,).

    Attributes
    ----------
    goes : ndarray of bool
        Whether it goes from end to end.
    angle : ndarray
        Least angle between link and arm [rad].
    peak : ndarray
        Hardest shaft torque or push, in the better direction [N·m or N].
    """

    goes: Mask
    angle: Array
    peak: Array


def swing_of(turner: Turner, low: float, high: float, count: int = POSITIONS) -> Swing:
    """Return a turner along its swing, between the ends and not at them."""
    q = low + (high - low) * spread(count)
    path = turner.path()
    loads = hardest_loads(turner, low, high)
    cells = np.stack([case.cells for case in loads]).astype(float)
    sense = np.array([1.0, -1.0])[:, None]
    held = turner.load_torque(cells, q, sense)
    rubs = turner.resistance(cells, q, sense, ("middle",))(0.0, 0.0)
    against = np.broadcast_to(sense * held + rubs, (len(loads), 1, 2, count)).max(axis=(0, 1))
    x, y = path.point(q)
    tx, ty = path.tangent(q)
    tx, ty = np.broadcast_arrays(tx, ty)
    return Swing(q, x, y, tx, ty, against[0], against[1])


def spread(count: int) -> Array:
    """Return shares of a swing from end to end, denser towards the ends, but not at them."""
    return np.asarray(0.5 - 0.5 * np.cos(np.pi * (np.arange(count) + 0.5) / count))


def judge_cranks(swing: Swing, path: Path, lengths: Lengths4, ends: tuple[Array, Array]) -> Judged:
    """Return how cranks that go round do, shape (set,).

    Parameters
    ----------
    lengths : tuple of ndarray
        Crank, link, and the shaft's place [m].
    ends : (ndarray, ndarray)
        Between which each goes, see `ends_by_crank`; the loads are those near by.
    """
    parts = [
        _cranks(swing, path, *(values[at : at + BLOCK, None] for values in (*lengths, *ends)))
        for at in range(0, max(lengths[0].size, 1), BLOCK)
    ]
    return Judged(*(np.concatenate(one) for one in zip(*parts, strict=True)))


def _cranks(
    swing: Swing,
    path: Path,
    crank: Array,
    link: Array,
    x: Array,
    y: Array,
    low: Array,
    high: Array,
) -> Judged:
    q = low + (high - low) * spread(swing.q.size)
    px, py = path.point(q)
    tx, ty = path.tangent(q)
    across, height = px - x, py - y
    apart = np.hypot(across, height)
    with np.errstate(divide="ignore", invalid="ignore"):
        at_pin = (apart**2 + link**2 - crank**2) / (2.0 * apart * link)
        at_crank_pin = (crank**2 + link**2 - apart**2) / (2.0 * crank * link)
        ex, ey = across / apart, height / apart
        # A triangle that does not close has a cosine beyond one: it does not go through.
        goes = np.asarray((np.abs(at_pin) <= 1.0) & (np.abs(at_crank_pin) <= 1.0)).all(axis=-1)
        beside = np.sqrt(np.maximum(1.0 - at_pin**2, 0.0))
        speed = crank * np.sqrt(np.maximum(1.0 - at_crank_pin**2, 0.0))
        levers, angles = [], []
        for way in (1.0, -1.0):
            ux, uy = ex * at_pin - way * ey * beside, ey * at_pin + way * ex * beside
            levers.append(ux * tx + uy * ty)
            angles.append(np.arctan2(np.abs(levers[-1]), np.abs(ux * ty - uy * tx)))
        one_sided = [(lever > 0.0).all(axis=-1) | (lever < 0.0).all(axis=-1) for lever in levers]
        up, down = ([load * speed / np.abs(k) for k in levers] for load in (swing.up, swing.down))
    peak = np.minimum(
        np.maximum(up[0], down[1]).max(axis=-1), np.maximum(up[1], down[0]).max(axis=-1)
    )
    goes = np.asarray(goes & one_sided[0] & one_sided[1])
    angle = np.minimum(*angles).min(axis=-1)
    return Judged(goes, np.where(goes, angle, np.nan), np.where(goes, peak, np.inf))


def ends_by_crank(
    path: Path,
    lengths: Lengths4,
    wanted: tuple[float, float],
) -> tuple[Array, Array]:
    """Return both ends of the swing, shape (set,): where crank and link are in line.

    Parameters
    ----------
    lengths : tuple of ndarray
        Crank, link, and the shaft's place, such as give about the wanted ends [m].
    """
    crank, link, x, y = lengths
    found = []
    for end in wanted:
        q = np.full(x.shape, end)
        px, py = path.point(q)
        apart = np.hypot(px - x, py - y)
        reach = np.where(np.abs(apart - link - crank) < np.abs(apart - link + crank), 1.0, -1.0)
        for _ in range(NEWTON_STEPS):
            px, py = path.point(q)
            tx, ty = path.tangent(q)
            apart = np.hypot(px - x, py - y)
            with np.errstate(divide="ignore", invalid="ignore"):
                slope = ((px - x) * tx + (py - y) * ty) / apart
                step = (link + reach * crank - apart) / slope
            # At a turning point of the distance there is no step: such a set does not go through.
            q = q + np.clip(np.nan_to_num(step, posinf=FARTHEST, neginf=-FARTHEST), *BOUNDS)
        found.append(q)
    return found[0], found[1]


def judge_rods(swing: Swing, x: Array, y: Array) -> Judged:
    """Return how rods do from a fixed eye at (x, y), shape (set,) [m].

    A lever that changes its sign passes through nought: there the rod pushes at the pivot.
    """
    across, height = swing.x - x[:, None], swing.y - y[:, None]
    with np.errstate(divide="ignore", invalid="ignore"):
        apart = np.hypot(across, height)
        lever = (across * swing.tx + height * swing.ty) / apart
        flat = np.abs(across * swing.ty - height * swing.tx) / apart
        push = np.maximum(swing.up, swing.down) / np.abs(lever)
    goes = np.asarray((lever > 0.0).all(axis=-1) | (lever < 0.0).all(axis=-1))
    angle = np.arctan2(np.abs(lever), flat).min(axis=-1)
    return Judged(goes, np.where(goes, angle, np.nan), np.where(goes, push.max(axis=-1), np.inf))


def judge_slots(swing: Swing, crank: Array, distance: Array) -> Judged:
    """Return how slotted levers do, shape (set,), for cranks at a distance from the pivot [m].

    The slot stands d off the direction to the shaft; the crank pin is where it cuts the crank's
    circle, at s = d cos d' -/+ root(r2 - d2 sin2 d') from the pivot, and turns the lever by that
    root over s per turn of the shaft.
    """
    off = swing.q - 0.5 * (swing.q[0] + swing.q[-1])
    far = distance[:, None] * np.cos(off)
    square = crank[:, None] ** 2 - (distance[:, None] * np.sin(off)) ** 2
    root = np.sqrt(np.maximum(square, 0.0))
    goes = np.asarray((distance > crank) & (square >= 0.0).all(axis=-1))
    with np.errstate(divide="ignore", invalid="ignore"):
        rates = [root / (far + root), root / np.maximum(far - root, 1e-9)]
    (up0, up1), (down0, down1) = (
        [(load * rate).max(axis=-1) for rate in rates] for load in (swing.up, swing.down)
    )
    peak = np.minimum(np.maximum(up0, down1), np.maximum(up1, down0))
    return Judged(goes, np.full(crank.shape, 0.5 * np.pi), np.where(goes, peak, np.inf))
