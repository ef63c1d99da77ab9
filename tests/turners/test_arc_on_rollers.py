"""An arc on fixed rollers: a tray with a pivot that is not there, and what its rollers bear."""

from dataclasses import fields, replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.cradles import PLYWOOD, cradles
from tests.validation.mujoco_contacts import nest
from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.drives.crank_link import CrankLink
from turnercalc.drives.linear_actuator import LinearActuator
from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.swing import ends
from turnercalc.tables import Range3
from turnercalc.turners.arc_on_rollers import ArcOnRollers, RollerResistance
from turnercalc.turners.rocking_cradle import RockingCradle
from turnercalc.turners.tilting_trays import TiltingTrays

G = 9.80665  # m/s2, standard gravity
BALL = JointFriction(0.001, 0.002, 0.005, 0.01)
Driven = tuple[RockingCradle, CrankLink]


def on_rollers(cradle: RockingCradle, **changes: object) -> ArcOnRollers:
    """Return the same cradle on two fixed rollers."""
    numbers = {field.name: getattr(cradle, field.name) for field in fields(RockingCradle)}
    rollers: dict[str, object] = {
        "roller_angle": np.radians(28.0),
        "roller_radius": 0.011,
        "axle_diameter": 0.008,
    }
    return ArcOnRollers(**{**numbers, **rollers, **changes})  # type: ignore[arg-type]


def as_tray(arc: ArcOnRollers) -> TiltingTrays:
    """Return the tilting tray whose pivot stands in the middle of the arc."""
    above = float(arc.pin_height) - float(arc.runner_radius)
    middle = float(arc.runner_radius)
    return TiltingTrays(
        count=1,
        row_places=arc.row_places,
        eggs_per_row=arc.eggs_per_row,
        egg_mass=arc.egg_mass,
        egg_height=arc.egg_height - middle,
        egg_inertia=arc.egg_inertia,
        egg_shift=arc.egg_shift,
        slip_angle=arc.slip_angle,
        tray_mass=arc.cradle_mass,
        tray_height=arc.cradle_height - middle,
        tray_inertia=arc.cradle_inertia + arc.cradle_mass * (arc.cradle_height - middle) ** 2,
        arm_length=float(np.hypot(arc.pin_across, above)),
        arm_angle=float(np.arctan2(above, arc.pin_across)),
        wanted_tilt=arc.wanted_tilt,
        lean=arc.lean,
    )


def frictionless(drive: CrankLink) -> CrankLink:
    return replace(drive, friction=FRICTIONLESS)


@settings(max_examples=40, deadline=None)
@given(cradles(friction=False), st.floats(-0.06, 0.06))
def test_it_is_the_tray_with_its_pivot_in_the_arcs_middle(driven: Driven, lean: float) -> None:
    """Motion, torque, inertia and centre against the tilting tray's own formulas."""
    cradle, drive = driven
    arc = on_rollers(replace(cradle, lean=lean))
    tray = as_tray(arc)
    here = frictionless(drive).assemble(arc.path())
    there = replace(here, height=here.height - arc.runner_radius).assemble(tray.path())
    assume(here.closing(arc.path()).closes)
    assert there.closing(tray.path()).missing == pytest.approx(here.closing(arc.path()).missing)
    ours = turn_cycle(arc, here, arc.load_cases(), levels=("none",), count=72)
    trays = turn_cycle(tray, there, arc.load_cases(), levels=("none",), count=72)
    np.testing.assert_allclose(ours.motion.coordinate, trays.motion.coordinate, atol=1e-12)
    np.testing.assert_allclose(ours.motion.second, trays.motion.second, atol=1e-9)
    np.testing.assert_allclose(ours.shaft_torque, trays.shaft_torque, atol=1e-9)
    np.testing.assert_allclose(ours.inertia_torque, trays.inertia_torque, atol=1e-9)


def test_an_actuator_moves_it_like_that_tray() -> None:
    arc = on_rollers(RockingCradle(0.30, (-0.05, 0.05), 4, 0.06, 0.15, 2.0, 0.07, 0.12, 0.09, 0.7))
    rod = LinearActuator(0.26, 0.10, 0.28, 0.30).assemble(arc.path())
    tray = as_tray(arc)
    same = replace(rod, height=rod.height - arc.runner_radius).assemble(tray.path())
    ours, trays = (
        d.close(t.path(), np.linspace(0.0, 0.1, 21)) for d, t in ((rod, arc), (same, tray))
    )
    assert ours.closes.all()
    np.testing.assert_allclose(ours.coordinate, trays.coordinate, atol=1e-10)


