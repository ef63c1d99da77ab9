"""Rolling bars: eggs lie in the nests between parallel bars that all turn the same way.

Origin: the axis of the first bar on the left. q is the rotation of the bars, anticlockwise
positive; the eggs turn against them. Nothing rises or falls but the heavy sides of lopsided eggs.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import ClassVar

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.ingredients import Ingredients
from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.mechanics.numeric import magnitude
from turnercalc.mechanics.rolling import (
    leaning_nest_forces,
    nest_angle,
    nest_height,
    nest_slip_torque,
    rolling_loss_at_bar,
)
from turnercalc.paths import CirclePath, Vector
from turnercalc.pieces import Made
from turnercalc.sight import Sight
from turnercalc.tables import Range3
from turnercalc.turners.bar_shop import bar_sights, bars_made
from turnercalc.turners.base import LoadCase, Measured, Outline
from turnercalc.turners.joining import ON_ONE_SHAFT, Joining
from turnercalc.turners.wording import Wording

Array = NDArray[np.float64]

NOTHING = Range3(0.0, 0.0, 0.0)


@dataclass(frozen=True)
class TurningAbout:
    """Points that turn about middles of their own, each at its own ratio to the coordinate.

    Attributes
    ----------
    across, height : ndarray
        The middles [m].
    radius, angle : ndarray
        Each point from its middle at q = 0 [m, rad].
    ratio : ndarray
        Rotation per unit of q [-].
    """

    across: Array
    height: Array
    radius: Array
    angle: Array
    ratio: Array
    turning: float = 1.0

    def point(self, coordinate: ArrayLike) -> Vector:
        """Return middle + radius (cos, sin)(angle + ratio q)."""
        direction = self.angle + self.ratio * np.asarray(coordinate, float)
        return (
            self.across + self.radius * np.cos(direction),
            self.height + self.radius * np.sin(direction),
        )

    def tangent(self, coordinate: ArrayLike) -> Vector:
        """Return ratio radius (-sin, cos)."""
        direction = self.angle + self.ratio * np.asarray(coordinate, float)
        speed = self.ratio * self.radius
        return -speed * np.sin(direction), speed * np.cos(direction)

    def second(self, coordinate: ArrayLike) -> Vector:
        """Return -ratio2 radius (cos, sin)."""
        direction = self.angle + self.ratio * np.asarray(coordinate, float)
        pull = self.ratio**2 * self.radius
        return -pull * np.cos(direction), -pull * np.sin(direction)


@dataclass(frozen=True)
class RollingBars:
    """Equal bars side by side, with eggs in the lanes between them.

    Attributes
    ----------
    count : int
        Number of bars; there is one lane fewer.
    pitch, bar_radius : float
        Middle of one bar to the middle of the next; radius of a bar [m].
    egg_radius, egg_mass, egg_inertia : float
        Of the typical egg where it touches, about the axis it turns on [m, kg, kg·m2].
    largest_radius : float
        Of the largest egg [m].
    egg_friction : Range3
        Sliding friction of an egg on the bars [-].
    egg_turn : float
        Wanted turn of the typical egg in one move [rad].
    bar_mass, bar_inertia : float
        Of one bar with its stub axles [kg, kg·m2].
    journal_diameter, journal_friction
        Of the two journals of each bar [m].
    rolling_arm : Range3
        Arm of rolling resistance at each contact [m].
    off_centre : Range3
        Centre of mass of an egg from the axis it turns on [m].
    joining : Joining
        How the bars drive one another.
    driven_bar : int
        Index of the bar that the motor turns, 0 at the left.
    turns_back : bool
        Whether the eggs are turned back in the next move.
    lean : float
        How far the box stands out of level, anticlockwise [rad].
    from_left_wall : float or None
        First bar from the left wall of the box [m].
    cases : tuple of LoadCase
        Every load case worth computing; cells have the shape (lane, phase), see
        `heavy_sides.PHASES`.
    """

    count: int
    pitch: float
    bar_radius: float
    egg_radius: float
    egg_mass: float
    egg_turn: float
    egg_inertia: float = 0.0
    largest_radius: float = 0.0
    egg_friction: Range3 = NOTHING
    bar_mass: float = 0.0
    bar_inertia: float = 0.0
    journal_diameter: float = 0.0
    journal_friction: JointFriction = FRICTIONLESS
    rolling_arm: Range3 = NOTHING
    off_centre: Range3 = NOTHING
    joining: Joining = ON_ONE_SHAFT
    driven_bar: int = 0
    turns_back: bool = True
    lean: float = 0.0
    from_left_wall: float | None = None
    cases: tuple[LoadCase, ...] = ()

    coordinate_unit = "rad"
    rests_on_pin = False
    endless = False
    origin_field = "bars.under_bars"
    origin_height = None
    dimensions = MappingProxyType(dict[str, str]())
    measured: ClassVar[tuple[Measured, ...]] = (
        Measured("bars.diameter", "bought"),
        Measured("bars.pitch", "marking"),
    )
    stack = ((0.0, 0.0),)
    wording: ClassVar[Wording] = Wording(
        coordinate="bar turn",
        moving="full lanes",
        middle="half way",
        high="anticlockwise of half way",
        low="clockwise of half way",
        away="going on",
        back="coming up to it",
        sign="bars anticlockwise of half way",
        sides=("anticlockwise", "clockwise"),
        keys=("anticlockwise", "clockwise"),
        falls=False,
        middle_counts=False,
        anywhere=True,
    )

    @property
    def lanes(self) -> int:
        """Lanes between the bars."""
        return self.count - 1

    @property
    def gap(self) -> float:
        """Clear width between two bars [m]."""
        return self.pitch - 2.0 * self.bar_radius

    @property
    def ratio(self) -> float:
        """Turns of the typical egg per turn of the bars, r/R."""
        return self.bar_radius / self.egg_radius

    @property
    def egg_turns(self) -> float:
        """Turn of the typical egg per turn of the bars, whatever way round [-]."""
        return self.ratio

    def egg_turn_of(self, move: ArrayLike, breadth: ArrayLike) -> Array:
        """Return how far a move of the bars [rad] turns an egg of a breadth [m], rolling on them.

        However it turns, bar and egg pass the same length of surface: R turn = r move.
        """
        return np.asarray(self.bar_radius * np.abs(move) / (0.5 * np.asarray(breadth, float)))

    def stopped_at(self, travel: tuple[float, float]) -> RollingBars:
        """Return the bars with their switches set for a bar turn, whatever that turns the eggs."""
        return replace(self, egg_turn=(travel[1] - travel[0]) * self.ratio)

    @property
    def nest(self) -> float:
        """Nest angle of the typical egg [rad]; NaN where it drops through."""
        return float(nest_angle(self.egg_radius, self.bar_radius, self.pitch))

    @property
    def travel(self) -> tuple[float, float]:
        """The bar turn that gives the typical egg its turn, half of it to each side."""
        half = 0.5 * self.egg_turn / self.ratio
        return -half, half

    @property
    def origin_from_left(self) -> float | None:
        """The first bar from the left wall of the box [m]."""
        return self.from_left_wall

    def path(self) -> CirclePath:
        """Return a pin on the axis: nothing but the shaft can be driven."""
        return CirclePath(0.0, 0.0)

    def load_cases(self) -> tuple[LoadCase, ...]:
        """Return the load cases it was built with."""
        return self.cases

    def outlines(self) -> tuple[Outline, ...]:
        """Return every bar, and the largest egg in every lane."""
        turn = np.linspace(0.0, 2.0 * np.pi, 24, endpoint=False)

        def round_about(name: str, x: float, y: float, radius: float) -> Outline:
            return Outline(name, x + radius * np.cos(turn), y + radius * np.sin(turn))

        bars = [round_about("bar", i * self.pitch, 0.0, self.bar_radius) for i in range(self.count)]
        radius, height = self._largest()
        eggs = [
            round_about("egg", (i + 0.5) * self.pitch, height, radius) for i in range(self.lanes)
        ]
        return (*bars, *eggs)

    def _largest(self) -> tuple[float, float]:
        """Return radius and nest height of the largest egg [m]."""
        radius = self.largest_radius or self.egg_radius
        return radius, float(nest_height(radius, self.bar_radius, self.pitch))

    def path_of(self, across: ArrayLike, height: ArrayLike) -> TurningAbout:
        """Return the circle of a point: of a bar where it is on one, else of the nearest egg."""
        x, y = np.asarray(across, float), np.asarray(height, float)
        bar = np.clip(np.round(x / self.pitch), 0, self.count - 1) * self.pitch
        on_bar = np.hypot(x - bar, y) <= self.bar_radius * (1.0 + 1e-9)
        lane = (np.clip(np.floor(x / self.pitch), 0, self.lanes - 1) + 0.5) * self.pitch
        radius, level = self._largest()
        middle_x, middle_y = np.where(on_bar, bar, lane), np.where(on_bar, 0.0, level)
        return TurningAbout(
            across=middle_x,
            height=middle_y,
            radius=np.hypot(x - middle_x, y - middle_y),
            angle=np.arctan2(y - middle_y, x - middle_x),
            ratio=np.where(on_bar, 1.0, -self.bar_radius / radius),
        )

    def made(self, ingredients: Ingredients) -> Made:
        """Return the bars, the holes of their journals, and the bearings."""
        return bars_made(self, ingredients)

    def sights(self, coordinate: Array) -> tuple[Sight, ...]:
        """Return a mark on every bar and egg, as seen from the side."""
        return bar_sights(self, coordinate)

    def lopsided(self, cells: Array) -> Array:
        """Return how many eggs' heavy sides hinder bars that turn anticlockwise, per lane.

        Shape (lane, load, 1, 1, 1). Heavy sides in line add up. Scattered ones leave what a
        random walk does: the root of the sum of squares, so n eggs count as sqrt(n).
        """
        left, right, some_left, some_right = np.moveaxis(cells, -1, 0)
        scattered = (some_left + some_right).sum(axis=-1, keepdims=True)
        share = 1.0 / np.sqrt(np.maximum(scattered, 1.0))
        net = (left - right) + share * (some_left - some_right)
        return np.asarray(np.moveaxis(net, -1, 0)[..., None, None, None])

    def on_bars(self, per_lane: Array) -> Array:
        """Return what every bar gets of something that two bars share, the bar axis first."""
        half = 0.5 * per_lane
        nothing = np.zeros_like(half[:1])
        return np.asarray(np.concatenate([half, nothing]) + np.concatenate([nothing, half]))

    def weights_lifted(self, cells: Array, coordinate: ArrayLike) -> Array:
        """Return the torque of the heavy sides on every bar [N·m], the bar axis first.

        V = -m g e cos(p), where p = p0 - q r/R is how far the heavy side stands anticlockwise
        of straight down; p0 is a quarter turn to the left or right, see `heavy_sides.PHASES`.
        """
        lift = self.egg_mass * STANDARD_GRAVITY * self.off_centre.middle * self.ratio
        turned = np.asarray(coordinate, float) * self.ratio
        return np.asarray(self.on_bars(lift * self.lopsided(cells) * np.cos(turned)))

    def load_torque(self, cells: Array, coordinate: ArrayLike, sense: ArrayLike) -> Array:
        """Return the torque of the eggs' heavy sides [N·m]; per motor where every bar has one."""
        del sense
        every = self.weights_lifted(cells, coordinate).sum(axis=0)
        return np.asarray(every / self.motors)

    @property
    def motors(self) -> int:
        """How many motors turn the bars."""
        return self.count if self.joining.one_each else 1

    def inertia(self, cells: Array, coordinate: ArrayLike) -> tuple[Array, Array]:
        """Return the inertia of bars and eggs at the bars [kg·m2]; it does not change."""
        del coordinate
        egg = self.egg_inertia + self.egg_mass * self.off_centre.middle**2
        eggs = cells.sum(axis=(-1, -2)) * egg * self.ratio**2
        total = np.reshape(eggs + self.count * self.bar_inertia, (-1, 1, 1, 1)) / self.motors
        return total, np.zeros_like(total)

    def contact_forces(self, cells: Array) -> tuple[Array, Array]:
        """Return the forces of each lane's eggs on its left and right bar [N], lane axis first."""
        eggs = np.moveaxis(cells.sum(axis=-1), -1, 0)[..., None, None, None]
        weight = self.egg_mass * STANDARD_GRAVITY * eggs
        return leaning_nest_forces(weight, self.nest, self.lean)

    def egg_loads(self, cells: Array) -> tuple[Array, Array]:
        """Return the force of eggs and its own weight on every bar (x, y) [N], bar axis first.

        As vectors in the frame of the bars: an inner bar bears the sideways push of both its
        lanes, which cancel, a bar at the end that of one.
        """
        to_left, to_right = self.contact_forces(cells)
        shape = (self.count, *to_left.shape[1:])
        x, y = np.zeros(shape), np.zeros(shape)
        sin, cos = np.sin(self.nest), np.cos(self.nest)
        x[:-1] -= to_left * sin
        x[1:] += to_right * sin
        y[:-1] -= to_left * cos
        y[1:] -= to_right * cos
        own = self.bar_mass * STANDARD_GRAVITY
        return x - own * np.sin(self.lean), y - own * np.cos(self.lean)

    def bar_loads(self, cells: Array) -> Array:
        """Return the force on the two journals of every bar together [N], bar axis first.

        The pull of belts is added as a vector to what eggs and its own weight do.
        """
        x, y = self.egg_loads(cells)
        pull_x, pull_y = (p.reshape(-1, 1, 1, 1, 1) for p in self.joining.pulls(self.count))
        return magnitude(x + pull_x, y + pull_y)

    def traction(self) -> float:
        """Return the grip of the bars on a typical egg over what turning it takes, at its worst.

        Two contacts resist with N f each, N = W/(2 cos A), and the heavy side with W e; slip
        begins as in `mechanics.rolling.nest_slip_torque`. Infinite where nothing resists.
        """
        cos, least = np.cos(self.nest), min(self.egg_friction.low, float(np.tan(self.nest)))
        grip = float(nest_slip_torque(1.0, self.egg_radius, self.nest, least))
        needed = float(self.rolling_arm.high / cos + self.off_centre.high)
        return grip / needed if needed > 0.0 else float("inf")

    def drag_on_bars(self, cells: Array, coordinate: ArrayLike, levels: Sequence[str]) -> Array:
        """Return what friction costs every bar by itself [N·m], the bar axis first.

        Journals, rolling at every contact, and at high friction the eggs that are more lopsided
        than usual: whatever they stand like, they are taken against the move.
        """
        journals = self.journal_friction.circle(self.journal_diameter, levels)
        drag = journals * self.bar_loads(cells)
        arm = at_levels(self.rolling_arm, levels)
        to_left, to_right = self.contact_forces(cells)
        rolling = [
            rolling_loss_at_bar(force, arm, self.egg_radius, self.bar_radius)
            for force in (to_left, to_right)
        ]
        drag = np.array(np.broadcast_arrays(drag, np.zeros_like(drag))[0])
        drag[:-1] += rolling[0]
        drag[1:] += rolling[1]
        more = np.maximum(at_levels(self.off_centre, levels) - self.off_centre.middle, 0.0)
        lift = self.egg_mass * STANDARD_GRAVITY * more * self.ratio
        heavy = lift * np.abs(self.lopsided(cells))
        turned = np.asarray(coordinate, float) * self.ratio
        return np.asarray(drag + self.on_bars(heavy * np.abs(np.cos(turned))))

    def bar_torques(
        self, cells: Array, coordinate: ArrayLike, sense: ArrayLike, levels: Sequence[str]
    ) -> Array:
        """Return what every bar for itself asks [N·m], against the move, the bar axis first."""
        drag = self.drag_on_bars(cells, coordinate, levels)
        return np.asarray(drag + np.asarray(sense, float) * self.weights_lifted(cells, coordinate))

    def share_let_through(self, levels: Sequence[str]) -> Array:
        """Return the efficiency of one belt at the named friction levels, shape (F, 1, 1)."""
        if self.joining.one_each:
            return np.ones((len(levels), 1, 1))
        shares = [getattr(self.joining.efficiency, _EFFICIENCY[level]) for level in levels]
        lossless = [1.0 if n == "none" else s for n, s in zip(levels, shares, strict=True)]
        return np.array(lossless, float)[:, None, None]

    def resistance(
        self, cells: Array, coordinate: ArrayLike, sense: ArrayLike, levels: Sequence[str]
    ) -> BarResistance:
        """Return the losses; they do not depend on any force of the drive."""
        torques = self.bar_torques(cells, coordinate, sense, levels)
        asked = self.joining.together(torques, self.driven_bar, self.share_let_through(levels))
        held = self.weights_lifted(cells, coordinate).sum(axis=0) / self.motors
        return BarResistance(asked - np.asarray(sense, float) * held, self.bar_loads(cells))


