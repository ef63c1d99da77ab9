"""What can be changed about a drum: every change is re-run with the settings it names."""

import pytest

from tests.drum_design import CRANK, ROD, ROLLERS, SLOT, STEPS, finding, motors, sized
from turnercalc.advice import advise
from turnercalc.advice.best_change import peak, times_enough
from turnercalc.advice.moves import Proposal, proposals
from turnercalc.findings import Answer
from turnercalc.sizing import Sizing, size

SMALL_CRANK = {**CRANK, "crank.radius": "40 mm", "motor.have": "planet 8"}
TROUBLES: dict[str, dict[str, str | None]] = {
    "as it stands": {},
    "a heavy side": {
        "drum.empty_balance": "900 g at 140 mm toward shelf 3",
        "drum.filled": "in opposite pairs",
        "motor.have": "worm 12",
    },
    "too far out": {"drum.shelf_radius": "175 mm", "drum.outside": "440 mm"},
    "too near together": {"drum.shelf_radius": "58 mm", "drum.filled": "in opposite pairs"},
    "eggs in cells": {"eggs.held_by": "cells", "eggs.cell_room": "48 mm"},
    "a loose net": {"drum.squeeze": "0.3 N", "drum.filled": "in opposite pairs"},
    "a whole turn": {"turning.swing": "180 deg each side", "drum.filled": "in opposite pairs"},
    "one way": {**STEPS, "drum.filled": "in opposite pairs"},
    "no ends": {
        **STEPS,
        "motor.stopped_by": "end switches",
        "drum.filled": "in opposite pairs",
    },
    "by the clock": {"motor.stopped_by": "timer", "drum.filled": "in opposite pairs"},
    "a slipping roller": ROLLERS,
    "a small crank": SMALL_CRANK,
    "by slot": SLOT,
    "by rod": ROD,
}


@pytest.mark.parametrize("trouble", TROUBLES)
def test_every_change_delivers_what_it_promises_when_re_run(trouble: str) -> None:
    before = sized(TROUBLES[trouble])
    for change in advise(before, motors()).changes:
        again = size(before.design.replace(dict(change.settings)), motors())
        assert again.verdict is change.verdict_after
        assert peak(again) == pytest.approx(change.peak_after, rel=1e-9)
        assert times_enough(again) == pytest.approx(change.times_enough_after, rel=1e-9)


@pytest.mark.parametrize(
    ("trouble", "cure"),
    [
        ("as it stands", "fill_in_opposite_pairs"),
        ("a heavy side", "add_counterweight"),
        ("eggs in cells", "foam_and_net"),
        ("a loose net", "right_squeeze"),
        ("a whole turn", "half_a_turn"),
        ("one way", "to_and_fro"),
        ("by the clock", "end_switches"),
        ("no ends", "park_switch"),
        ("a slipping roller", "fill_in_opposite_pairs"),
    ],
)
def test_each_trouble_has_its_own_cure(trouble: str, cure: str) -> None:
    assert cure in {change.id for change in advise(sized(TROUBLES[trouble]), motors()).changes}


def proposal(sizing: Sizing, name: str) -> Proposal:
    return next(one for one in proposals(sizing) if one.id == name)


def after(trouble: str, name: str) -> tuple[Sizing, Sizing]:
    """Return the sizing before and after a proposal of one name."""
    before = sized(TROUBLES[trouble])
    settings = dict(proposal(before, name).settings)
    return before, size(before.design.replace(settings), motors())


def test_the_counterweight_takes_the_heavy_side_away() -> None:
    before, again = after("a heavy side", "add_counterweight")
    assert before.reason.id.startswith("motor")
    empty = [
        next(f.peaks[1].max() for f in s.families if f.name == "empty") for s in (before, again)
    ]
    assert empty[1] < 0.2 * empty[0]


def test_nearer_shelves_pull_on_a_shorter_lever() -> None:
    before, again = after("too far out", "move_shelves")
    ratio = again.turner.shelf_radius / before.turner.shelf_radius  # type: ignore[attr-defined]
    assert ratio < 0.95
    assert (finding(again, "imbalance").value or 0) < (finding(before, "imbalance").value or 0)
    assert finding(again, "eggs_apart").answer is Answer.FINE


def test_shelves_that_touch_are_moved_apart() -> None:
    before, again = after("too near together", "move_shelves")
    assert finding(before, "eggs_apart").answer is Answer.NO
    assert finding(again, "eggs_apart").answer is Answer.FINE


def test_the_press_that_is_proposed_holds_and_is_gentle() -> None:
    _, again = after("a loose net", "right_squeeze")
    assert finding(again, "held_over").answer is Answer.FINE
    assert finding(again, "shell_squeeze").answer is Answer.FINE


@pytest.mark.parametrize("name", ["drive_both_rows", "wider_rollers"])
def test_more_grip_for_a_roller(name: str) -> None:
    before, again = after("a slipping roller", name)
    gripped = [finding(sizing, "roller_grip").value or 0.0 for sizing in (before, again)]
    assert gripped[1] > gripped[0]


def test_a_crank_for_even_ends_is_said_from_the_axle() -> None:
    _, again = after("a small crank", "even_ends")
    low, high = again.turner.travel
    assert again.ends.low == pytest.approx(low, abs=0.02)
    assert again.ends.high == pytest.approx(high, abs=0.02)
    assert "of axle" in proposal(sized(SMALL_CRANK), "even_ends").settings["crank.across"]


def test_nothing_is_advised_where_nothing_is_wrong() -> None:
    fine = sized(drum__filled="in opposite pairs")
    assert fine.verdict is Answer.FINE
    assert advise(fine, motors()).changes == ()