def test_the_arcs_middle_stays_where_it_is() -> None:
    arc = on_rollers(RockingCradle(0.30, (0.0,), 1, 0.06, 0.15, 2.0, 0.07, 0.12, 0.09, 0.7))
    q = np.radians(np.linspace(-50.0, 50.0, 11))
    x, y = arc.path_of(0.0, 0.30).point(q)
    np.testing.assert_allclose([x, y], [np.zeros(11), np.full(11, 0.30)], atol=1e-15)
    low_x, low_y = arc.path_of(0.0, 0.0).point(q)
    np.testing.assert_allclose(np.hypot(low_x, low_y - 0.30), 0.30, rtol=1e-14)


@pytest.mark.parametrize("lean", [0.0, 0.05, -0.12])
def test_presses_of_the_rollers_against_mujoco(lean: float) -> None:
    # MuJoCo's contacts find how a smooth round body of 0.8 kg rests on two bars by itself.
    radius, roller, spacing = 0.16, 0.011, 0.17
    found = nest(radius, roller, spacing, 0.8, lean)
    assert found is not None
    weight = np.array(0.8 * G)
    angle = float(np.arcsin(0.5 * spacing / (radius + roller)))
    resting = RollerResistance(
        weight * np.cos(lean), weight * np.sin(lean), angle, np.zeros(1), np.zeros(1)
    )
    left, right = (float(press.squeeze()) for press in resting.presses(0.0, 0.0))
    assert (left, right) == pytest.approx((found.left, found.right), rel=2e-3)


def test_a_sideways_push_lifts_the_arc_off_one_roller() -> None:
    # By hand: 40 N on rollers at 30 degrees; 40 tan 30 = 23.09 N sideways is just too much.
    resting = RollerResistance(
        np.array(40.0), np.array(0.0), np.radians(30.0), np.array(0.01), np.array(0.0)
    )
    left, right = resting.presses(40.0 * np.tan(np.radians(30.0)), 0.0)
    assert float(left) == pytest.approx(0.0, abs=1e-12)
    assert float(right) == pytest.approx(40.0 / np.cos(np.radians(30.0)))
    assert float(resting.presses(30.0, 0.0)[0]) < 0.0
    assert resting(30.0, 0.0) == pytest.approx(0.01 * float(resting.presses(30.0, 0.0)[1]))


def full_balance(arc: ArcOnRollers, cycle: TurnCycle, load: int, way: int, at: int) -> float:
    """Return the load torque that a balance of all forces on the arc gives [N·m].

    Unknown are the link's force and both presses; each roller also drags the arc along its rim
    with what its axle and its own rolling resistance take.
    """
    motion, level = cycle.motion, cycle.levels.index("middle")
    q = float(motion.coordinate[at])
    sense = (1.0, -1.0)[way] * np.sign(motion.rate[at])
    mass, _, across, height = (
        float(m.squeeze()) for m in arc.moments(cycle.loads[load].cells[None].astype(float))
    )
    assert motion.bar_x is not None
    assert motion.bar_y is not None
    u = np.array([motion.bar_x[at], motion.bar_y[at]])
    u /= np.hypot(*u)
    pin = np.array([float(v) for v in arc.path().point(q)]) - [0.0, float(arc.runner_radius)]
    radius, roller = float(arc.runner_radius), arc.roller_radius
    f = (arc.rolling_arm.low, arc.rolling_arm.middle, arc.rolling_arm.high)[level]
    mu = (arc.axle_friction.low, arc.axle_friction.middle, arc.axle_friction.high)[level]
    circle = 0.5 * arc.axle_diameter * mu / np.hypot(1.0, mu)
    rim = (f + circle) / roller  # drag along the rim per newton of press
    equations = np.zeros((3, 3))
    equations[0:2, 0] = u
    equations[2, 0] = pin[0] * u[1] - pin[1] * u[0]
    for column, side in ((1, -1.0), (2, 1.0)):
        direction = side * arc.roller_angle
        inward = np.array([-np.sin(direction), np.cos(direction)])
        # The arc's rim moves with sense along (cos, sin) there; the roller holds it back.
        drag = -sense * rim * np.array([np.cos(direction), np.sin(direction)])
        equations[0:2, column] = inward + drag
        equations[2, column] = -sense * (rim * radius + f)
    weight_x = across * np.cos(q) - height * np.sin(q)
    known = np.array([0.0, mass * G, G * weight_x])
    link = np.linalg.solve(equations, known)[0]
    return float(link * equations[2, 0])


