"""Where held eggs have their centre, how far they lean, and when they leave their seat.

An egg lies in one of three ways and is held by one of a few things; `seat` answers for a
whole lot: the typical egg for where the weight is, the largest for room, the smallest for staying
in.

The frame of a seat is fixed to the part that carries it: ``across`` to the right as seen from
the side the design is drawn from, ``height`` up from the egg floor when level, tilt anticlockwise
positive, so that at a positive tilt the left side is the low one. The egg floor is

* for cells, foam cups and troughs what the egg's lowest point stands on;
* for round holes the top face of the board, where the rim is.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.eggs import poses
from turnercalc.eggs.held import half_width, in_trough, letters, reach, rest_height, section
from turnercalc.eggs.holders import (
    ACROSS,
    ALONG,
    BARS,
    BIG_END_UP,
    CELLS,
    CUPS,
    FITTING,
    HOLDERS,
    HOLES,
    LIES,
    NET,
    TROUGHS,
    Seat,
    refuse,
)
from turnercalc.eggs.lot import Egg, EggLot
from turnercalc.tables import Range3

__all__ = [
    "ACROSS",
    "ALONG",
    "BIG_END_UP",
    "CELLS",
    "CUPS",
    "FITTING",
    "HOLDERS",
    "HOLES",
    "LIES",
    "NET",
    "TROUGHS",
    "Centre",
    "Seat",
    "Seating",
    "Unknown",
    "seat",
]

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Unknown:
    """What a seat leaves open: the field that would settle it, and what stays unknown."""

    field: str
    why: str


@dataclass(frozen=True)
class Centre:
    """Where one egg's centre of mass is in its seat, and how far its axis leans.

    Attributes
    ----------
    across : float
        From the middle of the seat toward its low side [m].
    height : float
        Above the egg floor [m].
    lean : float
        Of the axis from its pose in the middle, top toward the low side [rad].
    """

    across: float
    height: float
    lean: float = 0.0


@dataclass(frozen=True)
class Seating:
    """How the eggs of a lot sit.

    Attributes
    ----------
    lot : EggLot
        The eggs.
    seat : Seat
        What holds them.
    rest : Centre
        The typical egg in the middle of its seat; its ``height`` is that of the centre of mass
        above the egg floor [m].
    leaned : Centre or None
        The typical egg leaning or shifted to the low side as far as its seat lets it (``across``
        is then the shift toward that side); None where the room is unknown. Equal to `rest`
        where it is held without play.
    lean_most : float or None
        The farthest the typical egg could lean if its tip slipped over the floor too [rad];
        None where that is unknown.
    slip_angle : float
        Tilt past level beyond which a loose egg goes over to the low side [rad]: it rolls, slides
        or rocks over, whichever comes first.
    friction_tilt : Range3
        Tilt at which friction alone no longer holds the typical egg [rad], for low, middle and
        high friction: what counts where nothing else holds it.
    leaves_tilt : float or None
        Tilt at which the smallest egg leaves its seat [rad]; None where unknown.
    play : float or None
        Room of a seat beyond the largest egg [m]; negative where it is pinched.
    top, below : float
        Highest point of the largest egg above the egg floor, and how far its tip comes through
        below it [m].
    half_extent : float
        Farthest point of the largest egg from the middle of its seat, to either side [m].
    unknowns : tuple of Unknown
        What is missing for the answers that are None.
    notes : tuple of str
        What a builder should know: an egg that lies down in its cell, or falls through a hole.
    """

    lot: EggLot
    seat: Seat
    rest: Centre
    leaned: Centre | None
    lean_most: float | None
    slip_angle: float
    friction_tilt: Range3
    leaves_tilt: float | None
    play: float | None
    top: float
    below: float
    half_extent: float
    unknowns: tuple[Unknown, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def centre_height(self) -> float:
        """Centre of mass of the typical egg above the egg floor, in the middle of its seat [m]."""
        return self.rest.height

    @property
    def shift(self) -> float | None:
        """How far the typical egg's centre goes to the low side [m]; None where unknown."""
        return None if self.leaned is None else self.leaned.across

    def centre(
        self, tilt: ArrayLike, sense: ArrayLike = 0, swing: float | None = None
    ) -> tuple[Array, Array]:
        """Return where the typical egg's centre of mass is in its seat [m].

        Parameters
        ----------
        tilt : numeric
            Tilt of the seat, anticlockwise positive [rad].
        sense : numeric
            +1 where the tilt grows, -1 where it falls, 0 for a seat that was set to the tilt
            from level.
        swing : float or None
            Largest tilt either way of the whole motion [rad]. Eggs that would only shift beyond
            it never do, and stay in the middle. None for a swing that is wide enough.

        Returns
        -------
        across, height : ndarray
            Across is positive to the right, so it is negative for an egg that has gone to the
            low left side of a positive tilt.

        Notes
        -----
        A loose egg leans to the side it came from until the seat is tilted the other way by
        `slip_angle`: turning one way and turning back, it crosses over at different tilts.
        """
        tilt, sense = np.broadcast_arrays(np.asarray(tilt, float), np.asarray(sense, float))
        if self.seat.held_by == TROUGHS and self.seat.trough_radius is not None:
            arm = self.seat.trough_radius - self.lot.typical.breadth / 2
            return -arm * np.sin(tilt), self.seat.trough_radius - arm * np.cos(tilt)
        rest_height = self.rest.height
        if self.leaned is None or (swing is not None and swing <= self.slip_angle):
            return np.zeros(tilt.shape), np.full(tilt.shape, rest_height)
        side = _low_side(tilt, sense, self.slip_angle)
        across = side * self.leaned.across + 0.0  # no minus nought
        height = np.where(side == 0, rest_height, self.leaned.height)
        return across, height

    def lean(self, tilt: ArrayLike, sense: ArrayLike = 0) -> Array:
        """Return the lean of the typical egg's axis against its seat [rad], as in `centre`.

        Positive is anticlockwise, like the tilt that causes it: the egg's own tilt is the sum.
        """
        tilt, sense = np.broadcast_arrays(np.asarray(tilt, float), np.asarray(sense, float))
        if self.leaned is None:
            return np.zeros(tilt.shape)
        return -_low_side(tilt, sense, self.slip_angle) * self.leaned.lean + 0.0

    @cached_property
    def sides(self) -> tuple[int, ...]:
        """The sides an egg may lie to: left and right, or only the middle where it has no play."""
        return (0,) if self.leaned in (None, self.rest) else (-1, 1)

    @cached_property
    def largest_sections(self) -> tuple[tuple[Array, Array], ...]:
        """Outlines of the largest egg, one for each of `sides` [m]."""
        return tuple(self.section(self.lot.largest, side, points=31) for side in self.sides)

    def section(self, egg: Egg, side: int = 0, points: int = 121) -> tuple[Array, Array]:
        """Return the outline of an egg in its seat, seen along the tilt axis.

        Parameters
        ----------
        egg : Egg
            Any egg of the lot.
        side : int
            0 in the middle of its seat, -1 leaning to the left, +1 to the right.
        points : int
            Points of one half of the outline.

        Returns
        -------
        across, height : ndarray
            A closed polygon (the first point is not repeated) [m].
        """
        return section(egg, self.seat, side, points)


