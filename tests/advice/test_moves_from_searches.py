"""What searches find is advised where it helps, and comes true."""

from functools import cache
from pathlib import Path

import pytest

from turnercalc.advice import Advice, advise
from turnercalc.advice.best_change import peak, times_enough
from turnercalc.advice.moves import proposals
from turnercalc.design import read_design
from turnercalc.findings import Answer
from turnercalc.motors import MotorFile, read_motors
from turnercalc.sizing import Sizing, size

EXAMPLES = Path(__file__).parents[2] / "examples"


@cache
def motors() -> MotorFile:
    return read_motors(EXAMPLES / "motors.csv")


@cache
def sized(*settings: tuple[str, object]) -> Sizing:
    return size(read_design(EXAMPLES / "larder-rack.toml", dict(settings)), motors())


@cache
def advised(*settings: tuple[str, object]) -> Advice:
    return advise(sized(*settings), motors())


TROUBLES: dict[str, tuple[tuple[str, object], ...]] = {
    "the crank strikes the floor": (
        ("crank.height", "300 mm below pivot"),
        ("link.length", "300 mm"),
        ("motor.have", "planet 8"),
    ),
    "trays too near each other": (("trays.pitch", "95 mm"), ("motor.have", "planet 8")),
    "a motor far too weak": (("motor.have", "servo L"),),
    "a flat link": (("crank.across", "5 mm right of pivot"), ("motor.have", "planet 8")),
}
EXPECTED = {
    "the crank strikes the floor": "other_lengths",
    "trays too near each other": "trays_that_fit",
    "a motor far too weak": "stock_stages",
}


@pytest.mark.parametrize("trouble", TROUBLES)
def test_every_change_delivers_what_it_promises_when_re_run(trouble: str) -> None:
    before = sized(*TROUBLES[trouble])
    assert before.verdict is not Answer.FINE
    for change in advised(*TROUBLES[trouble]).changes:
        again = size(before.design.replace(dict(change.settings)), motors())
        assert again.verdict is change.verdict_after
        assert peak(again) == pytest.approx(change.peak_after, rel=1e-9)
        assert times_enough(again) == pytest.approx(change.times_enough_after, rel=1e-9)


@pytest.mark.parametrize("trouble", EXPECTED)
def test_what_a_search_finds_is_proposed(trouble: str) -> None:
    ids = {proposal.id for proposal in proposals(sized(*TROUBLES[trouble]))}
    assert EXPECTED[trouble] in ids


def test_lengths_are_searched_only_where_lengths_are_in_the_way() -> None:
    ids = {proposal.id for proposal in proposals(sized())}
    assert sized().reason.id == "motor_strength"
    assert "other_lengths" not in ids


def test_trays_that_do_not_fit_are_set_so_that_they_do() -> None:
    changes = {c.id: c for c in advised(*TROUBLES["trays too near each other"]).changes}
    assert "trays_that_fit" in changes
    before = sized(*TROUBLES["trays too near each other"])
    again = size(before.design.replace(dict(changes["trays_that_fit"].settings)))
    room = next(finding for finding in again.findings if finding.id == "room")
    assert room.answer is Answer.FINE


def test_stock_stages_make_the_motor_strong_enough() -> None:
    before = sized(("motor.have", "servo L"))
    for proposal in proposals(before):
        if proposal.id == "stock_stages":
            again = size(before.design.replace(dict(proposal.settings)), motors())
            assert (times_enough(again) or 0.0) >= 2.0
