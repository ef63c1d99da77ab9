"""`turnercalc draw` and `turnercalc parts` as a person at a terminal uses them."""

import csv
import io
import json
from pathlib import Path

import pytest

from turnercalc.cli import draw
from turnercalc.handover.drawings import bundle
from turnercalc.handover.drawings.sheets import PAPERS

from .conftest import Outcome, Run

EXAMPLES = Path(__file__).parents[2] / "examples"
RACK = str(EXAMPLES / "larder-rack.toml")


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def names(folder: Path) -> set[str]:
    return {file.name for file in folder.iterdir()}


def told(outcome: Outcome) -> str:
    """Return a message in one line, however it was broken."""
    return " ".join(outcome.err.split())


def test_the_command_offers_what_there_is() -> None:
    assert draw.WHAT == bundle.WHAT
    assert draw.KINDS == bundle.KINDS
    assert set(PAPERS) == {"a4", "letter"}


def test_without_a_name_it_is_named_after_the_design(run: Run, here: Path) -> None:
    outcome = run("draw", RACK, "--what", "holes")
    assert outcome.code == 0
    assert outcome.out == ""
    assert outcome.err == (
        "As marked, fine: 44.4° left side down, 44.4° right side down.\n"
        "Written: larder-rack-drawings.pdf\n"
    )
    assert names(here) == {"larder-rack-drawings.pdf"}


def test_into_a_folder_that_is_made(run: Run, here: Path) -> None:
    outcome = run("draw", RACK, "--what", "templates", "--as", "dxf", "-o", "drawings/")
    assert outcome.code == 0
    assert names(here / "drawings") == {
        f"larder-rack-drawings-{name}.dxf" for name in ("arm", "crank", "link", "tie_bar")
    }
    assert "Written: drawings/larder-rack-drawings-arm.dxf" in outcome.err


def test_a_folder_is_not_made_in_a_folder_that_is_not_there(run: Run, here: Path) -> None:
    outcome = run("draw", RACK, "--what", "holes", "-o", "no/drawings/")
    assert outcome.code == 2
    assert f"there is no folder {here / 'no'}" in told(outcome)
    assert names(here) == set()


def test_the_ending_says_what_it_is(run: Run, here: Path) -> None:
    assert run("draw", RACK, "--what", "holes", "-o", "wall.svg").code == 0
    assert run("draw", RACK, "--what", "holes", "--what", "side", "-o", "both.svg").code == 0
    assert names(here) == {"wall.svg", "both-holes.svg", "both-side.svg"}


def test_another_ending_is_refused_before_anything_is_written(run: Run, here: Path) -> None:
    for arguments in (("-o", "rack.jpg"), ("--as", "dxf", "-o", "rack.pdf")):
        outcome = run("draw", RACK, *arguments)
        assert outcome.code == 2
        assert "drawings are written as pdf, svg, dxf" in outcome.err
    assert names(here) == set()


def test_all_of_several_files_or_none(run: Run, here: Path) -> None:
    """One of four is there already: the other three are not written either."""
    (here / "x-link.dxf").write_text("mine")
    outcome = run("draw", RACK, "--what", "templates", "-o", "x.dxf")
    assert outcome.code == 2
    assert f"x-link.dxf is already in {here}, and nothing was written" in told(outcome)
    assert names(here) == {"x-link.dxf"}
    assert (here / "x-link.dxf").read_text() == "mine"
    assert run("draw", RACK, "--what", "templates", "-o", "x.dxf", "--replace").code == 0
    assert names(here) == {f"x-{name}.dxf" for name in ("arm", "crank", "link", "tie_bar")}


def test_parts_say_the_same_as_csv_json_and_page(run: Run) -> None:
    page = run("parts", RACK).out
    rows = list(csv.DictReader(io.StringIO(run("parts", RACK, "--csv").out)))
    record = json.loads(run("parts", RACK, "--json").out)
    shaft = next(row for row in rows if row["hole"] == "crank shaft")
    assert (shaft["across_mm"], shaft["up_mm"]) == ("286.000", "110.000")
    # 286 mm is 11.26 in, nearest 11-4/16; 110 mm is 4.33 in, nearest 4-5/16
    assert (shaft["across_16ths_in"], shaft["up_16ths_in"]) == ("11-1/4", "4-5/16")
    in_record = next(h for h in record["wall"]["holes"] if h["name"] == "crank shaft")
    assert (in_record["across_mm"], in_record["up_mm"]) == (286, 110)
    assert in_record["measured_only"] is True
    assert "crank shaft              286 mm          110 mm" in page


@pytest.mark.parametrize("system", ["metric", "us", "both"])
@pytest.mark.parametrize("plain", [(), ("--plain",)])
def test_parts_fit_the_screen(run: Run, system: str, plain: tuple[str, ...]) -> None:
    outcome = run("parts", RACK, "--units", system, *plain)
    assert outcome.code == 0
    assert [line for line in outcome.out.splitlines() if len(line) > 80] == []
    assert not plain or outcome.out.isascii()


def test_every_example_is_drawn(run: Run, here: Path) -> None:
    for file in sorted(EXAMPLES.glob("*.toml")):
        outcome = run("draw", str(file), "-o", f"{file.stem}.pdf")
        assert outcome.code == 0, outcome.err
        assert run("parts", str(file)).code == 0


@pytest.mark.parametrize("name", sorted(path.name for path in EXAMPLES.glob("*.toml")))
@pytest.mark.parametrize("system", ["metric", "us"])
def test_lists_of_every_example_fit_the_terminal(run: Run, name: str, system: str) -> None:
    outcome = run("parts", str(EXAMPLES / name), "--units", system)
    assert outcome.code == 0
    assert max(len(line) for line in outcome.out.splitlines()) <= 80
