"""What motors carry, and which does: every figure that is told is sized again."""

from functools import cache
from pathlib import Path

import pytest

from turnercalc.advice.capacity import Capacity, capacity, fillings, grows
from turnercalc.advice.which_motor import Match, which_motor
from turnercalc.cli import main
from turnercalc.design import Design, read_design
from turnercalc.findings import Answer
from turnercalc.motors import MotorFile, read_motors
from turnercalc.sizing import size

EXAMPLES = Path(__file__).parents[2] / "examples"


@cache
def motors() -> MotorFile:
    return read_motors(EXAMPLES / "motors.csv")


@cache
def larder() -> Design:
    return read_design(EXAMPLES / "larder-rack.toml")


@cache
def carried() -> Capacity:
    return capacity(larder(), motors(), most=4)


@cache
def matched() -> tuple[Match, ...]:
    return which_motor(larder(), motors())


def test_so_many_are_carried_and_one_more_is_not() -> None:
    found = carried()
    assert (found.field, found.thing) == ("trays.count", "trays")
    checked = 0
    for item in found.carried:
        if item.motor not in ("worm 5", "worm 12", "spit", "spur 6"):
            continue
        for count in (item.count, item.count + 1):
            if not 1 <= count <= 4:
                continue
            settings = {"trays.count": str(count), "trays.filled": item.filling, "loads": []}
            sizing = size(larder().replace({**settings, "motor.have": item.motor}), motors())
            chosen = sizing.chosen
            assert chosen is not None
            strong = (chosen.times_enough or 0.0) >= 2.0
            does = strong and chosen.verdict in (Answer.FINE, Answer.MARGINAL)
            assert does == (count == item.count), (item.motor, count)
            if count == item.count:
                assert chosen.times_enough == pytest.approx(item.times_enough, rel=1e-9)
                full = max(case.egg_count for case in sizing.turner.load_cases())
                assert full == item.eggs == 35 * count
            checked += 1
    assert checked > 6


def test_mirror_pairs_never_carry_less() -> None:
    by = {(item.motor, item.filling): item.eggs for item in carried().carried}
    for (motor, filling), eggs in by.items():
        if filling == "in any order":
            assert by[motor, "in mirror pairs"] >= eggs


def test_what_limits_it_is_said() -> None:
    for item in carried().carried:
        assert item.limited_by
        assert item.why
    by = {(item.motor, item.filling): item for item in carried().carried}
    assert by["jack", "in any order"].limited_by == "motor_motion"
    assert by["worm 5", "in any order"].limited_by == "motor_strength"
    assert by["planet 8", "in any order"].limited_by == "most"


def test_the_box_holds_what_has_room() -> None:
    found = carried()
    settings = {"trays.count": str(found.box_holds), "loads": []}
    room = {f.id: f.answer for f in size(larder().replace(settings)).findings}
    assert room["room"] is not Answer.NO
    more = {"trays.count": str(found.box_holds + 1), "loads": []}
    room = {f.id: f.answer for f in size(larder().replace(more)).findings}
    assert room["room"] is Answer.NO


@pytest.mark.parametrize(
    ("name", "field"),
    [
        ("cradle", "cradle.rows"),
        ("grid", "grid.cells"),
        ("bars", "bars.count"),
        ("drum", "drum.eggs_per_shelf"),
    ],
)
def test_every_way_of_turning_is_counted(name: str, field: str, tmp_path: Path) -> None:
    file = tmp_path / f"{name}.toml"
    assert main(["start", name, str(file)]) == 0
    design = read_design(file)
    assert grows(design)[0] == field
    _, words = fillings(design)
    found = capacity(design, motors(), most=3)
    assert {item.filling for item in found.carried} == set(words)
    strong = [item for item in found.carried if item.motor == "planet 8"]
    assert any(item.eggs > 0 for item in strong), strong[0].why


def test_matches_come_true_when_set() -> None:
    for one in matched():
        if one.verdict not in (Answer.FINE, Answer.MARGINAL):
            continue
        sizing = size(larder().replace(dict(one.settings)), motors())
        assert sizing.chosen is not None
        assert sizing.chosen.motor.id == one.motor
        assert sizing.chosen.verdict is one.verdict
        assert sizing.chosen.times_enough == pytest.approx(one.times_enough, rel=1e-9)


def test_every_motor_has_a_line_and_the_best_comes_first() -> None:
    found = matched()
    assert sorted(one.motor for one in found) == sorted(row.motor.id for row in motors())
    rank = {Answer.FINE: 0, Answer.MARGINAL: 1, Answer.NO: 2, Answer.UNKNOWN: 3}
    ranks = [rank[one.verdict] for one in found]
    assert ranks == sorted(ranks)


def test_a_stage_makes_a_motor_do_that_does_not_by_itself() -> None:
    alone = size(larder(), motors())
    by = {one.motor: one for one in matched()}
    weak = next(result for result in alone.motors if result.motor.id == "spur 6")
    assert weak.verdict is Answer.NO
    assert by["spur 6"].verdict is Answer.FINE
    assert by["spur 6"].train is not None
    assert by["planet 8"].train is None, "what does as it is gets no stage"


def test_a_design_that_does_not_go_through_gets_another_crank() -> None:
    short = larder().replace({"link.length": "150 mm"})
    found = which_motor(short, motors())
    assert found[0].verdict is Answer.FINE
    assert found[0].lengths is not None
