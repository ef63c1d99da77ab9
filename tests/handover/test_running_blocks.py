"""Timer settings, supply, heat and power cuts on the page and in JSON, beside what they rest on."""

import json
from functools import cache
from pathlib import Path

import pytest

from turnercalc.advice import Advice
from turnercalc.design import read_design
from turnercalc.handover import record
from turnercalc.handover.display import Style
from turnercalc.handover.screen.running import (
    after_a_power_cut,
    supply_and_heat,
    timer_settings,
)
from turnercalc.handover.screen.timer import timer
from turnercalc.motors import read_motors
from turnercalc.sizing import size

EXAMPLES = Path(__file__).parents[2] / "examples"
WARM = {
    "motor.stands": "inside the box",
    "box.insulation": "30 mm foam board",
    "box.fan_power": "3 W",
}


@cache
def sized(*settings: tuple[str, str]):
    design = read_design(EXAMPLES / "larder-rack.toml", dict(settings))
    return size(design, read_motors(EXAMPLES / "motors.csv"))


def text(block, found) -> str:
    lines = block(found, Style())
    assert max((len(line) for line in lines), default=0) <= 80
    return " ".join(" ".join(lines).split())


@pytest.mark.parametrize("stop", ["park switch", "timer", "end switches", "counted steps"])
def test_every_way_of_stopping_has_its_blocks(stop):
    found = sized(("motor.stopped_by", stop))
    settings = text(timer_settings, found)
    for one in found.running.timers:
        assert one.name in settings
        assert one.text[1:40] in settings
    cut = text(after_a_power_cut, found)
    assert f"By {stop}" in cut
    assert found.running.power_cut.do[:30] in cut


def test_a_bare_timer_tells_where_each_side_parks():
    found = sized(("motor.stopped_by", "timer"))
    told = text(timer_settings, found)
    for side in found.timing.drift.sides:
        assert f"parks level after {side.level_after} turns" in told
    assert f"a quarter turn off after {found.timing.drift.quarter_after} turns" in told


def test_a_crank_that_goes_round_is_not_turned_back_by_its_end_switches():
    round_and_round = sized(("motor.stopped_by", "end switches"))
    to_and_fro = sized(
        ("motor.stopped_by", "end switches"),
        ("crank.runs", "to and fro"),
        ("crank.first_angle", "30 deg"),
        ("crank.last_angle", "150 deg"),
    )
    assert "the other way next time" not in text(timer, round_and_round)
    assert "until the switch of the other end opens" in text(timer, round_and_round)
    assert "the other way next time" in text(timer, to_and_fro)


def test_an_actuator_runs_on_by_some_of_its_rod_and_not_of_a_shaft():
    design = read_design(EXAMPLES / "beach-cooler-cradle.toml")
    told = text(timer_settings, size(design, read_motors(EXAMPLES / "actuators.csv")))
    assert "mm of rod; that" in told
    assert "of shaft" not in told
    assert "of shaft; that" in text(timer_settings, sized())


def test_current_fuse_and_time_out_are_those_of_the_motor():
    found = sized()
    told = text(supply_and_heat, found)
    electric = found.chosen.electric
    assert f"Up to {electric.running:.3g} A moving" in told
    assert f"{electric.fuse:g} A: slow blow" in told
    assert f"Off after {found.timing.give_up_after:.0f} s" in told
    assert "local codes" in told


def test_heat_and_room_are_told_where_the_motor_stands_inside():
    found = sized(*WARM.items())
    told = text(supply_and_heat, found)
    assert "while it moves" in told
    assert f"{found.warmth.warmest_room:.1f} °C" in told
    assert "while it moves" not in text(supply_and_heat, sized())


def test_without_a_motor_only_what_follows_from_the_turner_is_told():
    design = read_design(EXAMPLES / "larder-rack.toml")
    found = size(design, None)
    assert "times an hour" in text(timer_settings, found)
    assert text(supply_and_heat, found) == ""
    assert "By park switch" in text(after_a_power_cut, found)


def test_json_says_the_same_with_units():
    found = sized(("motor.stopped_by", "timer"), *WARM.items())
    got = json.loads(record.as_json(found, Advice(())))
    running, supply, warmth = got["running"], got["supply"], got["warmth"]
    assert [t["id"] for t in running["timers"]] == [
        "repeat_cycle_timer",
        "seconds_timer",
        "slot_timer",
    ]
    assert running["timers"][0]["on_s"] == pytest.approx(found.running.timers[0].on_time)
    assert running["power_cut"]["stopped_by"] == "timer"
    assert running["power_cut"]["off_for_good_most_deg"] > 0.0
    assert running["all_day_long"]["shaft_speed_rpm"] == pytest.approx(1 / 120, rel=1e-3)
    assert running["moves"][0]["longest_s"] == pytest.approx(found.running.ways[0].longest, 1e-3)
    assert supply["running_A"] == pytest.approx(found.chosen.electric.running, rel=1e-3)
    assert supply["fuse_A"] == found.chosen.electric.fuse
    assert warmth["warmest_room_degC"] == pytest.approx(found.warmth.warmest_room, rel=1e-3)
    assert warmth["walls_W_per_K"] == pytest.approx(found.warmth.conductance, rel=1e-3)
