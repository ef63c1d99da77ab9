"""The torque-speed line of each class, what it draws and what warmth takes from it."""

from dataclasses import replace

import numpy as np
import pytest

from tests.motors.demands import RPM, demand
from tests.motors.listed import motor
from turnercalc.fields import Supply
from turnercalc.findings import Answer
from turnercalc.mechanics import ac_motor, dc_motor
from turnercalc.mechanics.thermal import ALLOWED_RISE, HOTTEST_WINDING
from turnercalc.motors import Duty, Volts, judge, motor_class
from turnercalc.motors.dependable import ambient_share

LIGHT = demand(torque=demand().torque * 0.1, corner_torque=demand().corner_torque * 0.1)

# -- brushed -------------------------------------------------------------------------------------


# MIT course 2.007, "Designing with D.C. motors", pages motors3 and motors4: a worm-geared motor
# of 92 rpm and 1.6 N·m stall gives 0.80 N·m at 46 rpm, 3.854 W, its most.
def test_the_worm_geared_motor_of_the_mit_page():
    line = judge(motor("brushed_worm", stall_torque=1.6, free_speed=92.0 * RPM), LIGHT).line
    assert float(line.speed(0.80)) == pytest.approx(46.0 * RPM, rel=1e-9)
    torque = np.linspace(0.0, 1.6, 2001)
    power = torque * line.speed(torque)
    assert power.max() == pytest.approx(3.854, rel=1e-3)
    assert torque[power.argmax()] == pytest.approx(0.80, abs=1e-3)


def test_a_brushed_motor_stands_at_stall_and_runs_on_past_its_free_speed():
    line = judge(motor("brushed_spur", stall_torque=2.0, free_speed=10.0 * RPM), LIGHT).line
    assert float(line.speed(2.0)) == 0.0
    assert float(line.speed(-0.4)) == pytest.approx(12.0 * RPM)
    held = motor("brushed_worm", stall_torque=2.0, free_speed=10.0 * RPM, holds_when_off=True)
    assert float(judge(held, LIGHT).line.speed(-0.4)) == pytest.approx(10.0 * RPM)


def test_current_follows_the_torque():
    # I = I0 + (Is - I0) T/Ts with 0.1 A free and 2.1 A at a stall of 8 N·m; the hardest planned
    # turn of the demand is 1.94 N·m
    listed = motor(
        "brushed_worm", stall_torque=8.0, free_speed=6 * RPM, free_current=0.1, stall_current=2.1
    )
    drawn = judge(listed, demand()).electric
    assert drawn.running == pytest.approx(0.1 + 2.0 * 1.94 / 8.0)
    assert drawn.stalled == 2.1
    assert drawn.power == pytest.approx(12.0 * drawn.running)
    assert drawn.fuse == 1.0  # the next standard size above 1.5 times 0.585 A
    assert drawn.running < drawn.fuse < drawn.stalled


def test_heat_of_a_brushed_motor_is_what_it_takes_less_what_it_gives():
    # energy on the same line: at no torque all of it is heat, at best efficiency the least share
    free, stall = 0.04, 1.0
    current = np.linspace(free, stall, 2001)[1:]
    heat = 1.0 - dc_motor.efficiency_at_current(current, free, stall)
    assert heat.min() == pytest.approx(1.0 - (1.0 - np.sqrt(free / stall)) ** 2, abs=1e-6)


def test_below_its_listed_points_a_current_is_not_guessed_lower():
    listed = motor(
        "brushed_worm",
        rated_torque=3.2,
        rated_current=0.7,
        stall_torque=8.0,
        stall_current=2.4,
        unnamed_speed=5 * RPM,
    )
    drawn = judge(listed, demand()).electric
    assert drawn.running == 0.7
    assert "at most" in drawn.running_from


def test_no_fuse_fits_between_currents_that_lie_close():
    listed = motor(
        "brushed_spur", rated_torque=4.0, stall_torque=4.4, free_speed=6 * RPM, free_current=1.8
    )
    drawn = judge(replace(listed, stall_current=2.2), demand()).electric
    assert drawn.fuse is None
    assert "none fits" in drawn.fuse_because


def test_unlisted_currents_stay_unknown():
    drawn = judge(motor("brushed_spur", rated_torque=4.0, free_speed=6 * RPM), demand()).electric
    assert (drawn.running, drawn.stalled, drawn.fuse) == (None, None, None)


# -- mains ---------------------------------------------------------------------------------------


def test_a_synchronous_motor_keeps_its_speed_up_to_pull_out():
    line = judge(
        motor("synchronous_reversible", rated_torque=3.0, unnamed_speed=3 * RPM), LIGHT
    ).line
    assert np.all(line.speed([-5.0, 0.0, 2.9]) == pytest.approx(3 * RPM))
    assert float(line.speed(3.0)) == 0.0


def test_sixty_hertz_turns_a_synchronous_motor_a_fifth_faster():
    on_60 = replace(LIGHT, supply=Supply((), (230.0,), 60.0))
    listed = motor("synchronous_reversible", rated_torque=3.0, unnamed_speed=2.5 * RPM)
    assert judge(listed, on_60).line.free_speed == pytest.approx(3.0 * RPM)
    # and back: 120 f/p, four poles (Hubert, Electric Machines, example 4-1)
    assert ac_motor.synchronous_speed(4, 60) / ac_motor.synchronous_speed(4, 50) == 1.2


