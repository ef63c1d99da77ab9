"""Lengths for every drive and turner that has some: what is promised is what comes out."""

import math
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from turnercalc.advice.lengths import Lengths, Wish, find_lengths
from turnercalc.advice.lengths.actuator import circles_meet
from turnercalc.advice.lengths.choosing import LENGTHS_DECIDE
from turnercalc.cli import main
from turnercalc.design import Design, read_design
from turnercalc.design.writer import write_design
from turnercalc.findings import Answer
from turnercalc.loads import hardest
from turnercalc.sizing import size

EXAMPLES = Path(__file__).parents[2] / "examples"
#: A drum on a crank: the starter's shaft gives way to crank and link.
DESIGNS = ("potting-shed-rack", "tool-cupboard-rack", "cradle", "grid")


@cache
def design(name: str) -> Design:
    file = EXAMPLES / f"{name}.toml"
    if file.exists():
        return read_design(file)
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        started = Path(folder) / f"{name}.toml"
        assert main(["start", name, str(started)]) == 0
        return read_design(started)


@cache
def found(name: str) -> Lengths:
    return find_lengths(design(name))


@pytest.mark.parametrize("name", DESIGNS)
def test_every_promised_number_comes_true_from_the_written_file(name: str) -> None:
    assert found(name).suggestions, found(name).why_none
    for one in found(name).suggestions:
        again = size(read_design(write_design(one.design)))
        assert again.cycle is not None
        middle = again.cycle.levels.index("middle")
        peak = hardest(again.cycle, middle, again.told_direction).torque
        assert peak == pytest.approx(one.promise.peak, rel=1e-6)
        assert again.ends.low == pytest.approx(one.promise.low, abs=1e-6)
        assert again.ends.high == pytest.approx(one.promise.high, abs=1e-6)
        decided = [f.answer for f in again.findings if f.id in LENGTHS_DECIDE]
        assert Answer.NO not in decided


@pytest.mark.parametrize("name", DESIGNS)
def test_the_wanted_ends_are_reached(name: str) -> None:
    for one in found(name).suggestions:
        low, high = one.sizing.turner.travel
        share = max(abs(one.promise.low - low), abs(one.promise.high - high)) / (high - low)
        assert share < 0.06


def test_slotted_levers_tip_by_asin_r_over_d() -> None:
    """Swing 2 asin(r/d) (course notes on mechanisms, crank and slotted lever)."""
    for one in found("tool-cupboard-rack").suggestions:
        crank = one.design["crank"]
        half = math.asin(crank.radius / math.hypot(crank.across, crank.height))
        assert one.promise.high - one.promise.low == pytest.approx(2 * half, abs=1e-9)


def test_a_whole_stroke_gets_eyes_where_two_circles_meet() -> None:
    settings = {"actuator.runs": "its whole stroke", "actuator.stroke": "120 mm"}
    whole = design("potting-shed-rack").replace(settings)
    answer = find_lengths(whole)
    assert answer.suggestions, answer.why_none
    for one in answer.suggestions:
        assert abs(one.promise.high - math.pi / 4) < math.radians(2.0)
        assert abs(one.promise.low + math.pi / 4) < math.radians(2.0)


def test_circles_that_meet() -> None:
    """Two circles of 5 whose middles are 6 apart meet 4 off the line (a 3-4-5 triangle)."""
    places = sorted(circles_meet((0.0, 0.0), (6.0, 0.0), (5.0, 5.0)))
    np.testing.assert_allclose(places, [(3.0, -4.0), (3.0, 4.0)])
    assert list(circles_meet((0.0, 0.0), (6.0, 0.0), (1.0, 2.0))) == []


def test_no_place_for_a_stroke_that_is_too_short() -> None:
    answer = find_lengths(design("potting-shed-rack").replace({"actuator.stroke": "30 mm"}))
    assert not answer.suggestions
    assert "30 mm" in answer.why_none


@pytest.mark.parametrize(
    ("name", "fields"),
    [("bars", ("bars.diameter", "bars.pitch")), ("drum", ("drum.shelf_radius", "drum.outside"))],
)
def test_bars_and_drums_get_sizes_that_work(name: str, fields: tuple[str, ...]) -> None:
    assert found(name).suggestions, found(name).why_none
    for one in found(name).suggestions:
        assert tuple(one.settings) == fields
        again = size(read_design(write_design(one.design)))
        assert again.cycle is not None
        middle = again.cycle.levels.index("middle")
        peak = hardest(again.cycle, middle, again.told_direction).torque
        assert peak == pytest.approx(one.promise.peak, rel=1e-6)
        blocking = {"neighbours_touch", "drop_through", "nest", "eggs_apart", "room"}
        no = {f.id for f in again.findings if f.answer is Answer.NO}
        assert not no & blocking


def test_a_ring_of_eggs_needs_the_radius_of_its_polygon() -> None:
    """Eggs side by side on a circle: chord = 2 R sin(pi/n) (plane geometry)."""
    least = find_lengths(design("drum")).suggestions
    breadth = design("drum").value("eggs.largest").breadth
    for one in least:
        assert 2 * one.design["drum"].shelf_radius * math.sin(math.pi / 6) >= breadth


def test_bars_that_cannot_stand_in_the_box() -> None:
    answer = find_lengths(design("bars").replace({"box.width": "285 mm", "bars.pitch": "50 mm"}))
    assert not answer.suggestions
    assert "285 mm wide" in answer.why_none


DRUM_ON_A_CRANK = """
[arm]
length = "70 mm"
points = "right"

[crank]
radius = "45 mm"
runs   = "round and round"
across = "60 mm right of axle"
height = "150 mm below axle"

[link]
length       = "160 mm"
weight       = "80 g"
pin_diameter = "6 mm"
bearing      = "steel in nylon"
"""


def test_a_drum_on_a_crank_gets_lengths_beside_it() -> None:
    text = (EXAMPLES / "tool-chest-drum.toml").read_text() + DRUM_ON_A_CRANK
    text = "\n".join(
        'drive = "crank and link"' if line.startswith("drive ") else line
        for line in text.splitlines()
    )
    drum = read_design(text, {"turning.swing": "45 deg each side"})
    under = find_lengths(drum)
    assert "--beside" in under.why_none
    beside = find_lengths(drum, Wish(beside=True))
    assert beside.suggestions, beside.why_none
    for one in beside.suggestions:
        assert abs(one.promise.high - math.pi / 4) < math.radians(1.5)


def test_a_slot_in_a_box_too_small_has_a_sentence_without_a_tilt_too() -> None:
    for name in ("seed-tray-grid", "tool-cupboard-rack"):
        answer = find_lengths(design(name), Wish(within={"crank.radius": (0.5, 0.6)}))
        assert not answer.suggestions
        assert answer.why_none.endswith(".")
