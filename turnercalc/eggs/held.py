"""One egg in one seat: how high it sits, how far it reaches, what it looks like."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from turnercalc.eggs import poses
from turnercalc.eggs.holders import ACROSS, ALONG, BIG_END_UP, CELLS, HOLES, TROUGHS, Seat
from turnercalc.eggs.lot import Egg
from turnercalc.eggs.shape import outline, radius

Array = NDArray[np.float64]


def letters(egg: Egg) -> tuple[float, float, float, float | None]:
    """Return L, B, w and D of an egg, as the functions of shapes and poses take them."""
    return egg.length, egg.breadth, egg.w, egg.D


def rest_height(egg: Egg, lie: str) -> float:
    """Return the height of the centre of mass of an egg on a level floor [m]."""
    if lie == BIG_END_UP:
        return egg.centre_from_pointed
    return float(poses.lying(*letters(egg)).height)


def half_width(egg: Egg, lie: str) -> float:
    """Return half of what an egg takes up across the tilt axis [m]."""
    return egg.length / 2 if lie == ACROSS else egg.breadth / 2


def reach(egg: Egg, lie: str, wall: float) -> float:
    """Return how far an egg reaches from its centre to the wall it meets, at or under its top."""
    if lie == ALONG:
        return float(poses.round_reach(egg.breadth / 2, wall))
    if lie == BIG_END_UP:  # upright in a cup of its own shape
        place = egg.length / 2 - wall
        return egg.breadth / 2 if place <= -egg.w else float(radius(place, *letters(egg)))
    ends = [_end_reach(egg, pointed, wall) for pointed in (True, False)]
    return min(ends)  # which end lies low is chance; the one that holds less counts


def _end_reach(egg: Egg, pointed: bool, wall: float) -> float:
    u, v = _lying_across(egg, 361)
    return float(poses.farthest_below(u if pointed else -u, v, np.asarray(wall)))


def in_trough(egg: Egg, seat: Seat) -> tuple[float, float | None]:
    """Return the height of an egg's centre in its trough [m] and the tilt at which it rolls out."""
    R = egg.breadth / 2
    if seat.trough_radius is not None:
        if seat.wall is None:
            return R, None
        # It stays over the bottom of the arc until the bottom has moved to the arc's edge.
        rise = min(seat.wall / seat.trough_radius, 2.0)
        return R, math.acos(1 - rise)
    half = (seat.trough_angle or 0.0) / 2
    touches = R * math.cos(half) ** 2 / math.sin(half)
    if seat.wall is not None and seat.wall < touches:
        # The faces end below where the egg would touch them: it rests on their edges.
        across = seat.wall * math.tan(half)
        above = math.sqrt(R**2 - across**2) if across < R else math.nan
        return seat.wall + above, math.atan2(across, above)
    # It rolls up over the low face once that face is level.
    return R / math.sin(half), math.pi / 2 - half


def section(egg: Egg, seat: Seat, side: int, points: int) -> tuple[Array, Array]:
    """Return the outline of an egg in its seat as a closed polygon; see `Seating.section`."""
    if seat.lie == ALONG:
        turn = np.linspace(0, 2 * np.pi, 2 * points - 2, endpoint=False)
        R = egg.breadth / 2
        height = in_trough(egg, seat)[0] if seat.held_by == TROUGHS else R
        across, up = R * np.sin(turn), height + R * np.cos(turn)
    elif seat.lie == ACROSS:
        across, up = _lying_across(egg, points)
    else:
        return _standing_section(egg, seat, side, points)
    shift = 0.0
    if side and seat.held_by == CELLS and seat.room is not None:
        wall = math.inf if seat.wall is None else seat.wall
        shift = side * max(0.0, seat.room / 2 - reach(egg, seat.lie, wall))
    return across + shift, up


def _standing_section(egg: Egg, seat: Seat, side: int, points: int) -> tuple[Array, Array]:
    x, y = outline(*letters(egg), points=points)
    along = float(egg.solid.centre) - np.concatenate([x, x[-2:0:-1]])  # up from the centre
    out = np.concatenate([y, -y[-2:0:-1]])
    across, height, lean = 0.0, egg.centre_from_pointed, 0.0
    if seat.held_by == HOLES and seat.hole is not None:
        height = float(poses.hanging_depth(*letters(egg), seat.hole)) - float(egg.solid.centre)
    elif side and seat.held_by == CELLS and seat.room is not None:
        wall = math.inf if seat.wall is None else seat.wall
        pose = poses.standing_in_cell(*letters(egg), seat.room, wall).pose
        if not np.isnan(pose.lean):
            across, height, lean = float(pose.across), float(pose.height), float(pose.lean)
    # Leaning to the right turns the axis clockwise; to the left is its mirror image.
    u = across + along * math.sin(lean) + out * math.cos(lean)
    v = height + along * math.cos(lean) - out * math.sin(lean)
    return (-u if side < 0 else u), v


def _lying_across(egg: Egg, points: int) -> tuple[Array, Array]:
    """Return a closed outline of an egg on its side, pointed end right, about its centre."""
    x, y = outline(*letters(egg), points=points)
    lie = poses.lying(*letters(egg))
    dip = float(lie.dip)
    along = np.concatenate([x, x[-2:0:-1]]) - float(egg.solid.centre)
    up = np.concatenate([-y, y[-2:0:-1]])
    u = along * math.cos(dip) + up * math.sin(dip)
    v = -along * math.sin(dip) + up * math.cos(dip)
    return u, v + float(lie.height)
