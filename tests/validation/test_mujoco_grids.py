"""Sliding grids against the MuJoCo physics engine, their eggs really rolling.

Authority: MuJoCo (Todorov, Erez and Tassa 2012), used as `mujoco_turners.py` says (exact
positions, inverse dynamics, rolling taken for granted) and as `mujoco_contacts.py` says (contacts
with Coulomb friction and rolling resistance, left to find everything else by themselves). Wanted:
motion to 1e-5 m and frictionless force to 1e-3 of its peak; both agree far better, so the limits
here are tighter. With friction the engine and the balance of forces have to agree within 3 %.
"""

from __future__ import annotations

from dataclasses import replace
from math import asin, pi, radians

import numpy as np
import pytest

from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.drives import crank_link, linear_actuator, slotted_lever
from turnercalc.drives.base import Drive as PackageDrive
from turnercalc.joints import FRICTIONLESS
from turnercalc.mechanics.pushing import dragged, mesh_drop, pushed
from turnercalc.tables import Range3
from turnercalc.turners.base import LoadCase
from turnercalc.turners.grid_parts import MeshFloor
from turnercalc.turners.sliding_grid import SlidingGrid

from .mujoco_contacts import egg_before_a_rubbing_bar, egg_over_wires, egg_roll_by_grid
from .mujoco_turners import turner_cycle
from .turner_examples import EXAMPLES, ROUND
from .turner_numbers import Actuator, CrankLink, Drive, Grid, RollingEgg, SlottedLever

GRAVITY = 9.80665  # [m/s2], standard gravity (CGPM 1901)
STEPS = 72
OFF_CENTRE = 0.0012


def egg(side_deg: float) -> RollingEgg:
    """An egg whose heavy side stands so far anticlockwise of straight down half way."""
    return RollingEgg(0.058, 0.0215, 1.1e-5, OFF_CENTRE, radians(side_deg))


LEFT, RIGHT = egg(-90.0), egg(90.0)
UPHILL = Grid(0.45, (LEFT, LEFT, RIGHT), slope=radians(1.5))
DOWNHILL = Grid(0.80, (RIGHT, RIGHT, RIGHT, LEFT, LEFT), slope=radians(-2.0))
LEVEL = Grid(0.30, (LEFT, LEFT))

GRIDS: dict[str, tuple[Grid, Drive, tuple[float, float]]] = {
    "crank in line": (LEVEL, CrankLink(0.0365, -0.110, 0.0, 0.110, +1, 0.04), ROUND),
    "crank above, uphill": (UPHILL, CrankLink(0.035, -0.20, 0.03, 0.20, +1, 0.05), ROUND),
    "crank below, on the right": (DOWNHILL, CrankLink(0.03, 0.16, -0.04, 0.16, -1, 0.06), ROUND),
    # A slot square to the slide stands to one side only, so it starts below everything.
    "scotch yoke": (UPHILL, SlottedLever(0.035, 0.0, -0.10, 0.0, -0.2, pi / 2), ROUND),
    "actuator": (DOWNHILL, Actuator(-0.30, 0.01, +1), (0.26, 0.34)),
}


def package_grid(part: Grid) -> tuple[SlidingGrid, LoadCase]:
    """The package's grid and load for bare numbers: no play, heavy sides to left and right."""
    one = part.eggs[0]
    counts = [sum(e.heavy_side < 0 for e in part.eggs), sum(e.heavy_side > 0 for e in part.eggs)]
    grid = SlidingGrid(
        cells=1,
        eggs_per_cell=len(part.eggs),
        pitch=0.05,
        room=2.0 * one.radius,
        egg_radius=one.radius,
        egg_mass=one.mass,
        egg_inertia=one.inertia,
        egg_turn=np.pi,
        grid_mass=part.mass,
        off_centre=Range3(OFF_CENTRE, OFF_CENTRE, OFF_CENTRE),
        lean=part.slope,
    )
    cells = np.array([[*counts, 0, 0]])
    return grid, LoadCase("as_given", "as given", "as_given", True, cells)


def package_drive(part: Grid, drive: Drive) -> PackageDrive:
    """The package's drive for bare numbers."""
    if isinstance(drive, CrankLink):
        return crank_link.CrankLink(
            drive.radius,
            drive.length,
            drive.shaft_x,
            drive.shaft_y,
            branch=float(drive.push_sense),
            link_mass=drive.link_mass,
        )
    if isinstance(drive, SlottedLever):
        # Our slot is square to the slide, theirs upright: it leans against ours by the slope. It
        # passes through the pin, from wherever it starts below.
        assert (drive.slot_x, drive.slot_angle) == (0.0, pi / 2)
        return slotted_lever.SlottedLever(
            drive.radius, drive.shaft_x, drive.shaft_y, angle=-part.slope
        )
    assert isinstance(drive, Actuator)
    return linear_actuator.LinearActuator(
        shortest=0.2,
        stroke=0.2,
        across=drive.fixed_x,
        height=drive.fixed_y,
        branch=float(drive.push_sense),
    )


