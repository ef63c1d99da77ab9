"""The rocking cradle: known answers, energy, symmetry, scaling, limits, forces at the floor."""

from dataclasses import replace

import numpy as np
import pytest
import sympy
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.cradles import PLYWOOD, cradles, plain_cradle
from tests.racks import every_filling
from turnercalc.cycle import turn_cycle
from turnercalc.derivations.rocking_cradle import cradle_height
from turnercalc.drives.crank_link import CrankLink
from turnercalc.mechanics.rolling import runner_pin
from turnercalc.paths import TrochoidPath
from turnercalc.swing import ends
from turnercalc.tables import Range3
from turnercalc.turners.rocking_cradle import RockingCradle
from turnercalc.turners.tray_loads import rack_load_cases

Cradle = tuple[RockingCradle, CrankLink]
G = 9.80665  # m/s2, standard gravity
TILTS = np.radians(np.linspace(-50.0, 50.0, 21))
UP = np.ones(1)


def lump(mass: float, across: float, height: float, radius: float = 0.4) -> RockingCradle:
    """Return a cradle whose whole mass is one egg."""
    return RockingCradle(radius, (across,), 1, mass, height, 0.0, 0.0, 0.0, 0.3, 0.7)


ONE = np.ones((1, 1, 1))


def test_torque_of_a_heavy_cradle_by_hand() -> None:
    # By hand: 10 kg, 0.15 m above the floor on runners of 0.4 m, 30 degrees: the middle of the
    # mass is 0.25 m below the arc's middle, so M g 0.25 sin 30 deg = 12.26 N·m want it level.
    torque = lump(10.0, 0.0, 0.15).load_torque(ONE, np.radians(30.0), UP)
    assert float(torque.squeeze()) == pytest.approx(12.258, abs=5e-4)


def test_mass_in_the_arcs_middle_needs_nothing() -> None:
    torque = lump(6.0, 0.0, 0.35, 0.35).load_torque(ONE, TILTS, UP)
    np.testing.assert_allclose(torque, 0.0, atol=1e-13)


def test_above_the_arcs_middle_it_falls_over() -> None:
    steep = lump(6.0, 0.0, 0.5, 0.35).load_torque(ONE, np.radians([-10.0, 10.0]), UP).squeeze()
    assert steep[0] > 0.0 > steep[1]


def test_load_torque_is_the_slope_of_the_derived_height() -> None:
    """dV/dq against SymPy's derivative of the height of the balance point."""
    names = {str(s): s for s in cradle_height().result.free_symbols}
    values = {"R": 0.4, "h": 0.15, "a": 0.012}
    height = cradle_height().result.subs({names[n]: v for n, v in values.items()})
    slope = sympy.lambdify(names["q"], 7.5 * G * sympy.diff(height, names["q"]))
    ours = lump(7.5, 0.012, 0.15).load_torque(ONE, TILTS, UP).squeeze()
    np.testing.assert_allclose(ours, slope(TILTS), rtol=1e-12)


@pytest.mark.parametrize("lean", [0.0, 0.03, -0.05])
def test_load_torque_is_the_slope_of_the_weights_height(lean: float) -> None:
    """Each mass is followed along the mechanics' own trochoid and lifted square to the earth."""
    cradle, _ = plain_cradle(lean=lean)
    eggs = np.array([6.0, 6.0, 2.0, 0.0, 5.0, 1.0])
    step = 1e-5

    def energy(q: np.ndarray) -> np.ndarray:
        masses = [(cradle.cradle_mass, 0.0, cradle.cradle_height)]
        masses += [
            (n * cradle.egg_mass, a, cradle.egg_height)
            for n, a in zip(eggs, cradle.row_places, strict=True)
        ]
        lifted = np.zeros_like(q)
        for mass, a, h in masses:
            at = runner_pin(cradle.runner_radius, a, h, q)
            lifted += mass * G * (at.x * np.sin(lean) + at.y * np.cos(lean))
        return lifted

    slope = (energy(TILTS + step) - energy(TILTS - step)) / (2 * step)
    ours = cradle.load_torque(eggs[None, None], TILTS, UP).squeeze()
    np.testing.assert_allclose(ours, slope, atol=1e-8 * np.abs(slope).max())


