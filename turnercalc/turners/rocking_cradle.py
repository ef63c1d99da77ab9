"""Rocking cradle: one tray of eggs on arc runners that roll on the floor of the box.

Origin: the point where the level runners touch the floor. q is the cradle's tilt, anticlockwise
positive: the left side goes down and the contact walks to the left by R q. The drive holds a pin
fixed to the cradle. Places are given with the cradle level.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.ingredients import Ingredients
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.mechanics.numeric import cos_sin
from turnercalc.paths import Number, Path, TrochoidPath
from turnercalc.pieces import Made
from turnercalc.sight import Sight
from turnercalc.tables import Range3
from turnercalc.turners.base import LoadCase, Outline, Resistance
from turnercalc.turners.cradle_shop import cradle_made, cradle_sights
from turnercalc.turners.rows import loose_shift
from turnercalc.turners.wording import Wording

Array = NDArray[np.float64]

NO_RESISTANCE = Range3(0.0, 0.0, 0.0)
CRADLE = Wording(moving="a full cradle")
#: What the floor's force is called among the forces on the pins.
PRESS, GRIP = "runners on the floor", "grip of the runners"


@dataclass(frozen=True)
class RockingCradle:
    """A cradle of eggs that rolls on a floor without slipping.

    Attributes
    ----------
    runner_radius : float or ndarray
        R of the arc that rolls [m].
    row_places : tuple of float
        Middle of each row right of the contact, left row first [m].
    eggs_per_row : int
        Places in one row.
    egg_mass : float
        Of one typical egg [kg].
    egg_height : float
        Middle of a held egg above the floor [m].
    cradle_mass, cradle_height : float
        The empty cradle, and where it balances above the floor [kg, m].
    pin_across, pin_height : float or ndarray
        The driven pin, right of the contact and above the floor [m].
    wanted_tilt : float
        To each side [rad].
    lean : float
        How far the box stands out of level, anticlockwise [rad].
    egg_inertia : float
        Of one egg about its own middle, along the tilt axis [kg·m2].
    egg_shift : float
        How far a loose egg's middle goes to the low side of its seat [m].
    slip_angle : float
        Tilt past level at which loose eggs change sides [rad].
    cradle_inertia : float
        Of the empty cradle about where it balances [kg·m2].
    rolling_arm : Range3
        Arm of rolling resistance of the runners on the floor [m].
    grip : Range3
        Friction coefficient of the runners on the floor, which keeps them from sliding [-].
    strapped : bool
        Whether crossed straps hold the runners to the floor, so that they roll without friction.
    runner_half_angle : float or None
        Of the arc, from its lowest point to either end, seen from its middle [rad]; None: not
        said.
    cases : tuple of LoadCase
        Every load case worth computing; cells are (1, rows).
    shapes : tuple of Outline
        Tray and largest eggs, from the contact with the cradle level. The runners are not among
        them: they are meant to touch the floor.
    origin_from_left : float or None
        The level contact from the left wall of the box [m]; None: not said.
    origin_height : float or None
        The level contact above the floor of the box [m]; None: not said.
    """

    runner_radius: Number
    row_places: tuple[float, ...]
    eggs_per_row: int
    egg_mass: float
    egg_height: float
    cradle_mass: float
    cradle_height: float
    pin_across: Number
    pin_height: Number
    wanted_tilt: float
    lean: float = 0.0
    egg_inertia: float = 0.0
    egg_shift: float = 0.0
    slip_angle: float = 0.0
    cradle_inertia: float = 0.0
    rolling_arm: Range3 = NO_RESISTANCE
    grip: Range3 = NO_RESISTANCE
    strapped: bool = False
    runner_half_angle: float | None = None
    cases: tuple[LoadCase, ...] = ()
    shapes: tuple[Outline, ...] = ()
    origin_from_left: float | None = None
    origin_height: float | None = 0.0

    coordinate_unit = "rad"
    endless = False
    rests_on_pin = True
    rolls_on_floor = True
    wording = CRADLE
    origin_field = "cradle.contact_height"
    stack = ((0.0, 0.0),)
    dimensions = MappingProxyType(
        {
            "runner_radius": "cradle.runner_radius",
            "pin_across": "pin.across",
            "pin_height": "pin.height",
        }
    )

    @property
    def travel(self) -> tuple[float, float]:
        """The wanted tilt to each side."""
        return -self.wanted_tilt, self.wanted_tilt

    def path(self) -> Path:
        """Return the path of the driven pin."""
        return self.path_of(self.pin_across, self.pin_height)

    def path_of(self, across: ArrayLike, height: ArrayLike) -> Path:
        """Return the trochoid of a point of the cradle."""
        above = np.asarray(height, float) - self.runner_radius
        return TrochoidPath(
            self.runner_radius, np.hypot(across, above), np.arctan2(above, np.asarray(across))
        )

    def made(self, ingredients: Ingredients) -> Made:
        """Return the runners, and the places of rollers."""
        return cradle_made(self, ingredients)

    def sights(self, coordinate: Array) -> tuple[Sight, ...]:
        """Return the arc of the runners and the rollers, as seen from the side."""
        return cradle_sights(self, coordinate)

    def spare_arc(self, low: float, high: float) -> tuple[float, float] | None:
        """Return what is left of the arc at the lowest and at the highest tilt [m].

        Measured along the arc, from what it stands on to its end; negative where it is too short.
        None where nobody said how long it is.
        """
        if self.runner_half_angle is None:
            return None
        radius = float(np.asarray(self.runner_radius))
        left = self.runner_half_angle - self.stands_at
        return radius * (left + low), radius * (left - high)

    @property
    def stands_at(self) -> float:
        """Direction of what it stands on, from straight below the arc's middle [rad]."""
        return 0.0

    def load_cases(self) -> tuple[LoadCase, ...]:
        """Return the load cases it was built with."""
        return self.cases

    def outlines(self) -> tuple[Outline, ...]:
        """Return the tray and the largest eggs on it."""
        return self.shapes

    def moments(self, cells: Array) -> tuple[Array, Array, Array, Array]:
        """Return mass, egg mass and first moments about the arc's middle.

        Parameters
        ----------
        cells : ndarray, shape (L, 1, rows)
            Number of eggs.

        Returns
        -------
        mass, eggs, across, height : ndarray, shape (L, 1, 1, 1)
            Mass of cradle and eggs, and of the eggs alone [kg]; M a and M (h - R) with the eggs
            in the middle of their seats [kg·m].
        """
        shape = (-1, 1, 1, 1)
        eggs = np.reshape(self.egg_mass * cells.sum(axis=(-1, -2)), shape)
        across = self.egg_mass * (cells @ np.array(self.row_places)).sum(axis=-1)
        height = self.cradle_mass * (self.cradle_height - self.runner_radius)
        height = height + eggs * (self.egg_height - self.runner_radius)
        return eggs + self.cradle_mass, eggs, np.reshape(across, shape), np.asarray(height)

    def shift(self, tilt: ArrayLike, sense: ArrayLike) -> Array:
        """Return where loose eggs lie in their seats, right is positive [m]; see `loose_shift`."""
        if not self.egg_shift:
            return np.zeros(())
        true_tilt = np.asarray(tilt, float) + self.lean
        return loose_shift(true_tilt, sense, self.egg_shift, self.slip_angle)

    def load_torque(self, cells: Array, coordinate: ArrayLike, sense: ArrayLike) -> Array:
        """Return dV/dq of cradle and eggs [N·m].

        On a level floor V = M g (R + (h - R) cos q + a sin q). In a box that leans by b the
        weight also does work along the floor::

            V = M g (y cos b + x sin b),    x = -R q + a cos q - (h - R) sin q
        """
        q = np.asarray(coordinate, float)
        mass, eggs, across, height = self.moments(cells)
        across = across + eggs * self.shift(q, sense)
        cos, sin = cos_sin(q)
        torque = across * cos - height * sin
        if self.lean:
            aside = -mass * self.runner_radius - across * sin - height * cos
            torque = torque * np.cos(self.lean) + aside * np.sin(self.lean)
        return np.asarray(STANDARD_GRAVITY * torque)

    def inertia(self, cells: Array, coordinate: ArrayLike) -> tuple[Array, Array]:
        """Return the inertia about the contact [kg·m2] and its slope.

        J = sum m |dp/dq|^2 + own = M R2 + 2 R (M a sin q + M (h - R) cos q) + J_arc, with J_arc
        about the arc's middle: a heavy side that comes down towards the contact moves less.
        """
        q = np.asarray(coordinate, float)
        mass, _, across, height = self.moments(cells)
        radius = np.asarray(self.runner_radius)
        cos, sin = cos_sin(q)
        inertia = (
            mass * radius**2 + 2.0 * radius * (across * sin + height * cos) + self.about_arc(cells)
        )
        slope = 2.0 * radius * (across * cos - height * sin)
        return np.asarray(inertia), np.asarray(slope)

    def about_arc(self, cells: Array) -> Array:
        """Return the inertia about the arc's middle [kg·m2], shape (L, 1, 1, 1)."""
        above = self.egg_height - np.asarray(self.runner_radius)
        count = np.reshape(cells.sum(axis=(-1, -2)), (-1, 1, 1, 1))
        aside = (cells @ np.array(self.row_places) ** 2).sum(axis=-1)
        eggs = self.egg_mass * (np.reshape(aside, (-1, 1, 1, 1)) + count * above**2)
        below = self.cradle_height - np.asarray(self.runner_radius)
        own = self.cradle_inertia + self.cradle_mass * below**2
        return np.asarray(eggs + count * self.egg_inertia + own)

    def accelerations(
        self, cells: Array, coordinate: ArrayLike, rate: ArrayLike, second: ArrayLike
    ) -> tuple[Array, Array]:
        """Return mass times the acceleration of the centre of mass (x, y) per shaft speed squared.

        `rate` and `second` are the derivatives of the coordinate by the shaft's position.
        """
        q, first, bend = (np.asarray(v, float) for v in (coordinate, rate, second))
        mass, _, across, height = self.moments(cells)
        cos, sin = cos_sin(q)
        turned_x, turned_y = across * cos - height * sin, across * sin + height * cos
        x = (-mass * self.runner_radius - turned_y) * bend - turned_x * first**2
        y = turned_x * bend - turned_y * first**2
        return np.asarray(x), np.asarray(y)

    def resistance(
        self, cells: Array, coordinate: ArrayLike, sense: ArrayLike, levels: Sequence[str]
    ) -> Resistance:
        """Return the rolling resistance of the runners as a function of the drive's force."""
        del coordinate, sense
        weight = STANDARD_GRAVITY * self.moments(cells)[0]
        return RollingResistance(
            pressing=weight * np.cos(self.lean),
            sliding=weight * np.sin(self.lean),
            arm=arms(self.rolling_arm, levels),
        )


