"""Tilting trays: trays on pivots one above the other, joined by a tie bar on their arms.

Origin: the lowest pivot. q is the tilt of every tray, anticlockwise positive: the left side goes
down as q grows. The drive holds the arm pin of the lowest tray.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.ingredients import Ingredients
from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.mechanics.numeric import cos_sin, magnitude
from turnercalc.mechanics.settling import Values, settle
from turnercalc.paths import CirclePath, Number
from turnercalc.pieces import Made
from turnercalc.sight import Sight
from turnercalc.turners.base import LoadCase, Outline
from turnercalc.turners.rows import loose_shift
from turnercalc.turners.tray_shop import tray_sights, trays_made

Array = NDArray[np.float64]

AGREEMENT = 1e-12
#: Share of an arm's length that is no lever to speak of: the arm within 12° of the tie bar.
NO_LEVER = 0.2


@dataclass(frozen=True)
class PointMass:
    """A weight fixed to every tray, its place from the pivot with the tray level [kg, m]."""

    mass: float
    across: float
    height: float


@dataclass(frozen=True)
class Spring:
    """An extension spring from the lowest tray to the frame.

    Attributes
    ----------
    stiffness : float
        [N/m].
    free_length : float
        Between its eyes without load [m]; shorter than this it hangs slack and pulls nothing.
    across, height : float
        Its eye on the tray, from the pivot with the tray level [m].
    frame_across, frame_height : float
        Its eye on the frame, from the lowest pivot [m].
    """

    stiffness: float
    free_length: float
    across: float
    height: float
    frame_across: float
    frame_height: float

    def eye(self, tilt: ArrayLike) -> tuple[Array, Array]:
        """Return the eye on the tray, from the pivot [m]."""
        q = np.asarray(tilt, float)
        cos, sin = np.cos(q), np.sin(q)
        return self.across * cos - self.height * sin, self.across * sin + self.height * cos

    def pull(self, tilt: ArrayLike) -> tuple[Array, Array]:
        """Return the force of the spring on the tray (x, y) [N], towards the frame's eye."""
        x, y = self.eye(tilt)
        dx, dy = self.frame_across - x, self.frame_height - y
        length = np.hypot(dx, dy)
        force = self.stiffness * np.maximum(length - self.free_length, 0.0)
        return force * dx / length, force * dy / length

    def torque(self, tilt: ArrayLike) -> Array:
        """Return d(spring energy)/d(tilt) [N·m]: against the moment of its pull on the tray."""
        x, y = self.eye(tilt)
        fx, fy = self.pull(tilt)
        return np.asarray(y * fx - x * fy)


