"""How an egg rests in what holds it: statics of one egg, on arrays.

Every function takes the letters of `turnercalc.eggs.shape` first and broadcasts. Places are
given in the frame of the seat: ``across`` from the middle of the seat toward its low side,
``height`` above the egg floor. "The low side" is the side to which the seat is tilted.
An egg that cannot rest so gives NaN, never a pose it nearly has.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.eggs.mass_properties import mass_properties
from turnercalc.eggs.shape import outline, profile, radius

Array = NDArray[np.float64]

_HALVINGS = 46  # of a bracket: 2^-46 of an egg's length is less than an atom


class Pose(NamedTuple):
    """Where an egg's centre of mass is in its seat, and how far its axis leans.

    Attributes
    ----------
    across : ndarray
        Centre of mass from the middle of the seat toward the low side [m].
    height : ndarray
        Centre of mass above the egg floor [m].
    lean : ndarray
        Angle of the axis from its pose at rest, big end toward the low side [rad].
    """

    across: Array
    height: Array
    lean: Array


class Standing(NamedTuple):
    """An egg on its small tip that leans on the wall of its cell.

    Attributes
    ----------
    pose : Pose
        Of the egg, with the tip held where it stood in the middle by the friction of the floor.
    contact : ndarray
        Where the floor carries it, from the middle toward the low side [m].
    reach : ndarray
        Farthest point of the egg from the middle toward the low side, over a low wall too [m].
    """

    pose: Pose
    contact: Array
    reach: Array


class Lying(NamedTuple):
    """An egg on its side on a level floor.

    Attributes
    ----------
    dip : ndarray
        Angle by which the pointed end lies lower than the blunt one [rad].
    height : ndarray
        Centre of mass above the floor [m].
    """

    dip: Array
    height: Array


def lying(length: ArrayLike, breadth: ArrayLike, w: ArrayLike, D: ArrayLike | None = None) -> Lying:
    """Return how an egg lies on its side on a level floor; parameters as in `profile`.

    Notes
    -----
    It touches where the normal of its outline passes through the centre of mass. The normal at
    x meets the axis at x + y dy/dx, which grows from tip to tip, so halving finds the place.
    """
    L = np.asarray(length, float)
    centre = mass_properties(length, breadth, w, D).centre
    low, high = np.broadcast_arrays(-L / 2, L / 2, centre)[:2]
    for _ in range(_HALVINGS):
        x = (low + high) / 2
        behind = x + profile(x, length, breadth, w, D).slope < centre
        low, high = np.where(behind, x, low), np.where(behind, high, x)
    at = profile((low + high) / 2, length, breadth, w, D)
    return Lying(
        dip=np.arctan2(-at.slope, np.sqrt(at.squared)),
        height=np.sqrt(at.squared + at.slope**2),
    )


def rock_limit(
    length: ArrayLike, breadth: ArrayLike, w: ArrayLike, D: ArrayLike | None = None
) -> Array:
    """Return the tilt up to which an egg lying across the tilt axis only rocks [rad].

    Beyond it the egg goes end over end, whatever the friction. At a tilt t it rests where the
    line from the contact to the centre of mass makes the angle t with the normal; the steepest
    such line on the lesser side is the limit.
    """
    x, y = outline(length, breadth, w, D)
    centre = mass_properties(length, breadth, w, D).centre[..., None]
    quarter = None if D is None else np.asarray(D, float)[..., None]
    L, B, v = (np.asarray(a, float)[..., None] for a in (length, breadth, w))
    slope = profile(x, L, B, v, quarter).slope
    # Contact to centre, split along the inward normal (y', -1) and the tangent (1, y'), both
    # times y so that the tips stay finite.
    tangent = (centre - x) * y - y * slope
    normal = (centre - x) * slope + y * y
    steepness = np.arctan2(tangent, normal)
    flank = slice(1, -1)  # the tips themselves are where the egg stands, not where it lies
    toward_pointed = -np.min(steepness[..., flank], axis=-1)
    toward_blunt = np.max(steepness[..., flank], axis=-1)
    lesser: Array = np.minimum(toward_pointed, toward_blunt)
    return lesser


def standing_in_cell(
    length: ArrayLike,
    breadth: ArrayLike,
    w: ArrayLike,
    D: ArrayLike | None,
    room: ArrayLike,
    wall: ArrayLike,
) -> Standing:
    """Return how an egg stands in a cell, big end up on a flat floor, leaning to the low side.

    Parameters
    ----------
    length, breadth, w, D : numeric
        As in `profile`.
    room : numeric
        Clear width of the cell across the tilt axis [m].
    wall : numeric
        Height of its walls above the egg floor [m]; infinite for walls as tall as the egg.

    Returns
    -------
    Standing
        NaN where nothing stops the egg short of lying down. An egg that is pinched stands
        upright.

    Notes
    -----
    An egg never balances on its small tip: it rolls over on the tip, without slipping, until
    its flank meets the wall, or the wall's top edge where the wall is lower than the flank.
    """
    x, y = outline(length, breadth, w, D)
    room, wall = np.broadcast_arrays(np.asarray(room, float), np.asarray(wall, float))
    half = room / 2
    run = _arc_length(x, y)
    leans = np.radians(np.linspace(0.0, 75.0, 26))
    shape = np.broadcast_shapes(x.shape[:-1], room.shape)
    reach = np.stack([_wall_reach(x, y, run, np.full(shape, a), wall) for a in leans])
    # The first lean of the coarse scan that goes too far, then halving between it and the last
    # that does not.
    beyond = reach >= half
    first = np.argmax(beyond, axis=0)
    high = leans[first]
    low = leans[np.maximum(first - 1, 0)]
    for _ in range(30):
        middle = (low + high) / 2
        short = _wall_reach(x, y, run, middle, wall) < half
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    lean = np.where(beyond.any(axis=0), high, np.nan)
    return _standing(x, y, run, lean, mass_properties(length, breadth, w, D).centre)


def _standing(x: Array, y: Array, run: Array, lean: Array, centre: Array) -> Standing:
    u, _, origin, contact, floor = _rolled(x, y, run, lean)
    far = np.max(u, axis=-1) + origin
    return Standing(
        pose=Pose(
            across=origin - centre * np.sin(lean),
            height=floor - centre * np.cos(lean),
            lean=lean,
        ),
        contact=contact,
        reach=far,
    )


def _rolled(
    x: Array, y: Array, run: Array, lean: Array
) -> tuple[Array, Array, Array, Array, Array]:
    """Roll an egg over on its tip by a lean.

    Returns the low half of its outline from its half-length point, across and upward; that
    point's place across; the contact's place across; and that point's height.
    """
    sine, cosine = np.sin(lean)[..., None], np.cos(lean)[..., None]
    u = -x * sine + y * cosine
    v = -x * cosine - y * sine
    # The lowest point lies between points of the outline: a parabola through the three lowest
    # finds it. The point before the tip is the mirror image of the one after it.
    before = (-x * cosine + y * sine)[..., 1:2]
    padded = np.concatenate([before, v], axis=-1)
    runs = np.concatenate([-run[..., 1:2], run], axis=-1)
    # NaN leans have no lowest point; they come out NaN through v whatever index is taken.
    lowest = np.argmin(np.where(np.isnan(padded), 0.0, padded), axis=-1)[..., None]
    lowest = np.clip(lowest, 1, padded.shape[-1] - 2)
    left, mid, right = (np.take_along_axis(padded, lowest + k, axis=-1) for k in (-1, 0, 1))
    shift = 0.5 * (left - right) / (left - 2 * mid + right)
    floor = -(mid - 0.25 * (left - right) * shift)[..., 0]
    runs = np.broadcast_to(runs, padded.shape)
    here, after = (np.take_along_axis(runs, lowest + k, axis=-1) for k in (0, 1))
    contact = (here + shift * (after - here))[..., 0]
    # Rolling: the tip was at 0 when upright, and the contact has run on by the arc.
    across = np.concatenate([-(x * sine + y * cosine)[..., 1:2], u], axis=-1)
    near, next_ = (np.take_along_axis(across, lowest + k, axis=-1) for k in (0, 1))
    origin = contact - (near + shift * (next_ - near))[..., 0]
    return u, v, origin, contact, floor


def _wall_reach(x: Array, y: Array, run: Array, lean: Array, wall: Array) -> Array:
    """Return how far an egg of some lean reaches across, no higher than the wall [m]."""
    u, v, origin, _, floor = _rolled(x, y, run, lean)
    reach: Array = origin + farthest_below(u, v + floor[..., None], wall)
    return reach


def farthest_below(u: Array, height: Array, wall: Array) -> Array:
    """Return the greatest u of a line of points, of the part that is no higher than the wall.

    Parameters
    ----------
    u, height : ndarray, shape (..., n)
        Points of a line.
    wall : ndarray, shape (...)
        Height; where the line crosses it, the crossing counts.
    """
    level = np.asarray(wall, float)[..., None]
    under = height <= level
    inside = np.max(np.where(under, u, -np.inf), axis=-1)
    start, end = height[..., :-1], height[..., 1:]
    crosses = (under[..., :-1] != under[..., 1:]) & np.isfinite(level)
    rise = np.where(crosses, end - start, 1.0)
    share = np.where(crosses, (level - start) / rise, 0.0)
    cut = u[..., :-1] + share * (u[..., 1:] - u[..., :-1])
    farthest: Array = np.maximum(inside, np.max(np.where(crosses, cut, -np.inf), axis=-1))
    return farthest


def _arc_length(x: Array, y: Array) -> Array:
    """Return the length of the outline from the pointed tip to each of its points."""
    steps = np.hypot(np.diff(x, axis=-1), np.diff(y, axis=-1))
    return np.concatenate([np.zeros_like(x[..., :1]), np.cumsum(steps, axis=-1)], axis=-1)


def wedged_lean(
    length: ArrayLike,
    breadth: ArrayLike,
    w: ArrayLike,
    D: ArrayLike | None,
    room: ArrayLike,
    wall: ArrayLike,
) -> Array:
    """Return the farthest an egg can lean in its cell once its tip has slipped [rad].

    Its flank then touches one wall and its lower part the other. NaN where the cell does not
    stop it short of lying down; zero where it is pinched. Parameters as in `standing_in_cell`.
    """
    x, y = outline(length, breadth, w, D)
    room, wall = np.broadcast_arrays(np.asarray(room, float), np.asarray(wall, float))
    shape = np.broadcast_shapes(x.shape[:-1], room.shape)
    leans = np.radians(np.linspace(0.0, 75.0, 26))
    beyond = np.stack([_width(x, y, np.full(shape, a), wall) for a in leans]) >= room
    first = np.argmax(beyond, axis=0)
    low, high = leans[np.maximum(first - 1, 0)], leans[first]
    for _ in range(30):
        middle = (low + high) / 2
        narrow = _width(x, y, middle, wall) < room
        low, high = np.where(narrow, middle, low), np.where(narrow, high, middle)
    return np.asarray(np.where(beyond.any(axis=0), high, np.nan))


def _width(x: Array, y: Array, lean: Array, wall: Array) -> Array:
    """Return the width of a leaning egg across, of the part no higher than the wall [m]."""
    sine, cosine = np.sin(lean)[..., None], np.cos(lean)[..., None]
    low_u, low_v = -x * sine + y * cosine, -x * cosine - y * sine
    far_u, far_v = -x * sine - y * cosine, -x * cosine + y * sine
    floor = np.min(low_v, axis=-1)[..., None]
    right = farthest_below(low_u, low_v - floor, wall)
    left = farthest_below(-far_u, far_v - floor, wall)
    width: Array = right + left
    return width


def hanging_depth(
    length: ArrayLike,
    breadth: ArrayLike,
    w: ArrayLike,
    D: ArrayLike | None,
    hole: ArrayLike,
) -> Array:
    """Return the place x along the axis where a round hole holds an egg, small end down [m].

    Parameters
    ----------
    length, breadth, w, D : numeric
        As in `profile`; x counts from half length toward the pointed end.
    hole : numeric
        Diameter of the hole [m]. NaN comes back where the egg falls through.
    """
    L, B = np.asarray(length, float), np.asarray(breadth, float)
    w, half = np.asarray(w, float), np.asarray(hole, float) / 2
    low, high = np.broadcast_arrays(-w, L / 2, half)[:2]
    for _ in range(_HALVINGS):
        x = (low + high) / 2
        wide = radius(x, L, B, w, D) > half
        low, high = np.where(wide, x, low), np.where(wide, high, x)
    return np.asarray(np.where(2 * half < B, (low + high) / 2, np.nan))


def hole_slip(
    length: ArrayLike,
    breadth: ArrayLike,
    w: ArrayLike,
    D: ArrayLike | None,
    hole: ArrayLike,
    friction: ArrayLike,
) -> Array:
    """Return the tilt at which an egg in a round hole begins to swivel in its rim [rad].

    Notes
    -----
    On the rim the normals of the shell meet in one point of the axis; the egg can only swivel
    about that point, like a ball in a ring. Gravity turns it with m g e sin t, e being the
    distance of the centre of mass from the point; friction resists with mu N rho, rho being the
    radius of that ball and N = m g / cos a the rim's force, a the angle of the normals from the
    axis. Small tilts are meant (the rim's force is taken as level). Half pi where it never
    swivels.
    """
    x = hanging_depth(length, breadth, w, D, hole)
    at = profile(x, length, breadth, w, D)
    centre = mass_properties(length, breadth, w, D).centre
    ball = np.sqrt(at.squared + at.slope**2)
    # cos a is -slope/ball: the normal leans outward and down below the greatest breadth.
    resisting = np.asarray(friction, float) * ball**2 / -at.slope
    turning = np.abs(x + at.slope - centre)
    holds = resisting >= turning
    sine = np.where(holds, 1.0, resisting / np.where(turning > 0, turning, 1.0))
    return np.asarray(np.where(np.isnan(x), np.nan, np.arcsin(sine)))


def tips_over(reach: ArrayLike, height: ArrayLike, edge: ArrayLike) -> Array:
    """Return the tilt at which an egg goes over the edge that holds it [rad].

    Parameters
    ----------
    reach : numeric
        Distance of the edge from the centre of mass, across toward the low side [m].
    height : numeric
        Centre of mass above the egg floor [m].
    edge : numeric
        Edge above the egg floor [m].

    Notes
    -----
    The egg turns about the edge as soon as its weight passes outside it: tan t = reach /
    (height - edge), the wheel before a step. Past a right angle where the edge is above the
    centre. Zero where the centre is beyond the edge already.
    """
    reach = np.asarray(reach, float)
    over = np.asarray(height, float) - np.asarray(edge, float)
    return np.asarray(np.where(reach > 0, np.arctan2(np.maximum(reach, 0.0), over), 0.0 * reach))


def round_reach(radius_there: ArrayLike, wall: ArrayLike) -> Array:
    """Return how far a lying round body reaches to the low side at or under the wall's top [m].

    Parameters
    ----------
    radius_there : numeric
        Radius of the body [m].
    wall : numeric
        Height of the wall above the floor [m].
    """
    R, h = np.asarray(radius_there, float), np.minimum(wall, radius_there)
    return np.asarray(np.sqrt(R**2 - (R - h) ** 2))
