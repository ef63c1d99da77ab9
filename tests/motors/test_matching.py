"""Motors against a demand: each check would catch its own mistake."""

import math
from dataclasses import replace

import numpy as np
import pytest

from tests.motors.demands import POINTS, RPM, demand
from tests.motors.listed import motor
from turnercalc.fields import Supply
from turnercalc.findings import Answer
from turnercalc.motors import Duty, Volts, judge, rank, read_motors

KGF_CM = 0.0980665  # N·m, from standard gravity (3rd CGPM, 1901)

SAMPLE = """name; what; speed; torque; torque is; supply; power; notes
A; turntable motor; 5/6 rpm; 4 kgf.cm; ; 220-240 V 50/60 Hz; 4 W;
B; worm gearmotor; 6 rpm; 30 kg.cm; rated; 12 V DC; ; stall 70 kg.cm, 1.2 A
C; reversible synchronous gearmotor; 2.5/3 rpm; 45 kg/cm; rated; 230 V; 14 W; with capacitor
D; planetary gearmotor; 10 rpm; 50 kgcm; stall; 12 V; ;
E; wiper motor; 45 r/min; 20 N.m; stall; 12 V; ;
F; strong gear motor; 20 rpm; 60 kg.cm; ; 12 V; 8 W;
"""
ONLY_12_V = Supply((12.0,), (), 50.0)  # no mains, so no plug supply of another voltage
WORM = motor(
    "brushed_worm",
    title="worm gear motor",
    rated_torque=4.5,
    stall_torque=18.0,
    free_speed=6.0 * RPM,
)
SYNCHRONOUS = motor(
    "synchronous_reversible",
    rated_torque=4.5,
    unnamed_speed=2.5 * RPM,
    volts=(Volts(220.0, 240.0, "ac"),),
    input_power=14.0,
)


def of(name, asked=None):
    return judge(read_motors(SAMPLE).row(name), asked or demand())


def found(one, name, asked=None):
    return judge(one, asked or demand()).finding(name)


# -- the sample as a whole -----------------------------------------------------------------------


def test_ranking_puts_what_does_first_and_what_cannot_be_judged_last():
    results = rank(read_motors(SAMPLE), demand())
    assert [r.motor.id for r in results] == ["C", "B", "D", "A", "E", "F"]
    assert [r.verdict for r in results] == [
        Answer.FINE,
        Answer.MARGINAL,
        Answer.NO,
        Answer.NO,
        Answer.NO,
        Answer.UNKNOWN,
    ]


def test_times_enough_by_hand():
    # dependable torque over the hardest planned torque, worked out by hand
    assert of("B").times_enough == pytest.approx(30 * KGF_CM / 1.94, rel=1e-9)
    assert of("C").times_enough == pytest.approx(45 * KGF_CM / 1.94, rel=1e-9)
    assert of("D").times_enough == pytest.approx(50 * KGF_CM / 4 / 1.94, rel=1e-9)


def test_the_bad_corner_takes_low_supply_and_high_friction():
    # 30 kgf·cm rated, 11 of 12 V, against 2.00 N·m from rest
    assert of("B").corner == pytest.approx(30 * KGF_CM * 0.917 / 2.00, rel=1e-3)


def test_a_motor_that_may_start_either_way_meets_the_harder_way():
    result = of("A")
    assert result.times_enough == pytest.approx(4 * KGF_CM / 2.04, rel=1e-9)
    assert "harder way" in result.why


def test_only_a_share_of_stall_counts_and_the_line_says_so():
    assert "a quarter" in of("D").why


def test_a_row_that_breaks_physics_is_not_used_but_told_what_it_could_be():
    result = of("F")
    assert result.verdict is Answer.UNKNOWN
    assert "12.3 W out of 8 W" in result.why
    (if_so,) = result.if_so
    assert if_so.times_enough == pytest.approx(60 * KGF_CM / 4 / 1.94, rel=1e-9)


def test_a_wiper_motor_is_too_fast():
    result = of("E")
    assert result.deciding.id == "motor_speed"
    assert result.deciding.value == pytest.approx(45.0)
    assert result.deciding.limit_no == pytest.approx(15.0)


def test_rated_stall_and_holding_torque_are_never_merged():
    rated, stall, holding = (
        judge(replace(WORM, rated_torque=r, stall_torque=s, holding_torque=h), demand())
        for r, s, h in ((4.0, None, None), (None, 4.0, None), (None, None, 4.0))
    )
    assert rated.times_enough == pytest.approx(4.0 / 1.94)
    assert stall.times_enough == pytest.approx(1.0 / 1.94)
    assert holding.times_enough is None
    assert holding.verdict is Answer.UNKNOWN


