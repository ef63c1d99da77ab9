"""A sixth way of turning, for the tests alone: a board that hangs from an axle and is swung.

It is written as any newcomer would write it, against `turners/base.py` and nothing else.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Annotated, Any

import numpy as np
from numpy.typing import ArrayLike, NDArray
from pydantic import Field

from turnercalc.fields import Count, HeightAboveFloor, Length, Mass, Name, Section
from turnercalc.ingredients import Ingredients
from turnercalc.joints import JointFriction
from turnercalc.paths import CirclePath
from turnercalc.turners.base import Growing, LoadCase, Outline, TurnerKind

Array = NDArray[np.float64]
G = 9.80665  # m/s2

TEXT = """
turnercalc = 1
name       = "A hanging board for a test"
turner     = "hanging board"
drive      = "crank and link"
drawn_from = "the door side"

[box]
width  = "600 mm"
height = "700 mm"
depth  = "400 mm"

[eggs]
kind      = "chicken"
weighed   = "12 eggs = 720 g"
typical   = "57 x 43 mm"
largest   = "61 x 46 mm"
lie       = "big end up"
held_by   = "cells"
cell_room = "48 mm"
cell_wall = "28 mm"

[turning]
tilt          = "42 deg each side"
turns_per_day = 24
last_day      = 18

[board]
hangs        = "180 mm"
rows         = 5
eggs_per_row = 6
row_spacing  = "50 mm"
empty_weight = "900 g"
axle         = "500 mm above the box floor"

[pivots]
diameter = "8 mm"
bearing  = "steel in nylon"

[crank]
radius = "60 mm"
runs   = "round and round"
across = "210 mm right of pivot"
height = "95 mm below pivot"

[link]
length       = "210 mm"
pin_diameter = "6 mm"
bearing      = "steel in nylon"

