"""Find lengths: what is promised is what comes out, and nothing much better is missed."""

import math
import os
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from tests.advice.boxes import rack_text
from turnercalc.advice.lengths import Lengths, Wish, find_lengths
from turnercalc.advice.lengths.choosing import LENGTHS_DECIDE
from turnercalc.advice.lengths.crank_link import crank_and_link_at
from turnercalc.building import build
from turnercalc.cycle import turn_cycle
from turnercalc.design import read_design
from turnercalc.design.writer import write_design
from turnercalc.errors import AskedError
from turnercalc.findings import Answer
from turnercalc.loads import hardest
from turnercalc.paths import CirclePath
from turnercalc.sizing import size
from turnercalc.swing import ends

EXAMPLE = Path(__file__).parents[2] / "examples" / "larder-rack.toml"
#: Raise it for a thorough run: 500 take some minutes.
BOXES = int(os.environ.get("TURNERCALC_BOXES", "12"))


@cache
def found() -> Lengths:
    return find_lengths(read_design(EXAMPLE))


def test_every_promised_number_comes_true_from_the_written_file() -> None:
    assert found().suggestions
    for one in found().suggestions:
        again = size(read_design(write_design(one.design)))
        assert again.cycle is not None
        middle = again.cycle.levels.index("middle")
        peak = hardest(again.cycle, middle, again.told_direction).torque
        angle = next(f.value for f in again.findings if f.id == "link_to_arm")
        assert peak == pytest.approx(one.promise.peak, rel=1e-9)
        assert (again.ends.low, again.ends.high) == pytest.approx(
            (one.promise.low, one.promise.high), abs=1e-9
        )
        assert math.radians(angle) == pytest.approx(one.promise.link_to_arm, abs=1e-9)
        assert -again.closing.missing == pytest.approx(one.promise.in_hand, abs=1e-9)


def test_suggestions_are_fine_distinct_and_can_be_marked() -> None:
    for one in found().suggestions:
        decided = [f for f in one.sizing.findings if f.id in LENGTHS_DECIDE]
        assert all(f.answer in (Answer.FINE, Answer.NOTE) for f in decided)
        for text in one.settings.values():
            assert float(text.split()[0]) == int(text.split()[0]), text
    sets = [tuple(one.settings.values()) for one in found().suggestions]
    assert len(set(sets)) == len(sets) >= 3
    assert len({one.id for one in found().suggestions}) == len(sets)


def test_each_is_the_best_of_them_in_what_it_says() -> None:
    by_id = {one.id: one for one in found().suggestions}
    peaks = {id_: one.promise.peak for id_, one in by_id.items()}
    # A degree of tilt counts as 3 % of the peak, so that tilting less is no merit.
    assert peaks["lowest_peak"] <= 1.03 * min(peaks.values())
    arms = {id_: float(one.settings["arm.length"].split()[0]) for id_, one in by_id.items()}
    assert arms["least_sensitive"] == max(arms.values())


def test_a_wish_is_kept() -> None:
    wish = Wish(within={"crank.height": (-0.2, -0.18), "arm.length": (0.08, 0.08)})
    suggestions = find_lengths(read_design(EXAMPLE), wish).suggestions
    assert suggestions
    for one in suggestions:
        assert -0.2 <= one.design["crank"].height <= -0.18
        assert one.design["arm"].length == 0.08


def test_sixteenths_of_an_inch() -> None:
    wish = Wish(step=0.0254 / 16, system="us")
    for one in find_lengths(read_design(EXAMPLE), wish).suggestions:
        for path in one.settings:
            sixteenths = one.design.value(path) / 0.0254 * 16
            assert sixteenths == pytest.approx(round(sixteenths), abs=1e-6)


@pytest.mark.parametrize(
    ("settings", "words"),
    [
        ({"box.width": "200 mm"}, "does not fit the box by itself"),
        ({"turning.tilt": "60 deg each side"}, "link and arm"),
        ({"trays.lowest_pivot": "125 mm above the box floor"}, "have room"),
    ],
)
def test_where_there_is_none_a_sentence_says_why(settings: dict[str, str], words: str) -> None:
    keep = {"arm.length": (0.08, 0.08)} if "trays.lowest_pivot" in settings else {}
    if keep:
        keep["crank.height"] = (-0.4, 0.0)
    answer = find_lengths(read_design(EXAMPLE, settings), Wish(within=keep))
    if answer.suggestions:  # 60 degrees goes by a marginal angle at best
        assert all(one.answer is Answer.MARGINAL for one in answer.suggestions)
    else:
        assert words in answer.why_none
        assert answer.why_none.endswith(".")


def test_random_boxes_get_lengths_that_work_or_a_sentence() -> None:
    rng = np.random.default_rng(11)
    worked = 0
    for _ in range(BOXES):
        design = read_design(rack_text(rng))
        answer = find_lengths(design, Wish(count=2))
        assert bool(answer.suggestions) != bool(answer.why_none)
        for one in answer.suggestions:
            again = size(design.replace(dict(one.settings)))
            decided = {f.id: f.answer for f in again.findings if f.id in LENGTHS_DECIDE}
            assert Answer.NO not in decided.values()
            assert abs(again.ends.high - design["turning"].tilt) < math.radians(4.0)
        worked += bool(answer.suggestions)
    assert 0 < worked < BOXES, "both answers should come up"


