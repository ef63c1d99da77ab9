"""Trays that fit: the count given fits, and one more does not."""

import math
from pathlib import Path

import numpy as np
import pytest

from tests.advice.boxes import rack_text
from turnercalc.advice.fit_trays import arrange, fit_trays
from turnercalc.advice.lengths import Wish, find_lengths
from turnercalc.cli import main
from turnercalc.design import read_design
from turnercalc.findings import Answer
from turnercalc.sizing import size

EXAMPLES = Path(__file__).parents[2] / "examples"


def room(text: str, settings: dict[str, str]) -> Answer:
    sizing = size(read_design(text, settings), count=36)
    assert sizing.clearances is not None
    gaps = [gap for gap in sizing.clearances.turner.known if gap < 0.005 - 1e-9]
    if sizing.clearances.neighbours is not None and sizing.clearances.neighbours < 0.005 - 1e-9:
        gaps.append(sizing.clearances.neighbours)
    return Answer.NO if gaps else Answer.FINE


#: A crank that swings the trays 45 degrees each side, so that the swing is the wanted one.
EVEN = {
    "turning.tilt": "45 deg each side",
    "arm.length": "80 mm",
    "arm.points": "right",
    "crank.radius": f"{80 * math.sin(math.pi / 4):.6f} mm",
    "crank.across": f"{80 * math.cos(math.pi / 4):.6f} mm right of pivot",
    "crank.height": "300 mm below pivot",
    "link.length": "300 mm",
    "box.leans": "0 deg",
}


@pytest.mark.parametrize("seed", range(8))
def test_so_many_fit_and_one_more_does_not(seed: int) -> None:
    text = rack_text(np.random.default_rng(seed))
    found = fit_trays(read_design(text, EVEN))
    if found.count == 0:
        one = {"trays.count": "1", "trays.lowest_pivot": "300 mm above the box floor"}
        tall = {"box.height": f"{300 + 1e3 * found.lowest_pivot:.0f} mm"}
        assert "Not one tray fits" in found.text
        if "narrow" in found.text:
            assert room(text, EVEN | one | tall) is Answer.NO
        return
    assert room(text, EVEN | dict(found.settings)) is Answer.FINE
    more = {"trays.count": str(found.count + 1)}
    assert room(text, EVEN | dict(found.settings) | more) is Answer.NO
    closer = {"trays.pitch": f"{1e3 * found.pitch - 1:.0f} mm", "trays.count": "2"}
    tall = {"box.height": "3000 mm"}
    assert room(text, EVEN | dict(found.settings) | closer | tall) is Answer.NO


def test_the_steepest_tilt_between_the_walls_is_where_a_rectangle_just_turns() -> None:
    """A tray of half width a and height h reaches sqrt(a2 + h2) sideways (plane geometry)."""
    text = rack_text(np.random.default_rng(3))
    found = fit_trays(read_design(text, EVEN | {"box.width": "400 mm", "trays.width": "398 mm"}))
    assert found.count == 0
    assert found.steepest == 0.0


@pytest.mark.parametrize("seed", range(8))
def test_lengths_are_found_once_the_trays_fit(seed: int) -> None:
    """Where trays are too many or too near, what fits is told, and then it does fit."""
    crowded = {"trays.count": "6", "trays.pitch": "60 mm", "turning.tilt": "45 deg each side"}
    design = read_design(rack_text(np.random.default_rng(seed)), crowded)
    answer = find_lengths(design, Wish(count=1))
    assert answer.too_big
    assert not answer.suggestions
    fit = fit_trays(design)
    if fit.count:
        again = find_lengths(design.replace(dict(fit.settings)), Wish(count=1))
        assert not again.too_big


def test_lengths_of_a_crowded_rack_say_what_fits(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "rack.toml"
    file.write_text(rack_text(np.random.default_rng(0)))
    tall = ["--set", "trays.count=6", "--set", "trays.pitch=60 mm", "--set", "box.height=900 mm"]
    wide = ["--set", "box.width=700 mm"]
    assert main(["lengths", str(file), *tall, *wide]) == 1
    out = capsys.readouterr().out
    assert "does not fit the box by itself" in out
    assert "--set trays.pitch=" in out
    assert max(map(len, out.splitlines())) <= 80


def test_trays_are_asked_of_racks_only(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lengths", str(EXAMPLES / "apple-crate-cradle.toml"), "--trays"]) == 2
    assert "no trays on pivots" in capsys.readouterr().err


@pytest.mark.parametrize("seed", [0, 3])
def test_trays_and_lengths_go_together(seed: int) -> None:
    """Every block sized anew in full, as a builder would set it, has room and turns as told."""
    crowded = {"trays.count": "6", "trays.pitch": "60 mm", "turning.tilt": "45 deg each side"}
    design = read_design(rack_text(np.random.default_rng(seed)), crowded)
    found = arrange(design, Wish(count=2))
    assert found.lengths.suggestions
    for one in found.lengths.suggestions:
        assert "trays.lowest_pivot" in one.settings
        sizing = size(design.replace(dict(one.settings)))
        answers = {finding.id: finding.answer for finding in sizing.findings}
        assert answers["room"] is not Answer.NO
        assert answers["closes"] is not Answer.NO
        assert sizing.ends.high == pytest.approx(one.promise.high, abs=1e-9)
        assert f"{sizing.design['trays'].count} tray" in found.text


def test_where_no_tray_fits_there_are_no_lengths_either() -> None:
    text = rack_text(np.random.default_rng(3))
    found = arrange(read_design(text, EVEN | {"box.width": "400 mm", "trays.width": "398 mm"}))
    assert found.fit.count == 0
    assert not found.lengths.suggestions
    assert found.lengths.why_none == found.fit.text


def test_the_page_with_trays_sets_both_in_every_block(capsys: pytest.CaptureFixture[str]) -> None:
    file = str(EXAMPLES / "potting-shed-rack.toml")  # with loads of its own, for two trays
    assert main(["lengths", file, "--trays"]) == 0
    out = capsys.readouterr().out
    assert out.count("--set trays.count=") == out.count("--set actuator.eye_across=") > 0
    assert "The lengths beneath are for" in out
    assert max(map(len, out.splitlines())) <= 80