#: Which efficiency goes with a friction level: much friction, little efficiency.
_EFFICIENCY = {
    "none": "middle",
    "low": "high",
    "middle": "middle",
    "high": "low",
    "starting": "low",
}


def at_levels(figure: Range3, levels: Sequence[str]) -> Array:
    """Return a figure at the named levels along the friction axis; from rest as high as it gets."""
    words = {"starting": "high"}
    values = [0.0 if name == "none" else getattr(figure, words.get(name, name)) for name in levels]
    return np.array(values, float)[:, None, None]


class BarResistance:
    """The losses of rolling bars, and the forces on their journals.

    Parameters
    ----------
    losses : ndarray
        At the driven bar [N·m].
    loads : ndarray, bar axis first
        On both journals of a bar together [N].
    """

    def __init__(self, losses: Array, loads: Array) -> None:
        self._losses = losses
        self._loads = loads

    def __call__(self, x: ArrayLike, y: ArrayLike) -> Array:
        """Return the losses [N·m]; no drive pushes a pin of the bars."""
        del x, y
        return self._losses

    def bearing_forces(self, x: ArrayLike, y: ArrayLike) -> Mapping[str, Array]:
        """Return the force on the hardest journal of an end bar and of an inner bar [N]."""
        del x, y
        half = 0.5 * self._loads
        forces = {"end bar journal": np.maximum(half[0], half[-1])}
        if len(half) > 2:
            forces["inner bar journal"] = half[1:-1].max(axis=0)
        return forces