def positions(drive: Drive, travel: tuple[float, float]) -> np.ndarray:
    """Positions as the engine takes them: angles, or eye to eye."""
    return np.linspace(*travel, STEPS, endpoint=isinstance(drive, Actuator))


def package_cycle(part: Grid, drive: Drive, at: np.ndarray) -> TurnCycle:
    """The package's turn cycle of the same numbers."""
    grid, load = package_grid(part)
    ours = at - 0.2 if isinstance(drive, Actuator) else at
    return turn_cycle(grid, package_drive(part, drive), [load], levels=("none",), positions=ours)


@pytest.mark.parametrize("name", GRIDS)
def test_slide_and_its_rates(name: str) -> None:
    part, drive, travel = GRIDS[name]
    at = positions(drive, travel)
    engine, motion = turner_cycle(part, drive, at), package_cycle(part, drive, at).motion
    assert np.isfinite(engine.q).all()
    assert np.ptp(engine.q) > 0.05
    assert motion.coordinate == pytest.approx(engine.q, abs=1e-10)  # [m]
    assert motion.rate == pytest.approx(engine.dq, abs=1e-9)
    assert motion.second == pytest.approx(engine.ddq, abs=1e-8)


@pytest.mark.parametrize("name", GRIDS)
def test_frictionless_force_or_torque(name: str) -> None:
    part, drive, travel = GRIDS[name]
    at = positions(drive, travel)
    engine = turner_cycle(part, drive, at)
    ours = package_cycle(part, drive, at).shaft_torque[0, 0]
    limit = 1e-6 * np.abs(engine.force).max()
    assert np.abs(engine.force).max() > 1e-3
    assert ours[0] == pytest.approx(engine.force, abs=limit)
    assert ours[1] == pytest.approx(-engine.force, abs=limit)


@pytest.mark.parametrize("speed", [6.0, -6.0])
@pytest.mark.parametrize("name", GRIDS)
def test_at_speed_the_eggs_have_to_be_set_turning(name: str, speed: float) -> None:
    # 57 rpm, far too fast for eggs, so that mass and spin of grid and eggs have a say.
    part, drive, travel = GRIDS[name]
    if isinstance(drive, Actuator):
        speed *= 0.05  # [m/s]
    at = positions(drive, travel)
    engine = turner_cycle(part, drive, at, speed)
    cycle = package_cycle(part, drive, at)
    ours = cycle.shaft_torque_at(abs(speed))[0, 0, 0 if speed > 0 else 1]
    felt = np.sign(speed) * engine.force
    assert ours == pytest.approx(felt, abs=1e-5 * np.abs(felt).max())


def test_eggs_of_every_kind_in_the_prepared_example_move_alike() -> None:
    example = EXAMPLES["grid by crank and link"]
    assert isinstance(example.part, Grid)
    engine = turner_cycle(example.part, example.drive, example.positions(STEPS))
    ours = package_cycle(
        replace(example.part, eggs=(LEFT,)), example.drive, example.positions(STEPS)
    )
    assert ours.motion.coordinate == pytest.approx(engine.q, abs=1e-10)


def test_an_egg_left_to_itself_turns_by_stroke_over_radius() -> None:
    # Known answer: an egg 43.5 mm broad is rolled half a turn by 68.33 mm of floor.
    grid, _ = package_grid(Grid(0.3, (replace(LEFT, radius=0.02175),)))
    assert 1e3 * grid.stroke == pytest.approx(68.33, abs=5e-3)
    assert abs(egg_roll_by_grid(0.02175, 0.057, grid.stroke)) == pytest.approx(pi, rel=1e-3)


RADIUS, MASS = 0.022, 0.058
RUBBED = {
    "as usual": ({"bar_friction": 0.3, "rolling_arm": 0.001}, {}),
    "rough bars, soft floor": ({"bar_friction": 0.5, "rolling_arm": 0.002}, {}),
    "smooth bars": ({"bar_friction": 0.0, "rolling_arm": 0.002}, {}),
    "uphill": ({"bar_friction": 0.3, "rolling_arm": 0.001, "leaning": 0.05}, {"slope": 0.05}),
    "round bar, too high": (
        {"bar_friction": 0.3, "rolling_arm": 0.001, "round_bar": (0.006, 0.030)},
        {"contact": asin(0.008 / 0.028)},
    ),
    "round bar, too low": (
        {"bar_friction": 0.4, "rolling_arm": 0.002, "round_bar": (0.006, 0.014)},
        {"contact": asin(-0.008 / 0.028)},
    ),
}


