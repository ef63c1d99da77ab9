"""What a millimetre, a gram or a part does: as a sizing says, and builds by the hundred."""

import json
import math
from functools import cache
from pathlib import Path

import pytest

from turnercalc.advice.sensitivity import SHARE_STEP, Sensitivity, sensitivity
from turnercalc.advice.tolerance import judge_build
from turnercalc.building import build
from turnercalc.design import Design, read_design
from turnercalc.errors import TurnercalcError
from turnercalc.handover.display import Style
from turnercalc.handover.sensitivity_page import sensitivity_json, sensitivity_page
from turnercalc.loads import hardest
from turnercalc.sizing import Sizing, size
from turnercalc.swing import as_built, egg_turn, ends, sensitivities

EXAMPLES = Path(__file__).parents[2] / "examples"
DESIGNS = sorted(path.stem for path in EXAMPLES.glob("*.toml"))


@cache
def of(name: str) -> tuple[Design, Sensitivity, Sizing]:
    design = read_design(EXAMPLES / f"{name}.toml")
    return design, sensitivity(design), size(design)


@pytest.mark.parametrize("name", DESIGNS)
def test_a_millimetre_moves_the_ends_as_a_sizing_says(name: str) -> None:
    """The sizing changes one length of what is put together; here every design is built anew."""
    _, found, sizing = of(name)
    effects = {effect.field: effect for effect in found.effects}
    told = 0
    for one in sensitivities(sizing.turner, sizing.drive):
        if max(abs(one.low), abs(one.high)) * 1e-3 > 2e-4 * (found.high - found.low):
            told += 1
            assert effects[one.field].low == pytest.approx(one.low * 1e-3, rel=2e-3, abs=2e-5)
            assert effects[one.field].high == pytest.approx(one.high * 1e-3, rel=2e-3, abs=2e-5)
    assert told or not sizing.drive.dimensions


@pytest.mark.parametrize("name", ["potting-shed-rack", "beach-cooler-cradle"])
def test_every_length_of_an_actuator_is_told(name: str) -> None:
    _, found, _ = of(name)
    fields = {effect.field for effect in found.effects}
    wanted = {"shortest", "stop_in", "stop_out", "eye_height", "eye_across"}
    assert {f"actuator.{one}" for one in wanted} <= fields
    stops = {effect.field: effect for effect in found.effects if ".stop_" in effect.field}
    # A switch moves the end that it sets, and leaves the other where it is.
    inner, outer = stops["actuator.stop_in"], stops["actuator.stop_out"]
    assert sorted([inner.low == 0.0, inner.high == 0.0]) == [False, True]
    assert sorted([outer.low == 0.0, outer.high == 0.0]) == [False, True]


@pytest.mark.parametrize("name", ["larder-rack", "potting-shed-rack", "apple-crate-cradle"])
def test_all_parts_together_are_the_spread_of_a_sizing(name: str) -> None:
    """Half of what a sizing calls least to most, without play: roots of sums of squares alike."""
    _, found, sizing = of(name)
    alone = as_built(sizing.turner, sizing.drive, play=0.0)
    low, high = (
        math.sqrt(sum(getattr(part, end) ** 2 for part in found.parts)) for end in ("low", "high")
    )
    assert max(found.high + high, -found.low + low) == pytest.approx(alone.most, rel=2e-4)
    assert min(found.high - high, -found.low - low) == pytest.approx(alone.least, rel=2e-4)


def test_builds_drawn_by_chance_spread_as_the_millimetres_say() -> None:
    design, found, sizing = of("potting-shed-rack")
    judged = judge_build(design, count=100, seed=2)
    each = 1.0 / 1.959964  # 95 of 100 marks within a millimetre
    play = next(e for e in found.effects if e.field == sizing.drive.play_like).high
    marks = sum((part.high * each) ** 2 for part in found.parts)
    expected = math.sqrt(marks + (play * 500.0 * sizing.drive.play) ** 2 / 3.0)
    assert judged.high.deviation == pytest.approx(expected, rel=0.25)  # 100 draws: sd 7 %


def test_a_thicker_bar_turns_the_eggs_further_and_itself_as_far_as_before() -> None:
    """Bar and egg pass the same length of surface, and the switches stay where they are."""
    design, found, _ = of("toy-chest-bars")
    bar = next(effect for effect in found.effects if effect.field == "bars.diameter")
    assert bar.low == bar.high == 0.0
    assert bar.turn == pytest.approx(found.turn * 1e-3 / design.value("bars.diameter"), rel=0.02)


def test_a_part_of_a_field_is_told_too() -> None:
    _, found, _ = of("tool-chest-drum")
    assert "drum.empty_balance weight" in {effect.field for effect in found.effects}
    assert "drum.shelf_radius" in {effect.field for effect in found.effects}


