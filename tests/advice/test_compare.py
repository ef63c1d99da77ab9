"""Designs side by side: differences first, in each one's own words, the best with its reason."""

import json
from functools import cache
from pathlib import Path

import pytest

from turnercalc.advice.compare import Comparison, compare
from turnercalc.design import Design, read_design
from turnercalc.errors import AskedError
from turnercalc.handover.comparison_page import compare_json, compare_page
from turnercalc.handover.display import Style
from turnercalc.motors import read_motors

EXAMPLES = Path(__file__).parents[2] / "examples"


@cache
def example(name: str) -> Design:
    return read_design(EXAMPLES / f"{name}.toml")


def larder() -> Design:
    return example("larder-rack")


def page(found: Comparison, system: str = "metric") -> str:
    names = [f"{at}.toml" for at in range(len(found.sizings))]
    return compare_page(found, names, Style(system))


def told(found: Comparison) -> str:
    """Return the last paragraph in one line."""
    last = page(found).split("fields are alike.")[1]
    return " ".join(last.split())


def test_compare_puts_differences_first_and_finds_the_better_one() -> None:
    other = larder().replace({"trays.filled": "in mirror pairs", "link.length": "230 mm"})
    found = compare([larder(), other])
    told = [one.name for one in found.fields if one.differs]
    assert set(told) == {"link.length", "trays.filled"}
    assert [one.name for one in found.fields[:2]] == told
    assert found.fields[0].texts != found.fields[1].texts
    peak = next(one for one in found.results if one.name == "hardest turn")
    assert peak.differs
    mirrored = larder().replace({"trays.filled": "in mirror pairs"})
    assert compare([larder(), mirrored]).best.at == 1
    with pytest.raises(AskedError, match="two designs"):
        compare([larder()])


def test_a_design_that_jams_is_compared_in_words() -> None:
    # The linkage turned a quarter clockwise about the pivot, with the arms in line with the bar.
    turned = {
        "arm.points": "down",
        "crank.across": "220 mm left of pivot",
        "crank.height": "56 mm below pivot",
    }
    found = compare([larder(), larder().replace(turned)])
    said = {one.name: one.texts[1] for one in found.results}
    assert said["hardest turn"] == "jams"
    assert said["motor to buy, rated"] == "none would do"
    assert not any("inf" in one.texts[1].split() for one in found.results)


def test_a_design_whose_motor_the_file_lacks_is_compared_without() -> None:
    found = compare(
        [larder(), larder().replace({"motor.have": "the one in the drawer"})],
        read_motors(EXAMPLES / "motors.csv"),
    )
    motor = next(one for one in found.results if one.name == "motor")
    assert motor.texts == ("worm 5", "-")


def test_the_best_one_has_a_reason() -> None:
    """Verdict before open questions before the hardest turn, and what decided is told."""
    short = larder().replace({"link.length": "150 mm"})
    by_verdict = compare([short, larder()])
    assert (by_verdict.best.at, by_verdict.best.by) == (1, "verdict")
    assert told(by_verdict) == "Best of them: B, the only one that is fine."
    easier = compare([larder(), larder().replace({"trays.filled": "in mirror pairs"})])
    assert easier.best.by == "hardest turn"
    assert "by the easiest turn" in told(easier)
    small, large = (larder().replace({"crank.radius": text}) for text in ("47 mm", "62 mm"))
    fewer = compare([large, small])
    assert (fewer.best.at, fewer.best.by) == (1, "open questions")
    assert fewer.best.figures == (3, 2)
    assert "fewest answers that are marginal or no: 2 against 3" in told(fewer)
    third = compare([short, large, small])
    assert "before B, alike in verdict" in told(third)


def test_a_design_beside_itself_is_not_the_best() -> None:
    same = compare([larder(), larder()])
    assert same.best.at is None
    assert "none. A and B are alike" in told(same)
    # The same rack mirrored: its peak is the same but for rounding.
    assert compare([larder(), larder().replace({"name": "twin"})]).best.at is None