@dataclass(frozen=True)
class TiltingTrays:
    """A rack of equal trays that tilt together.

    Attributes
    ----------
    count : int
        Number of trays.
    row_places : tuple of float
        Middle of each row from the pivot with the tray level, left row first [m].
    eggs_per_row : int
        Places in one row.
    egg_mass : float
        Of one typical egg [kg].
    egg_height : float
        Middle of a held egg above the pivot, below is negative [m].
    egg_inertia : float
        Of one egg about its own middle, along the tilt axis [kg·m2].
    egg_shift : float
        How far a loose egg's middle goes to the low side of its seat [m].
    slip_angle : float
        Tilt past level at which loose eggs change sides [rad].
    tray_mass, tray_height : float
        One empty tray, and where it balances above the pivot [kg, m].
    tray_inertia : float
        Of one empty tray about its pivot [kg·m2].
    arm_length, arm_angle : float or ndarray
        The arm fixed to each tray; its direction with the tray level [m, rad].
    tie_bar_mass : float
        Of the bar that joins the arms [kg].
    pivot_diameter, tie_pin_diameter : float
        [m].
    pivot_friction, tie_friction : JointFriction
        Of the pivots and of the tie bar's pins.
    wanted_tilt : float
        To each side [rad].
    lean : float
        How far the box stands out of level, anticlockwise [rad].
    weights : tuple of PointMass
        Counterweights, on every tray.
    spring : Spring or None
        On the lowest tray.
    cases : tuple of LoadCase
        Every load case worth computing.
    pitch : float
        From pivot to pivot, one tray to the next [m].
    lowest_pivot : float or None
        Above the floor of the box [m]; None: not known.
    origin_from_left : float or None
        Pivots from the left wall of the box [m]; None: not said.
    shapes : tuple of Outline
        Tray and largest eggs, from the pivot with the tray level.
    """

    count: int
    row_places: tuple[float, ...]
    eggs_per_row: int
    egg_mass: float
    egg_height: Number
    tray_mass: float
    tray_height: float
    arm_length: Number
    arm_angle: Number
    wanted_tilt: float
    lean: float = 0.0
    egg_inertia: float = 0.0
    egg_shift: float = 0.0
    slip_angle: float = 0.0
    tray_inertia: float = 0.0
    tie_bar_mass: float = 0.0
    pivot_diameter: float = 0.0
    tie_pin_diameter: float = 0.0
    pivot_friction: JointFriction = FRICTIONLESS
    tie_friction: JointFriction = FRICTIONLESS
    weights: tuple[PointMass, ...] = ()
    spring: Spring | None = None
    cases: tuple[LoadCase, ...] = ()
    pitch: float = 0.0
    lowest_pivot: float | None = None
    origin_from_left: float | None = None
    shapes: tuple[Outline, ...] = ()

    coordinate_unit = "rad"
    endless = False
    rests_on_pin = True
    origin_field = "trays.lowest_pivot"
    dimensions = MappingProxyType({"arm_length": "arm.length"})

    @property
    def travel(self) -> tuple[float, float]:
        """The wanted tilt to each side."""
        return -self.wanted_tilt, self.wanted_tilt

    def jam_hint(self, coordinate: float) -> str:
        """Return what to do where the tie bar comes into line with the arms; else nothing.

        The pivots stand one above the other, and so do the arm pins: a bar in line with the arms
        has no lever to turn the upper trays by.
        """
        lever = np.abs(np.cos(np.asarray(self.arm_angle) + coordinate))
        if self.count < 2 or lever.min() >= NO_LEVER:
            return ""
        return (
            "There the tie bar stands in line with the arms and cannot turn the upper trays. Let "
            "the arms point right or left with the trays level."
        )

    @property
    def pin_sizes(self) -> Mapping[str, tuple[float, str]]:
        """Pivots and tie-bar pins: name -> diameter [m] and the field that says it."""
        pivot = (self.pivot_diameter, "pivots.diameter")
        tie = (self.tie_pin_diameter, "tie_bar.pin_diameter")
        return {"lowest pivot": pivot, "upper pivots": pivot, "tie bar pins": tie}

    def path(self) -> CirclePath:
        """Return the path of the lowest arm pin."""
        return CirclePath(self.arm_length, self.arm_angle)

    def load_cases(self) -> tuple[LoadCase, ...]:
        """Return the load cases it was built with."""
        return self.cases

    @property
    def origin_height(self) -> float | None:
        """The lowest pivot above the floor of the box [m]."""
        return self.lowest_pivot

    @property
    def stack(self) -> tuple[tuple[float, float], ...]:
        """The pivots of the trays, one straight above the other [m]."""
        return tuple((0.0, place * self.pitch) for place in range(self.count))

    def outlines(self) -> tuple[Outline, ...]:
        """Return one tray and the largest eggs on it."""
        return self.shapes

    def path_of(self, across: ArrayLike, height: ArrayLike) -> CirclePath:
        """Return the circle of a point of the lowest tray about its pivot."""
        return CirclePath(np.hypot(across, height), np.arctan2(height, across))

    def made(self, ingredients: Ingredients) -> Made:
        """Return trays, arms and tie bar, the pivots' holes, and what joins them."""
        return trays_made(self, ingredients)

    def sights(self, coordinate: Array) -> tuple[Sight, ...]:
        """Return arms, tie bar, counterweights, spring and pivots, as seen from the side."""
        return tray_sights(self, coordinate)

    def moments(self, cells: Array) -> tuple[Array, Array, Array, Array]:
        """Return mass, egg mass and first moments of every tray, the tray axis last.

        Parameters
        ----------
        cells : ndarray, shape (L, trays, rows)
            Number of eggs.

        Returns
        -------
        mass, eggs, across, height : ndarray, shape (L, 1, 1, 1, trays)
            Mass of tray, eggs and counterweights [kg]; of the eggs alone [kg]; and the first
            moments with the eggs in the middle of their seats [kg·m].
        """
        eggs = self.egg_mass * cells.sum(axis=-1)
        mass = self.tray_mass + eggs + sum(w.mass for w in self.weights)
        across = self.egg_mass * (cells @ np.array(self.row_places))
        across = across + sum(w.mass * w.across for w in self.weights)
        height = self.tray_mass * self.tray_height + np.asarray(self.egg_height) * eggs
        height = height + sum(w.mass * w.height for w in self.weights)
        shape = (len(cells), 1, 1, 1, self.count)
        return tuple(np.reshape(m, shape) for m in (mass, eggs, across, height))  # type: ignore[return-value]

    def shift(self, tilt: ArrayLike, sense: ArrayLike) -> Array:
        """Return where loose eggs lie in their seats, right is positive [m]; see `loose_shift`."""
        if not self.egg_shift:
            return np.zeros(())
        true_tilt = np.asarray(tilt, float) + self.lean
        return loose_shift(true_tilt, sense, self.egg_shift, self.slip_angle)

    def tray_torques(self, cells: Array, tilt: ArrayLike, sense: ArrayLike) -> Array:
        """Return dV/dq of every tray on its own [N·m], the tray axis first.

        V = g (across sin t + height cos t) with t the tilt from true level, the box's own lean
        included; eggs lie as `shift` says.
        """
        t = np.asarray(tilt, float) + self.lean
        _, eggs, across, height = self.moments(cells)
        cos, sin = cos_sin(t)
        moved = self.shift(tilt, sense) * cos
        return np.stack(
            [
                STANDARD_GRAVITY
                * (across[..., i] * cos + eggs[..., i] * moved - height[..., i] * sin)
                for i in range(self.count)
            ]
        )

    def load_torque(self, cells: Array, coordinate: ArrayLike, sense: ArrayLike) -> Array:
        """Return dV/dq of trays, eggs, counterweights, tie bar and spring [N·m]."""
        q = np.asarray(coordinate, float)
        _, eggs, across, height = (m.sum(axis=-1) for m in self.moments(cells))
        arm_x, arm_y = self.path().point(0.0)
        cos, sin = cos_sin(q + self.lean if self.lean else q)
        # What no load changes is by itself: loads and designs meet in as few steps as can be.
        of_bar = self.tie_bar_mass * STANDARD_GRAVITY * (arm_x * cos - arm_y * sin)
        torque = (STANDARD_GRAVITY * across) * cos - (STANDARD_GRAVITY * height) * sin + of_bar
        if self.egg_shift:
            torque = torque + (STANDARD_GRAVITY * eggs) * (self.shift(q, sense) * cos)
        if self.spring is not None:
            torque = torque + self.spring.torque(q)
        return np.asarray(torque)

    def inertia(self, cells: Array, coordinate: ArrayLike) -> tuple[Array, Array]:
        """Return the inertia about the pivots [kg·m2]; it does not change with the tilt."""
        del coordinate
        per_row = np.array(self.row_places) ** 2 + np.asarray(self.egg_height) ** 2
        eggs = (cells * (self.egg_mass * per_row + self.egg_inertia)).sum(axis=(-1, -2))
        weights = sum(w.mass * (w.across**2 + w.height**2) for w in self.weights)
        fixed = self.count * (self.tray_inertia + weights)
        bar = self.tie_bar_mass * np.asarray(self.arm_length) ** 2
        total = np.reshape(eggs, (-1, 1, 1, 1)) + fixed + bar
        return total, np.zeros_like(total)

    def resistance(
        self, cells: Array, coordinate: ArrayLike, sense: ArrayLike, levels: Sequence[str]
    ) -> TrayResistance:
        """Return the friction of pivots and tie-bar pins as a function of the drive's force."""
        q = np.asarray(coordinate, float)
        torques = self.tray_torques(cells, q, sense)
        pull: tuple[ArrayLike, ArrayLike] = (0.0, 0.0)
        if self.spring is not None:
            torques[0] = torques[0] + self.spring.torque(q)
            pull = self.spring.pull(q)
        mass = self.moments(cells)[0]
        pin_across, _ = self.path().point(q)
        return TrayResistance(
            torques=torques,
            weights=np.moveaxis(STANDARD_GRAVITY * mass, -1, 0),
            bar_weight=STANDARD_GRAVITY * self.tie_bar_mass,
            pull=pull,
            lever=np.asarray(pin_across),
            sense=np.asarray(sense, float),
            pivot_circle=self.pivot_friction.circle(self.pivot_diameter, levels),
            tie_circle=self.tie_friction.circle(self.tie_pin_diameter, levels),
        )