def test_the_safety_factor_is_charged_once():
    once, twice = (judge(WORM, demand(safety_factor=f)) for f in (1.0, 3.0))
    assert once.times_enough == twice.times_enough
    assert once.dependable == twice.dependable
    assert twice.finding("motor_strength").limit_fine == 3.0
    assert (once.verdict, twice.verdict) == (Answer.FINE, Answer.MARGINAL)


def test_inertia_grows_with_the_square_of_the_speed():
    slow, fast = (
        judge(
            replace(WORM, free_speed=speed * RPM),
            demand(inertia_torque=np.full((2, POINTS), 0.5)),
        )
        for speed in (3.0, 6.0)
    )
    for result, speed in ((slow, 3.0), (fast, 6.0)):
        hardest = 1.94 + 0.5 * (speed * RPM) ** 2
        assert result.times_enough == pytest.approx(4.5 / hardest, rel=1e-9)


# -- each check ----------------------------------------------------------------------------------


def test_speed_fast_and_slow():
    answers = [found(replace(WORM, free_speed=n * RPM), "motor_speed").answer for n in (16, 6, 0.5)]
    assert answers == [Answer.NO, Answer.FINE, Answer.MARGINAL]
    assert found(replace(WORM, free_speed=0.01 * RPM), "motor_speed").answer is Answer.NO


def test_an_unsaid_load_of_the_speed_counts_where_it_decides():
    # 12 rpm with the rated load on would be 16 rpm without
    unsaid = replace(WORM, free_speed=None, unnamed_speed=12.0 * RPM)
    assert found(unsaid, "motor_speed").answer is Answer.UNKNOWN
    assert found(replace(unsaid, unnamed_speed=6.0 * RPM), "motor_speed").answer is Answer.FINE


def test_mains_frequency_sets_the_speed():
    on_60 = demand(supply=Supply((), (230.0,), 60.0))
    assert found(SYNCHRONOUS, "motor_speed", on_60).value == pytest.approx(2.5 * 1.2)
    assert found(SYNCHRONOUS, "motor_frequency", on_60).answer is Answer.MARGINAL
    assert found(SYNCHRONOUS, "motor_frequency").answer is Answer.FINE
    unsaid = replace(SYNCHRONOUS, frequencies=())
    assert found(unsaid, "motor_frequency").answer is Answer.UNKNOWN


@pytest.mark.parametrize(
    ("volts", "supply", "answer"),
    [
        (Volts(12, 12, "dc"), Supply((12.0,), (), None), Answer.FINE),
        (Volts(24, 24, "dc"), Supply((12.0,), (), None), Answer.MARGINAL),
        (Volts(6, 6, "dc"), Supply((12.0,), (), None), Answer.NO),
        (Volts(24, 24, "dc"), Supply((), (230.0,), 50.0), Answer.MARGINAL),
        (Volts(12, 24, "dc"), Supply((12.0,), (), None), Answer.FINE),
    ],
)
def test_supply_of_a_brushed_motor(volts, supply, answer):
    motor = replace(WORM, volts=(volts,))
    assert found(motor, "motor_supply", demand(supply=supply)).answer is answer


def test_a_mains_motor_needs_its_own_voltage():
    at_120 = demand(supply=Supply((12.0,), (120.0,), 60.0))
    assert found(SYNCHRONOUS, "motor_supply", at_120).answer is Answer.NO


def test_half_the_voltage_is_half_the_speed_and_half_the_stall():
    # straight line: both ends go with the voltage (MIT 2.007, "Designing with D.C. motors")
    half = judge(replace(WORM, volts=(Volts(24.0, 24.0, "dc"),)), demand(supply=ONLY_12_V))
    assert half.line.free_speed == pytest.approx(3.0 * RPM)
    assert half.line.zero_torque == pytest.approx(9.0)
    assert half.times_enough == pytest.approx(2.25 / 1.94)


def test_figures_of_a_wide_range_of_volts_are_reckoned_at_its_top():
    wide = judge(replace(WORM, volts=(Volts(12.0, 24.0, "dc"),)), demand())
    assert wide.dependable == pytest.approx(2.25)
    assert "which of its volts" in wide.finding("motor_speed_basis").text


