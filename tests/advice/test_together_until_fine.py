"""Several changes together until all is fine, and what each of them leaves open and brings."""

from functools import cache
from pathlib import Path

import pytest

from turnercalc.advice import Advice, advise
from turnercalc.advice.moves import proposals
from turnercalc.design import read_design
from turnercalc.findings import Answer
from turnercalc.handover.display import Style
from turnercalc.handover.screen.verdict import verdict_block
from turnercalc.motors import MotorFile, read_motors
from turnercalc.sizing import Sizing, size

EXAMPLES = Path(__file__).parents[2] / "examples"
Settings = tuple[tuple[str, str | None], ...]

#: A crank whose pin comes so near the pivot that friction jams the slotted lever with every motor.
JAMS: Settings = (
    ("crank.radius", "38 mm"),
    ("crank.across", "38 mm right of pivot"),
    ("crank.height", "10 mm below pivot"),
    ("arm.length", "100 mm"),
    ("turning.turns_per_day", "24"),
)
LATE: Settings = (("turning.last_day", "20"), ("motor.have", "planet 8"))
WIDE: Settings = (("trays.width", "500 mm"), ("motor.have", "planet 8"))
THREE: Settings = (
    ("turning.turns_per_day", "5"),
    ("trays.filled", "in any order"),
    ("turning.last_day", "19"),
)


@cache
def motors() -> MotorFile:
    return read_motors(EXAMPLES / "motors.csv")


@cache
def sized(name: str, settings: Settings) -> Sizing:
    return size(read_design(EXAMPLES / f"{name}.toml", dict(settings)), motors())


@cache
def advised(name: str, settings: Settings) -> Advice:
    return advise(sized(name, settings), motors())


def again(name: str, settings: Settings, at: int = 0) -> Sizing:
    change = advised(name, settings).changes[at]
    return size(sized(name, settings).design.replace(dict(change.settings)), motors())


@pytest.mark.parametrize(
    ("name", "settings"),
    [("larder-rack", LATE), ("larder-rack", WIDE), ("larder-rack", THREE)],
)
def test_what_can_be_made_fine_is_led_to_fine(name: str, settings: Settings) -> None:
    assert sized(name, settings).verdict is not Answer.FINE
    first = advised(name, settings).changes[0]
    assert first.verdict_after is Answer.FINE
    assert again(name, settings).verdict is Answer.FINE
    assert first.still == ""


def test_three_changes_none_of_which_does_alone() -> None:
    """Loads, timetable and last day each hold it back; all three are named, each with its field."""
    first, *others = advised("larder-rack", THREE).changes
    assert len(first.id.split("+")) == 3
    assert {"trays.filled", "turning.turns_per_day", "turning.last_day"} == set(first.settings)
    assert others
    assert all(change.verdict_after is Answer.MARGINAL for change in others)


def test_the_usual_last_day_is_the_one_of_the_bird() -> None:
    """Chicken eggs are turned to day 18: common practice in every hatching guide."""
    change = advised("larder-rack", LATE).changes[0]
    assert change.settings == {"turning.last_day": "18"}
    assert change.gained == ("Last day",)


def test_a_marginal_answer_is_told_with_its_reason() -> None:
    text = " ".join(
        " ".join(verdict_block(sized("larder-rack", THREE), marginal(), Style())).split()
    )
    assert "this still says MARGINAL: " in text
    reason = marginal().changes[0].still
    assert reason
    assert again("larder-rack", THREE, 1).reason.text in reason


def marginal() -> Advice:
    """Return the advice without what is fine."""
    return Advice(advised("larder-rack", THREE).changes[1:])


def test_trays_wider_than_the_box_are_made_as_narrow_as_it_asks() -> None:
    change = advised("larder-rack", WIDE).changes[0]
    assert set(change.settings) == {"trays.width"}
    after = again("larder-rack", WIDE)
    answers = {finding.id: finding.answer for finding in after.findings}
    assert answers["room"] is answers["air_gap"] is Answer.FINE
    assert after.clearances is not None
    sides = after.clearances.turner.sides
    assert sides is not None
    assert 12.7e-3 <= sides < 16e-3  # half an inch, and hardly more


def test_a_jammed_drive_is_offered_lengths_that_turn() -> None:
    before = sized("tool-cupboard-rack", JAMS)
    assert before.chosen is not None
    assert before.chosen.jammed
    assert "other_lengths" in {proposal.id for proposal in proposals(before)}
    first = advised("tool-cupboard-rack", JAMS).changes[0]
    assert first.id.startswith("other_lengths")
    assert again("tool-cupboard-rack", JAMS).verdict is first.verdict_after is not Answer.NO


def test_one_stage_stands_before_two_with_the_same_verdict() -> None:
    """A motor far too weak for this rack: one pair makes it marginal, and so do two."""
    settings: Settings = (("motor.have", "turntable"),)
    changes = [
        c for c in advised("larder-rack", settings).changes if "gearing.1.kind" in c.settings
    ]
    stages = [sum(path.endswith("kind") for path in change.settings) for change in changes]
    assert len({change.verdict_after for change in changes}) == 1
    assert stages == sorted(stages)
    assert stages == [1, 2]
