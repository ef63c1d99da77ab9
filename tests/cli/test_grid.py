"""A sliding grid at the terminal: every command, every drive, both unit systems, every refusal."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.grid_design import DRIVES, EXAMPLES, TRAY, text_with
from turnercalc.design import read_design
from turnercalc.design.writer import write_design

MOTORS = str(EXAMPLES / "motors.csv")


@pytest.fixture
def file(tmp_path: Path, request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """A design file of the starter with another drive, in the folder one works in."""
    monkeypatch.chdir(tmp_path)
    text, said = text_with(DRIVES[getattr(request, "param", "crank and link")])
    path = tmp_path / "my-grid.toml"
    path.write_text(write_design(read_design(text, said)), encoding="utf-8")
    return path.name


def narrow(text: str) -> bool:
    return max(map(len, text.splitlines()), default=0) <= 80


@pytest.mark.parametrize("file", DRIVES, indirect=True)
@pytest.mark.parametrize("units", ["metric", "us", "both"])
def test_the_page_of_every_drive_fits_the_terminal(run: Run, file: str, units: str) -> None:
    found = run("size", file, "-m", MOTORS, "--units", units)
    assert found.code == 0, found.err
    assert found.out.startswith("FINE")
    assert narrow(found.out.partition("Next:")[0])
    assert not found.err
    body = found.out.partition("YOUR MOTORS")[0]
    for word in ("tray", "tilt", "pivot", "left side down", "nan", "None"):
        assert word not in body, word
    assert "Egg turn" in body
    assert "Stroke" in body


@pytest.mark.parametrize("file", DRIVES, indirect=True)
def test_the_cycle_is_a_table_of_slides_and_forces(run: Run, file: str) -> None:
    page = run("cycle", file)
    assert page.code == 0
    assert narrow(page.out)
    assert "Positive slide: right of" in " ".join(page.out.split())
    table = run("cycle", file, "--csv")
    rows = list(csv.DictReader(io.StringIO(table.out)))
    assert {"slide_mm", "load_force_N"} <= set(rows[0])
    slides = [float(row["slide_mm"]) for row in rows]
    assert max(slides) - min(slides) == pytest.approx(72.9, abs=0.2)


@pytest.mark.parametrize("file", DRIVES, indirect=True)
def test_the_record_speaks_of_stroke_and_egg_turn(run: Run, file: str) -> None:
    found = json.loads(run("size", file, "-m", MOTORS, "--json").out)
    assert found["design"]["turner"] == "sliding_grid"
    assert found["slide"]["total_mm"] == pytest.approx(72.9, abs=0.2)
    assert found["motion"]["stroke_mm"] == pytest.approx(72.9, abs=0.2)
    assert found["motion"]["egg_turn_deg"] == pytest.approx(180.0, abs=0.6)
    assert "tilt" not in found
    assert "peak_load_force_N" in found["loads"][0]
    assert {"grid_turn", "grid_drag", "grid_bar_height"} <= {f["id"] for f in found["findings"]}


@pytest.mark.parametrize("file", DRIVES, indirect=True)
def test_plots_are_drawn(run: Run, file: str, tmp_path: Path) -> None:
    target = tmp_path / "grid.svg"
    done = run("plot", file, "torque", "tilt", "speed", "time", "-m", MOTORS, "-o", str(target))
    assert done.code == 0, done.err
    text = target.read_text(encoding="utf-8")
    assert text.startswith("<?xml")
    assert len(text) > 10_000


@pytest.mark.parametrize("file", DRIVES, indirect=True)
def test_formulas_are_told_with_the_numbers_of_the_design(run: Run, file: str) -> None:
    page = run("explain", "sliding grid", "--design", file)
    assert page.code == 0, page.err
    assert narrow(page.out)
    assert "R = 0.02175 m" in page.out
    # P = 0.57205 x 1/(21.75 x 0.73 - 0.27) N by hand
    assert "P = 0.036653 N" in page.out
    assert "grid's own friction together take up to" in " ".join(page.out.split())


def test_crank_on_a_slide_is_explained_with_its_numbers(run: Run, file: str) -> None:
    page = run("explain", "slider crank", "--design", file)
    assert "r = 0.0365 m" in page.out
    assert "L = 0.11 m" in page.out


def test_what_start_writes_is_sized(run: Run, tmp_path: Path) -> None:
    target = tmp_path / "new.toml"
    assert run("start", "grid", str(target)).code == 0
    found = run("size", str(target))
    assert found.code == 0
    assert "grid" in run("start").out
    everything = tmp_path / "all.toml"
    everything.write_text(run("start", "grid", "--all").out, encoding="utf-8")
    assert run("size", str(everything)).out == found.out.replace(str(target), str(everything))


def test_the_example_says_what_to_do_and_that_comes_true(run: Run) -> None:
    found = run("size", str(TRAY), "-m", MOTORS)
    assert found.code == 0
    # the commands offered at the end are as long as the names of the files
    assert narrow(found.out.partition("Next:")[0])
    assert '--set turning.turns_per_day="24"' in found.out
    better = run("size", str(TRAY), "-m", MOTORS, "--set", "turning.turns_per_day=24")
    assert better.out.startswith("FINE")
    assert run("size", str(TRAY), "-m", MOTORS, "--strict").code == 1


@pytest.mark.parametrize(
    ("setting", "code", "words"),
    [
        ('floor.friction="0.03 to 0.06"', 1, "The floor drags the eggs"),
        ('crank.radius="68.33 mm"', 1, "that is no turn"),
        ('grid.bar_top="12 mm"', 1, "The bars are too low"),
        ('grid.bar_bottom="30 mm"', 1, "The bars are too high"),
        ('grid.bar_friction="1 to 1.2"', 1, "the eggs jam between bar and floor"),
        ('grid.eggs_per_cell="0"', 2, "at least 1"),
        ('grid.weight="-650 g"', 2, "has to be at least"),
        ('eggs.weighed="0 eggs = 700 g"', 2, "eggs"),
        ('drive="turning shaft"', 2, "cannot be moved by"),
        ('turning.egg_turn="95"', 2, "95 what?"),
    ],
)
def test_bad_input_gives_a_sentence_and_its_exit_code(
    run: Run, file: str, setting: str, code: int, words: str
) -> None:
    more = ("--set", 'link.length="200 mm"') if "68.33" in setting else ()
    if "68.33" in setting:
        more = (*more, "--set", 'crank.across="200 mm right of the pin"')
        more = (*more, "--set", 'eggs.cell_room="43.5 mm"', "--set", 'box.width="1 m"')
    found = run("size", file, "--set", setting, *more)
    assert found.code == code
    told = " ".join((found.out + found.err).split())
    assert words in told
    assert "Traceback" not in told