def test_holding_matters_only_where_the_load_pushes_back():
    pushed = demand(holding_torque=0.5)
    assert found(WORM, "motor_holding").answer is Answer.FINE
    assert found(WORM, "motor_holding", pushed).answer is Answer.UNKNOWN
    holds = replace(WORM, holds_when_off=True)
    assert found(holds, "motor_holding", pushed).answer is Answer.FINE
    assert found(replace(WORM, holds_when_off=False), "motor_holding", pushed).answer is (
        Answer.MARGINAL
    )


def test_what_keeps_a_load_is_not_a_rest_point_that_the_drive_does_not_have():
    # common practice, no source: a shaft and a screw have no dead centre to park on
    loose = replace(WORM, holds_when_off=False)
    crank = found(loose, "motor_holding", demand(holding_torque=0.5)).text
    shaft = found(loose, "motor_holding", demand(holding_torque=0.5, rest_points=False)).text
    assert "Park it on a rest point" in crank
    assert "rest point" not in shaft
    assert "drive through a worm" in shaft


def test_a_drive_that_friction_jams_is_said_to_jam_and_needs_no_unknown_torque():
    jammed = np.full_like(demand().torque, np.inf)
    result = judge(WORM, demand(torque=jammed, corner_torque=jammed))
    assert result.verdict is Answer.NO
    for name in ("motor_strength", "motor_corner", "motor_starting"):
        finding = result.finding(name)
        assert finding.answer is Answer.NO
        assert "riction jams the drive" in finding.text, name
        assert "unknown" not in finding.text, name


def test_a_minute_an_hour_is_short_time_duty_not_intermittent():
    # IEC 60034-1: S3 cycles last ten minutes at most, so 25 % is 2.5 minutes, not 15 of 60
    slow = replace(WORM, free_speed=0.12 * RPM, duty=Duty("S3", share=0.25))
    finding = found(slow, "motor_duty")
    assert finding.limit_fine == pytest.approx(150.0)
    assert finding.value > 240.0
    assert finding.answer is Answer.MARGINAL


def test_unknown_duty_matters_only_for_long_runs():
    assert found(WORM, "motor_duty").answer is Answer.FINE
    assert found(replace(WORM, free_speed=0.5 * RPM), "motor_duty").answer is Answer.UNKNOWN


def test_inside_the_box_unknown_warmth_and_damp_cap_the_verdict():
    inside = demand(stands="inside the box")
    assert judge(WORM, demand()).verdict is Answer.FINE
    result = judge(WORM, inside)
    assert result.verdict is Answer.MARGINAL
    names = {f.id for f in result.unknown}
    assert {"motor_ambient", "motor_damp", "motor_heat_in_box"} <= names
    assert all(f.ask for f in result.unknown)
    listed = replace(WORM, ambient_most=50.0, protection="IP44", input_power=5.0)
    assert judge(listed, inside).verdict is Answer.FINE


def test_outside_the_room_of_the_design_counts():
    # listed for 30 °C at most; without a word about the room 25 °C are reckoned with
    motor = replace(WORM, ambient_most=30.0)
    assert found(motor, "motor_ambient").answer is Answer.FINE
    warm = found(motor, "motor_ambient", demand(room_temperature=34.0))
    assert warm.answer is Answer.NOTE
    assert warm.value == 34.0


def test_warm_places_take_from_the_torque():
    hot = demand(stands="inside the box", box_temperature=50.0)
    # maker's table for a 60 K rise (maker withheld): 0.88 at 50 °C
    assert judge(WORM, hot).dependable == pytest.approx(4.5 * 0.88)


def test_heat_of_a_motor_inside():
    inside = demand(stands="inside the box")
    result = judge(replace(SYNCHRONOUS, input_power=4.0), inside)
    move = 12.0  # s for half a turn at 2.5 rpm
    assert result.average_heat_in_box == pytest.approx(4.0 * move / 3600.0)
    assert judge(SYNCHRONOUS, demand()).average_heat_in_box == 0.0


def test_a_stepper_heats_while_it_holds():
    stepper = motor(
        "stepper",
        holding_torque=12.0,
        input_power=8.6,
    )
    inside = demand(stands="inside the box")
    assert judge(stepper, inside).average_heat_in_box == pytest.approx(8.6)
    assert found(stepper, "motor_heat_in_box", inside).answer is Answer.MARGINAL


def test_side_load():
    assert found(replace(WORM, side_load=20.0), "motor_side_load").answer is Answer.NOTE
    assert found(replace(WORM, side_load=90.0), "motor_side_load").answer is Answer.FINE
    assert found(WORM, "motor_side_load", demand(side_load=400.0)).answer is Answer.UNKNOWN
    assert found(WORM, "motor_side_load", demand(side_load=None)) is None


