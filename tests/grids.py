"""Sliding grids in plain numbers, for tests of the core."""

import numpy as np
from hypothesis import strategies as st

from turnercalc.drives.crank_link import CrankLink
from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.tables import Range3
from turnercalc.turners.grid_loads import grid_load_cases
from turnercalc.turners.grid_parts import GridBars, MeshFloor
from turnercalc.turners.sliding_grid import SlidingGrid

NYLON = JointFriction(0.15, 0.30, 0.45, 0.55)
EXACTLY_NONE = Range3(0.0, 0.0, 0.0)


def exactly(figure: float) -> Range3:
    return Range3(figure, figure, figure)


def six_cells(**changes: object) -> SlidingGrid:
    """Return six cells of five eggs, 43.5 mm broad, on plywood, bars faced with plastic."""
    numbers: dict[str, object] = {
        "cells": 6,
        "eggs_per_cell": 5,
        "pitch": 0.054,
        "room": 0.048,
        "egg_radius": 0.02175,
        "egg_mass": 0.0583,
        "egg_inertia": 1.0e-5,
        "largest_radius": 0.02275,
        "smallest_radius": 0.0205,
        "egg_turn": np.pi,
        "grid_mass": 0.65,
        "bars": GridBars(False, 0.004, 0.034, 0.006),
        "bar_friction": Range3(0.20, 0.27, 0.40),
        "floor_friction": Range3(0.25, 0.30, 0.45),
        "rolling_arm": Range3(0.0005, 0.001, 0.002),
        "off_centre": Range3(0.0005, 0.001, 0.0015),
        "guide_friction": NYLON,
        "length": 0.33,
        "cases": grid_load_cases(6, 5),
    }
    return SlidingGrid(**(numbers | changes))  # type: ignore[arg-type]


def crank_for(grid: SlidingGrid, link: float = 0.11, **changes: object) -> CrankLink:
    """Return a crank in line with the grid's pin that gives its stroke, on the right of it."""
    numbers: dict[str, object] = {
        "crank": 0.5 * grid.stroke,
        "link": link,
        "across": link * np.cos(grid.lean),
        "height": link * np.sin(grid.lean),
        "link_mass": 0.0,
        "pin_diameter": 0.005,
        "friction": NYLON,
    }
    drive = CrankLink(**(numbers | changes))  # type: ignore[arg-type]
    return drive.assemble(grid.path())


@st.composite
def grids(draw: st.DrawFn, friction: bool = True) -> SlidingGrid:
    """Return grids of any size, floor, lean, friction and filling."""
    radius = draw(st.floats(0.012, 0.04))
    mu = draw(st.floats(0.0, 0.5)) if friction else 0.0
    arm = draw(st.floats(0.0, 0.002)) if friction else 0.0
    e = draw(st.floats(0.0, 0.0015))
    cells, eggs = draw(st.integers(1, 8)), draw(st.integers(1, 8))
    filling = st.lists(st.integers(0, eggs), min_size=cells, max_size=cells)
    mesh = draw(st.none() | st.builds(MeshFloor, st.floats(0.004, 0.018), st.floats(0.0, 0.002)))
    guides = draw(st.floats(0.0, 0.4)) if friction else 0.0
    return six_cells(
        cells=cells,
        eggs_per_cell=eggs,
        room=2.0 * radius + draw(st.floats(0.0, 0.008)),
        egg_radius=radius,
        largest_radius=radius,
        smallest_radius=radius,
        egg_mass=draw(st.floats(0.01, 0.15)),
        egg_turn=draw(st.floats(1.0, 5.0)),
        grid_mass=draw(st.floats(0.2, 3.0)),
        bars=GridBars(),
        bar_friction=exactly(mu),
        floor_friction=exactly(np.inf),
        rolling_arm=exactly(arm),
        off_centre=exactly(e),
        guide_friction=JointFriction(0.5 * guides, guides, 1.5 * guides, 1.8 * guides)
        if guides
        else FRICTIONLESS,
        mesh=mesh,
        lean=draw(st.sampled_from([0.0, 0.0, 0.02, -0.1])),
        cases=grid_load_cases(cells, eggs, given=[("given", draw(filling))]),
    )
