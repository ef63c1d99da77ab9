"""The bare numbers of single moving parts and their drives, for the outside opinions.

As `rack_numbers.py`: nothing here calculates, everything is SI, x right, y up, angles
anticlockwise positive. The origin is the pivot of a tray or the axle of a drum, the level
contact point of a cradle, the place of the grid's pin at q = 0, the axis of the first bar.
"""

from __future__ import annotations

from dataclasses import dataclass

from .rack_numbers import CrankLink, PointMass

__all__ = [
    "Actuator",
    "Bars",
    "CrankLink",
    "Drive",
    "EggOnBars",
    "Grid",
    "Part",
    "PointMass",
    "Rocker",
    "RollingEgg",
    "Shaft",
    "SlottedLever",
    "Swing",
]


@dataclass(frozen=True)
class Swing:
    """A tray on its pivot or a drum on its axle, with a pin at (pin_x, pin_y) for q = 0."""

    masses: tuple[PointMass, ...]
    pin_x: float = 0.0
    pin_y: float = 0.0


@dataclass(frozen=True)
class Rocker:
    """A cradle on arc runners that roll on a level floor; places from the level contact point.

    As q grows the left side goes down and the arc's middle moves left by runner_radius * q.
    """

    runner_radius: float
    masses: tuple[PointMass, ...]
    pin_x: float = 0.0
    pin_y: float = 0.0


@dataclass(frozen=True)
class RollingEgg:
    """An egg that rolls about its long axis.

    `inertia` is about the axis through its centre of mass [kg m2]; the centre of mass is
    `off_centre` from the axis it rolls on, and stands at `heavy_side` from straight down,
    anticlockwise, at q = 0 [m, rad].
    """

    mass: float
    radius: float
    inertia: float = 0.0
    off_centre: float = 0.0
    heavy_side: float = 0.0


@dataclass(frozen=True)
class Grid:
    """A grid that slides along a floor and rolls eggs before it.

    The floor rises to the right by `slope` [rad]; q is the distance along it [m].
    """

    mass: float
    eggs: tuple[RollingEgg, ...] = ()
    slope: float = 0.0


@dataclass(frozen=True)
class EggOnBars:
    """An egg in the nest between bar `lane` and the next."""

    egg: RollingEgg
    lane: int


@dataclass(frozen=True)
class Bars:
    """Equal bars side by side, all turning the same way at one speed; q is the bars' angle."""

    count: int
    radius: float
    spacing: float
    inertia: float
    eggs: tuple[EggOnBars, ...]


@dataclass(frozen=True)
class SlottedLever:
    """A crank whose pin slides in a straight slot of the moving part.

    The slot runs through (slot_x, slot_y) of the part at q = 0 in the direction `slot_angle`;
    the crank pin is on that side of the point to which the direction shows.
    """

    radius: float
    shaft_x: float
    shaft_y: float
    slot_x: float
    slot_y: float
    slot_angle: float


@dataclass(frozen=True)
class Actuator:
    """A weightless linear actuator from a fixed eye to the part's pin; its length drives.

    `push_sense` is +1 where growing longer drives q up, -1 where it drives it down.
    """

    fixed_x: float
    fixed_y: float
    push_sense: int


@dataclass(frozen=True)
class Shaft:
    """The driving shaft is the part's own axle."""


Part = Swing | Rocker | Grid
Drive = CrankLink | SlottedLever | Actuator | Shaft