def test_an_induction_motor_slips_by_its_torque():
    # rated 3 N·m at 2.75 rpm of a free 3: slip 1/12, as 1100 of 1200 rpm (Hubert, example 4-2)
    listed = motor("shaded_pole", rated_torque=3.0, rated_speed=2.75 * RPM, free_speed=3.0 * RPM)
    line = judge(listed, LIGHT).line
    for torque, slip in ((0.0, 0.0), (1.5, 1 / 24), (3.0 - 1e-9, 1 / 12)):
        speed = float(line.speed(torque))
        assert float(ac_motor.slip(3.0 * RPM, speed)) == pytest.approx(slip, abs=1e-6)
    assert float(line.speed(3.0)) == 0.0  # beyond its largest torque it drops out


@pytest.mark.parametrize(
    ("name", "power"),
    [("capacitor_run", 2), ("shaded_pole", 2), ("synchronous_reversible", 1), ("stepper", 0)],
)
def test_torque_on_nine_tenths_of_the_voltage(name, power):
    # induction: square of the voltage (textbook); synchronous: in proportion (from memory);
    # a stepper is driven by its current
    figures = {"holding_torque": 9.0} if name == "stepper" else {"rated_torque": 3.0}
    line = judge(motor(name, unnamed_speed=3 * RPM, **figures), LIGHT).line
    assert line.at_share(0.9).most_torque == pytest.approx(line.most_torque * 0.9**power)


# -- stepped -------------------------------------------------------------------------------------


def test_a_stepper_gives_its_share_up_to_the_corner_and_less_above():
    slow = judge(motor("stepper", holding_torque=9.0), LIGHT)
    assert slow.dependable == pytest.approx(0.4 * 9.0)
    corner = motor_class("stepper").speed_high
    fast = replace(LIGHT, speed_min=2.0 * corner, speed_max=4.0 * corner)
    listed = motor("stepper", holding_torque=9.0, free_speed=2.0 * corner)
    assert judge(listed, fast).dependable == pytest.approx(0.2 * 9.0)


def test_two_phases_of_a_holding_stepper():
    # two phases of 1.2 A at 3.6 V: 8.64 W without a pause (arithmetic)
    listed = motor("stepper", holding_torque=9.0, rated_current=1.2, volts=(Volts(3.6, 3.6, "dc"),))
    inside = replace(LIGHT, stands="inside the box", supply=Supply((3.6,), (), None))
    result = judge(listed, inside)
    assert result.electric.standing_power == pytest.approx(8.64)
    assert result.average_heat_in_box == pytest.approx(8.64)
    assert not result.electric.power_at_most
    driven = replace(listed, volts=(Volts(24.0, 24.0, "dc"),))
    assert judge(driven, inside).electric.power_at_most


def test_an_actuator_slows_by_the_force_it_pushes_with():
    pushing = replace(
        LIGHT,
        linear=True,
        angle=np.linspace(0.0, 0.1, LIGHT.angle.size),
        speed_min=0.002,
        speed_max=0.05,
    )
    line = judge(motor("linear_actuator", force=750.0, travel_speed=0.010), pushing).line
    assert float(line.speed(0.0)) == pytest.approx(0.010)
    # a quarter of the speed is gone at the half of its force that counts (from memory)
    assert float(line.speed(375.0)) == pytest.approx(0.0075)


# -- warmth and duty -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("insulation", "shares"),
    [
        (None, {30.0: 1.0, 40.0: 1.0, 45.0: 0.94, 50.0: 0.88, 55.0: 0.83, 60.0: 0.78}),
        ("B", {45.0: 0.94, 60.0: 0.78}),
        ("F", {40.0: 1.0, 45.0: 0.96, 50.0: 0.92, 55.0: 0.88, 60.0: 0.85}),
    ],
)
def test_ambient_shares_are_those_of_the_makers_tables(insulation, shares):
    # two published tables, windings allowed 60 K and 100 K (makers withheld)
    for ambient, share in shares.items():
        assert ambient_share(ambient, insulation) == pytest.approx(share)
    assert ambient_share(61.0, insulation) == 0.0


@pytest.mark.parametrize(("name", "spot"), [("B", 10.0), ("F", 10.0), ("H", 15.0), ("A", 5.0)])
def test_forty_degrees_and_the_rise_and_the_hot_spot_make_the_class(name, spot):
    # IEC 60085 and IEC 60034-1: 40 + 80 + 10 = 130 and so on
    assert 40.0 + ALLOWED_RISE[name] + spot == HOTTEST_WINDING[name]


def test_better_insulation_keeps_more_torque_in_a_hot_box():
    hot = replace(LIGHT, stands="inside the box", box_temperature=45.0)
    plain = motor("capacitor_run", rated_torque=3.0, unnamed_speed=3 * RPM)
    assert judge(plain, hot).dependable == pytest.approx(3.0 * 0.94)
    assert judge(replace(plain, insulation="F"), hot).dependable == pytest.approx(3.0 * 0.96)


@pytest.mark.parametrize("kind", ["S3", "S4", "S6"])
def test_shares_of_a_cycle_go_by_ten_minutes(kind):
    slow = motor("capacitor_run", rated_torque=30.0, unnamed_speed=0.2 * RPM)
    asked = demand(speed_min=0.05 * RPM)
    finding = judge(replace(slow, duty=Duty(kind, share=0.15)), asked).finding("motor_duty")
    assert finding.limit_fine == pytest.approx(90.0)
    assert kind in finding.text
    assert finding.answer is Answer.MARGINAL
    unsaid = judge(replace(slow, duty=Duty("S9")), asked).finding("motor_duty")
    assert unsaid.answer is Answer.UNKNOWN


def test_every_number_of_a_class_has_its_source():
    for name in ("brushed_worm", "stepper", "shaded_pole", "linear_actuator"):
        kind = motor_class(name)
        assert kind.source
        assert kind.how in ("read", "from memory", "common practice, no source", "our choice")