@pytest.mark.parametrize("name", RUBBED)
def test_push_and_lift_of_an_egg_that_rubs_its_bar(name: str) -> None:
    engine, place = RUBBED[name]
    # The engine's rolling resistance shares its cone with sliding: a floor that grips very well
    # leaves it whole.
    found = egg_before_a_rubbing_bar(RADIUS, MASS, floor_friction=20.0, **engine)
    ours = pushed(MASS * GRAVITY, RADIUS, engine["rolling_arm"], engine["bar_friction"], **place)
    assert found.turned == pytest.approx(1.0, abs=0.01)
    assert ours.push == pytest.approx(found.push, rel=0.03)
    assert ours.lift == pytest.approx(found.lift, abs=0.03 * found.push)
    assert ours.floor == pytest.approx(found.floor, rel=0.005)


def test_a_floor_that_does_not_grip_lets_the_grid_drag_the_eggs() -> None:
    ours = pushed(MASS * GRAVITY, RADIUS, 0.0005, 0.4)
    slippery, rough = 0.3 * float(ours.grip), 4.0 * float(ours.grip)
    given = {"bar_friction": 0.4, "rolling_arm": 0.0005}
    drags = egg_before_a_rubbing_bar(RADIUS, MASS, floor_friction=slippery, **given)
    rolls = egg_before_a_rubbing_bar(RADIUS, MASS, floor_friction=rough, **given)
    assert drags.turned < 0.5
    assert rolls.turned > 0.95
    assert drags.push < 0.5 * float(ours.push)


def test_rough_bars_jam_the_eggs_and_drag_them_without_turning() -> None:
    # With a coefficient of 1 and more nothing turns the egg; the floor drags at k W/(1 - k + f/R).
    assert np.isnan(pushed(MASS * GRAVITY, RADIUS, 0.0005, 1.2).push)
    found = egg_before_a_rubbing_bar(
        RADIUS, MASS, bar_friction=1.2, floor_friction=0.3, rolling_arm=0.0005
    )
    push, lift = dragged(MASS * GRAVITY, RADIUS, 0.0005, 0.3)
    assert abs(found.turned) < 0.25
    assert push == pytest.approx(found.push, rel=0.05)
    assert lift == pytest.approx(found.lift, rel=0.15)


@pytest.mark.parametrize(
    ("pitch", "wire", "rub"), [(0.0127, 0.001, 0.0), (0.0127, 0.001, 0.3), (0.008, 0.002, 0.0)]
)
def test_eggs_climb_each_wire_and_run_ahead_behind_it(
    pitch: float, wire: float, rub: float
) -> None:
    found = egg_over_wires(RADIUS, MASS, pitch, 0.5 * wire, bar_friction=rub)
    grid = SlidingGrid(
        cells=1,
        eggs_per_cell=1,
        pitch=0.05,
        room=2.0 * RADIUS,
        egg_radius=RADIUS,
        egg_mass=MASS,
        egg_turn=np.pi,
        grid_mass=0.0,
        bar_friction=Range3(rub, rub, rub),
        mesh=MeshFloor(pitch, wire),
    )
    # As far as the bar has gone, the grid has slid since the stroke began.
    went = np.append(found.went[found.went >= 0.0], 5.0 * pitch)
    one = grid.egg_forces(grid.progress(went, np.ones(1)), 1.0, np.ones(1), ("middle",))
    ours, theirs = one.push[0, 0, :-1], found.push[found.went >= 0.0]
    place = np.mod(went[:-1], pitch) / (0.5 * pitch)
    peak = MASS * GRAVITY * np.tan(float(grid.climb(RADIUS)))
    # While it climbs, and averaged over the chatter of contacts; not where the bar just meets it.
    for low, high in ((0.3, 0.5), (0.5, 0.7), (0.7, 0.9)):
        there = (place > low) & (place < high)
        assert ours[there].mean() == pytest.approx(theirs[there].mean(), rel=0.01)
    idle = (place > 1.1) & (place < 1.9)
    assert (ours[idle] == 0.0).all()
    assert theirs[idle].mean() == pytest.approx(0.0, abs=0.1 * peak)
    assert mesh_drop(RADIUS, pitch, 0.5 * wire) == pytest.approx(found.rise, rel=0.01)


def test_no_friction_anywhere_is_what_the_frictionless_comparison_means() -> None:
    grid, load = package_grid(LEVEL)
    assert grid.guide_friction is FRICTIONLESS
    cycle = turn_cycle(grid, package_drive(LEVEL, GRIDS["crank in line"][1]), [load])
    assert np.abs(cycle.lost).max() < 1e-12