def test_a_motor_that_the_file_lacks_is_said_and_decides_nothing() -> None:
    """With its own motor one is marginal; the other, without any, is not better for that."""
    found = compare([larder(), example("potting-shed-rack")], read_motors(EXAMPLES / "motors.csv"))
    assert [one.verdict.value for one in found.sizings] == ["marginal", "fine"]
    assert found.without_motor == (1,)
    assert [one.value for one in found.verdicts] == ["fine", "fine"]
    assert found.best.at is None
    assert 'its "shed 60" is not in the motor file' in page(found)
    assert "with the motors left out" in told(found)
    assert "A torque and a push cannot be compared" in told(found)


def test_every_design_is_told_in_its_own_words() -> None:
    found = compare([example("larder-rack"), example("tool-chest-drum"), example("seed-tray-grid")])
    lines = {one.name: one.texts for one in found.results}
    assert lines["one end"] == (
        "44.4° left side down",
        "90.0° anticlockwise of upright",
        "22.0 mm right of the middle",
    )
    assert "left side down" not in lines
    titles = [one.name for one in found.findings]
    assert len(titles) == len(set(titles))


def test_long_words_are_wrapped_and_not_cut() -> None:
    found = compare([larder(), example("potting-shed-rack"), example("tool-cupboard-rack")])
    shown = page(found)
    assert "..." not in shown
    for one in found.fields:
        if one.differs and one.name != "name":
            for text in one.texts:
                assert all(word in shown for word in text.split())


@pytest.mark.parametrize("system", ["metric", "us", "both"])
def test_many_designs_fit_the_screen(system: str) -> None:
    every = [read_design(path) for path in sorted(EXAMPLES.glob("*.toml"))]
    shown = page(compare(every), system)
    assert max(len(line) for line in shown.splitlines()) <= 80
    assert "  I  " in shown


def test_tables_for_scripts() -> None:
    found = compare([larder(), larder().replace({"link.length": "225 mm"})])
    columns = found.to_arrays()
    assert list(columns) == ["about", "name", "differs", "design_1", "design_2"]
    at = columns["name"].tolist().index("link.length")
    assert columns["design_1"][at] == pytest.approx(0.220)
    assert columns["design_2"][at] == pytest.approx(0.225)
    assert json.loads(json.dumps(found.to_dict()))["about"][0] == "result"
    assert found._repr_html_().startswith("<table>")
    record = json.loads(compare_json(found, ["a", "b"]))
    assert record["best"] == found.best.at
    assert record["best_by"] == found.best.by


def test_a_no_that_comes_from_the_motor_is_told() -> None:
    """A motor strong enough whose class cannot do it: the reason is its own, not the design's."""
    found = compare(
        [larder(), larder().replace({"motor.have": "jack"})], read_motors(EXAMPLES / "motors.csv")
    )
    shown = " ".join(page(found).split())
    assert 'B is NO. Motor "jack": It moves in a line' in shown
    record = json.loads(compare_json(found, ["a", "b"]))
    assert record["reasons"][1].startswith('Motor "jack":')
    answers = {one.name: one.values for one in found.findings}
    assert answers["Motor: moves the right way"][1] == "no"


def test_a_later_block_leaves_out_what_none_of_its_designs_has() -> None:
    """Of four kinds of turner the one that stands below has its own rows and no others."""
    names = ("apple-crate-cradle", "larder-rack", "tool-chest-drum", "seed-tray-grid")
    found = compare([example(name) for name in names])
    shown = page(found)
    for section in shown.split("WHAT IS ")[1:]:
        for row in section.splitlines():
            cells = row.split()[1:]
            assert not cells or set(cells) != {"-"}, row
    assert "grid." in shown
    for one in found.fields:
        assert not one.differs or one.name == "name" or f"  {one.name} " in shown