def _low_side(tilt: Array, sense: Array, slip_angle: float) -> Array:
    """Return the side a loose egg leans to: -1 left, +1 right, 0 in the middle."""
    turning = np.where(tilt * sense > slip_angle, -sense, sense)
    still = np.where(np.abs(tilt) > slip_angle, -np.sign(tilt), 0.0)
    return np.where(sense != 0, np.sign(turning), still)


def seat(lot: EggLot, holder: Seat) -> Seating:
    """Return how the eggs of a lot sit in their seats.

    Raises
    ------
    DesignError
        The typical egg cannot be held so at all (it falls through its hole).
    """
    makers = {
        (BIG_END_UP, CELLS): _standing_cells,
        (BIG_END_UP, HOLES): _round_holes,
        (ALONG, TROUGHS): _troughs,
    }
    return makers.get((holder.lie, holder.held_by), _lying_or_cups)(lot, holder)


def _angles(values: ArrayLike) -> Range3:
    return Range3(*(float(v) for v in np.asarray(values)))


def _sliding(mu: Range3) -> Range3:
    return _angles(np.arctan([mu.low, mu.middle, mu.high]))


def _standing_cells(lot: EggLot, seat: Seat) -> Seating:
    """Big end up on the flat floor of a cell: the egg leans on a wall, always."""
    typical, largest, smallest = lot.typical, lot.largest, lot.smallest
    unknowns, notes = [], []
    wall = math.inf if seat.wall is None else seat.wall
    leaned: Centre | None = None
    most, leaves, play, slip_angle = None, None, None, 0.0
    half_extent = largest.breadth / 2
    if seat.room is None:
        unknowns.append(Unknown("eggs.cell_room", "how far eggs lean, and whether they fit"))
    else:
        play = seat.room - largest.breadth
        stand = poses.standing_in_cell(*letters(typical), seat.room, wall)
        if np.isnan(stand.pose.lean):
            notes.append("Nothing keeps the typical egg from lying down in its cell.")
        else:
            leaned = Centre(*(float(v) for v in stand.pose))
            # It crosses over when its centre passes over the point of the floor it stands on.
            over = stand.pose.across - stand.contact
            slip_angle = max(0.0, math.atan2(float(over), float(stand.pose.height)))
            wedged = float(poses.wedged_lean(*letters(typical), seat.room, wall))
            most = None if math.isnan(wedged) else wedged
        big = poses.standing_in_cell(*letters(largest), seat.room, wall)
        if not np.isnan(big.reach):
            half_extent = float(big.reach)
        if seat.wall is not None:
            leaves = _leaves_cell(smallest, seat.room, seat.wall)
            if leaves == 0.0:
                notes.append("Nothing keeps the smallest egg from lying down in its cell.")
    if seat.wall is None:
        why = "the tilt at which eggs leave their cells; they lean here as between tall walls"
        unknowns.append(Unknown("eggs.cell_wall", why))
    return Seating(
        lot=lot,
        seat=seat,
        rest=Centre(0.0, typical.centre_from_pointed),
        leaned=leaned,
        lean_most=most,
        slip_angle=slip_angle,
        friction_tilt=_sliding(seat.mu),
        leaves_tilt=leaves,
        play=play,
        top=largest.length,
        below=0.0,
        half_extent=half_extent,
        unknowns=tuple(unknowns),
        notes=tuple(notes),
    )