def arms(rolling_arm: Range3, levels: Sequence[str]) -> Array:
    """Return the arm of rolling resistance at the named levels [m], shape (friction, 1, 1).

    Rolling has no stiction worth the name: from rest the high end counts.
    """
    known = {
        "none": 0.0,
        "low": rolling_arm.low,
        "middle": rolling_arm.middle,
        "high": rolling_arm.high,
        "starting": rolling_arm.high,
    }
    return np.array([known[level] for level in levels])[:, None, None]


@dataclass(frozen=True)
class RollingResistance:
    """Losses at the floor as a function of the force on the driven pin.

    Attributes
    ----------
    pressing, sliding : ndarray
        Weight square to the floor, and along it to the left [N].
    arm : ndarray
        Arm of rolling resistance [m].
    """

    pressing: Array
    sliding: Array
    arm: Array

    def floor_force(self, y: ArrayLike) -> Array:
        """Return what presses the runners on the floor [N]; negative, the drive lifts them off."""
        return np.asarray(self.pressing - np.asarray(y))

    def grip(self, x: ArrayLike) -> Array:
        """Return the friction force of the floor on the runners, right is positive [N].

        It holds what the drive and a leaning box push along the floor, the cradle at rest.
        """
        return np.asarray(self.sliding - np.asarray(x))

    def __call__(self, x: ArrayLike, y: ArrayLike) -> Array:
        """Return the moment that rolling costs [N·m]; nothing where the runners are lifted off."""
        del x
        return np.asarray(self.arm * np.maximum(self.floor_force(y), 0.0))

    def bearing_forces(self, x: ArrayLike, y: ArrayLike) -> Mapping[str, Array]:
        """Return what the floor bears and what friction holds there [N]."""
        pressed, grip = np.broadcast_arrays(self.floor_force(y), np.abs(self.grip(x)))
        return {PRESS: pressed, GRIP: grip}
