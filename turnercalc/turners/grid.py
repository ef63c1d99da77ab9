"""A sliding grid: from what a design file says to what is computed."""

from __future__ import annotations

from types import MappingProxyType
from typing import Any

from turnercalc.fields import FROM_PIN
from turnercalc.ingredients import Ingredients
from turnercalc.joints import JointFriction
from turnercalc.tables import Range3
from turnercalc.turners.base import Growing, TurnerKind
from turnercalc.turners.grid_loads import grid_load_cases
from turnercalc.turners.grid_parts import GridBars, MeshFloor
from turnercalc.turners.grid_sections import (
    ACROSS_THE_SLIDE,
    RODS,
    EggFloor,
    EggsInGrid,
    Grid,
    GridLoad,
    GridTurning,
    Guides,
)
from turnercalc.turners.sliding_grid import SlidingGrid

#: Of the wheels on what they run on [m]: a hard wheel on a wooden or metal rail.
WHEEL_ARM = 0.0005


def guide_friction(guides: Any) -> JointFriction:
    """Return what resists the grid per newton on its guides.

    On wheels the axle's friction is felt at its own radius, and the wheel rolls with an arm:
    mu d/D + 2 f/D (statics of a wheel).
    """
    sliding = JointFriction.of(guides.bearing, guides.friction)
    if not guides.wheel_diameter:
        return sliding
    share, rolls = (
        guides.axle_diameter / guides.wheel_diameter,
        2.0 * WHEEL_ARM / guides.wheel_diameter,
    )
    return JointFriction(
        low=share * sliding.low + rolls,
        middle=share * sliding.middle + rolls,
        high=share * sliding.high + rolls,
        starting=share * sliding.starting + rolls,
    )


def mesh_of(floor: Any) -> MeshFloor | None:
    """Return the wires that eggs have to climb over; None where there are none."""
    if floor.mesh != ACROSS_THE_SLIDE or floor.mesh_pitch is None:
        return None
    return MeshFloor(floor.mesh_pitch, floor.wire or 0.0)


def build(ingredients: Ingredients) -> SlidingGrid:
    """Return the grid a design file tells of."""
    sections, lot = ingredients.sections, ingredients.lot
    grid, floor, eggs, box = (sections[name] for name in ("grid", "floor", "eggs", "box"))
    egg = lot.typical
    return SlidingGrid(
        cells=grid.cells,
        eggs_per_cell=grid.eggs_per_cell,
        pitch=eggs.cell_room + grid.bar_thickness,
        room=eggs.cell_room,
        egg_radius=0.5 * egg.breadth,
        egg_mass=egg.mass,
        egg_inertia=egg.inertia_long,
        largest_radius=0.5 * lot.largest.breadth,
        smallest_radius=0.5 * lot.smallest.breadth,
        egg_turn=sections["turning"].egg_turn,
        grid_mass=grid.weight,
        bars=GridBars(grid.bars == RODS, grid.bar_bottom, grid.bar_top, grid.bar_thickness),
        bar_friction=as_range(grid.bar_friction),
        floor_friction=as_range(floor.friction),
        rolling_arm=as_range(floor.rolling_arm),
        off_centre=as_range(eggs.off_centre),
        mesh=mesh_of(floor),
        guide_friction=guide_friction(sections["guides"]),
        lean=box.leans,
        pin_across=grid.pin_from_left_end - 0.5 * grid.length,
        pin_height=grid.pin_height,
        length=grid.length,
        floor_height=floor.height,
        from_left_wall=grid.from_left_wall,
        cases=grid_load_cases(
            grid.cells,
            grid.eggs_per_cell,
            planned=eggs.heavy_sides,
            given=[(load.name, load.cells) for load in ingredients.loads],
        ),
    )


def as_range(figure: Any) -> Range3:
    """Return a range that was read, as a range."""
    assert isinstance(figure, Range3)
    return figure


KIND = TurnerKind(
    id="sliding_grid",
    words=("sliding grid", "grid", "sliding frame", "egg grid"),
    starter="grid",
    says="eggs on their side on a floor, rolled to and fro by a grid of bars that slides over it",
    sections=MappingProxyType(
        {
            "eggs": EggsInGrid,
            "turning": GridTurning,
            "grid": Grid,
            "floor": EggFloor,
            "guides": Guides,
        }
    ),
    load_entry=GridLoad,
    drives=("crank_and_link", "slotted_lever", "linear_actuator"),
    build=build,
    checks=(
        "species_turned",
        "closes",
        "grid_turn",
        "grid_stroke",
        "grid_drag",
        "jam",
        "grid_bar_height",
        "grid_lift",
        "grid_mesh",
        "fit",
        "room",
        "air_gap",
        "link_to_arm",
        "push_and_pull",
        "gentleness",
        "grid_knock",
        "turns_per_day",
        "grid_stops",
        "last_day",
        "holding",
        "link_strength",
        "pin_strength",
        "jam_force",
    ),
    measured_from=FROM_PIN,
    grows=(Growing("grid.cells", "cells", "cell"),),
)