def _leaves_cell(egg: Egg, room: float, wall: float) -> float:
    stand = poses.standing_in_cell(*letters(egg), room, wall)
    if np.isnan(stand.pose.lean):
        return 0.0
    return float(poses.tips_over(room / 2 - stand.pose.across, stand.pose.height, wall))


def _round_holes(lot: EggLot, seat: Seat) -> Seating:
    """Small end down in a round hole: the rim holds the egg, without play."""
    typical, largest, smallest = lot.typical, lot.largest, lot.smallest
    hole = seat.hole
    if hole is None:  # refused by Seat already; said again for the type checker
        raise refuse("eggs.hole", "", "The diameter of the holes is missing.", ('hole = "35 mm"',))
    if hole >= typical.breadth:
        message = (
            f"A typical egg, {typical.breadth * 1e3:.1f} mm broad, falls through a hole of "
            f"{hole * 1e3:.1f} mm."
        )
        raise refuse(
            "eggs.hole", f"{hole * 1e3:.1f} mm", message, ("a hole of 3/4 of the breadth or so",)
        )
    x = float(poses.hanging_depth(*letters(typical), hole))
    x_big = float(poses.hanging_depth(*letters(largest), hole))
    rest = Centre(0.0, x - float(typical.solid.centre))
    mu = seat.mu
    slip = poses.hole_slip(*letters(typical), hole, [mu.low, mu.middle, mu.high])
    notes: tuple[str, ...] = ()
    if hole >= smallest.breadth:
        leaves = 0.0
        notes = (
            f"The smallest egg, {smallest.breadth * 1e3:.1f} mm broad, falls through the hole.",
        )
    else:
        x_small = float(poses.hanging_depth(*letters(smallest), hole))
        height = x_small - float(smallest.solid.centre)
        leaves = float(poses.tips_over(hole / 2, height, 0.0))
    return Seating(
        lot=lot,
        seat=seat,
        rest=rest,
        leaned=rest,
        lean_most=0.0,
        slip_angle=0.0,
        friction_tilt=_angles(slip),
        leaves_tilt=leaves,
        play=0.0,
        top=x_big + largest.length / 2,
        below=largest.length / 2 - x_big,
        half_extent=largest.breadth / 2,
        notes=notes,
    )


