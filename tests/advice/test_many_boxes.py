"""Many random boxes with every turner and drive: lengths that work, or a sentence that is true."""

import math
import os
from functools import cache

import numpy as np
import pytest

from tests.advice import brute
from tests.advice.more_boxes import KINDS
from turnercalc.advice.lengths import Lengths, Suggestion, Wish, find_lengths
from turnercalc.advice.lengths.choosing import LENGTHS_DECIDE
from turnercalc.building import build
from turnercalc.design import Design
from turnercalc.findings import Answer
from turnercalc.loads import hardest
from turnercalc.sizing import size

#: All kinds together. Raise it for a thorough run: 500 take some ten minutes.
BOXES = int(os.environ.get("TURNERCALC_BOXES", "40"))
EACH = math.ceil(BOXES / len(KINDS))
#: Sets tried one by one where it is said that none can, for each box.
LOOKED, TRIED = 800, 40
BY_SIZING = {"bars", "drum"}


def box(kind: str, number: int) -> Design:
    return KINDS[kind](np.random.default_rng([7, number]))


@cache
def answered(kind: str, number: int) -> Lengths:
    return find_lengths(box(kind, number), Wish(count=2))


@pytest.mark.parametrize("kind", KINDS)
def test_lengths_that_work_or_a_sentence_that_is_true(kind: str) -> None:
    for number in range(EACH):
        holds(kind, number)


def holds(kind: str, number: int) -> None:
    """Hold the answer for one box to its word."""
    design, answer = box(kind, number), answered(kind, number)
    assert bool(answer.suggestions) != bool(answer.why_none), number
    for one in answer.suggestions:
        comes_true(design, one)
    if answer.suggestions:
        return
    assert answer.why_none.endswith("."), answer.why_none
    if "does not fit the box by itself" in answer.why_none:
        assert brute.sticks_out(design), (number, answer.why_none)
    elif kind not in BY_SIZING:
        assert not any_that_works(design, number), (number, answer.why_none)


def comes_true(design: Design, one: Suggestion) -> None:
    """Hold a suggestion to its word: sized anew from its settings."""
    again = size(design.replace({**RUNS.get(design.drive, {}), **one.settings}))
    assert again.cycle is not None
    assert again.ends.low == pytest.approx(one.promise.low, abs=1e-6)
    assert again.ends.high == pytest.approx(one.promise.high, abs=1e-6)
    middle = again.cycle.levels.index("middle")
    peak = hardest(again.cycle, middle, again.told_direction).torque
    assert peak == pytest.approx(one.promise.peak, rel=1e-6)
    decided = {f.id: f.answer for f in again.findings if f.id in LENGTHS_DECIDE}
    if design.turner not in ("rolling_bars", "rotating_drum"):
        assert Answer.NO not in decided.values(), decided
        low, high = brute.wanted(design, again.turner)
        off = max(abs(again.ends.low - low), abs(again.ends.high - high))
        assert off <= 0.06 * (high - low)


RUNS = {
    "crank_and_link": {"crank.runs": "round and round"},
    "slotted_lever": {"crank.runs": "round and round"},
}


def any_that_works(design: Design, number: int) -> bool:
    """Try sets all over the box, drawn at random from a grid, none of them by the finder."""
    turner, box = build(design).turner, design["box"]
    field = list(turner.dimensions.values())
    arms = (0.0,)
    if len(field) == 1 and design.drive != "slotted_lever":
        arms = tuple(round(design.value(field[0]) * share, 3) for share in (0.4, 0.7, 1.0, 1.4))
    left = box.width / 2 if turner.origin_from_left is None else turner.origin_from_left
    floor = 0.3 if turner.origin_height is None else turner.origin_height
    space = brute.Space(
        arms,
        tuple(np.arange(-left, box.width - left, 0.025).round(3).tolist()),
        tuple(np.arange(-floor, box.height - floor, 0.025).round(3).tolist()),
    )
    every = brute.some_sets(design, space, 1e-3, number, LOOKED)[:TRIED]
    promising = (values for values in every if math.isfinite(brute.peak_of(design, values, 36)))
    return any(brute.works(design, values) for values in promising)


def test_both_answers_come_up() -> None:
    kinds = ("rack_on_rod", "rack", "bars")
    found = [bool(answered(kind, number).suggestions) for kind in kinds for number in range(4)]
    assert True in found
    assert False in found