@settings(max_examples=20, deadline=None)
@given(cradles(friction=False), st.integers(0, 71))
def test_friction_of_the_rollers_against_a_full_balance(driven: Driven, at: int) -> None:
    cradle, drive = driven
    arc = on_rollers(replace(cradle, egg_shift=0.0, rolling_arm=PLYWOOD), axle_friction=BALL)
    drive = replace(frictionless(drive), link_mass=0.0).assemble(arc.path())
    assume(drive.closing(arc.path()).closes)
    cycle = turn_cycle(arc, drive, arc.load_cases(), count=72)
    presses = [cycle.pin_forces[name] for name in ("left roller", "right roller")]
    for load, way in ((0, 0), (0, 1), (1, 0)):
        here = (load, 1, way, at)
        if cycle.jams[here] or abs(cycle.motion.rate[at]) < 1e-3:
            continue
        if min(float(press[here]) for press in presses) <= 0.0:
            continue
        scale = np.nanmax(np.abs(cycle.load_torque[load, 1]))
        expected = full_balance(arc, cycle, load, way, at)
        assert float(cycle.load_torque[here]) == pytest.approx(expected, abs=1e-8 * scale)


@settings(max_examples=20, deadline=None)
@given(cradles())
def test_energy_closes(driven: Driven) -> None:
    cradle, drive = driven
    arc = on_rollers(replace(cradle, egg_shift=0.0), axle_friction=BALL)
    drive = drive.assemble(arc.path())
    assume(drive.closing(arc.path()).closes)
    cycle = turn_cycle(arc, drive, arc.load_cases())
    free = ~cycle.jams.any(axis=-1)
    scale = np.nanmax(np.abs(cycle.shaft_torque)) + 1e-9
    work, lost = cycle.shaft_torque.mean(axis=-1), cycle.lost.mean(axis=-1)
    np.testing.assert_allclose(work[free], lost[free], atol=1e-6 * scale)


def test_it_needs_more_than_on_the_floor_only_by_its_rollers_and_less_room() -> None:
    arm = Range3(0.001, 0.0015, 0.002)
    floor = RockingCradle(
        0.16, (-0.05, 0.0, 0.05), 7, 0.0613, 0.114, 1.9, 0.06, 0.13, 0.15, 0.785, rolling_arm=arm
    )
    arc = on_rollers(floor)
    q, up = np.radians(np.linspace(-45.0, 45.0, 7)), np.ones(1)
    cells = np.full((1, 1, 3), 7.0)
    np.testing.assert_allclose(
        arc.load_torque(cells, q, up), floor.load_torque(cells, q, up), rtol=1e-12
    )
    on_floor = float(floor.resistance(cells, q, up, ("middle",))(0.0, 0.0).squeeze())
    rolling = float(arc.resistance(cells, q, up, ("middle",))(0.0, 0.0).squeeze())
    # By hand: two presses of W/(2 cos 28 deg), each 1 + 160/11 times the arm; what drags along the
    # rims, 1.5/11 of a press, turns both forces by its angle and eases them by its cosine, twice.
    eased = np.cos(np.arctan(1.5 / 11.0)) ** 2
    by_hand = (1.0 + 160.0 / 11.0) / np.cos(np.radians(28.0)) * eased
    assert rolling / on_floor == pytest.approx(by_hand)


def test_its_ends_are_those_of_the_tray() -> None:
    arc = on_rollers(
        RockingCradle(0.16, (0.0,), 1, 0.06, 0.11, 1.9, 0.06, 0.13, 0.15, np.radians(45.0))
    )
    drive = CrankLink(0.10, 0.35, -0.05, 0.50).assemble(arc.path())
    swing = ends(arc, drive)
    tray = as_tray(arc)
    other = ends(tray, replace(drive, height=0.50 - 0.16).assemble(tray.path()))
    assert (swing.low, swing.high) == pytest.approx((other.low, other.high), abs=1e-12)
    assert swing.rests


@pytest.mark.parametrize(
    ("width_mm", "spare_mm"),
    # By hand: half the arc is asin(150/160) = 69.64 deg, asin(125/160) = 51.38 deg; the roller
    # stands at 28 deg and the tilt takes 40 deg.
    [(300.0, 160.0 * 0.02850), (250.0, 160.0 * -0.29016)],
)
def test_spare_arc_is_measured_from_the_roller(width_mm: float, spare_mm: float) -> None:
    half, tilt = float(np.arcsin(0.5 * width_mm / 160.0)), np.radians(40.0)
    floor = RockingCradle(
        0.16, (0.0,), 1, 0.06, 0.11, 1.9, 0.06, 0.13, 0.15, 0.7, runner_half_angle=half
    )
    spare = on_rollers(floor).spare_arc(-tilt, tilt)
    assert spare == pytest.approx((1e-3 * spare_mm, 1e-3 * spare_mm), abs=1e-5)
    on_floor = floor.spare_arc(-tilt, tilt)
    assert on_floor is not None
    assert on_floor[0] == pytest.approx(1e-3 * spare_mm + 0.16 * np.radians(28.0), abs=1e-5)