def test_a_shaded_pole_motor_starts_with_half_of_what_it_gives_running():
    # about half of full load at start: electrical-engineering-portal.com, shaded-pole losses
    motor = replace(
        SYNCHRONOUS, motor_class="shaded_pole", candidates=("shaded_pole",), rated_torque=3.0
    )
    finding = found(motor, "motor_starting")
    assert finding.value == pytest.approx(1.5 / 2.09)
    assert finding.answer is Answer.NO


def test_rms_counts_the_move_and_not_the_pause():
    slow = replace(WORM, free_speed=0.4 * RPM, rated_torque=1.0, stall_torque=30.0)
    short, long = (found(slow, "motor_rms", demand(interval_s=t)) for t in (900.0, 86400.0))
    assert short.value == long.value
    assert short.answer is Answer.MARGINAL


def test_an_actuator_does_not_turn_a_crank():
    actuator = motor(
        "linear_actuator",
        force=750.0,
        travel_speed=0.01,
        stroke=0.15,
    )
    assert judge(actuator, demand()).verdict is Answer.NO
    pushing = demand(
        linear=True,
        angle=np.linspace(0.0, 0.1, POINTS),
        torque=np.full((3, 2, POINTS), 100.0),
        corner_torque=np.full((3, 2, POINTS), 120.0),
        speed_min=0.002,
        speed_max=0.05,
    )
    result = judge(actuator, pushing)
    assert result.times_enough == pytest.approx(3.75)  # half of the listed force counts
    assert result.verdict is Answer.FINE
    # 50 mm at 10 mm/s without load; under 100 N it slows a little
    assert 5.0 < result.longest_move < 6.0


def test_motor_that_stalls_never_arrives():
    weak = replace(WORM, rated_torque=0.2, stall_torque=0.8)
    assert judge(weak, demand()).longest_move == math.inf


def test_nothing_asked_is_enough():
    pulls = np.full((3, 2, POINTS), -1.0)
    nothing = demand(torque=pulls, corner_torque=pulls)
    assert judge(WORM, nothing).finding("motor_strength").answer is Answer.FINE


def test_jams_are_never_strong_enough():
    jammed = demand(torque=np.full((3, 2, POINTS), np.inf))
    result = judge(WORM, jammed)
    assert result.times_enough == 0.0
    assert result.verdict is Answer.NO


def test_of_motors_that_do_the_just_enough_one_comes_before_the_giant():
    giant = replace(WORM, id="G", rated_torque=80.0, stall_torque=320.0, price=10.0)
    cheap = replace(WORM, id="cheap", price=10.0)
    dear = replace(WORM, id="dear", price=20.0)
    assert [r.motor.id for r in rank([giant, dear, cheap], demand())] == ["cheap", "dear", "G"]


# -- to and fro ----------------------------------------------------------------------------------


def test_to_and_fro_wants_a_motor_that_can_be_told_to_turn_back():
    to_and_fro = demand(both_directions_needed=True, moves_per_cycle=1)
    assert found(WORM, "motor_reverses", to_and_fro).answer is Answer.FINE
    one_way = of("A", to_and_fro)
    assert one_way.verdict is Answer.NO
    assert "either way" in one_way.finding("motor_reverses").text
    # A crank that goes round does not care, even where the harder way has to count.
    assert found(WORM, "motor_reverses", demand(both_directions_needed=True)) is None


def test_a_hobby_servo_comes_to_its_own_stops():
    servo = motor(
        "servo",
        title="hobby servo",
        stall_torque=30.0,
        unnamed_speed=10.0 * RPM,
        volts=(Volts(6.0, 6.0, "dc"),),
    )

    def to_and_fro(degrees):
        angle = np.linspace(0.0, math.radians(degrees), POINTS)
        return demand(
            angle=angle,
            both_directions_needed=True,
            moves_per_cycle=1,
            move_spans=((0, POINTS - 1),),
        )

    assert found(servo, "motor_travel", to_and_fro(90.0)).answer is Answer.FINE
    assert found(servo, "motor_travel", to_and_fro(180.0)).answer is Answer.FINE
    assert found(servo, "motor_travel", to_and_fro(200.0)).answer is Answer.UNKNOWN
    assert found(servo, "motor_travel", to_and_fro(385.0)).answer is Answer.NO
    assert found(servo, "motor_travel").answer is Answer.NO  # round and round
    assert found(WORM, "motor_travel") is None