def test_brute_force_over_the_same_space_is_not_5_percent_better() -> None:
    """Every place of the shaft and every arm in whole steps, one after the other."""
    design = read_design(EXAMPLE)
    step = 0.005
    within = {
        "arm.length": (0.075, 0.085),
        "crank.across": (0.04, 0.07),
        "crank.height": (-0.23, -0.19),
    }
    wish = Wish(within=within, step=step)
    ours = find_lengths(design, wish).suggestions
    assert ours
    best = math.inf
    for arm in np.arange(0.075, 0.0851, step):
        for across in np.arange(0.04, 0.0701, step):
            for height in np.arange(-0.23, -0.1899, step):
                best = min(best, brute_peak(arm, across, height, step))
    assert math.isfinite(best)
    assert min(one.promise.peak for one in ours) <= 1.05 * best


def brute_peak(arm: float, across: float, height: float, step: float) -> float:
    """Return the hardest planned peak of one set; infinite where it is no answer."""
    tilt = math.pi / 4
    near = [
        math.hypot(arm * math.cos(q) - across, arm * math.sin(q) - height) for q in (-tilt, tilt)
    ]
    crank = round(abs(near[0] - near[1]) / 2 / step) * step
    link = round(sum(near) / 2 / step) * step
    if crank < 0.01 or link <= crank:
        return math.inf
    settings = {
        "arm.length": arm,
        "crank.across": across,
        "crank.height": height,
        "crank.radius": crank,
        "link.length": link,
    }
    built = build(read_design(EXAMPLE).replace(settings, si=True))
    closing = built.drive.closing(built.turner.path())
    if closing.missing > -0.005:
        return math.inf
    swing = ends(built.turner, built.drive, count=90)
    off = max(abs(swing.low + tilt), abs(swing.high - tilt), abs(swing.low + swing.high))
    if off > math.radians(1.0):
        return math.inf
    ground = math.hypot(across, height)
    angles = []
    for far in (ground - crank, ground + crank):  # the cosine rule where the crank points so
        cos = (link**2 + arm**2 - far**2) / (2 * link * arm)
        angles.append(min(math.acos(cos), math.pi - math.acos(cos)))
    if min(angles) < math.radians(40.0):
        return math.inf
    loads = [case for case in built.turner.load_cases() if case.planned]
    cycle = turn_cycle(built.turner, built.drive, loads, levels=("middle",), count=36)
    return min(hardest(cycle, 0, way).torque for way in (0, 1))


def test_the_published_in_line_crank_rocker_is_reproduced() -> None:
    """An in-line crank-rocker of 45 degrees swing with a crank of 0.125 and a link of 0.5.

    Rocker 0.125/sin 22.5 = 0.32664, ground 0.58401, time ratio 1 (course notes on four-bar
    synthesis; rocker as printed, ground recomputed).
    """
    arm, ground = 0.125 / math.sin(math.radians(22.5)), 0.58401
    assert arm == pytest.approx(0.32664, abs=5e-6)
    # In line: the shaft stands on the chord through both ends of the arm pin.
    x = arm * math.cos(math.radians(22.5))
    y = -math.sqrt(ground**2 - x**2)
    crank, link = crank_and_link_at(
        CirclePath(arm, 0.0),
        np.array([x]),
        np.array([y]),
        -math.radians(22.5),
        math.radians(22.5),
        Wish(step=1e-9),
    )
    assert crank[0] == pytest.approx(0.125, abs=1e-6)
    assert link[0] == pytest.approx(0.5, abs=1e-5)


def test_whole_number_in_line_linkage() -> None:
    """24, 144, 34, 146: 24^2 + 146^2 = 144^2 + 34^2, swing 89.80 degrees (recomputed)."""
    half = math.asin(24 / 34)
    assert 2 * math.degrees(half) == pytest.approx(89.80, abs=0.005)
    x = 34 * math.cos(half)
    crank, link = crank_and_link_at(
        CirclePath(34.0, 0.0),
        np.array([x]),
        np.array([-math.sqrt(146**2 - x**2)]),
        -half,
        half,
        Wish(step=1e-9),
    )
    assert (crank[0], link[0]) == pytest.approx((24.0, 144.0), abs=1e-6)


def test_what_is_not_looked_for_is_refused_before_the_search(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def never(design: object, wish: object) -> None:
        raise AssertionError("it was searched")

    monkeypatch.setattr("turnercalc.advice.lengths.crank_link.find", never)
    with pytest.raises(AskedError, match=r"box\.width stays as the file says it"):
        find_lengths(read_design(EXAMPLE), Wish(within={"box.width": (0.5, 0.6)}))


def test_units_of_the_settings_do_not_change_what_is_found() -> None:
    """Where both are marked in sixteenths of an inch, the same sets come out."""
    found = [
        find_lengths(read_design(EXAMPLE), Wish(step=0.0254 / 16, system=system))
        for system in ("metric", "us")
    ]
    metric, us = (
        [[one.design.value(path) for path in one.settings] for one in lengths.suggestions]
        for lengths in found
    )
    assert len(metric) == len(us) > 1
    assert np.allclose(metric, us, atol=1e-6)
