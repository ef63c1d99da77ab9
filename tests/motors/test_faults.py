"""What is wrong with a motor is told as what is wrong, never as the question that it failed."""

import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from tests.motors.demands import RPM, demand
from tests.motors.listed import motor
from turnercalc import motors
from turnercalc.fields import Supply
from turnercalc.findings import Answer, Finding
from turnercalc.motors import Volts, judge, rank
from turnercalc.motors.faults import in_short

SOURCES = sorted(Path(motors.__file__).parent.glob("*.py"))
IDS = {name for file in SOURCES for name in re.findall(r'"(motor_[a-z_]+)"', file.read_text())}
NOT_CHECKS = {"motor_class", "motor_classes"}
TWELVE = Supply((12.0,), (), None)


def pushing(**changes):
    """Return a demand on a rod: 113 mm, 20 N all the way out and 10 N back."""
    along = np.linspace(0.0, 0.113, 120)
    force = np.stack([np.full(120, 20.0), np.full(120, 10.0)])[None]
    plain = demand(
        angle=along,
        torque=force,
        corner_torque=1.1 * force,
        inertia_torque=np.zeros((2, 120)),
        load_names=("full",),
        both_directions_needed=True,
        moves_per_cycle=1,
        move_spans=((0, 119),),
        speed_min=0.002,
        speed_max=0.060,
        supply=TWELVE,
        stopped_by="end switches",
        side_load=None,
        linear=True,
        drawn_stroke=0.150,
    )
    return replace(plain, **changes)


def rod(**changes):
    plain = {"force": 1000.0, "travel_speed": 0.012, "stroke": 0.150}
    return motor("linear_actuator", **{**plain, **changes})


@pytest.mark.parametrize("name", sorted(IDS - NOT_CHECKS))
def test_what_fails_and_what_is_open_have_words_of_their_own(name):
    told = {
        answer: in_short(Finding(id=name, title="Well", answer=answer, text="Long text."))
        for answer in (Answer.NO, Answer.UNKNOWN, Answer.FINE)
    }
    assert told[Answer.FINE] == ""
    assert {told[Answer.NO], told[Answer.UNKNOWN]} != {"Long text"}


def test_words_of_a_fault_say_the_fault():
    too_fast = judge(motor("brushed_worm", rated_torque=9.0, free_speed=90.0 * RPM), demand())
    assert in_short(too_fast.finding("motor_speed")) == "wrong speed"
    one_way = judge(
        motor("shaded_pole", rated_torque=9.0, unnamed_speed=3.0 * RPM),
        demand(both_directions_needed=True, moves_per_cycle=1),
    )
    assert in_short(one_way.finding("motor_reverses")) == "cannot be told to turn back"


@pytest.mark.parametrize(("made_for", "share"), [(12.0, 1.0), (24.0, 0.5)])
def test_an_actuator_on_half_its_volts_goes_half_as_fast(made_for, share):
    # a permanent-magnet motor's speed without load goes with the volts (Hughes, Electric Motors
    # and Drives, chapter 3); 113 mm at 12 mm/s are 9.4 s, at 6 mm/s 18.8 s, less what load costs
    result = judge(rod(volts=(Volts(made_for, made_for, "dc"),)), pushing())
    assert result.line.free_speed == pytest.approx(0.012 * share)
    assert result.finding("motor_speed").value == pytest.approx(0.012 * share)
    assert result.dependable == pytest.approx(share * judge(rod(), pushing()).dependable)
    by_hand = 0.113 / (0.012 * share)
    assert by_hand < result.shortest_move < result.longest_move < 1.05 * by_hand


def test_an_actuator_for_a_wide_range_may_be_listed_at_its_highest_volts():
    result = judge(rod(volts=(Volts(12.0, 24.0, "dc"),)), pushing())
    assert result.line.free_speed == pytest.approx(0.006)
    assert "which of its volts" in result.finding("motor_speed_basis").text


@pytest.mark.parametrize(
    ("stroke", "told"), [(0.150, False), (0.1524, False), (0.200, True), (0.100, False)]
)
def test_another_stroke_than_drawn_asks_for_its_own_length(stroke, told):
    # 6 in and 150 mm are the same rod; one that is too short is refused by its stroke
    finding = judge(rod(stroke=stroke), pushing()).finding("motor_own_length")
    assert (finding is not None) is told
    if told:
        assert "actuator.shortest" in finding.ask
        assert not finding.caps_verdict


def test_what_may_yet_prove_fine_stands_before_what_is_known_to_fall_short():
    plain = {"volts": (Volts(12.0, 12.0, "dc"),), "protection": "IP54", "input_power": 5.0}
    silent = rod(**plain)
    wrong = rod(**{**plain, "volts": (Volts(24.0, 24.0, "dc"),)}, ambient_most=60.0, price=1.0)
    silent, wrong = replace(silent, id="silent"), replace(wrong, id="wrong volts")
    ranked = rank([wrong, silent], pushing(stands="inside the box"))
    assert [r.motor.id for r in ranked] == ["silent", "wrong volts"]
    assert [r.verdict for r in ranked] == [Answer.MARGINAL, Answer.MARGINAL]
