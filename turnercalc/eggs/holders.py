"""What holds one egg, and the words for it.

The egg floor, from which all heights of a seat are measured, is

* for cells, foam cups and troughs what the egg's lowest point stands on;
* for round holes the top face of the board, where the rim is.
"""

from __future__ import annotations

from dataclasses import dataclass

from turnercalc.errors import Complaint, DesignError
from turnercalc.tables import Range3, table

BIG_END_UP = "big end up"
ALONG = "on the side, along the axis"
ACROSS = "on the side, across"
LIES = (BIG_END_UP, ALONG, ACROSS)

CELLS = "cells"
HOLES = "round holes"
CUPS = "foam cups"
TROUGHS = "troughs"
NET = "foam and net"
#: Bars that turn hold an egg between them; no tray does that, so it is none of `HOLDERS`.
BARS = "bars"
HOLDERS = (CELLS, HOLES, CUPS, TROUGHS, NET)

# What holds an egg that lies in one way; the first is the one to propose.
FITTING = {
    BIG_END_UP: (CELLS, HOLES, CUPS, NET),
    ALONG: (CELLS, CUPS, TROUGHS, NET),
    ACROSS: (CELLS, CUPS, NET),
}


def _usual_friction() -> Range3:
    row = table("egg_friction").row("any surface")
    return Range3(row.number("low"), row.number("middle"), row.number("high"))


def _usual_rolling_arm() -> Range3:
    row = table("egg_friction").row("any surface")
    return Range3(*(row.si(f"rolling_arm_{level}") for level in ("low", "middle", "high")))


@dataclass(frozen=True)
class Seat:
    """What holds one egg, as the builder measured it.

    Attributes
    ----------
    lie : str
        One of `LIES`.
    held_by : str
        One of `HOLDERS`.
    room : float or None
        Clear width of a cell across the tilt axis [m].
    wall : float or None
        Height above the egg floor of a cell's wall, of the rim of a foam cup (its depth) or of a
        trough's edges [m].
    hole : float or None
        Diameter of a round hole [m].
    trough_angle : float or None
        Opening angle between the faces of a V-shaped trough [rad].
    trough_radius : float or None
        Radius of a round trough [m].
    friction : Range3
        Friction coefficient of the egg on what carries it [-].
    rolling_arm : Range3
        Arm of rolling resistance of the egg [m].

    Raises
    ------
    DesignError
        The egg cannot be held so, or a size that decides its height is missing. The complaint
        carries the field path and what would be accepted.
    """

    lie: str
    held_by: str
    room: float | None = None
    wall: float | None = None
    hole: float | None = None
    trough_angle: float | None = None
    trough_radius: float | None = None
    friction: Range3 | None = None
    rolling_arm: Range3 | None = None

    def __post_init__(self) -> None:
        _check_seat(self)

    @property
    def mu(self) -> Range3:
        """Friction of the egg, with the usual range where none was given."""
        return self.friction or _usual_friction()

    @property
    def arm(self) -> Range3:
        """Rolling arm of the egg [m], with the usual range where none was given."""
        return self.rolling_arm or _usual_rolling_arm()


def _check_seat(seat: Seat) -> None:
    if seat.lie not in LIES:
        raise refuse("eggs.lie", seat.lie, "Nobody lays eggs down like that.", LIES)
    fitting = FITTING[seat.lie]
    if (seat.lie, seat.held_by) == (ALONG, BARS):
        return
    if seat.held_by not in HOLDERS:
        raise refuse("eggs.held_by", seat.held_by, "Nothing is known of such a seat.", fitting)
    if seat.held_by not in fitting:
        message = (
            f"{seat.held_by.capitalize()} do not hold an egg that lies {seat.lie}."
            if seat.lie != BIG_END_UP
            else "Troughs hold eggs that lie along them, not eggs with the big end up."
        )
        raise refuse("eggs.held_by", seat.held_by, message, fitting)
    if seat.held_by == HOLES and seat.hole is None:
        raise refuse(
            "eggs.hole",
            "",
            "How high an egg stands in a round hole depends on the hole; it is never guessed.",
            ('hole = "35 mm"',),
        )
    if seat.held_by == TROUGHS and seat.trough_angle is None and seat.trough_radius is None:
        raise refuse(
            "eggs.trough_angle",
            "",
            "A trough is a V with an angle between its faces, or round with a radius.",
            ('trough_angle = "80 deg"', 'trough_radius = "30 mm"'),
        )


def refuse(path: str, read: str, message: str, accepted: tuple[str, ...]) -> DesignError:
    """Return the error that tells a builder what a field of the eggs needs."""
    text = f"{message} Accepted: {', '.join(accepted)}."
    return DesignError(text, complaints=(Complaint(None, path, read, message, accepted),))
