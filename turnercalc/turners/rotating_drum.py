"""Rotating drum: shelves of eggs evenly round a level axle, fixed to it and turned with it.

Origin: the axle. q is how far the drum is turned, anticlockwise positive. At q = 0, the middle
of the swing of a drum that goes to and fro, shelf 1 stands straight above the axle; the other
shelves follow it anticlockwise.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.ingredients import Ingredients
from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.mechanics.balance import gravity_torque
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.mechanics.numeric import magnitude
from turnercalc.paths import CirclePath, Number
from turnercalc.pieces import Made
from turnercalc.sight import Sight
from turnercalc.turners.base import LoadCase, Measured, Outline
from turnercalc.turners.drum_shop import drum_made, drum_sights
from turnercalc.turners.support_rollers import RollerResistance, SupportRollers
from turnercalc.turners.wording import Wording

Array = NDArray[np.float64]

UP = 0.5 * np.pi
WORDING = Wording(
    coordinate="turn",
    moving="a full drum",
    middle="upright (shelf 1 on top)",
    high="anticlockwise of upright",
    low="clockwise of upright",
    away="turning on",
    back="turning back",
    sign="anticlockwise of upright, which is shelf 1 on top",
    falling="a one-sided drum turns by itself, heavy side down. Wedge it",
    sides=("anticlockwise", "clockwise"),
    keys=("anticlockwise", "clockwise"),
    middle_counts=False,
)
#: A drum that always goes on the same way round counts its turn anticlockwise from upright.
ONE_WAY_WORDING = replace(WORDING, away="turning anticlockwise", back="turning clockwise")


def shelf_angles(shelves: int) -> Array:
    """Return the direction of each shelf from the axle at q = 0, anticlockwise from +x [rad]."""
    return np.asarray(UP + 2.0 * np.pi * np.arange(shelves) / shelves)


@dataclass(frozen=True)
class RimWeight:
    """A weight fixed to the drum, or what is too much on one side of it.

    Attributes
    ----------
    mass, radius : float
        [kg], and its distance from the axle [m].
    shelf : float
        Towards which shelf it sits, counted from 1; 2.5 is half way between the second and the
        third.
    """

    mass: float
    radius: float
    shelf: float

    def moment(self, shelves: int) -> tuple[float, float]:
        """Return its mass moment at q = 0, right and up [kg·m]."""
        angle = UP + 2.0 * np.pi * (self.shelf - 1.0) / shelves
        size = self.mass * self.radius
        return float(size * np.cos(angle)), float(size * np.sin(angle))


@dataclass(frozen=True)
class RotatingDrum:
    """A drum with equal shelves evenly round its axle.

    Attributes
    ----------
    shelves, eggs_per_shelf : int
        Shelves round the axle, and eggs on one of them, along it.
    shelf_radius : float or ndarray
        Axle to the middle of an egg [m].
    egg_mass, egg_inertia : float
        Of one typical egg, about its own middle along the axle [kg, kg·m2].
    drum_mass, drum_inertia : float
        Of the empty drum, what is too much on one side included [kg, kg·m2].
    heavy_side : RimWeight or None
        Where the empty drum is out of balance.
    counterweight : RimWeight or None
        Added to the drum.
    axle_diameter : float
        In its bearings [m].
    bearing_count : int
        Bearings that share the load.
    friction : JointFriction
        Of the axle in its bearings.
    rollers : SupportRollers or None
        What carries the drum by its rim instead; its axle then turns in nothing.
    arm_length, arm_angle : float or ndarray
        Axle to a driven pin, and its direction at q = 0 [m, rad]; length 0: turned at the axle.
    wanted : tuple of float
        Lowest and highest coordinate of one move [rad].
    endless : bool
        Whether each move goes on where the last one ended.
    lean : float
        How far the box stands out of level, anticlockwise [rad].
    cases : tuple of LoadCase
        Every load case worth computing; their cells are eggs on each shelf.
    axle_height, origin_from_left : float or None
        Axle above the floor of the box and from its left wall [m]; None: not said.
    shapes : tuple of Outline
        The circle that the drum sweeps, and the largest eggs.
    """

    shelves: int
    eggs_per_shelf: int
    shelf_radius: Number
    egg_mass: float
    egg_inertia: float = 0.0
    drum_mass: float = 0.0
    drum_inertia: float = 0.0
    heavy_side: RimWeight | None = None
    counterweight: RimWeight | None = None
    axle_diameter: float = 0.0
    bearing_count: int = 2
    friction: JointFriction = FRICTIONLESS
    rollers: SupportRollers | None = None
    arm_length: Number = 0.0
    arm_angle: Number = 0.0
    wanted: tuple[float, float] = (-UP, UP)
    endless: bool = False
    lean: float = 0.0
    cases: tuple[LoadCase, ...] = ()
    axle_height: float | None = None
    origin_from_left: float | None = None
    shapes: tuple[Outline, ...] = ()

    coordinate_unit = "rad"
    origin_field = "drum.axle_height"
    stack = ((0.0, 0.0),)

    @property
    def wording(self) -> Wording:
        """How a drum speaks of where it is."""
        return ONE_WAY_WORDING if self.endless else WORDING

    @property
    def rests_on_pin(self) -> bool:
        """Whether a pin may be pushed: off its rollers a drum would be lifted."""
        return self.rollers is None

    @property
    def dimensions(self) -> Mapping[str, str]:
        """The arm, where there is one; nothing else decides where the drum stops."""
        armed = bool(np.any(np.asarray(self.arm_length) > 0.0))
        return MappingProxyType({"arm_length": "arm.length"} if armed else {})

    @property
    def measured(self) -> tuple[Measured, ...]:
        """The shelves' distance from the axle, and where weights sit on the drum."""
        found = [Measured("drum.shelf_radius", "marking")]
        for weight, path in (
            (self.counterweight, "drum.counterweight"),
            (self.heavy_side, "drum.empty_balance"),
        ):
            if weight is not None:
                round_about = self.shelves / (2.0 * np.pi * weight.radius)
                found += [
                    Measured(path, "weighed", "mass", "weight", per=weight.mass),
                    Measured(path, "marking", "radius", "distance"),
                    Measured(path, "marking", "shelf", "direction", round_about, "shelves"),
                ]
        return tuple(found)

    @property
    def travel(self) -> tuple[float, float]:
        """One wanted move."""
        return self.wanted

    @property
    def origin_height(self) -> float | None:
        """The axle above the floor of the box [m]."""
        return self.axle_height

    def path(self) -> CirclePath:
        """Return the path of the driven pin."""
        return CirclePath(self.arm_length, self.arm_angle)

    def path_of(self, across: ArrayLike, height: ArrayLike) -> CirclePath:
        """Return the circle of a point of the drum about the axle."""
        return CirclePath(np.hypot(across, height), np.arctan2(height, across))

    def load_cases(self) -> tuple[LoadCase, ...]:
        """Return the load cases it was built with."""
        return self.cases

    def outlines(self) -> tuple[Outline, ...]:
        """Return the circle that the drum sweeps, and the largest eggs."""
        return self.shapes

    def made(self, ingredients: Ingredients) -> Made:
        """Return the end plates, the hole of the axle, and an arm."""
        return drum_made(self, ingredients)

    def sights(self, coordinate: Array) -> tuple[Sight, ...]:
        """Return spokes, arm, counterweight and axle, as seen from the side."""
        return drum_sights(self, coordinate)

    @property
    def empty_moment(self) -> tuple[float, float]:
        """Mass moment of the empty drum with its counterweight at q = 0, right and up [kg·m]."""
        weights = [w for w in (self.heavy_side, self.counterweight) if w is not None]
        moments = [weight.moment(self.shelves) for weight in weights]
        return sum(x for x, _ in moments), sum(y for _, y in moments)

    @property
    def empty_in_shelves(self) -> tuple[float, float]:
        """The same as a share of the mass moment of one full shelf, right and up [-]."""
        shelf = self.egg_mass * self.eggs_per_shelf * float(np.asarray(self.shelf_radius))
        x, y = self.empty_moment
        return x / shelf, y / shelf

    def balancing_weight(self, radius: float) -> RimWeight:
        """Return what balances the empty drum at a distance from its axle [m], nothing else on it.

        A counterweight that is there already is left out of account: this takes its place.
        """
        x, y = self.heavy_side.moment(self.shelves) if self.heavy_side else (0.0, 0.0)
        turn = (float(np.arctan2(-y, -x)) - UP) / (2.0 * np.pi) % 1.0
        return RimWeight(float(np.hypot(x, y)) / radius, radius, 1.0 + turn * self.shelves)

    def with_cases(self, cases: tuple[LoadCase, ...]) -> RotatingDrum:
        """Return the drum with other load cases."""
        return replace(self, cases=cases)

    def mass_moment(self, cells: Array) -> tuple[Array, Array]:
        """Return the mass moment with eggs in, at q = 0, right and up, shape (L, 1, 1, 1) [kg·m].

        Parameters
        ----------
        cells : ndarray, shape (L, shelves)
            Eggs on each shelf.
        """
        angles = shelf_angles(self.shelves)
        empty_x, empty_y = self.empty_moment
        on_radius = self.egg_mass * np.asarray(self.shelf_radius)
        x = np.reshape(cells @ np.cos(angles), (-1, 1, 1, 1))
        y = np.reshape(cells @ np.sin(angles), (-1, 1, 1, 1))
        return np.asarray(on_radius * x + empty_x), np.asarray(on_radius * y + empty_y)

    def imbalance(self, cells: Array) -> Array:
        """Return the load torque with the heavy side level with the axle, shape (L,) [N·m]."""
        return np.asarray(STANDARD_GRAVITY * np.hypot(*self.mass_moment(cells)).reshape(-1))

    def weight(self, cells: Array) -> Array:
        """Return the weight that the bearings carry, shape (L, 1, 1, 1) [N]."""
        eggs = self.egg_mass * np.reshape(cells.sum(axis=-1), (-1, 1, 1, 1))
        added = self.counterweight.mass if self.counterweight else 0.0
        return np.asarray(STANDARD_GRAVITY * (self.drum_mass + added + eggs))

    def load_torque(self, cells: Array, coordinate: ArrayLike, sense: ArrayLike) -> Array:
        """Return dV/dq [N·m] of V = g (Mx sin t + My cos t), t the turn from true upright."""
        del sense  # held eggs do not shift
        turned = np.asarray(coordinate, float) + self.lean
        return gravity_torque(*self.mass_moment(cells), turned)

    def inertia(self, cells: Array, coordinate: ArrayLike) -> tuple[Array, Array]:
        """Return the inertia about the axle [kg·m2]; it does not change with the turn."""
        del coordinate
        per_egg = self.egg_mass * np.asarray(self.shelf_radius) ** 2 + self.egg_inertia
        eggs = per_egg * np.reshape(cells.sum(axis=-1), (-1, 1, 1, 1))
        added = self.counterweight
        weight = added.mass * added.radius**2 if added else 0.0
        total = np.asarray(eggs + self.drum_inertia + weight)
        return total, np.zeros_like(total)

    def resistance(
        self, cells: Array, coordinate: ArrayLike, sense: ArrayLike, levels: Sequence[str]
    ) -> JournalResistance | RollerResistance:
        """Return the friction of axle or rollers as a function of the drive's force."""
        if self.rollers is not None:
            torque = self.load_torque(cells, coordinate, sense)
            return self.rollers.resistance(self.weight(cells), self.lean, torque, sense, levels)
        return JournalResistance(
            weight=self.weight(cells),
            circle=self.friction.circle(self.axle_diameter, levels),
            count=self.bearing_count,
        )


@dataclass(frozen=True)
class JournalResistance:
    """Friction of an axle in bearings that carry a weight and the force on a driven pin.

    The bearings lie in one line and share the whole force; however they share it, the sum of
    their friction is the friction circle times the whole, as long as none is pressed the other
    way.

    Attributes
    ----------
    weight : ndarray
        [N].
    circle : ndarray
        Radius of the friction circle, r sin(atan mu) [m].
    count : int
        Bearings.
    """

    weight: Array
    circle: Array
    count: int

    def _whole(self, x: ArrayLike, y: ArrayLike) -> Array:
        return magnitude(np.asarray(x, float), self.weight - np.asarray(y, float))

    def __call__(self, x: ArrayLike, y: ArrayLike) -> Array:
        """Return the friction torque at the axle [N·m] for a force [N] on the driven pin."""
        return np.asarray(self.circle * self._whole(x, y))

    def bearing_forces(self, x: ArrayLike, y: ArrayLike) -> Mapping[str, Array]:
        """Return the force on each bearing [N], shared alike."""
        return {"axle bearings": np.asarray(self._whole(x, y) / self.count)}
