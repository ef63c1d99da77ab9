"""Sliding grid: bars slide over a floor and roll the eggs that lie in the cells between them.

Origin: the grid's driven pin with the grid in the middle between its wanted ends. q is how far
the grid has slid to the right [m]. A cell is wider than its egg by the play: at the beginning of
each stroke the grid slides alone, until the bars behind have come up to the eggs.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.ingredients import Ingredients
from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.mechanics.pushing import (
    Pushed,
    climb_angle,
    dragged,
    grid_stroke,
    mesh_rolling_radius,
    pushed,
    turn_by_grid,
)
from turnercalc.paths import LinePath
from turnercalc.pieces import Made
from turnercalc.sight import Sight
from turnercalc.tables import Range3
from turnercalc.turners.base import LoadCase, Outline
from turnercalc.turners.grid_parts import GridBars, MeshFloor, Rolling, Stroke
from turnercalc.turners.grid_shop import grid_made, grid_sights
from turnercalc.turners.wording import Wording

Array = NDArray[np.float64]

NOTHING = Range3(0.0, 0.0, 0.0)
TALL_SLATS = GridBars()
#: A floor that no egg slides on, for what is computed without friction.
ROUGH = Range3(np.inf, np.inf, np.inf)


@dataclass(frozen=True)
class SlidingGrid:
    """A grid on guides, and the eggs it rolls to and fro on a floor.

    Attributes
    ----------
    cells, eggs_per_cell : int
        Cells along the slide; eggs end to end in one cell.
    pitch : float
        From one bar to the next, middle to middle [m].
    room : float
        Clear width of a cell along the slide [m].
    egg_radius, egg_mass, egg_inertia : float
        Of the typical egg where it touches, about the axis it rolls on [m, kg, kg·m2].
    largest_radius, smallest_radius : float
        [m].
    egg_turn : float
        Wanted turn of the typical egg in one stroke [rad].
    grid_mass : float
        Of the grid without eggs [kg].
    bars : GridBars
        Where the bars touch the eggs.
    bar_friction : Range3
        Friction coefficient of an egg on a bar [-].
    floor_friction : Range3
        Friction coefficient of an egg on the floor [-].
    rolling_arm : Range3
        Arm of rolling resistance on the floor [m].
    off_centre : Range3
        Centre of mass of an egg from the axis it rolls on [m].
    mesh : MeshFloor or None
        Wires that the eggs have to climb over; None: a smooth floor.
    guide_friction : JointFriction
        What resists the grid on its guides, per newton on them [-].
    lean : float
        How far the box stands out of level, anticlockwise: the floor rises to the right [rad].
    pin_across, pin_height : float
        The driven pin right of the grid's middle and above the floor the eggs lie on [m].
    length : float
        Of the grid along the slide [m].
    floor_height : float or None
        The floor the eggs lie on above the floor of the box [m]; None: not said.
    from_left_wall : float or None
        The driven pin from the left wall of the box [m]; None: not said.
    cases : tuple of LoadCase
        Every load case worth computing; cells have the shape (cell, phase), see
        `heavy_sides.PHASES`.
    """

    cells: int
    eggs_per_cell: int
    pitch: float
    room: float
    egg_radius: float
    egg_mass: float
    egg_turn: float
    grid_mass: float
    egg_inertia: float = 0.0
    largest_radius: float = 0.0
    smallest_radius: float = 0.0
    bars: GridBars = TALL_SLATS
    bar_friction: Range3 = NOTHING
    floor_friction: Range3 = ROUGH
    rolling_arm: Range3 = NOTHING
    off_centre: Range3 = NOTHING
    mesh: MeshFloor | None = None
    guide_friction: JointFriction = FRICTIONLESS
    lean: float = 0.0
    pin_across: float = 0.0
    pin_height: float = 0.0
    length: float = 0.0
    floor_height: float | None = None
    from_left_wall: float | None = None
    cases: tuple[LoadCase, ...] = ()

    coordinate_unit = "m"
    endless = False
    rests_on_pin = True
    origin_field = "floor.height"
    dimensions = MappingProxyType(dict[str, str]())
    stack = ((0.0, 0.0),)
    wording = Wording(
        coordinate="slide",
        moving="the grid",
        middle="the middle",
        from_middle=" from the middle",
        high="right of the middle",
        low="left of the middle",
        away="going out",
        back="coming back",
        sign="right of the middle",
        sides=("right", "left"),
        keys=("right_of_middle", "left_of_middle"),
        lever="upright",
        astray="presses the grid onto its guides more than it slides it",
        falls=False,
        middle_counts=False,
    )

    # --- how far it slides and what that does to the eggs ------------------------------------

    def play_of(self, radius: ArrayLike) -> Array:
        """Return how much wider a cell is than an egg of a radius [m]; never less than nothing."""
        return np.maximum(self.room - 2.0 * np.asarray(radius, float), 0.0)

    def travel_per_turn(self, radius: ArrayLike) -> Array:
        """Return how far an egg of a radius travels per radian of turn on this floor [m/rad]."""
        if self.mesh is None:
            return np.asarray(radius, float)
        return np.asarray(mesh_rolling_radius(radius, self.mesh.pitch, 0.5 * self.mesh.wire))

    @cached_property
    def play(self) -> float:
        """Play of the typical egg in its cell [m]."""
        return float(self.play_of(self.egg_radius))

    @property
    def stroke(self) -> float:
        """How far the grid has to slide for the wanted turn of the typical egg [m]."""
        per_turn = self.travel_per_turn(self.egg_radius)
        return float(grid_stroke(self.egg_turn, per_turn, self.play))

    @property
    def travel(self) -> tuple[float, float]:
        """The wanted stroke, half of it to each side."""
        return -0.5 * self.stroke, 0.5 * self.stroke

    def turns_of(self, stroke: float, play_lost: float = 0.0) -> tuple[float, float, float]:
        """Return how far one stroke turns the smallest, the typical and the largest egg [rad].

        Parameters
        ----------
        stroke : float
            From end to end [m].
        play_lost : float
            What the drive's own play takes off it [m].
        """
        radii = np.array([self.smallest_radius, self.egg_radius, self.largest_radius])
        radii = np.where(radii > 0.0, radii, self.egg_radius)
        turns = self.egg_turn_of(stroke - play_lost, 2.0 * radii)
        return float(turns[0]), float(turns[1]), float(turns[2])

    def egg_turn_of(self, move: ArrayLike, breadth: ArrayLike) -> Array:
        """Return how far a move [m] rolls an egg of a breadth [m], less the play of its cell."""
        radius = 0.5 * np.asarray(breadth, float)
        per_turn, play = self.travel_per_turn(radius), self.play_of(radius)
        return np.asarray(turn_by_grid(np.abs(move), per_turn, play))

    def egg_turn_in(self, move: float) -> float:
        """Return how far one move turns the typical egg [rad]."""
        return self.turns_of(move)[1]

    # --- what the drive meets ---------------------------------------------------------------

    @property
    def origin_height(self) -> float | None:
        """The driven pin above the floor of the box [m]."""
        return None if self.floor_height is None else self.floor_height + self.pin_height

    @property
    def origin_from_left(self) -> float | None:
        """The driven pin from the left wall of the box [m]."""
        return self.from_left_wall

    def path(self) -> LinePath:
        """Return the straight line of the driven pin."""
        return LinePath(0.0, 0.0, self.lean)

    def load_cases(self) -> tuple[LoadCase, ...]:
        """Return the load cases it was built with."""
        return self.cases

    def egg_places(self) -> Array:
        """Return the middle of each cell from the driven pin, left cell first [m]."""
        middle = 0.5 * (self.cells - 1)
        return np.asarray((np.arange(self.cells) - middle) * self.pitch - self.pin_across)

    def outlines(self) -> tuple[Outline, ...]:
        """Return the grid from the side, and the largest egg in every cell."""
        half, low, high = 0.5 * self.length, self.bars.bottom, min(self.bars.top, 1.0)
        frame = Outline(
            "grid",
            np.array([-half, half, half, -half]) - self.pin_across,
            np.array([low, low, high, high]) - self.pin_height,
        )
        turn = np.linspace(0.0, 2.0 * np.pi, 24, endpoint=False)
        radius = self.largest_radius or self.egg_radius
        eggs = [
            Outline(
                "egg",
                place + radius * np.cos(turn),
                radius - self.pin_height + radius * np.sin(turn),
            )
            for place in self.egg_places()
        ]
        return (frame, *eggs)

    def path_of(self, across: ArrayLike, height: ArrayLike) -> Rolling:
        """Return the way of a point: with its egg where it is on one, else with the grid."""
        x, y = np.asarray(across, float), np.asarray(height, float)
        radius = self.largest_radius or self.egg_radius
        places = self.egg_places()
        nearest = np.abs(x[..., None] - places).argmin(axis=-1)
        egg_x, egg_y = places[nearest], radius - self.pin_height
        on_egg = np.hypot(x - egg_x, y - egg_y) <= radius * (1.0 + 1e-9)
        return Rolling(
            across=np.where(on_egg, egg_x, x),
            height=np.where(on_egg, egg_y, y),
            reach=np.where(on_egg, np.hypot(x - egg_x, y - egg_y), 0.0),
            angle=np.arctan2(y - egg_y, x - egg_x),
            radius=np.where(on_egg, radius, np.inf),
            slope=self.lean,
        )

    def made(self, ingredients: Ingredients) -> Made:
        """Return the bars, their rails and the floor."""
        return grid_made(self, ingredients)

    def sights(self, coordinate: Array) -> tuple[Sight, ...]:
        """Return the bars, the floor and a mark on every egg, as seen from the side."""
        return grid_sights(self, coordinate)

    # --- the eggs ---------------------------------------------------------------------------

    @cached_property
    def runs_by_itself(self) -> bool:
        """Whether the floor leans so much that the eggs roll down it: they have no play then."""
        least = np.arctan2(self.rolling_arm.middle, self.egg_radius)
        if self.mesh is not None:
            least = np.maximum(least, self.climb(self.egg_radius))
        return bool(abs(self.lean) > least)

    def climb(self, radius: ArrayLike) -> Array:
        """Return the climb angle of an egg in its nest between two wires; 0 on a smooth floor."""
        if self.mesh is None:
            return np.zeros_like(np.asarray(radius, float))
        return np.asarray(climb_angle(radius, self.mesh.pitch, 0.5 * self.mesh.wire))

    def progress(self, coordinate: ArrayLike, sense: ArrayLike) -> Stroke:
        """Return where the eggs are at each position of a stroke.

        The ends of the stroke are the ends of the coordinates given, along the last axis.
        """
        q = np.asarray(coordinate, float)
        way = np.sign(np.asarray(sense, float))
        play = 0.0 if self.runs_by_itself else self.play
        low, high = q, q
        if q.ndim:
            low, high = (f(q, axis=-1, keepdims=True) for f in (np.nanmin, np.nanmax))
        gone = np.where(way >= 0.0, q - low, high - q)
        middle = 0.5 * (low + high)
        rolled = np.where(way >= 0.0, q - 0.5 * play, q + 0.5 * play)
        reach = np.maximum(0.5 * (high - low - play), 0.0)
        return Stroke(
            moves=np.asarray(gone >= play, float),
            rolled=np.clip(rolled, middle - reach, middle + reach),
            since=np.maximum(gone - play, 0.0),
        )

    def heavy(self, cells: Array) -> tuple[Array, Array]:
        """Return how many eggs stand in each phase, and what counts of their heavy sides.

        Both have the phase axis first: (phase, load, 1, 1, 1). Heavy sides in line add up.
        Scattered ones leave what a random walk does: n eggs count as the square root of n.
        """
        eggs = np.moveaxis(cells.sum(axis=-2), -1, 0)
        scattered = eggs[2] + eggs[3]
        share = 1.0 / np.sqrt(np.maximum(scattered, 1.0))
        sides = np.stack([np.ones_like(share), -np.ones_like(share), share, -share])
        return eggs[..., None, None, None], sides[..., None, None, None]

    def heavy_moment(self, stroke: Stroke, off_centre: ArrayLike) -> Array:
        """Return the moment of a heavy side that stands to the left half way [N·m].

        Positive turns the egg back while it rolls to the right. V = -m g e cos(p) with p how far
        the heavy side stands anticlockwise of straight down, a quarter turn clockwise half way.
        """
        turned = stroke.rolled / self.travel_per_turn(self.egg_radius)
        lift = self.egg_mass * STANDARD_GRAVITY * np.asarray(off_centre, float)
        return np.asarray(lift * np.cos(turned))

    def climbing(self, stroke: Stroke) -> Array:
        """Return how far ahead of straight below an egg the wire is that it climbs [rad].

        It climbs for half of each pitch, with the bar behind it; then it rolls down ahead of the
        bar into the next nest, and waits there: NaN, the bar does not touch it.
        """
        if self.mesh is None:
            return np.zeros_like(stroke.since)
        within = np.mod(stroke.since, self.mesh.pitch)
        big = self.egg_radius + 0.5 * self.mesh.wire
        left = 0.5 * self.mesh.pitch - within
        return np.where(left >= 0.0, np.arcsin(np.clip(left / big, -1.0, 1.0)), np.nan)

    def egg_forces(
        self, stroke: Stroke, sense: ArrayLike, sides: Array, levels: Sequence[str]
    ) -> Pushed:
        """Return the forces between grid and one egg of each phase, at friction levels.

        Axes: phase, then as everywhere. The push is the way the grid moves; an egg that the floor
        cannot turn is dragged.
        """
        way = np.sign(np.asarray(sense, float))
        arm, rub = at_levels(self.rolling_arm, levels), at_levels(self.bar_friction, levels)
        weight = self.egg_mass * STANDARD_GRAVITY
        climb = self.climbing(stroke)
        usual = self.heavy_moment(stroke, self.off_centre.middle)
        more = np.maximum(at_levels(self.off_centre, levels) - self.off_centre.middle, 0.0)
        hinders = way * sides * usual + np.abs(sides * self.heavy_moment(stroke, more))
        found = pushed(
            weight,
            self.egg_radius,
            arm,
            rub,
            self.bars.contact(self.egg_radius),
            np.nan_to_num(climb),
            self.lean * way,
            hinders,
        )
        return self._or_dragged(found, arm, levels, np.isnan(climb))

    def _or_dragged(
        self, found: Pushed, arm: Array, levels: Sequence[str], alone: NDArray[np.bool_]
    ) -> Pushed:
        """Return the forces where the floor may not grip, and nothing where the bar is alone."""
        grip = at_levels(self.floor_friction, levels)
        if "none" in levels:  # without friction it still rolls
            grip = np.where(np.reshape([w == "none" for w in levels], (-1, 1, 1)), np.inf, grip)
        slides = ~(found.grip <= grip) & np.isfinite(grip)
        weight = self.egg_mass * STANDARD_GRAVITY
        push, lift = dragged(weight, self.egg_radius, arm, np.where(np.isfinite(grip), grip, 0.0))
        return found._replace(
            push=np.where(alone, 0.0, np.where(slides, push, found.push)),
            lift=np.where(alone, 0.0, np.where(slides, lift, found.lift)),
        )

    # --- the loads on the drive ---------------------------------------------------------------

    def load_torque(self, cells: Array, coordinate: ArrayLike, sense: ArrayLike) -> Array:
        """Return the force of weight along the slide [N]: lean, wires to climb, heavy sides."""
        way = np.sign(np.asarray(sense, float))
        stroke = self.progress(coordinate, way)
        eggs, sides = self.heavy(cells)
        weight = self.egg_mass * STANDARD_GRAVITY
        climb = np.nan_to_num(self.climbing(stroke))
        uphill = weight * (np.sin(self.lean) + way * np.cos(self.lean) * np.tan(climb))
        per_turn = self.travel_per_turn(self.egg_radius)
        heavy = sides * self.heavy_moment(stroke, self.off_centre.middle) / per_turn
        moved = (eggs * (uphill + heavy)).sum(axis=0) * stroke.moves
        return np.asarray(moved + self.grid_mass * STANDARD_GRAVITY * np.sin(self.lean))

    def inertia(self, cells: Array, coordinate: ArrayLike) -> tuple[Array, Array]:
        """Return the mass that moves [kg]: the grid, and the eggs, which also turn.

        A heavy side goes fast over the top and slowly along the floor: with p how far it stands
        from the foot, an egg is m (1 + (i2 + e2)/R2 - 2 e/R cos p), i its radius of gyration.
        """
        rho, e = self.travel_per_turn(self.egg_radius), self.off_centre.middle
        per_egg = self.egg_mass + (self.egg_inertia + self.egg_mass * e**2) / rho**2
        eggs, sides = self.heavy(cells)
        turned = np.asarray(coordinate, float) / rho + self.lean
        swing = 2.0 * self.egg_mass * e / rho * (eggs * sides).sum(axis=0)
        total = self.grid_mass + eggs.sum(axis=0) * per_egg + swing * np.sin(turned)
        return np.asarray(total), np.asarray(swing * np.cos(turned) / rho)

    def resistance(
        self, cells: Array, coordinate: ArrayLike, sense: ArrayLike, levels: Sequence[str]
    ) -> GridResistance:
        """Return what the eggs cost, and the guides as a function of the drive's force."""
        way = np.sign(np.asarray(sense, float))
        stroke = self.progress(coordinate, way)
        eggs, sides = self.heavy(cells)
        one = self.egg_forces(stroke, way, sides, levels)
        # Eggs that are not in cannot jam.
        push, lift = (
            np.where(eggs * stroke.moves > 0.0, eggs * force, 0.0).sum(axis=0)
            for force in (one.push, one.lift)
        )
        weight = self.grid_mass * STANDARD_GRAVITY
        held = self.load_torque(cells, coordinate, way) - weight * np.sin(self.lean)
        return GridResistance(
            # Rounding aside, nothing is ever gained.
            by_eggs=np.maximum(push - way * held, 0.0),
            on_guides=weight * np.cos(self.lean) - lift,
            square=(-np.sin(self.lean), np.cos(self.lean)),
            friction=self.guide_friction.at(levels),
        )


