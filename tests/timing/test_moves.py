"""Times of moves on a motor's line, against SciPy's ODE solver; run-down; running all day."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from tests.motors.demands import RPM, demand
from tests.motors.listed import motor
from turnercalc.drives.base import Motion
from turnercalc.motors import judge
from turnercalc.timing.continuous import continuous
from turnercalc.timing.moves import run_down, ways

WORM = motor("brushed_worm", rated_torque=3.0, stall_torque=9.0, free_speed=6.0 * RPM)
INDUCTION = motor("capacitor_run", rated_torque=3.0, rated_speed=4.0 * RPM)
HOLDING_WORM = replace(WORM, holds_when_off=True)


def solved(result, asked, move) -> tuple[float, float]:
    """Shortest and longest time of one move over the loads, by an adaptive ODE solver."""
    places, at = asked.places(move.span), asked.indices(move.span)
    times = []
    for load in range(asked.torque.shape[0]):
        torque = asked.torque[load, move.direction, at]

        def speed(_t, angle, torque=torque):
            return result.line.speed(np.interp(angle, places, torque))

        def arrived(_t, angle):
            return angle[0] - places[-1]

        arrived.terminal = True
        run = solve_ivp(
            speed, (0.0, 1e4), [places[0]], events=arrived, rtol=1e-9, atol=1e-12, max_step=0.05
        )
        times.append(float(run.t_events[0][0]))
    return min(times), max(times)


@pytest.mark.parametrize("motor", [WORM, INDUCTION, HOLDING_WORM], ids=["worm", "psc", "holds"])
@pytest.mark.parametrize("both", [False, True])
def test_times_of_each_move_agree_with_an_ode_solver(motor, both):
    asked = demand(both_directions_needed=both)
    result = judge(motor, asked)
    assert len(result.moves) == (4 if both else 2)
    for move in result.moves:
        shortest, longest = solved(result, asked, move)
        assert move.shortest == pytest.approx(shortest, rel=1e-4)
        assert move.longest == pytest.approx(longest, rel=1e-4)
        assert move.longest > move.shortest


def test_a_load_that_drives_hurries_a_motor_that_does_not_hold():
    # the torque of the demand changes sign half way through each move
    assert judge(WORM, demand()).shortest_move < judge(HOLDING_WORM, demand()).shortest_move


def turn(count=360):
    swing = np.radians(45.0)
    theta = np.arange(count) * 2.0 * np.pi / count
    return Motion(
        position=theta,
        coordinate=swing * np.cos(theta),
        rate=-swing * np.sin(theta),
        second=-swing * np.cos(theta),
        closes=np.ones(count, bool),
        round_and_round=True,
        rest_points=(0.0, np.pi),
    )


def test_the_moves_to_either_side_are_told_apart():
    # on this turn the coordinate falls through the first half and rises through the second
    asked, motion = demand(), turn(361)
    result = judge(WORM, asked)
    by_side = {way.to_high: way for way in ways(motion, asked, result)}
    first, second = result.moves
    assert (by_side[False].shortest, by_side[False].longest) == (first.shortest, first.longest)
    assert (by_side[True].shortest, by_side[True].longest) == (second.shortest, second.longest)
    assert ways(motion, asked, None) == ()


def test_slowed_evenly_it_runs_on_half_as_far_as_at_speed():
    # v t / 2, textbook; at a rest point an angle d shifts 45° cos(d) by 45° d²/2
    down = run_down(turn(), 0.5, (0.1, 0.4), (0.0, np.pi))
    assert down.shaft == pytest.approx((0.025, 0.1))
    assert down.coordinate == pytest.approx(np.radians(45.0) * 0.1**2 / 2.0)
    exact = np.radians(45.0) * (1.0 - np.cos(0.1))
    assert down.coordinate == pytest.approx(exact, rel=1e-3)


def test_run_down_against_a_body_that_friction_stops():
    # a flywheel slowed by a steady torque, step by step
    inertia, friction, speed, angle, step = 0.02, 0.05, 0.5, 0.0, 1e-5
    lasts = inertia * speed / friction
    while speed > 0.0:
        angle += speed * step
        speed -= friction / inertia * step
    assert run_down(turn(), 0.5, (lasts, lasts), ()).shaft[1] == pytest.approx(angle, rel=1e-3)


def test_what_holds_by_current_does_not_run_on():
    assert run_down(turn(), 0.5, (0.0, 0.1), (0.0,), holds=True).shaft == (0.0, 0.0)


def test_an_end_switch_in_mid_stroke_shifts_by_the_rate():
    position = np.linspace(0.0, 1.0, 101)
    stroke = Motion(
        position, 2.0 * position, np.full(101, 2.0), np.zeros(101), np.ones(101, bool), False
    )
    assert run_down(stroke, 0.1, (0.0, 0.2), (0.0, 1.0)).coordinate == pytest.approx(0.02)


def test_a_turner_that_never_rests_is_near_level_for_a_third_of_the_day():
    slow = continuous(turn(), 24.0, np.radians(20.0), np.radians(40.0), motor_speed=2.0)
    # 24 changes a day are 12 turns a day, 1/120 rpm (arithmetic)
    assert slow.shaft_speed == pytest.approx(2.0 * np.pi / 60.0 / 120.0)
    assert slow.gear_ratio == pytest.approx(2.0 / slow.shaft_speed)
    # |45 cos x| < 20 for (2/pi) asin(20/45) of a turn
    assert slow.share_near_level == pytest.approx(2.0 / np.pi * np.arcsin(20.0 / 45.0), abs=1e-4)
    assert slow.share_beyond == pytest.approx(2.0 / np.pi * np.arccos(40.0 / 45.0), abs=1e-4)


def test_from_fifteen_hundred_rpm_it_would_take_a_hundred_and_eighty_thousand_to_one():
    # 1500 rpm of a four-pole field at 50 Hz over 1/120 rpm (arithmetic)
    slow = continuous(turn(), 24.0, 0.3, 0.7, motor_speed=1500.0 * RPM)
    assert slow.gear_ratio == pytest.approx(180_000.0)