@pytest.mark.parametrize("name", DESIGNS)
def test_the_peak_and_the_egg_turn_come_true(name: str) -> None:
    """The strongest length and mass set as `--set` would, and sized."""
    design, found, sizing = of(name)
    for effect in found.effects[:4]:
        value = design.values().get(effect.field)
        if not isinstance(value, float):
            continue
        step = 0.25e-3 if effect.is_length else SHARE_STEP * value
        told = 0.25 if effect.is_length else 10.0 * SHARE_STEP
        both = [design.replace({effect.field: value + sign * step}, si=True) for sign in (1, -1)]
        more, less = (build(one) for one in both)
        if build(design).drive.both_ways and effect.is_length:
            continue  # its switches are set anew by --set
        turns = [egg_turn(one.turner, ends(one.turner, one.drive).total) for one in (more, less)]
        if None not in turns:
            assert (turns[0] - turns[1]) / 2 == pytest.approx(told * effect.turn, abs=1e-6)
        peaks = []
        for one in both:
            cycle = size(one, count=180).cycle
            assert cycle is not None
            way = [hardest(cycle, 1, at).torque for at in (0, 1)]
            peaks.append(max(way) if sizing.drive.both_ways else min(way))
        assert (peaks[0] - peaks[1]) / 2 == pytest.approx(told * effect.peak, rel=0.02, abs=1e-6)


def test_parts_and_figures_stand_with_the_strongest_first() -> None:
    _, found, _ = of("larder-rack")

    def strength(effect: object) -> float:
        half = 0.5 * (found.high - found.low)
        shares = [abs(getattr(effect, end)) / half for end in ("low", "high")]
        return max(*shares, abs(effect.peak) / found.peak, abs(effect.turn) / found.turn)  # type: ignore[attr-defined]

    every = [round(strength(effect), 6) for effect in found.effects]
    assert every == sorted(every, reverse=True)
    first = [round(strength(part.effects[0]), 6) for part in found.parts]
    assert first == sorted(first, reverse=True)
    assert sum(len(part.effects) for part in found.parts) == len(found.effects)


def test_a_length_at_its_limit_is_told_from_one_side() -> None:
    """A switch at the very end of the stroke can only be moved in."""
    design, _, sizing = of("potting-shed-rack")
    out = dict(zip(("stop_in", "stop_out"), sizing.drive.stops, strict=True))  # type: ignore[attr-defined]
    ended = design.replace(
        {
            "actuator.stroke": out["stop_out"],
            "actuator.stop_in": out["stop_in"],
            "actuator.stop_out": out["stop_out"],
        },
        si=True,
    )
    effects = {effect.field: effect for effect in sensitivity(ended).effects}
    _, whole, _ = of("potting-shed-rack")
    free = next(effect for effect in whole.effects if effect.field == "actuator.stop_out")
    assert effects["actuator.stop_out"].high == pytest.approx(free.high, rel=0.01)


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("name", ["larder-rack", "potting-shed-rack", "seed-tray-grid"])
def test_the_page_keeps_to_one_system(name: str, system: str) -> None:
    design, found, sizing = of(name)
    page = sensitivity_page(found, design, sizing, Style(system))
    assert all(len(line) <= 80 for line in page.splitlines())
    metric, us = ("1 mm", "N·m", " N ", " mm "), ("1/32 in", "lbf", "ozf")
    for foreign in us if system == "metric" else metric:
        assert foreign not in page.replace("\n", " ")


def test_a_thirty_second_of_an_inch_does_its_share_of_a_millimetre() -> None:
    design, found, sizing = of("larder-rack")
    page = sensitivity_page(found, design, sizing, Style("us"))
    line = next(line for line in page.splitlines() if line.split()[:2] == ["radius", "1/32"])
    effect = next(effect for effect in found.effects if effect.field == "crank.radius")
    degrees = math.degrees(effect.high) * 25.4 / 32
    # 1 N·m = 8.850745 lbf·in, from the pound (0.45359237 kg), standard gravity and the inch.
    assert f"{degrees:+.2f}" in line.split()
    assert f"{effect.peak * 8.850745 * 25.4 / 32:+.2f}" in line.split()


def test_json_and_tables_have_parts_and_units() -> None:
    design, found, sizing = of("potting-shed-rack")
    record = json.loads(sensitivity_json(found, design, sizing))
    assert {one["part"] for one in record["effects"]} == {one["part"] for one in record["parts"]}
    assert record["peak_push_N"] == pytest.approx(found.peak, rel=1e-5)
    columns = found.to_arrays()
    assert {"part", "field", "per", "low_end_rad", "high_end_rad", "peak_push_N"} < set(columns)
    assert len(columns["field"]) == len(found.effects)
    assert found._repr_html_().startswith("<table>")


def test_what_does_not_go_through_has_none() -> None:
    design, _, _ = of("larder-rack")
    with pytest.raises(TurnercalcError, match="does not go through"):
        sensitivity(design.replace({"link.length": "150 mm"}))
