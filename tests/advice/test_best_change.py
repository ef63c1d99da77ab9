"""Advice comes true: every change is re-run with the settings it names."""

from functools import cache
from math import inf, isfinite
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
def sized(*settings: tuple[str, str]) -> Sizing:
    return size(read_design(EXAMPLES / "larder-rack.toml", dict(settings)), motors())


@cache
def advised(*settings: tuple[str, str]) -> Advice:
    return advise(sized(*settings), motors())


def test_what_friction_jams_is_no_advice() -> None:
    # Arms in line with the tie bar, and a link too short: a longer link closes it, and jams.
    jams = (
        ("arm.points", "down"),
        ("crank.across", "220 mm left of pivot"),
        ("crank.height", "56 mm below pivot"),
        ("link.length", "190 mm"),
    )
    assert sized(*jams).verdict is Answer.NO
    assert all(
        change.peak_after is None or isfinite(change.peak_after)
        for change in advised(*jams).changes
    )
    closed = sized(*jams[:-1])
    assert closed.ends is not None
    assert peak(closed) == inf


TROUBLES = {
    "as it stands": (),
    "top-heavy trays": (
        ("trays.egg_floor", "30 mm above pivot"),
        ("trays.underside", "24 mm above pivot"),
        ("trays.balance", "27 mm above pivot"),
        ("trays.filled", "in mirror pairs"),
    ),
    "a link too short": (("link.length", "190 mm"),),
    "uneven ends": (("link.length", "228 mm"), ("motor.have", "planet 8")),
    "a small crank": (("crank.radius", "35 mm"), ("motor.have", "planet 8")),
    "the harder way": (("crank.turns", "clockwise"),),
    "a weak motor": (("motor.have", "spur 6"),),
    "a heavy tie bar": (("tie_bar.weight", "2 kg"), ("trays.filled", "in mirror pairs")),
    "no motor named": (("motor.have", None),),
    "narrow cells": (("eggs.cell_room", "47 mm"), ("motor.have", "planet 8")),
    "few turns": (("turning.turns_per_day", "4"), ("motor.have", "planet 8")),
}


@pytest.mark.parametrize("trouble", TROUBLES)
def test_every_change_delivers_what_it_promises_when_re_run(trouble: str) -> None:
    before = sized(*TROUBLES[trouble])
    for change in advised(*TROUBLES[trouble]).changes:
        again = size(before.design.replace(dict(change.settings)), motors())
        assert again.verdict is change.verdict_after
        assert peak(again) == pytest.approx(change.peak_after, rel=1e-9)
        assert times_enough(again) == pytest.approx(change.times_enough_after, rel=1e-9)


@pytest.mark.parametrize("trouble", TROUBLES)
def test_the_first_change_is_the_best_of_those_told(trouble: str) -> None:
    rank = {Answer.FINE: 2, Answer.MARGINAL: 1, Answer.NO: 0}
    changes = advised(*TROUBLES[trouble]).changes
    ranks = [rank[change.verdict_after] for change in changes]
    assert ranks == sorted(ranks, reverse=True)
    assert len({change.id for change in changes}) == len(changes)


@pytest.mark.parametrize(
    ("trouble", "expected"),
    [
        ("as it stands", "fill_in_mirror_pairs"),
        ("top-heavy trays", "move_pivots"),
        ("a link too short", "change_link"),
        ("uneven ends", "even_ends"),
        ("a small crank", "even_ends"),
        ("the harder way", "turn_the_other_way"),
        ("a heavy tie bar", "lighter_tie_bar"),
        ("narrow cells", "wider_cells"),
        ("few turns", "more_turns"),
    ],
)
def test_each_trouble_has_its_own_cure_among_the_changes(trouble: str, expected: str) -> None:
    """The trap of canned advice: what is said depends on what is wrong."""
    if expected in ("turn_the_other_way", "lighter_tie_bar", "change_link"):
        ids = {proposal.id for proposal in proposals(sized(*TROUBLES[trouble]))}
    else:
        ids = {change.id for change in advised(*TROUBLES[trouble]).changes}
    assert expected in ids


def test_nothing_is_advised_where_nothing_is_wrong() -> None:
    fine = (("trays.filled", "in mirror pairs"),)
    assert sized(*fine).verdict is Answer.FINE
    assert advised(*fine).changes == ()


def test_no_change_is_told_that_does_not_help() -> None:
    for trouble in TROUBLES.values():
        before = sized(*trouble)
        for change in advised(*trouble).changes:
            better = change.verdict_after is not before.verdict
            stronger = (change.times_enough_after or 0) > (times_enough(before) or 0)
            assert better or stronger