def test_inertia_is_the_sum_of_masses_on_their_trochoids() -> None:
    cradle, _ = plain_cradle()
    eggs = np.array([6.0, 0.0, 2.0, 3.0, 5.0, 1.0])
    total = np.full_like(TILTS, cradle.cradle_inertia + eggs.sum() * cradle.egg_inertia)
    places = [(cradle.cradle_mass, 0.0, cradle.cradle_height)]
    places += [
        (n * cradle.egg_mass, a, cradle.egg_height)
        for n, a in zip(eggs, cradle.row_places, strict=True)
    ]
    for mass, a, h in places:
        at = runner_pin(cradle.runner_radius, a, h, TILTS)
        total += mass * (at.x_rate**2 + at.y_rate**2)
    inertia, slope = cradle.inertia(eggs[None, None], TILTS)
    np.testing.assert_allclose(inertia.squeeze(), total, rtol=1e-12)
    step = 1e-5
    more, _ = cradle.inertia(eggs[None, None], TILTS + step)
    less, _ = cradle.inertia(eggs[None, None], TILTS - step)
    np.testing.assert_allclose(slope, (more - less) / (2 * step), atol=1e-8)


def test_path_is_the_trochoid_of_the_mechanics() -> None:
    cradle, _ = plain_cradle(pin_across=-0.08, pin_height=0.41)
    path, known = cradle.path(), runner_pin(0.30, -0.08, 0.41, TILTS)
    assert isinstance(path, TrochoidPath)
    np.testing.assert_allclose(path.point(TILTS), (known.x, known.y), atol=1e-15)
    np.testing.assert_allclose(path.tangent(TILTS), (known.x_rate, known.y_rate), atol=1e-15)
    np.testing.assert_allclose(path.second(TILTS), (known.x_second, known.y_second), atol=1e-15)


@settings(max_examples=40, deadline=None)
@given(cradles())
def test_energy_closes_in_both_directions(cradle: Cradle) -> None:
    """Mean shaft work over a cycle equals what floor and pins took."""
    turner, drive = cradle
    assume(drive.closing(turner.path()).closes)
    still = replace(turner, egg_shift=0.0)
    cycle = turn_cycle(still, drive, still.load_cases())
    scale = np.nanmax(np.abs(cycle.shaft_torque)) + 1e-9
    work, lost = cycle.shaft_torque.mean(axis=-1), cycle.lost.mean(axis=-1)
    free = ~cycle.jams.any(axis=-1)
    # The floor force changes with the direction of motion, and mean over position is a sum of
    # 360 steps: exact only as far as the loss is smooth.
    np.testing.assert_allclose(work[free], lost[free], atol=1e-7 * scale)
    assert (cycle.lost[~cycle.jams] >= 0.0).all()


@settings(max_examples=25, deadline=None)
@given(cradles())
def test_the_mirrored_cradle_feels_the_same_the_other_way_round(cradle: Cradle) -> None:
    turner, drive = cradle
    assume(drive.closing(turner.path()).closes)
    mirrored = replace(
        turner,
        row_places=tuple(-x for x in turner.row_places),
        pin_across=-turner.pin_across,
    )
    other = replace(drive, across=-drive.across).assemble(mirrored.path())
    theta = drive.positions((0, 0), 72)
    here = turn_cycle(turner, drive, turner.load_cases(), positions=theta)
    there = turn_cycle(mirrored, other, turner.load_cases(), positions=np.pi - theta)
    scale = np.nanmax(np.abs(here.shaft_torque)) + 1e-9
    np.testing.assert_allclose(there.motion.coordinate, -here.motion.coordinate, atol=1e-7)
    moving = np.abs(here.motion.rate) > 1e-6
    np.testing.assert_allclose(
        there.shaft_torque[:, :, ::-1, moving],
        here.shaft_torque[..., moving],
        atol=1e-6 * scale,
    )