def at_levels(figure: Range3, levels: Sequence[str]) -> Array:
    """Return a figure at the named levels along the friction axis; from rest as high as it gets."""
    words = {"starting": "high"}
    values = [0.0 if name == "none" else getattr(figure, words.get(name, name)) for name in levels]
    return np.array(values, float)[:, None, None]


class GridResistance:
    """The losses of a grid: what its eggs cost, and its own friction on the guides.

    Parameters
    ----------
    by_eggs : ndarray
        Push on the eggs beyond what their weight asks [N].
    on_guides : ndarray
        Force of grid and eggs on the guides, square to the floor [N]; negative: the eggs lift
        the grid, and the guides have to hold it down.
    square : tuple of float
        Unit vector square to the floor.
    friction : ndarray
        Of the guides [-].
    """

    def __init__(
        self, by_eggs: Array, on_guides: Array, square: tuple[float, float], friction: Array
    ) -> None:
        self._by_eggs = by_eggs
        self._on_guides = on_guides
        self._square = square
        self._friction = friction

    def _guides(self, x: ArrayLike, y: ArrayLike) -> Array:
        lifted = np.asarray(x) * self._square[0] + np.asarray(y) * self._square[1]
        return np.asarray(np.abs(self._on_guides - lifted))

    def __call__(self, x: ArrayLike, y: ArrayLike) -> Array:
        """Return the losses [N] for a force (x, y) on the driven pin [N]."""
        return self._by_eggs + self._friction * self._guides(x, y)

    def bearing_forces(self, x: ArrayLike, y: ArrayLike) -> Mapping[str, Array]:
        """Return the force on the guides together [N]."""
        return {"guides": self._guides(x, y)}
