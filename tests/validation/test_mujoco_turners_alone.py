"""The physics engine's opinion on every moving part and drive, tested by itself.

Authority: MuJoCo 3 or later (Todorov, Erez and Tassa 2012). Nothing of the package is needed:
published examples, known answers, derivatives by differences, and MuJoCo's own contacts.
"""

from __future__ import annotations

from math import acos, asin, degrees, pi, radians, sin

import numpy as np
import pytest
from scipy.optimize import brentq

from .mujoco_contacts import egg_roll_by_grid, egg_turn_on_bars, let_cradle_go, nest
from .mujoco_models import full_turn
from .mujoco_turners import Closer, bars_cycle, mechanism_of, turner_cycle
from .turner_examples import BARS, CRADLE, DRUM, EXAMPLES
from .turner_numbers import (
    Actuator,
    Bars,
    CrankLink,
    EggOnBars,
    Grid,
    PointMass,
    Rocker,
    RollingEgg,
    Shaft,
    SlottedLever,
    Swing,
)

WEIGHT = 9.80665


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_example_closes_and_moves(name: str) -> None:
    example = EXAMPLES[name]
    cycle = turner_cycle(example.part, example.drive, example.positions())
    assert np.isfinite(cycle.force).all()
    assert cycle.gap.max() < 1e-14  # [m]
    assert np.ptp(cycle.q) > 0.05  # [rad or m]


@pytest.mark.parametrize("name", EXAMPLES)
def test_drive_is_the_slope_of_mujocos_energy(name: str) -> None:
    example, h = EXAMPLES[name], 1e-5
    mechanism = mechanism_of(example.part, example.drive)
    closer = Closer(mechanism, example.part, example.drive)
    positions = example.positions(18)[1:-1]
    here = turner_cycle(example.part, example.drive, positions)

    def energy(shift: float) -> np.ndarray:
        return np.array([mechanism.potential_energy(closer.close(p + shift)) for p in positions])

    slope = (energy(h) - energy(-h)) / (2 * h)
    assert here.force == pytest.approx(slope, abs=1e-6 * np.abs(slope).max() + 1e-9)


@pytest.mark.parametrize("name", EXAMPLES)
def test_rates_are_the_differences_of_the_positions(name: str) -> None:
    example, h = EXAMPLES[name], 2e-5
    positions = example.positions(18)[1:-1]
    before, here, after = (
        turner_cycle(example.part, example.drive, positions + s) for s in (-h, 0.0, h)
    )
    slope, bend = (after.q - before.q) / (2 * h), (after.dq - before.dq) / (2 * h)
    assert here.dq == pytest.approx(slope, abs=1e-6 * np.abs(slope).max() + 1e-9)
    assert here.ddq == pytest.approx(bend, abs=1e-5 * np.abs(bend).max() + 1e-9)


def test_slider_crank_of_a_course_example() -> None:
    # Open course planar mechanics, lesson 2 and 3: r = 50, l = 150, no offset: slider at 168.6
    # for a crank at 60 deg; speed over crank-pin speed 1.017 at 60, 0.646 at 30 and 0.715 at 120.
    grid = Grid(1.0)
    crank = CrankLink(0.050, -0.150, 0.0, 0.150, +1)
    cycle = turner_cycle(grid, crank, np.radians([30.0, 60.0, 90.0, 120.0]))
    assert cycle.q[1] + 0.150 == pytest.approx(0.1686, abs=5e-5)
    assert -cycle.dq / 0.050 == pytest.approx([0.646, 1.017, 1.000, 0.715], abs=5e-4)


def test_slotted_levers_of_a_textbook() -> None:
    # Khurmi and Gupta, Theory of Machines, examples 5.1 and 5.2: r = 120, d = 300 swings
    # 23.578 deg to each side with time ratio 1.71; d = 240 has time ratio 2 and swings 60 deg.
    lever = Swing((PointMass(1.0, 0.0, 0.1),))
    for d, half_swing, ratio in ((0.300, 23.578, 1.71), (0.240, 30.0, 2.0)):
        drive = SlottedLever(0.120, d, 0.0, 0.0, 0.0, 0.0)
        cycle = turner_cycle(lever, drive, full_turn(1440))
        assert degrees(cycle.q.max()) == pytest.approx(half_swing, abs=1e-3)
        forward = np.count_nonzero(cycle.dq > 0)
        assert forward / (1440 - forward) == pytest.approx(ratio, abs=5e-3)


