"""What motors carry, and which does: every figure that is told is sized again."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from turnercalc.advice.capacity import Capacity, capacity, fillings, grows
from turnercalc.advice.which_motor import Matches, key_of, which_motor
from turnercalc.cli import main
from turnercalc.design import Design, read_design
from turnercalc.errors import TurnercalcError
from turnercalc.findings import Answer
from turnercalc.handover.capacity_page import capacity_page
from turnercalc.handover.display import Style
from turnercalc.motors import MotorFile, read_motors
from turnercalc.motors.checks_strength import times
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
def matched() -> Matches:
    return which_motor(larder(), motors())


def test_so_many_are_carried_and_one_more_is_not() -> None:
    found = carried()
    assert (found.field, found.thing) == ("trays.count", "trays")
    checked = 0
    for item in found.carried:
        if item.motor not in ("worm 5", "worm 12", "spit", "spur 6"):
            continue
        for count in (item.motor_count, item.motor_count + 1):
            if not 1 <= count <= 4:
                continue
            settings = {"trays.count": str(count), "trays.filled": item.filling, "loads": []}
            sizing = size(larder().replace({**settings, "motor.have": item.motor}), motors())
            chosen = sizing.chosen
            assert chosen is not None
            strong = (chosen.times_enough or 0.0) >= 2.0
            does = strong and chosen.verdict in (Answer.FINE, Answer.MARGINAL)
            assert does == (count == item.motor_count), (item.motor, count)
            if count == item.count:
                assert chosen.times_enough == pytest.approx(item.times_enough, rel=1e-9)
                full = max(case.egg_count for case in sizing.turner.load_cases())
                assert full == item.eggs == 35 * count
            checked += 1
    assert checked > 6


def test_the_smaller_of_motor_and_box_is_the_answer_and_which_of_them_it_is() -> None:
    found = carried()
    held = found.box_holds
    assert held == 3
    limits = set()
    for item in found.carried:
        if item.limited_by == "unknown":
            continue
        assert item.count == min(item.motor_count, held), item
        assert item.box_limits == (item.motor_count >= held), item
        assert (item.limited_by == "room") == item.box_limits
        assert item.fails_at == item.count + 1
        limits.add(item.box_limits)
    assert limits == {True, False}


def test_mirror_pairs_never_carry_less() -> None:
    by = {(item.motor, item.filling): item.motor_eggs for item in carried().carried}
    for (motor, filling), eggs in by.items():
        if filling == "in any order":
            assert by[motor, "in mirror pairs"] >= eggs


def test_what_limits_it_is_said() -> None:
    for item in carried().carried:
        assert item.limited_by
        assert item.why
        assert item.motor_more == (not item.motor_why)
    by = {(item.motor, item.filling): item for item in carried().carried}
    assert by["jack", "in any order"].limited_by == "motor_motion"
    assert by["worm 5", "in any order"].limited_by == "motor_strength"
    assert "1.75 N·m" in by["worm 5", "in any order"].why
    assert by["planet 8", "in any order"].motor_more
    assert by["club find", "in any order"].limited_by == "unknown"
    assert "Ask the seller" in by["club find", "in any order"].why


def test_the_box_holds_what_has_room() -> None:
    found = carried()
    assert found.box_holds is not None
    settings = {"trays.count": str(found.box_holds), "loads": []}
    room = {f.id: f.answer for f in size(larder().replace(settings)).findings}
    assert room["room"] is not Answer.NO
    more = {"trays.count": str(found.box_holds + 1), "loads": []}
    room = {f.id: f.answer for f in size(larder().replace(more)).findings}
    assert room["room"] is Answer.NO
    assert "44 mm too little above" in found.box_why


def file_of(*names: str) -> MotorFile:
    return replace(motors(), rows=tuple(motors().row(name) for name in names))


def answers(found: Capacity) -> dict[tuple[str, str], tuple[int, int]]:
    return {(item.motor, item.filling): (item.count, item.eggs) for item in found.carried}


def test_what_goes_in_hangs_on_no_other_motor_and_not_on_how_far_is_looked() -> None:
    every = answers(carried())
    for found in (
        capacity(larder(), file_of("turntable", "worm 5"), most=1),
        capacity(larder(), file_of("planet 8"), most=2),
        capacity(larder(), file_of("club find"), most=1),
        capacity(larder(), file_of(), most=5),
    ):
        assert (found.box_holds, found.box_eggs) == (3, 105)
        assert found.box_why == carried().box_why
        for key, answer in answers(found).items():
            assert answer == every[key]


def test_a_box_of_which_the_height_is_not_known_is_not_said_to_hold_a_number() -> None:
    found = capacity(larder().replace({"trays.lowest_pivot": None}), file_of("planet 8"), most=2)
    assert found.box_holds is None
    assert found.box_eggs is None
    assert "trays.lowest_pivot" in found.box_why
    item = found.carried[0]
    assert (item.count, item.limited_by, item.box_limits) == (10, "motor_strength", False)


def test_a_drive_that_does_not_go_through_is_an_answer() -> None:
    found = capacity(larder().replace({"link.length": "120 mm"}), motors(), most=2)
    assert "too short at the worst place" in found.stuck
    assert {item.eggs for item in found.carried} == {0}
    assert {item.limited_by for item in found.carried} == {"closes"}


def test_a_filling_that_cannot_be_takes_nothing_from_the_others() -> None:
    drum = read_design(EXAMPLES / "tool-chest-drum.toml")
    odd = drum.replace({"drum.shelves": "7", "loads": [], "drum.filled": "in the balanced order"})
    found = capacity(odd, file_of("planet 8"), most=1)
    by = {item.filling: item for item in found.carried}
    assert found.stuck == ""
    assert by["in the balanced order"].eggs == found.box_eggs == 77
    assert by["in opposite pairs"].limited_by == "refused"
    assert "none stands opposite another" in by["in opposite pairs"].why
    # What no motor could change is said once, and not of every motor.
    assert list(found.impossible) == ["in opposite pairs"]
    shown = " ".join(capacity_page([found], ["odd.toml"], file_of("planet 8"), Style()).split())
    assert shown.count("none stands opposite another") == 1
    assert "in opposite pairs: none. Of 7 shelves" in shown
    # And the room is told with the count that has none.
    assert found.box_full_at == (found.box_holds or 0) + 1
    assert f"the room With {found.grows.named(found.box_full_at)}:" in shown


def test_pairs_of_shelves_go_up_by_two() -> None:
    drum = read_design(EXAMPLES / "tool-chest-drum.toml")
    found = capacity(drum, file_of("worm 12"), most=1, of="shelves")
    pairs = next(item for item in found.carried if item.filling == "in opposite pairs")
    assert (pairs.count, pairs.eggs) == (20, 200)
    assert (found.box_holds, pairs.box_limits) == (20, True)


def test_a_box_that_never_fills_is_left_at_some_count(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("turnercalc.advice.capacity.CEILING", 4)
    tall = larder().replace({"box.height": "9 m"})
    found = capacity(tall, file_of(), most=1)
    assert found.box_holds is None
    assert found.box_why == "More than 4 trays were not looked at."


def test_a_motor_that_falls_short_by_little_looks_so() -> None:
    assert times(1.989, 2.0) == "1.99 times"
    assert times(1.9996, 2.0) == "1.9996 times"
    assert times(0.97, 1.0) == "0.97 times"
    assert times(2.0, 2.0) == times(2.04, 2.0) == "2.0 times"
    assert times(1.5, 2.0) == "1.5 times"


def test_shelves_are_counted_where_they_are_asked_for() -> None:
    drum = read_design(EXAMPLES / "tool-chest-drum.toml")
    assert grows(drum).field == "drum.eggs_per_shelf"
    assert grows(drum, "shelves").field == "drum.shelves"
    found = capacity(drum, file_of(), most=1, of="shelves")
    assert found.box_holds == 20
    held, more = (
        {f.id: f.answer for f in size(drum.replace({"drum.shelves": n, "loads": []})).findings}
        for n in ("20", "21")
    )
    assert held["eggs_apart"] is not Answer.NO
    assert more["eggs_apart"] is Answer.NO
    with pytest.raises(TurnercalcError, match='"eggs on each shelf" or "shelves"'):
        grows(drum, "cheese")


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
    assert grows(design).field == field
    _, words = fillings(design)
    found = capacity(design, motors(), most=3)
    assert {item.filling for item in found.carried} == set(words)
    strong = [item for item in found.carried if item.motor == "planet 8"]
    assert any(item.eggs > 0 for item in strong), strong[0].why


def test_matches_come_true_when_set() -> None:
    assert len(matched().works) == 10
    for one in matched():
        if one.verdict not in (Answer.FINE, Answer.MARGINAL):
            continue
        sizing = size(larder().replace(dict(one.settings)), motors())
        assert sizing.chosen is not None
        assert sizing.chosen.motor.id == one.motor
        assert sizing.chosen.verdict is one.verdict
        assert sizing.verdict is one.build
        assert sizing.chosen.times_enough == pytest.approx(one.times_enough, rel=1e-9)


def test_every_motor_has_a_line_and_the_best_comes_first() -> None:
    found = matched()
    assert sorted(one.motor for one in found) == sorted(row.motor.id for row in motors())
    rank = [Answer.FINE, Answer.MARGINAL, Answer.NO, Answer.UNKNOWN]
    ranks = [rank.index(one.verdict) for one in found]
    assert ranks == sorted(ranks)


def test_every_motor_that_is_not_fine_has_its_reason_in_figures() -> None:
    by = {one.motor: one for one in matched()}
    for one in by.values():
        assert one.why
    assert "0.613 N·m" in by["servo L"].why_as_it_is
    assert "half a turn" in by["servo L"].why
    assert "1.5 times enough, 2 wanted" in by["turntable"].why
    assert "moves in a line" in by["jack"].why
    assert "Ask the seller" in by["club find"].why


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
    assert "too short at the worst place" in found.stuck


def test_a_design_that_does_not_go_through_is_said_not_to() -> None:
    short = larder().replace({"link.length": "120 mm"})
    found = which_motor(short, motors(), other_lengths=False)
    assert "too short at the worst place" in found.stuck
    assert not found.works
    assert {one.verdict for one in found} == {Answer.NO}
    assert len(found) == len(motors())


def test_a_motor_that_is_fine_does_not_make_the_build_fine() -> None:
    bars = read_design(EXAMPLES / "toy-chest-bars.toml")
    found = which_motor(bars, file_of("spur 6", "worm 12"))
    for one in found:
        assert (one.verdict, one.build) == (Answer.FINE, Answer.MARGINAL)
        assert "Belts grip" in one.build_why
        sizing = size(bars.replace(dict(one.settings)), motors())
        assert sizing.verdict is Answer.MARGINAL
        assert sizing.reason.text in one.build_why


def test_a_drum_is_built_anew_for_a_motor_only_if_nothing_else_does() -> None:
    drum = read_design(EXAMPLES / "tool-chest-drum.toml")
    found = which_motor(drum, file_of("planet 8", "worm 5"))
    assert [one.rebuilt for one in found] == [(), ()]
    assert all(one.works for one in found)
    # What works as it stands, if only marginally, comes before what is fine in another drum.
    marginal = found[0]
    assert marginal.verdict is Answer.MARGINAL
    rebuilt = replace(marginal, verdict=Answer.FINE, rebuilt=("drum",))
    no = replace(marginal, verdict=Answer.NO)
    ordered = sorted((no, rebuilt, marginal), key=lambda one: key_of(one, drum))
    assert ordered == [marginal, rebuilt, no]


def test_a_notebook_shows_a_line_for_every_motor() -> None:
    found = matched()
    assert len(found.to_dict()["motor"]) == len(found)
    assert found.to_arrays()["times_enough"].dtype == float
    assert "syn 60" in found._repr_html_()