def _lying_or_cups(lot: EggLot, seat: Seat) -> Seating:
    """On its side on a flat floor in a cell, or in a foam cup or a net of its own shape."""
    typical, largest, smallest = lot.typical, lot.largest, lot.smallest
    loose = seat.held_by == CELLS
    unknowns = []
    rest = Centre(0.0, rest_height(typical, seat.lie))
    play = 0.0
    leaned: Centre | None = rest
    half_extent = half_width(largest, seat.lie)
    known_play: float | None = play
    if loose and seat.room is None:
        leaned, known_play = None, None
        unknowns.append(Unknown("eggs.cell_room", "how far eggs shift, and whether they fit"))
    elif loose and seat.room is not None:
        known_play = seat.room - 2 * half_width(largest, seat.lie)
        wall = math.inf if seat.wall is None else seat.wall
        shift = max(0.0, seat.room / 2 - reach(typical, seat.lie, wall))
        leaned = Centre(shift, rest.height)
        big = max(0.0, seat.room / 2 - reach(largest, seat.lie, wall))
        half_extent += big
    leaves: float | None = None
    if seat.held_by in (NET, BARS):
        leaves = math.pi
    elif seat.wall is None:
        field, what = ("eggs.cell_wall", "cells") if loose else ("eggs.cup_depth", "cups")
        unknowns.append(Unknown(field, f"the tilt at which eggs leave their {what}"))
    else:
        leaves = float(
            poses.tips_over(
                reach(smallest, seat.lie, seat.wall), rest_height(smallest, seat.lie), seat.wall
            )
        )
    slip = _sliding(seat.mu)
    return Seating(
        lot=lot,
        seat=seat,
        rest=rest,
        leaned=leaned,
        lean_most=0.0 if leaned is not None else None,
        slip_angle=_slip_angle(typical, seat, slip) if loose else 0.0,
        friction_tilt=slip,
        leaves_tilt=leaves,
        play=known_play,
        top=largest.length if seat.lie == BIG_END_UP else largest.breadth,
        below=0.0,
        half_extent=half_extent,
        unknowns=tuple(unknowns),
    )


def _slip_angle(egg: Egg, seat: Seat, slip: Range3) -> float:
    """Return the tilt past level at which an egg on its side goes over to the low side [rad]."""
    if seat.lie == ALONG:
        return math.atan2(seat.arm.middle, egg.breadth / 2)  # it rolls
    return min(slip.middle, float(poses.rock_limit(*letters(egg))))  # it slides or tumbles


def _troughs(lot: EggLot, seat: Seat) -> Seating:
    """On its side along a trough that runs along the tilt axis: the egg rolls to its bottom."""
    typical, largest, smallest = lot.typical, lot.largest, lot.smallest
    unknowns: tuple[Unknown, ...] = ()
    radius_there = seat.trough_radius
    if radius_there is not None and radius_there < largest.breadth / 2:
        message = (
            f"The largest egg, {largest.breadth * 1e3:.1f} mm broad, does not reach the bottom of "
            f"a round trough of {radius_there * 1e3:.1f} mm radius."
        )
        wider = f'trough_radius = "{math.ceil(largest.breadth * 500 + 2)} mm"'
        raise refuse(
            "eggs.trough_radius", f"{radius_there * 1e3:.1f} mm", message, (wider, "a V trough")
        )
    height, leaves = in_trough(typical, seat)[0], in_trough(smallest, seat)[1]
    if leaves is None:
        unknowns = (Unknown("eggs.trough_depth", "the tilt at which eggs leave their troughs"),)
    rest = Centre(0.0, height)
    return Seating(
        lot=lot,
        seat=seat,
        rest=rest,
        leaned=rest,
        lean_most=0.0,
        slip_angle=0.0,
        friction_tilt=_sliding(seat.mu),
        leaves_tilt=leaves,
        play=None if radius_there is None else 2 * radius_there - largest.breadth,
        top=in_trough(largest, seat)[0] + largest.breadth / 2,
        below=0.0,
        # In a round trough an egg rolls at most to where the middle of its arc comes level.
        half_extent=largest.breadth / 2 if radius_there is None else radius_there,
        unknowns=unknowns,
    )
