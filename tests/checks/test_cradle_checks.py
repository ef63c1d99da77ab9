"""Each check that is a cradle's own: fine, marginal, no and unknown, and what it says then."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from turnercalc import checks
from turnercalc.building import build
from turnercalc.checks import floor_width, roller_press, runner_creep, runner_ends, runner_grip
from turnercalc.checks.evidence import Evidence
from turnercalc.design import read_design
from turnercalc.findings import Answer, Finding
from turnercalc.parts.footing import grip_needed
from turnercalc.sizing import gather_evidence

FINE, MARGINAL, NO, UNKNOWN = Answer.FINE, Answer.MARGINAL, Answer.NO, Answer.UNKNOWN
EXAMPLES = Path(__file__).parents[2] / "examples"
CRATE, COOLER, CHEST = "apple-crate-cradle", "beach-cooler-cradle", "linen-chest-arc"


@cache
def _evidence(name: str, settings: tuple[tuple[str, object], ...]) -> Evidence:
    design = read_design(EXAMPLES / f"{name}.toml", dict(settings))
    return gather_evidence(design, build(design), None, 360)


def evidence(name: str = CRATE, settings: Mapping[str, object] | None = None) -> Evidence:
    return _evidence(name, tuple(sorted((settings or {}).items())))


def only(judge: Callable[[Evidence], Iterator[Finding]], found: Evidence) -> Finding:
    (finding,) = judge(found)
    return finding


@pytest.mark.parametrize("check", sorted(checks.judges()))
@pytest.mark.parametrize("name", [CRATE, COOLER, CHEST])
def test_every_check_answers_for_a_cradle_and_for_one_that_does_not_close(
    check: str, name: str
) -> None:
    judge = checks.judges()[check]
    found = [evidence(name)]
    if name != COOLER:
        found.append(evidence(name, {"link.length": "200 mm"}))
    for one in found:
        if check not in one.kind.checks:
            continue
        for finding in judge(one):
            assert finding.text
            assert finding.title
            assert (finding.answer is UNKNOWN) <= bool(finding.ask)
            assert finding.value is None or np.isfinite(finding.value)
            assert "nan" not in finding.text
            assert "pivot" not in finding.text


# --- grip --------------------------------------------------------------------------------------


def test_rubber_holds_the_runners() -> None:
    finding = only(runner_grip.judge, evidence())
    assert finding.answer is FINE
    cycle = evidence().cycle
    demand = evidence().demand
    assert cycle is not None
    assert demand is not None
    needed = grip_needed(cycle, (demand.better_direction,)).value
    assert finding.value == pytest.approx(0.5 / needed)
    assert f"coefficient of {needed:.2f}" in finding.text


@pytest.mark.parametrize(
    ("grip", "answer", "says"),
    [
        ("0.25 to 0.5", NO, "so the runners slide instead of rolling"),
        ("0.35 to 0.5", MARGINAL, "the runners may slide when damp"),
        ("0.6", FINE, "gives 0.6 or more"),
    ],
)
def test_grip_is_judged_by_the_least_the_floor_gives(grip: str, answer: Answer, says: str) -> None:
    finding = only(runner_grip.judge, evidence(CRATE, {"cradle.grip": grip}))
    assert finding.answer is answer
    assert says in finding.text


def test_straps_hold_where_friction_does_not() -> None:
    finding = only(runner_grip.judge, evidence(COOLER))
    assert finding.answer is FINE
    assert "Crossed straps hold the runners, with up to " in finding.text
    loose = only(runner_grip.judge, evidence(COOLER, {"cradle.straps": "none"}))
    assert loose.answer is NO


def test_a_drive_that_lifts_the_runners_off_is_a_no() -> None:
    # A cradle of nothing with a few eggs at one edge, pulled up at the other.
    found = evidence(
        CRATE,
        {
            "cradle.empty_weight": "100 g",
            "pin.across": "100 mm left of contact",
            "pin.height": "20 mm above contact",
            "crank.across": "60 mm left of contact",
            "crank.radius": "20 mm",
            "link.length": "480 mm",
            "cradle.row_spacing": "90 mm",
            "cradle.width": "330 mm",
        },
    )
    finding = only(runner_grip.judge, found)
    assert finding.answer is NO
    assert "lifts the runners off the floor" in finding.text


def test_grip_and_walking_are_no_questions_on_fixed_rollers() -> None:
    assert not list(runner_grip.judge(evidence(CHEST)))
    assert not list(runner_creep.judge(evidence(CHEST)))
    assert not list(roller_press.judge(evidence(CRATE)))


# --- walking -----------------------------------------------------------------------------------


def test_walking_is_told_as_a_rough_figure_and_never_lowers_a_verdict() -> None:
    finding = only(runner_creep.judge, evidence())
    assert finding.answer is Answer.NOTE
    assert "roughly" in finding.text
    assert "Crossed straps" in finding.text
    calm = only(
        runner_creep.judge,
        evidence(CRATE, {"cradle.filled": "in mirror pairs", "turning.turns_per_day": "3"}),
    )
    assert calm.answer is FINE
    assert calm.value is not None
    assert finding.value is not None
    assert calm.value < finding.value


def test_straps_bring_it_back() -> None:
    finding = only(runner_creep.judge, evidence(COOLER))
    assert finding.answer is FINE
    assert "bring it back to its mark" in finding.text


def test_what_slides_has_no_creep_to_tell() -> None:
    assert not list(runner_creep.judge(evidence(CRATE, {"cradle.grip": "0.1 to 0.2"})))


# --- runners and floor -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("width", "answer", "says"),
    [
        ("282 mm", FINE, "of arc left over where it is steepest"),
        ("238 mm", MARGINAL, "Only 4 mm of arc left over"),
        ("200 mm", NO, "The arc ends 21 mm too early: past 38° it tips onto a corner"),
    ],
)
def test_runners_have_to_be_as_long_as_the_tilt_is_steep(
    width: str, answer: Answer, says: str
) -> None:
    # By hand: 164 mm x (asin(half the width / 164 mm) - 45 deg).
    finding = only(runner_ends.judge, evidence(CRATE, {"cradle.runner_width": width}))
    assert finding.answer is answer
    assert says in finding.text
    half = np.arcsin(0.5 * float(width.split()[0]) / 164.0)
    steepest = max(evidence().ends.high, -evidence().ends.low)
    assert finding.value == pytest.approx(164.0 * (half - steepest), abs=0.05)


def test_the_width_that_would_do_just_does() -> None:
    short = evidence(CRATE, {"cradle.runner_width": "200 mm"})
    text = only(runner_ends.judge, short).text
    width = text.partition("Runners ")[2].partition(" across")[0]
    finding = only(runner_ends.judge, evidence(CRATE, {"cradle.runner_width": width}))
    assert finding.value == pytest.approx(10.0, abs=0.8)


def test_on_rollers_the_arc_has_to_reach_past_the_roller() -> None:
    finding = only(runner_ends.judge, evidence(CHEST, {"cradle.runner_width": "280 mm"}))
    assert finding.answer is NO
    assert "it runs off a roller" in finding.text
    wide = only(runner_ends.judge, evidence(CHEST, {"rollers.spacing": "280 mm"}))
    assert "No runner of this radius is wide enough" in wide.text


@pytest.mark.parametrize("judge", [runner_ends.judge, floor_width.judge])
def test_runners_of_unknown_width_stay_unknown(
    judge: Callable[[Evidence], Iterator[Finding]],
) -> None:
    finding = only(judge, evidence(CRATE, {"cradle.runner_width": None}))
    assert finding.answer is UNKNOWN
    assert "Measure a runner" in finding.ask
    assert finding.fields == ("cradle.runner_width",)


@pytest.mark.parametrize(
    ("place", "answer", "says"),
    [
        (None, FINE, "stay 167 mm from either wall"),
        ("160 mm", MARGINAL, "come within"),
        ("120 mm", NO, "into the left wall"),
    ],
)
def test_the_floor_has_to_take_the_walk(place: str | None, answer: Answer, says: str) -> None:
    if answer is MARGINAL:
        reach = 1e3 * (0.5 * 0.672) - 167.0
        place = f"{reach + 3.0:.1f} mm"
    finding = only(floor_width.judge, evidence(CRATE, {"cradle.from_left_wall": place}))
    assert finding.answer is answer
    assert says in finding.text
    assert "It rolls over " in finding.text


# --- rollers -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("settings", "answer", "says"),
    [
        ({}, FINE, "Either roller bears 14 % of the weight or more."),
        (
            {"rollers.spacing": "60 mm", "cradle.filled": "in any order"},
            NO,
            "The drive lifts the arc off a roller",
        ),
    ],
)
def test_the_arc_has_to_stay_on_both_rollers(
    settings: dict[str, object], answer: Answer, says: str
) -> None:
    finding = only(roller_press.judge, evidence(CHEST, settings))
    assert finding.answer is answer
    assert says in finding.text


def test_rollers_near_together_bear_unevenly_before_one_is_left() -> None:
    shares = []
    for spacing in range(165, 104, -5):
        finding = only(roller_press.judge, evidence(CHEST, {"rollers.spacing": f"{spacing} mm"}))
        assert finding.value is not None
        shares.append((finding.value, finding.answer))
    values = [value for value, _ in shares]
    assert values == sorted(values, reverse=True)
    assert MARGINAL in {answer for _, answer in shares}


# --- room --------------------------------------------------------------------------------------


def test_a_wide_low_tray_strikes_the_floor() -> None:
    # By hand: a corner 160 mm out and 60 mm up on runners of 164 mm at 45 degrees comes to
    # 164 - (160 + 104) sin 45 deg = -22.7 mm over the floor board; the board is 18 mm up.
    found = evidence(
        CRATE,
        {
            "cradle.width": "320 mm",
            "cradle.underside": "60 mm above contact",
            "cradle.contact_height": "0 mm above the box floor",
        },
    )
    room = found.clearances
    assert room is not None
    assert room.turner.below is not None
    steepest = max(found.ends.high, -found.ends.low)
    by_hand = 164.0 - 160.0 * np.sin(steepest) - 104.0 * np.cos(steepest)
    assert 1e3 * room.turner.below == pytest.approx(by_hand, abs=0.05)
    assert by_hand == pytest.approx(-22.7, abs=0.3)


def test_the_outline_walks_with_the_contact() -> None:
    # At 45 degrees to the left the arc's middle has gone R q = 128.8 mm to the left, so the
    # topmost left corner of the tray comes nearer to the wall than half the tray's width says.
    found = evidence()
    room = found.clearances
    assert room is not None
    q = np.linspace(found.ends.low, found.ends.high, 2001)
    corner_x, corner_y = -122.0, 85.0 - 164.0
    x = -164.0 * q + corner_x * np.cos(q) - corner_y * np.sin(q)
    upper = -164.0 * q + corner_x * np.cos(q) - (92.0 - 164.0) * np.sin(q)
    assert 1e3 * room.reach.left <= min(x.min(), upper.min()) + 0.01
    assert 1e3 * room.reach.left < -122.0