class TrayResistance:
    """Friction of a rack's pivots and tie-bar pins, as a function of the force on the arm pin.

    The trays stand one above the other, so the tie bar pushes along itself, straight up or down.
    Each upper tray takes from the bar what turns it; the bar gets it, and its own weight, from
    the lowest tray's pin, and the lowest tray from the drive. (Sideways forces between bar and
    trays balance each other and are taken as none.)

    Parameters
    ----------
    torques : ndarray, tray axis first
        Load torque of each tray without friction [N·m].
    weights : ndarray, tray axis first
        [N].
    bar_weight : float
        Of the tie bar [N].
    pull : tuple of array_like
        Force of the spring on the lowest tray (x, y) [N]; its pivot bears that too.
    lever : ndarray
        Arm pin across from the pivot [m].
    sense : ndarray
        Sign of dq/dt.
    pivot_circle, tie_circle : ndarray
        Radii of the friction circles [m].
    """

    def __init__(
        self,
        torques: Array,
        weights: Array,
        bar_weight: float,
        pull: tuple[ArrayLike, ArrayLike],
        lever: Array,
        sense: Array,
        pivot_circle: Array,
        tie_circle: Array,
    ) -> None:
        self._weights = weights
        self._pull_x, self._pull_y = np.asarray(pull[0]), np.asarray(pull[1])
        self._pivot_circle = pivot_circle
        self._tie_circle = tie_circle
        pushes = []
        losses: Array = np.zeros(())
        for torque, weight in zip(torques[1:], weights[1:], strict=True):
            push = self._push_on_upper_tray(torque, weight, lever, sense)
            pushes.append(push)
            losses = losses + pivot_circle * np.abs(weight - push) + tie_circle * np.abs(push)
        self._pushes = pushes
        joined = len(torques) > 1
        # What the lowest tray's pin gives the bar: all the pushes and the bar's own weight.
        self._given = (sum(pushes) if pushes else np.zeros(())) + bar_weight
        self._upper_losses = losses + (tie_circle * np.abs(self._given) if joined else 0.0)

    def _push_on_upper_tray(
        self, torque: Array, weight: Array, lever: Array, sense: Array
    ) -> Array:
        """Return the tie bar's push on one upper tray [N], up; NaN where friction jams it."""

        def drag(push: Array) -> Array:
            return self._pivot_circle * np.abs(weight - push) + self._tie_circle * np.abs(push)

        def lead_to(pushes: Values) -> Values:
            return ((torque + sense * drag(*pushes)) / lever,)

        def allowed(pushes: Values) -> Array:
            return AGREEMENT * (1.0 + np.abs(pushes[0]))

        with np.errstate(divide="ignore", invalid="ignore"):
            start = torque / lever
        (push,), agrees = settle(lead_to, (start,), allowed, np.isfinite(start))
        return np.where(agrees, push, np.nan)

    def _lowest_pivot(self, x: ArrayLike, y: ArrayLike) -> Array:
        sideways = np.asarray(x) + self._pull_x
        down = self._weights[0] + self._given - y - self._pull_y
        return magnitude(sideways, down)

    def __call__(self, x: ArrayLike, y: ArrayLike) -> Array:
        """Return the friction torque of the whole rack [N·m] for a force [N] on the arm pin."""
        return np.asarray(self._upper_losses + self._pivot_circle * self._lowest_pivot(x, y))

    def bearing_forces(self, x: ArrayLike, y: ArrayLike) -> Mapping[str, Array]:
        """Return the force on the lowest pivot, the hardest upper pivot and tie-bar pin [N]."""
        forces = {"lowest pivot": self._lowest_pivot(x, y)}
        if self._pushes:
            upper = [
                np.abs(w - push) for w, push in zip(self._weights[1:], self._pushes, strict=True)
            ]
            forces["upper pivots"] = np.maximum.reduce(np.broadcast_arrays(*upper))
            pins = [np.abs(push) for push in (*self._pushes, self._given)]
            forces["tie bar pins"] = np.maximum.reduce(np.broadcast_arrays(*pins))
        return forces
