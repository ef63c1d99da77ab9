"""Every change told of examples and of spoiled examples, re-run with its settings."""

from functools import cache

import pytest

from tests.advice.spoiled import EXAMPLES, MOTORS, NAMES, SPOILED, Settings
from turnercalc.advice import Advice, advise
from turnercalc.advice.best_change import peak, times_enough
from turnercalc.design import read_design
from turnercalc.findings import Answer
from turnercalc.handover.display import Style
from turnercalc.handover.screen.verdict import ONLY_BETTER, verdict_block
from turnercalc.motors import MotorFile, read_motors
from turnercalc.parts.clearances import LINK_END
from turnercalc.sizing import Sizing, size

CASES: dict[str, tuple[str, Settings]] = {**{name: (name, {}) for name in NAMES}, **SPOILED}
RANK = {Answer.FINE: 2, Answer.MARGINAL: 1, Answer.NO: 0}


@cache
def motors(name: str) -> MotorFile:
    return read_motors(EXAMPLES / MOTORS.get(name, "motors.csv"))


@cache
def sized(case: str) -> Sizing:
    name, settings = CASES[case]
    return size(read_design(EXAMPLES / f"{name}.toml", settings), motors(name))


@cache
def advised(case: str) -> Advice:
    return advise(sized(case), motors(CASES[case][0]))


@pytest.mark.parametrize("case", CASES)
def test_every_change_delivers_what_it_promises_when_re_run(case: str) -> None:
    before, advice = sized(case), advised(case)
    for change in advice.changes:
        design = before.design.replace(dict(change.settings))
        again = size(design, motors(CASES[case][0]))
        assert again.verdict is change.verdict_after
        assert peak(again) == pytest.approx(change.peak_after, rel=1e-9)
        assert times_enough(again) == pytest.approx(change.times_enough_after, rel=1e-9)
        assert bool(change.still) == (again.verdict is not Answer.FINE)
        assert change.still.startswith(again.reason.text) or not change.still
        then = {f.title: RANK.get(f.answer, 1) for f in before.findings}
        now = {f.title: RANK.get(f.answer, 2) for f in again.findings}
        assert all(now[title] > then[title] for title in change.gained)
    ranks = [RANK[change.verdict_after] for change in advice.changes]
    assert ranks[:1] == sorted(ranks, reverse=True)[:1]
    assert advice.works == (ranks[:1] > [0])


@pytest.mark.parametrize("case", SPOILED)
def test_whatever_is_spoiled_is_led_to_something_that_works(case: str) -> None:
    assert sized(case).verdict is Answer.NO
    assert advised(case).works, [change.id for change in advised(case).changes]


def test_several_changes_together_where_one_is_not_enough() -> None:
    first = advised("a link too short and a weak motor").changes[0]
    assert "+" in first.id
    parts = first.id.split("+")
    alone = {change.id: change for change in advised("a link too short and a weak motor").changes}
    assert all(alone[part].verdict_after is Answer.NO for part in parts if part in alone)
    assert first.say.count(".") >= 2


@pytest.mark.parametrize("case", [case for case in SPOILED if "rod" in case or "actuator" in case])
def test_an_advised_eye_stands_inside_the_box(case: str) -> None:
    for change in advised(case).changes:
        again = sized(case).design.replace(dict(change.settings))
        x, y = again.value("actuator.eye_across"), again.value("actuator.eye_height")
        turner, box = sized(case).turner, again["box"]
        left = box.width / 2 if turner.origin_from_left is None else turner.origin_from_left
        assert LINK_END <= left + x <= box.width - LINK_END
        if turner.origin_height is not None:
            assert LINK_END <= turner.origin_height + y <= box.height - LINK_END


def test_a_rod_too_short_for_its_cradle_gets_one_that_reaches() -> None:
    first = advised("a rod too short for its cradle").changes[0]
    assert first.id == "other_actuator"
    assert "actuator.stroke" in first.settings


def test_what_only_makes_it_better_is_told_as_such() -> None:
    """Without the one change that makes it work, the page says plainly what is left."""
    case = "a small crank and narrow cells"
    single = tuple(change for change in advised(case).changes if "+" not in change.id)
    assert single
    only = Advice(single)
    assert not only.works
    text = " ".join(" ".join(verdict_block(sized(case), only, Style())).split())
    assert ONLY_BETTER in text
    assert f"this still says NO: {single[0].still[:20]}" in text