def test_actuator_across_a_pivot() -> None:
    # Law of cosines by hand: p = 200, q = 60: 163.19, 208.81 and 246.11 mm at 45, 90 and
    # 135 deg between the eyes; moment arms 52.00, 57.47 and 34.48 mm.
    between = np.radians([45.0, 90.0, 135.0])
    lengths = np.sqrt(0.2**2 + 0.06**2 - 2 * 0.2 * 0.06 * np.cos(between))
    assert lengths * 1e3 == pytest.approx([163.19, 208.81, 246.11], abs=5e-3)
    # The fixed eye straight below, the moving eye at `between` from it, anticlockwise: the part
    # turns up as the actuator grows. Its centre of mass makes a torque of -m g x.
    lever = Swing((PointMass(1.0, 0.0, 0.0),), pin_x=0.060, pin_y=0.0)
    cycle = turner_cycle(lever, Actuator(0.0, -0.200, +1), lengths)
    assert cycle.q == pytest.approx(between - pi / 2, abs=1e-12)
    assert 1e3 / cycle.dq == pytest.approx([52.00, 57.47, 34.48], abs=5e-3)


def test_force_of_the_actuator_for_ten_newton_metres() -> None:
    # The same triangle: 10 N m against it takes 192, 174 and 290 N.
    for between, force in ((45.0, 192.0), (90.0, 174.0), (135.0, 290.0)):
        t = radians(between) - pi / 2
        # A mass that stands straight across at this very tilt.
        mass = PointMass(10.0 / (WEIGHT * 0.2), 0.2 * np.cos(t), -0.2 * np.sin(t))
        lever = Swing((mass,), pin_x=0.060, pin_y=0.0)
        length = np.sqrt(0.2**2 + 0.06**2 - 2 * 0.2 * 0.06 * np.cos(radians(between)))
        cycle = turner_cycle(lever, Actuator(0.0, -0.200, +1), np.array([length]))
        assert cycle.force[0] == pytest.approx(force, abs=0.6)


def test_drum_with_four_of_eight_shelves_full() -> None:
    # Known answer: 8 shelves at 180 mm, 12 eggs of 58.333 g each, four neighbours full: an
    # imbalance of 3.23 N m. By hand: m g R sin(4 x 22.5 deg)/sin(22.5 deg).
    cycle = turner_cycle(DRUM, Shaft(), full_turn(720))
    assert cycle.force.max() == pytest.approx(3.23, abs=5e-3)
    by_hand = 0.7 * WEIGHT * 0.180 / sin(pi / 8)
    assert cycle.force.max() == pytest.approx(by_hand, rel=1e-5)


def test_a_full_drum_needs_nothing() -> None:
    shelf = [PointMass(0.7, 0.18 * np.cos(a), 0.18 * np.sin(a)) for a in np.arange(8) * pi / 4]
    cycle = turner_cycle(Swing(tuple(shelf)), Shaft(), full_turn(24))
    assert np.abs(cycle.force).max() < 1e-12


def test_egg_rolled_half_a_turn_on_a_floor() -> None:
    # Known answer: an egg of 43.5 mm rolled half a turn goes 68.33 mm.
    turned = -egg_roll_by_grid(0.02175, 0.060, 0.06833)
    assert turned == pytest.approx(pi, rel=5e-4)  # it slips a little when the grid sets off


def test_nest_of_round_egg_on_two_bars() -> None:
    # Known answer (a 3-4-5 triangle): R 22, bars r 8, gap 20: half angle 36.87 deg, centre
    # 24 mm above the axes, 0.625 of the weight on each bar.
    on_bars = nest(0.022, 0.008, 0.036, 0.060)
    assert on_bars is not None
    assert degrees(on_bars.left_angle) == pytest.approx(36.87, abs=5e-3)
    assert on_bars.right_angle == pytest.approx(on_bars.left_angle, abs=1e-9)
    assert on_bars.height == pytest.approx(0.024, abs=1e-8)
    assert on_bars.left == pytest.approx(0.625 * 0.060 * WEIGHT, rel=1e-6)
    assert on_bars.right == pytest.approx(0.625 * 0.060 * WEIGHT, rel=1e-6)


def test_egg_leaves_the_nest_when_it_leans_more_than_the_nest_angle() -> None:
    angle = asin(0.6)
    assert nest(0.022, 0.008, 0.036, 0.060, leaning=0.95 * angle) is not None
    assert nest(0.022, 0.008, 0.036, 0.060, leaning=1.05 * angle) is None


def test_egg_drops_through_bars_too_far_apart() -> None:
    assert nest(0.022, 0.008, 0.0599, 0.060) is not None
    assert nest(0.022, 0.008, 0.0601, 0.060) is None


def test_egg_turns_against_rough_bars_without_slip() -> None:
    # By hand: surfaces run together, so the egg turns -r/R of the bars: -8/22.
    assert egg_turn_on_bars(0.022, 0.008, 0.036, 0.060, 1.0) == pytest.approx(-8 / 22, rel=1e-4)


