"""Racks in plain numbers, for tests of the core."""

from itertools import product

import numpy as np
from hypothesis import strategies as st

from turnercalc.drives.crank_link import CrankLink
from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.turners.base import LoadCase
from turnercalc.turners.tilting_trays import PointMass, Spring, TiltingTrays

NYLON = JointFriction(0.15, 0.30, 0.45, 0.55)


def case(name: str, cells: object, planned: bool = True) -> LoadCase:
    return LoadCase(name, name, name, planned, np.asarray(cells, int))


def full_case(trays: int, rows: int, eggs: int) -> LoadCase:
    return case("full", np.full((trays, rows), eggs))


def every_filling(trays: int, rows: int, eggs: int) -> list[LoadCase]:
    """Return all 2^rows ways of filling whole rows, every tray alike."""
    fillings = product((0, eggs), repeat=rows)
    return [case(f"{f}", [f] * trays) for f in fillings]


def anchor_rack() -> tuple[TiltingTrays, CrankLink]:
    """Four trays of 56 eggs of 58 g, 35 mm above the pivot, on an exact 45 degree crank-rocker."""
    turner = TiltingTrays(
        count=4,
        row_places=tuple(0.05 * (np.arange(8) - 3.5)),
        eggs_per_row=7,
        egg_mass=0.058,
        egg_height=0.035,
        tray_mass=0.9,
        tray_height=0.008,
        arm_length=0.1,
        arm_angle=0.0,
        wanted_tilt=np.radians(45.0),
        cases=(full_case(4, 8, 7),),
    )
    drive = CrankLink(0.0707107, 0.2, 0.0707107, -0.2).assemble(turner.path())
    return turner, drive


def school_like_rack(
    friction: JointFriction = NYLON, **changes: object
) -> tuple[TiltingTrays, CrankLink]:
    """Three trays of six rows with a tie bar and a link that weigh something."""
    numbers: dict[str, object] = {
        "count": 3,
        "row_places": tuple(0.05 * (np.arange(6) - 2.5)),
        "eggs_per_row": 6,
        "egg_mass": 0.0583,
        "egg_height": 0.0136,
        "egg_inertia": 1.56e-5,
        "tray_mass": 0.68,
        "tray_height": -0.004,
        "tray_inertia": 0.0055,
        "arm_length": 0.07,
        "arm_angle": 0.0,
        "tie_bar_mass": 0.25,
        "pivot_diameter": 0.008,
        "tie_pin_diameter": 0.006,
        "pivot_friction": friction,
        "tie_friction": friction,
        "wanted_tilt": np.radians(45.0),
        "cases": (full_case(3, 6, 6),),
    }
    turner = TiltingTrays(**(numbers | changes))  # type: ignore[arg-type]
    drive = CrankLink(
        0.05, 0.2, 0.0495, -0.2, link_mass=0.08, pin_diameter=0.006, friction=friction
    ).assemble(turner.path())
    return turner, drive


@st.composite
def racks(draw: st.DrawFn, friction: bool = True) -> tuple[TiltingTrays, CrankLink]:
    """Return racks that close with a margin, of any balance, loading and friction."""
    arm = draw(st.floats(0.04, 0.12))
    swing = np.radians(draw(st.floats(25.0, 50.0)))
    link = arm * draw(st.floats(1.8, 4.0))
    side = draw(st.sampled_from([1.0, -1.0]))
    crank = arm * np.sin(swing)
    across = side * arm * np.cos(swing)
    height = -np.sqrt(link**2 + arm**2 - crank**2 - across**2)
    mu = draw(st.floats(0.0, 0.4)) if friction else 0.0
    level = JointFriction(0.5 * mu, mu, 1.5 * mu, 1.8 * mu)
    trays, rows, eggs = draw(st.integers(1, 4)), draw(st.integers(1, 7)), draw(st.integers(1, 8))
    counts = st.lists(
        st.lists(st.integers(0, eggs), min_size=rows, max_size=rows),
        min_size=trays,
        max_size=trays,
    )
    weights = draw(
        st.lists(
            st.builds(PointMass, st.floats(0.05, 1.0), st.floats(-0.1, 0.1), st.floats(-0.1, 0.1)),
            max_size=2,
        )
    )
    spring = draw(
        st.none()
        | st.builds(
            Spring,
            stiffness=st.floats(50.0, 500.0),
            free_length=st.floats(0.02, 0.1),
            across=st.floats(-0.1, 0.1),
            height=st.floats(-0.05, 0.05),
            frame_across=st.floats(-0.1, 0.1),
            frame_height=st.just(-0.2),
        )
    )
    turner = TiltingTrays(
        count=trays,
        row_places=tuple(0.05 * (np.arange(rows) - (rows - 1) / 2) + draw(st.floats(-0.01, 0.01))),
        eggs_per_row=eggs,
        egg_mass=draw(st.floats(0.01, 0.15)),
        egg_height=draw(st.floats(-0.05, 0.05)),
        egg_inertia=1e-5,
        egg_shift=draw(st.sampled_from([0.0, 0.002])),
        slip_angle=np.radians(15.0),
        tray_mass=draw(st.floats(0.2, 2.0)),
        tray_height=draw(st.floats(-0.03, 0.03)),
        tray_inertia=0.005,
        arm_length=arm,
        arm_angle=0.0 if side > 0 else np.pi,
        wanted_tilt=swing,
        tie_bar_mass=draw(st.floats(0.0, 0.5)),
        pivot_diameter=0.008,
        tie_pin_diameter=0.006,
        pivot_friction=level if mu else FRICTIONLESS,
        tie_friction=level if mu else FRICTIONLESS,
        weights=tuple(weights),
        spring=spring,
        cases=(full_case(trays, rows, eggs), case("given", draw(counts))),
    )
    drive = CrankLink(
        crank,
        link,
        across,
        height,
        link_mass=draw(st.floats(0.0, 0.2)),
        pin_diameter=0.006,
        friction=level if mu else FRICTIONLESS,
    )
    return turner, drive.assemble(turner.path())