@settings(max_examples=25, deadline=None)
@given(cradles(), st.floats(1.5, 4.0))
def test_twice_the_weight_needs_twice_the_torque(cradle: Cradle, factor: float) -> None:
    turner, drive = cradle
    assume(drive.closing(turner.path()).closes)
    heavy = replace(
        turner, egg_mass=turner.egg_mass * factor, cradle_mass=turner.cradle_mass * factor
    )
    heavy_drive = replace(drive, link_mass=drive.link_mass * factor)
    light = turn_cycle(turner, drive, turner.load_cases())
    loaded = turn_cycle(heavy, heavy_drive, turner.load_cases())
    scale = np.nanmax(np.abs(loaded.shaft_torque)) + 1e-9
    np.testing.assert_allclose(loaded.shaft_torque, factor * light.shaft_torque, atol=1e-6 * scale)


def test_a_bigger_cradle_of_the_same_shape_scales_with_its_length() -> None:
    turner, drive = plain_cradle(rolling_arm=PLYWOOD)
    lengths = ("runner_radius", "egg_height", "cradle_height", "pin_across", "pin_height")
    big = replace(
        turner,
        row_places=tuple(2 * x for x in turner.row_places),
        rolling_arm=Range3(0.001, 0.0025, 0.004),
        **{name: 2 * getattr(turner, name) for name in lengths},
    )
    big_drive = replace(
        drive, **{name: 2 * getattr(drive, name) for name in ("crank", "link", "across", "height")}
    )
    small = turn_cycle(turner, drive, turner.load_cases()).shaft_torque
    large = turn_cycle(big, big_drive, turner.load_cases()).shaft_torque
    np.testing.assert_allclose(large, 2 * small, rtol=1e-9, atol=1e-9)


def test_runners_of_endless_radius_slide_a_flat_board_for_nothing() -> None:
    # A level board carried along by huge runners: almost no tilt, almost no lift.
    wide, _ = plain_cradle(runner_radius=300.0)
    torque = wide.load_torque(np.full((1, 1, 6), 6.0), 0.1 / 300.0, UP)
    assert abs(float(torque.squeeze()) / 300.0) < 0.02  # N of push along the floor


@settings(max_examples=15, deadline=None)
@given(cradles(friction=False))
def test_worst_filling_is_among_the_load_cases(cradle: Cradle) -> None:
    """Fillings from one side hold the worst of all 2^rows, at every position."""
    turner, drive = cradle
    assume(drive.closing(turner.path()).closes)
    rows, eggs = len(turner.row_places), turner.eggs_per_row
    every = turn_cycle(turner, drive, every_filling(1, rows, eggs), levels=("none",), count=72)
    named = rack_load_cases(1, rows, eggs, any_order=True)
    ours = turn_cycle(turner, drive, named, levels=("none",), count=72)
    worst = every.shaft_torque.max(axis=0)
    np.testing.assert_allclose(ours.shaft_torque.max(axis=0), worst, atol=1e-9)


@settings(max_examples=25, deadline=None)
@given(cradles())
def test_forces_on_the_cradle_balance(cradle: Cradle) -> None:
    """Moments about the centre of mass: floor, rolling resistance and link, none left over."""
    turner, drive = cradle
    drive = replace(drive, link_mass=0.0, friction=replace(drive.friction, low=0, middle=0, high=0))
    turner = replace(turner, egg_shift=0.0)
    assume(drive.closing(turner.path()).closes)
    cycle = turn_cycle(turner, drive, turner.load_cases())
    motion = cycle.motion
    assert cycle.bar_force is not None
    assert motion.bar_x is not None
    assert motion.bar_y is not None
    length = np.hypot(motion.bar_x, motion.bar_y)
    fx, fy = (-cycle.bar_force * u / length for u in (motion.bar_x, motion.bar_y))
    cells = np.stack([load.cells for load in cycle.loads]).astype(float)
    mass, _, across, height = turner.moments(cells)
    q, radius = motion.coordinate, turner.runner_radius
    centre = runner_pin(radius, across / mass, height / mass + radius, q)
    pin_x, pin_y = turner.path().point(q)
    normal, grip = mass * G - fy, -fx
    pressed = np.maximum(normal, 0.0)
    np.testing.assert_allclose(cycle.pin_forces["runners on the floor"], normal, atol=1e-7)
    np.testing.assert_allclose(cycle.pin_forces["grip of the runners"], np.abs(grip), atol=1e-7)
    sense = np.array([1.0, -1.0])[:, None] * np.sign(motion.rate)
    arm = np.array([turner.rolling_arm.low, turner.rolling_arm.middle, turner.rolling_arm.high])
    moment = (
        (pin_x - centre.x) * fy
        - (pin_y - centre.y) * fx
        + (-radius * q - centre.x) * normal
        + centre.y * grip
        - sense * arm[:, None, None] * pressed
    )
    np.testing.assert_allclose(moment, 0.0, atol=1e-6)


