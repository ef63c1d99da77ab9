"""Heat of motor, fan and eggs against the walls of the box."""

from functools import cache
from pathlib import Path

import pytest

from turnercalc.design import read_design
from turnercalc.findings import Answer
from turnercalc.motors import read_motors
from turnercalc.sizing import size

EXAMPLES = Path(__file__).parents[1] / "examples"
MOTORS = """name,what,rated torque,speed,supply,power,current,holding,holding torque,IP,ambient,duty
warm,reversible synchronous gearmotor with capacitor,8 N·m,2.5 rpm,230 V 50 Hz,14 W,,,,IP54,50 C,S1
hold,stepper,,,3.6 V DC,,1.2 A,no,18 N·m,IP54,50 C,S1
"""


@cache
def sized(have: str, *settings: tuple[str, str]):
    given = {"motor.have": have, "motor.stands": "inside the box", **dict(settings)}
    design = read_design(EXAMPLES / "larder-rack.toml", given)
    return size(design, read_motors(MOTORS))


WALL = (("box.insulation", "1.0 W/m2K"), ("box.wall_area", "2.0 m2"), ("box.fan_power", "3 W"))


def test_average_and_standing_heat_of_a_synchronous_motor():
    warmth = sized("warm", *WALL).warmth
    # 14 W for the 12 s that half a turn at 2.5 rpm takes, each hour
    assert warmth.motor_average == pytest.approx(14.0 * 12.0 / 3600.0, rel=0.02)
    assert warmth.motor_standing == 0.0
    assert warmth.motor_running == pytest.approx(14.0, rel=0.01)


def test_a_stepper_that_holds_heats_all_day():
    warmth = sized("hold", *WALL).warmth
    # two phases of 1.2 A at 3.6 V (arithmetic)
    assert warmth.motor_average == pytest.approx(8.64)
    assert warmth.motor_standing == pytest.approx(8.64)


def test_the_rise_and_the_warmest_room_by_hand():
    warmth = sized("hold", *WALL).warmth
    # 2.0 m2 of 1.0 W/(m2·K) let 2 W through for each kelvin
    assert warmth.conductance == pytest.approx(2.0)
    assert warmth.average_rise == pytest.approx(8.64 / 2.0)
    assert warmth.warmest_room == pytest.approx(37.6 - (8.64 + 3.0) / 2.0)
    # and 105 hens' eggs of about 61 g with 2.33 W/kg
    assert warmth.eggs == pytest.approx(105 * 0.06125 * 0.14 / 0.060, rel=0.01)
    assert warmth.warmest_room_with_eggs == pytest.approx(37.6 - (8.64 + 3.0 + warmth.eggs) / 2.0)


def test_the_area_is_that_of_the_inside_faces_where_none_is_given():
    warmth = sized("warm", ("box.insulation", "1.0 W/m2K")).warmth
    assert not warmth.area_given
    assert warmth.wall_area == pytest.approx(
        2 * (0.46 * 0.82 + 0.46 * 0.43 + 0.82 * 0.43), rel=5e-3
    )


def test_without_insulation_nothing_is_said_of_the_room():
    found = sized("warm")
    assert found.warmth.conductance is None
    assert found.warmth.warmest_room is None
    assert not [f for f in found.findings if f.id == "warm_room"]


def test_a_room_warmer_than_the_box_bears_caps_the_verdict():
    fine = sized("warm", ("box.insulation", "4 W/m2K"), ("box.room", "26 C"), WALL[2])
    hot = sized("warm", ("box.insulation", "0.5 W/m2K"), ("box.room", "26 C"), WALL[2])
    answers = [
        next(f for f in found.findings if f.id == "warm_room").answer for found in (fine, hot)
    ]
    assert answers == [Answer.FINE, Answer.MARGINAL]
    assert fine.warmth.warmest_room > 26.0 > hot.warmth.warmest_room_with_eggs


def test_a_motor_outside_does_not_warm_the_box():
    warmth = sized("hold", *WALL, ("motor.stands", "outside the box")).warmth
    assert warmth.motor_average == 0.0
    assert warmth.warmest_room == pytest.approx(37.6 - 3.0 / 2.0)


def test_a_motor_that_is_still_to_buy_has_no_heat_yet():
    given = {"motor.stands": "inside the box", **dict(WALL)}
    found = size(read_design(EXAMPLES / "larder-rack.toml", given))
    assert found.warmth.motor_average is None
    assert found.warmth.warmest_room is None
    warm_room = next(f for f in found.findings if f.id == "warm_room")
    assert warm_room.answer is Answer.UNKNOWN
    assert not warm_room.caps_verdict


def test_unlisted_power_stays_unknown():
    text = MOTORS.replace("14 W", "").replace("warm", "bare")
    design = read_design(
        EXAMPLES / "larder-rack.toml",
        {"motor.have": "bare", "motor.stands": "inside the box", **dict(WALL)},
    )
    warmth = size(design, read_motors(text)).warmth
    assert warmth.motor_average is None
    assert warmth.warmest_room is None
