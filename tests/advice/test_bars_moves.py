"""What can be changed about rolling bars, and that it brings what it promises."""

from functools import cache

import pytest

from tests.bars_design import bars_design, motors
from turnercalc.advice import Advice, advise
from turnercalc.advice.best_change import peak, times_enough
from turnercalc.advice.moves import proposals
from turnercalc.findings import Answer
from turnercalc.sizing import Sizing, size

GOOD = ("motor__have", "worm 6")
#: What is wrong -> the settings that make it so, and a change that must be found.
TROUBLES: dict[str, tuple[dict[str, str | None], str]] = {
    "driven from the end": (
        {"bars__driven_bar": "1", "bars__belt_pull": "12 N"},
        "drive_middle_bar",
    ),
    "slack belts": ({"bars__belt_pull": "4 N", "bars__driven_bar": "3"}, "tighter_belts"),
    "neighbours touch": ({"bars__pitch": "60 mm"}, "bar_pitch"),
    "nearly falling through": ({"bars__pitch": "75 mm"}, "bar_pitch"),
    "a whole turn": ({"turning__egg_turn": "360 deg"}, "half_an_egg_turn"),
    "one way for ever": ({"turning__sense": "always the same"}, "turn_them_back"),
    "bars that slip": (
        {"bars__surface": "glass", "bars__rolling_arm": "2 / 3 / 4 mm"},
        "sleeves_that_grip",
    ),
    "stops too near": ({"bars__stop_spacing": "93 mm"}, "stops_that_fit"),
    "bars that sag": (
        {"bars__material": "nylon", "bars__wall": None, "bars__diameter": "25 mm"},
        "stiffer_bars",
    ),
    "a weak motor and stiff bearings": (
        {
            "motor__have": "weak",
            "bars__journal": "steel in brass, dry",
            "bars__joined_by": "chain",
            "bars__weight": "900 g",
        },
        "better_journals",
    ),
}


@cache
def sized(trouble: str) -> Sizing:
    changes, _ = TROUBLES[trouble]
    return size(bars_design(**({GOOD[0]: GOOD[1]} | changes)), motors())


@cache
def advised(trouble: str) -> Advice:
    return advise(sized(trouble), motors())


@pytest.mark.parametrize("trouble", TROUBLES)
def test_what_must_be_found_is_found_and_helps(trouble: str) -> None:
    before, (_, wanted) = sized(trouble), TROUBLES[trouble]
    assert before.verdict is not Answer.FINE, trouble
    found = {change.id for change in advised(trouble).changes}
    assert wanted in found, (before.reason.id, before.reason.text, found)


@pytest.mark.parametrize("trouble", TROUBLES)
def test_every_change_delivers_what_it_promises_when_re_run(trouble: str) -> None:
    before = sized(trouble)
    for change in advised(trouble).changes:
        again = size(before.design.replace(dict(change.settings)), motors())
        assert again.verdict is change.verdict_after
        assert peak(again) == pytest.approx(change.peak_after, rel=1e-9)
        if change.times_enough_after is not None:
            assert times_enough(again) == pytest.approx(change.times_enough_after, rel=1e-9)
        assert change.say.endswith(".")


@pytest.mark.parametrize("trouble", TROUBLES)
def test_every_proposal_can_be_set(trouble: str) -> None:
    design = sized(trouble).design
    for proposal in proposals(sized(trouble)):
        changed = design.replace(dict(proposal.settings))
        for path in proposal.settings:
            assert path.startswith("gearing") or changed.value(path) is not None


def test_nothing_is_said_of_trays_and_cranks() -> None:
    for trouble in TROUBLES:
        for proposal in proposals(sized(trouble)):
            assert not {"tray", "tilt", "crank"} & set(proposal.say.lower().split()), proposal.say


def test_friction_that_was_measured_is_not_bettered_by_another_name() -> None:
    measured = size(bars_design(bars__journal_friction="0.1 to 0.2"), motors())
    assert "better_journals" not in {proposal.id for proposal in proposals(measured)}