[motor]
supply     = "12 V"
stands     = "outside the box"
stopped_by = "park switch"
"""


class Board(Section):
    """[board]: the board that hangs."""

    hangs: Annotated[Length, Field(description="Axle to board", examples=["180 mm"])]
    rows: Annotated[Count, Field(description="Rows of eggs", examples=["5"])]
    eggs_per_row: Annotated[Count, Field(description="Eggs in one row", examples=["6"])]
    row_spacing: Annotated[Length, Field(description="Row to row", examples=["50 mm"])]
    empty_weight: Annotated[Mass, Field(description="Without eggs", examples=["900 g"])]
    axle: Annotated[
        HeightAboveFloor | None,
        Field(description="Its height", examples=["500 mm above the box floor"]),
    ] = None


class Axle(Section):
    """[pivots]: what it hangs on."""

    diameter: Annotated[Length, Field(description="Of the axle", examples=["8 mm"])]
    bearing: Annotated[Name, Field(description="What turns in what", examples=["steel in nylon"])]


class BoardLoad(Section):
    """[[loads]]: eggs in each row."""

    name: Annotated[Name, Field(description="What you call it", examples=["half full"])]
    rows: Annotated[list[int], Field(description="Eggs in each row", examples=["[6, 6, 0, 0, 0]"])]


@dataclass(frozen=True)
class HangingBoard:
    """A board on stiff hangers; q is its angle, anticlockwise positive, origin the axle."""

    hangs: float
    places: tuple[float, ...]
    per_row: int
    egg_mass: float
    egg_depth: float
    board_mass: float
    half_width: float
    wanted: float
    diameter: float
    friction: JointFriction
    axle: float | None
    shapes: tuple[Outline, ...]
    given: tuple[tuple[str, Sequence[int]], ...] = ()

    endless = False
    coordinate_unit = "rad"
    rests_on_pin = True
    origin_from_left = None
    origin_field = "board.axle"
    stack = ((0.0, 0.0),)
    dimensions = MappingProxyType({"hangs": "board.hangs"})

    @property
    def travel(self) -> tuple[float, float]:
        return -self.wanted, self.wanted

    @property
    def origin_height(self) -> float | None:
        return self.axle

    def path(self) -> CirclePath:
        return CirclePath(0.5 * self.hangs, -0.5 * np.pi)

    def path_of(self, across: ArrayLike, height: ArrayLike) -> CirclePath:
        return CirclePath(np.hypot(across, height), np.arctan2(height, across))

    def _masses(self, cells: Array) -> tuple[Array, Array, Array]:
        """Return mass and first moments across and up, shape (load, 1, 1, 1)."""
        eggs = self.egg_mass * cells
        mass = eggs.sum(axis=-1) + self.board_mass
        across = eggs @ np.array(self.places)
        height = -self.egg_depth * eggs.sum(axis=-1) - self.hangs * self.board_mass
        return tuple(np.reshape(m, (-1, 1, 1, 1)) for m in (mass, across, height))  # type: ignore[return-value]

    def load_torque(self, cells: Array, coordinate: ArrayLike, sense: ArrayLike) -> Array:
        del sense
        _, across, height = self._masses(cells)
        q = np.asarray(coordinate, float)
        return G * (across * np.cos(q) - height * np.sin(q))

    def inertia(self, cells: Array, coordinate: ArrayLike) -> tuple[Array, Array]:
        del coordinate
        per_row = np.array(self.places) ** 2 + self.egg_depth**2
        board = self.board_mass * (self.hangs**2 + self.half_width**2 / 3)
        total = np.reshape(self.egg_mass * (cells @ per_row) + board, (-1, 1, 1, 1))
        return total, np.zeros_like(total)

    def resistance(
        self, cells: Array, coordinate: ArrayLike, sense: ArrayLike, levels: Sequence[str]
    ) -> AxleFriction:
        del coordinate, sense
        weight = G * self._masses(cells)[0]
        return AxleFriction(weight, self.friction.circle(self.diameter, levels))

    def load_cases(self) -> tuple[LoadCase, ...]:
        full = np.full(len(self.places), self.per_row)
        half = full * (np.array(self.places) >= 0.0)
        named = [
            ("full", full),
            ("empty", 0 * full),
            ("right half", half),
            ("left half", half[::-1]),
        ]
        named += [(name, np.array(rows)) for name, rows in self.given]
        return tuple(LoadCase(n.replace(" ", "_"), n, n, True, np.asarray(c)) for n, c in named)

    def outlines(self) -> tuple[Outline, ...]:
        return self.shapes


@dataclass(frozen=True)
class AxleFriction:
    weight: Array
    circle: Array

    def __call__(self, x: ArrayLike, y: ArrayLike) -> Array:
        return np.asarray(self.circle * self.bearing_forces(x, y)["axle"])

    def bearing_forces(self, x: ArrayLike, y: ArrayLike) -> Mapping[str, Array]:
        return {"axle": np.hypot(x, self.weight - y)}


def build(ingredients: Ingredients) -> HangingBoard:
    sections: Mapping[str, Any] = ingredients.sections
    board, axle = sections["board"], sections["pivots"]
    middle = (board.rows - 1) / 2
    places = tuple(float(board.row_spacing * (i - middle)) for i in range(board.rows))
    half = 0.5 * board.rows * board.row_spacing
    eggs = [
        Outline("egg", place + across, height - board.hangs)
        for across, height in ingredients.seating.largest_sections
        for place in places
    ]
    flat = np.array([-half, half, half, -half])
    wood = Outline("board", flat, np.array([-0.012, -0.012, 0.0, 0.0]) - board.hangs)
    lying = ingredients.seating.leaned or ingredients.seating.rest
    return HangingBoard(
        hangs=board.hangs,
        places=places,
        per_row=board.eggs_per_row,
        egg_mass=ingredients.lot.typical.mass,
        egg_depth=board.hangs - lying.height,
        board_mass=board.empty_weight,
        half_width=half,
        wanted=sections["turning"].tilt,
        diameter=axle.diameter,
        friction=JointFriction(0.15, 0.30, 0.45, 0.55),
        axle=board.axle,
        shapes=(wood, *eggs),
        given=tuple((load.name, load.rows) for load in ingredients.loads),
    )


KIND = TurnerKind(
    id="hanging_board",
    words=("hanging board", "hanging"),
    starter="board",
    says="a board that hangs from an axle and is swung to both sides",
    sections=MappingProxyType({"board": Board, "pivots": Axle}),
    load_entry=BoardLoad,
    drives=("crank_and_link", "slotted_lever", "linear_actuator", "turning_shaft"),
    build=build,
    checks=("species_turned", "closes", "jam", "tilt", "tilt_ends", "as_built", "room", "holding"),
    grows=(Growing("board.rows", "rows", "row"),),
)