def test_a_leaning_box_pulls_the_cradle_along_the_floor() -> None:
    # 3 degrees: M g sin 3 deg has to be held by the floor where no drive holds it.
    cradle, _ = plain_cradle(lean=np.radians(3.0))
    cells = np.full((1, 1, 6), 6.0)
    losses = cradle.resistance(cells, TILTS, UP, ("middle",))
    held = losses.bearing_forces(0.0, 0.0)["grip of the runners"]
    assert float(held.squeeze()) == pytest.approx((36 * 0.060 + 2.4) * G * 0.052336, rel=1e-5)


def test_runners_that_are_lifted_off_roll_for_nothing() -> None:
    cradle, _ = plain_cradle(rolling_arm=PLYWOOD)
    losses = cradle.resistance(np.zeros((1, 1, 6)), TILTS, UP, ("low", "high"))
    assert losses(0.0, 2.4 * G + 1.0).max() == 0.0
    np.testing.assert_allclose(losses(0.0, 0.0).ravel(), 2.4 * G * np.array([0.0005, 0.002]))


def test_loose_eggs_lie_on_the_low_side() -> None:
    cradle, _ = plain_cradle(egg_shift=0.002, slip_angle=np.radians(10.0))
    tilts = np.radians([-30.0, 0.0, 30.0])
    # On its way up (left side goes down) the eggs lie right until 10 degrees past level.
    assert cradle.shift(tilts, UP) == pytest.approx([0.002, 0.002, -0.002])
    assert cradle.shift(tilts, -UP) == pytest.approx([0.002, -0.002, -0.002])


def test_even_ends_where_the_crank_stands_square_to_the_link() -> None:
    cradle, drive = plain_cradle()
    swing = ends(cradle, drive)
    assert swing.rests
    assert np.degrees(swing.high) > 5.0 > -5.0 > np.degrees(swing.low)
    # At an end crank and link are in line, whatever the path.
    for position in (swing.low_position, swing.high_position):
        motion = drive.close(cradle.path(), np.array([position]))
        assert motion.bar_x is not None
        assert motion.bar_y is not None
        out_of_line = np.cos(position) * motion.bar_y - np.sin(position) * motion.bar_x
        assert out_of_line == pytest.approx(0.0, abs=1e-9)


def test_centre_of_mass_moves_as_its_differences() -> None:
    cradle, drive = plain_cradle()
    cells = np.array([[[6.0, 0.0, 2.0, 3.0, 5.0, 1.0]]])
    step = 1e-4
    theta = np.array([0.3, 1.7, 4.0])

    def centre(shift: float) -> np.ndarray:
        q = drive.close(cradle.path(), theta + shift).coordinate
        mass, _, across, height = (m.squeeze() for m in cradle.moments(cells))
        at = runner_pin(0.30, across / mass, height / mass + 0.30, q)
        return np.array([mass * at.x, mass * at.y])

    motion = drive.close(cradle.path(), theta)
    ours = cradle.accelerations(cells, motion.coordinate, motion.rate, motion.second)
    expected = (centre(step) - 2 * centre(0.0) + centre(-step)) / step**2
    np.testing.assert_allclose(np.squeeze(ours), expected, rtol=1e-5, atol=1e-6)