def test_cradle_on_a_rough_floor_rolls() -> None:
    # Let go at 0.3 rad it rocks over to the angle of the same potential energy; nothing was
    # told that it rolls. The exact model takes x = -R q for granted. MuJoCo's steps of 0.1 ms
    # are of first order and lose 2.5e-4 of the energy on the way.
    rocking = let_cradle_go(CRADLE, 0.3, 2.0)
    assert np.abs(rocking.x + CRADLE.runner_radius * rocking.q).max() < 1e-6  # [m]
    assert np.abs(rocking.y - CRADLE.runner_radius).max() < 1e-7  # [m]
    mechanism = mechanism_of(CRADLE, Shaft())
    closer = Closer(mechanism, CRADLE, Shaft())

    def energy(q: float) -> float:
        return mechanism.potential_energy(closer.part_pose(q))

    other_end = brentq(lambda q: energy(q) - energy(0.3), -1.0, -0.1)
    assert rocking.q.min() == pytest.approx(other_end, rel=5e-4)


def test_cradle_rocks_as_fast_as_the_exact_model_says() -> None:
    # Speed at level from the energy balance of the exact model, 1/2 J q'^2 = V(0.3) - V(0).
    rocking = let_cradle_go(CRADLE, 0.3, 2.0)
    mechanism = mechanism_of(CRADLE, Shaft())
    closer = Closer(mechanism, CRADLE, Shaft())
    v0, v3 = (mechanism.potential_energy(closer.part_pose(q)) for q in (0.0, 0.3))
    mechanism.place(closer.part_pose(0.0))
    # Inertia at level by MuJoCo's inverse dynamics: torque for unit acceleration, less at rest.
    along = mechanism.tangent()
    level = closer.part_pose(0.0)
    at_rest = along @ mechanism.inverse(level, 0 * along, 0 * along)
    pushed = along @ mechanism.inverse(level, 0 * along, along)
    expected = np.sqrt(2 * (v3 - v0) / (pushed - at_rest))
    crossing = np.flatnonzero(np.diff(np.sign(rocking.q)))[0]
    speed = abs(rocking.q[crossing + 1] - rocking.q[crossing]) / 1e-4
    assert speed == pytest.approx(expected, rel=5e-4)


def test_cradle_whose_centre_of_mass_is_the_arcs_middle_needs_nothing() -> None:
    part = Rocker(0.35, (PointMass(6.0, 0.0, 0.35),))
    cycle = turner_cycle(part, Shaft(), np.linspace(-0.6, 0.6, 7))
    assert np.abs(cycle.force).max() < 1e-12


def test_lopsided_egg_on_the_bars() -> None:
    # By hand: m g e r/R at the bars, when the heavy side is level with the egg's axis.
    egg = RollingEgg(0.060, 0.022, off_centre=0.001)
    bars = Bars(2, 0.008, 0.036, 1e-5, (EggOnBars(egg, 0),))
    cycle = bars_cycle(bars, np.array([0.0, pi / 2 * 22 / 8]))
    assert cycle.q == pytest.approx([0.0, -pi / 2], abs=1e-12)
    assert np.abs(cycle.force) == pytest.approx([0, 0.060 * WEIGHT * 0.001 * 8 / 22], abs=1e-9)


def test_bars_turn_every_egg_by_its_own_size() -> None:
    angles = np.linspace(0.0, 4 * pi, 25)
    cycle = bars_cycle(BARS, angles)
    assert cycle.q == pytest.approx(-angles * 0.0125 / 0.02875, abs=1e-12)
    assert np.ptp(cycle.force) > 1e-4


def test_slotted_lever_and_actuator_lose_nothing_over_a_cycle() -> None:
    for name in ("tray by slotted lever", "grid by slotted lever", "cradle by crank and link"):
        example = EXAMPLES[name]
        cycle = turner_cycle(example.part, example.drive, example.positions(180))
        assert abs(cycle.force.mean()) < 1e-6 * np.abs(cycle.force).max()


def test_ends_of_the_slotted_lever_are_where_crank_and_slot_stand_square() -> None:
    lever = Swing((PointMass(1.0, 0.0, 0.1),))
    drive = SlottedLever(0.120, 0.240, 0.0, 0.0, 0.0, 0.0)
    end = acos(-0.5)
    cycle = turner_cycle(lever, drive, np.array([end, -end]))
    assert cycle.q == pytest.approx([pi / 6, -pi / 6], abs=1e-12)
    assert cycle.dq == pytest.approx([0, 0], abs=1e-12)
