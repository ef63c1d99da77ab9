"""Runners and what they stand on: grip, press, creep and room, worked a second way."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from scipy.integrate import quad

from tests.cradles import PLYWOOD, plain_cradle
from tests.turners.test_arc_on_rollers import on_rollers
from turnercalc.building import build
from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.design import read_design
from turnercalc.drives.crank_link import CrankLink
from turnercalc.drives.linear_actuator import LinearActuator
from turnercalc.joints import FRICTIONLESS
from turnercalc.parts.footing import creep, grip_needed, lightest_roller, strap_pull
from turnercalc.parts.runners import runner_room
from turnercalc.tables import Range3
from turnercalc.turners.rocking_cradle import RockingCradle

G = 9.80665  # m/s2, standard gravity
GRIP = Range3(0.5, 0.7, 0.9)
EXAMPLES = Path(__file__).parents[2] / "examples"


def built(name: str) -> tuple[RockingCradle, CrankLink]:
    """Return cradle and crank of an example, without friction in the pins and a weightless link."""
    found = build(read_design(EXAMPLES / f"{name}.toml"))
    assert isinstance(found.turner, RockingCradle)
    assert isinstance(found.drive, CrankLink)
    return (
        replace(found.turner, egg_shift=0.0),
        replace(found.drive, friction=FRICTIONLESS, link_mass=0.0),
    )


@cache
def cradle_and_cycle(lean: float = 0.0) -> tuple[RockingCradle, CrankLink, TurnCycle]:
    cradle, drive = built("apple-crate-cradle")
    cradle = replace(cradle, lean=lean, rolling_arm=PLYWOOD, grip=GRIP)
    return cradle, drive, turn_cycle(cradle, drive, cradle.load_cases())


def by_hand(way: int) -> float:
    """Return the friction coefficient that rolling needs, from a balance of the cradle alone."""
    cradle, _, cycle = cradle_and_cycle()
    motion = cycle.motion
    assert motion.bar_x is not None
    assert motion.bar_y is not None
    q, sense = motion.coordinate, (1.0, -1.0)[way] * np.sign(motion.rate)
    worst = 0.0
    for case in cycle.loads:
        cells = case.cells[None].astype(float)
        mass, _, across, height = (float(m.squeeze()) for m in cradle.moments(cells))
        for arm in (PLYWOOD.low, PLYWOOD.middle, PLYWOOD.high):
            # Moments about the contact: the link's force F along its direction d, the weight at
            # the balance point, and the press N = W - F d_y which stands an arm ahead.
            direction = np.array([motion.bar_x, motion.bar_y])
            direction /= np.hypot(*direction)
            pin = np.array(cradle.path().point(q)) - [
                -float(cradle.runner_radius) * q,
                0.0 * q,
            ]
            lever = pin[0] * direction[1] - pin[1] * direction[0]
            centre = across * np.cos(q) - height * np.sin(q)
            ahead = sense * arm
            force = G * (centre + mass * ahead) / (lever + ahead * direction[1])
            press = mass * G - force * direction[1]
            moving = np.abs(motion.rate) > 1e-9
            worst = max(worst, float((np.abs(force * direction[0]) / press)[moving].max()))
    return worst


@pytest.mark.parametrize("way", [0, 1])
def test_grip_is_what_a_balance_of_the_cradle_asks(way: int) -> None:
    _, _, cycle = cradle_and_cycle()
    found = grip_needed(cycle, (way,))
    assert found.value == pytest.approx(by_hand(way), rel=1e-6)
    both = grip_needed(cycle, (0, 1))
    assert both.value == max(grip_needed(cycle, (0,)).value, grip_needed(cycle, (1,)).value)


def test_the_place_of_the_hardest_grip_is_told() -> None:
    _, _, cycle = cradle_and_cycle()
    found = grip_needed(cycle, (0,))
    at = int(np.abs(cycle.motion.coordinate - found.coordinate).argmin())
    ratio = cycle.pin_forces["grip of the runners"] / cycle.pin_forces["runners on the floor"]
    assert ratio[found.load, :, 0, at].max() == pytest.approx(found.value)
    assert found.rises == bool(cycle.motion.rate[at] > 0.0)


def test_straps_hold_the_whole_push_along_the_floor() -> None:
    _, _, cycle = cradle_and_cycle()
    assert strap_pull(cycle, (0, 1)).value == np.nanmax(cycle.pin_forces["grip of the runners"])


def test_an_upright_pull_asks_no_grip_and_a_strong_one_lifts_the_runners() -> None:
    cradle, _, cycle = cradle_and_cycle()
    press, grip = cycle.pin_forces["runners on the floor"], cycle.pin_forces["grip of the runners"]
    lifted = replace(
        cycle, pin_forces={**cycle.pin_forces, "runners on the floor": press - press.min() - 1.0}
    )
    assert np.isinf(grip_needed(lifted, (0,)).value)
    upright = replace(cycle, pin_forces={**cycle.pin_forces, "grip of the runners": 0.0 * grip})
    assert grip_needed(upright, (0,)).value == 0.0
    assert cradle.grip is GRIP


def test_share_of_the_lighter_roller_by_hand() -> None:
    arc, drive = built("linen-chest-arc")
    cycle = turn_cycle(arc, drive, [case for case in arc.load_cases() if case.planned])
    found = lightest_roller(cycle, (0, 1))
    left, right = cycle.pin_forces["left roller"], cycle.pin_forces["right roller"]
    assert found.value == pytest.approx(float((np.minimum(left, right) / (left + right)).min()))


def carter(way: int, load: int, lean: float) -> float:
    """Return the creep of one cycle by quadrature over the crank angle, to the right [m]."""
    cradle, drive, _ = cradle_and_cycle(lean)
    radius, arm, friction = float(cradle.runner_radius), PLYWOOD.middle, GRIP.middle

    def slope(theta: float) -> float:
        here = turn_cycle(
            cradle, drive, [cradle.load_cases()[load]], levels=("middle",), positions=[theta]
        )
        motion = here.motion
        assert here.bar_force is not None
        assert motion.bar_x is not None
        assert motion.bar_y is not None
        pull = float(here.bar_force[0, 0, way, 0])
        along = float(motion.bar_x[0] / np.hypot(motion.bar_x[0], motion.bar_y[0]))
        cells = cradle.load_cases()[load].cells[None].astype(float)
        weight = G * float(cradle.moments(cells)[0].squeeze())
        press = float(here.pin_forces["runners on the floor"][0, 0, way, 0])
        held = weight * np.sin(lean) + pull * along
        share = friction * arm / radius * (1.0 - np.sqrt(1.0 - abs(held) / (friction * press)))
        return float(-np.sign(held) * share * radius * abs(motion.rate[0]))

    total, _ = quad(slope, 0.0, 2.0 * np.pi, limit=60, epsabs=1e-7, epsrel=1e-4)
    return float(total)


@pytest.mark.parametrize(("way", "load", "lean"), [(0, 0, 0.0), (1, 1, 0.0), (0, 1, 0.05)])
def test_creep_of_a_cycle_against_quadrature(way: int, load: int, lean: float) -> None:
    cradle, _, cycle = cradle_and_cycle(lean)
    assert creep(cradle, cycle, way)[load] == pytest.approx(carter(way, load, lean), rel=2e-3)


def test_a_leaning_box_lets_it_creep_downhill() -> None:
    cradle, _, level = cradle_and_cycle()
    _, _, left_down = cradle_and_cycle(0.05)
    _, _, right_down = cradle_and_cycle(-0.05)
    flat, left, right = (
        creep(cradle_and_cycle(b)[0], c, 0)[0]
        for b, c in ((0.0, level), (0.05, left_down), (-0.05, right_down))
    )
    assert left < flat < right
    assert cradle.lean == 0.0


def test_a_symmetric_cradle_pushed_to_and_fro_does_not_creep() -> None:
    # The pin in the middle plane and the eye level with it far away: both ways are alike.
    cradle, _ = plain_cradle(
        pin_across=0.0, pin_height=0.30, rolling_arm=PLYWOOD, grip=GRIP, cases=()
    )
    full = plain_cradle()[0].load_cases()[:1]
    rod = LinearActuator(
        49.90, 0.20, 50.0, 0.30, whole_stroke=False, stop_in=0.0, stop_out=0.20
    ).assemble(cradle.path())
    cycle = turn_cycle(cradle, rod, full)
    rolled = 2.0 * 0.20
    assert abs(creep(cradle, cycle, 0)[0]) < 1e-4 * rolled * PLYWOOD.middle / 0.30 * GRIP.middle


def test_room_of_the_runners_by_hand() -> None:
    # R = 0.3 m, half the arc 60 deg, 40 deg of tilt to the left and 30 to the right: the contact
    # walks R q, and the end of the arc on that side is R sin(60 deg - q) further.
    cradle, _ = plain_cradle(runner_half_angle=np.radians(60.0))
    high, low = np.radians(40.0), -np.radians(30.0)
    room = runner_room(cradle, (low, high))
    assert room is not None
    assert room.touched_left == pytest.approx(0.3 * high)
    assert room.touched_right == pytest.approx(0.3 * -low)
    assert room.touched == pytest.approx(0.3 * (high - low))
    assert room.reach_left == pytest.approx(0.3 * (high + np.sin(np.radians(20.0))))
    assert room.reach_right == pytest.approx(0.3 * (-low + np.sin(np.radians(30.0))))


def test_on_fixed_rollers_the_arc_stays_within_its_circle() -> None:
    cradle, _ = plain_cradle(runner_half_angle=np.radians(60.0))
    room = runner_room(on_rollers(cradle), (-np.radians(40.0), np.radians(40.0)))
    assert room is not None
    assert room.touched == 0.0
    assert room.reach_left == pytest.approx(0.3, rel=1e-3)
    assert room.reach_right == pytest.approx(0.3, rel=1e-3)


def test_runners_of_unknown_width_need_unknown_room() -> None:
    cradle, _ = plain_cradle()
    assert runner_room(cradle, (-0.7, 0.7)) is None
