"""The verdict page: what stands on it, in which order, and that it fits the screen."""

import re
from collections.abc import Callable

import numpy as np
import pytest

from turnercalc.checks.wording import place
from turnercalc.design import read_design
from turnercalc.findings import Answer
from turnercalc.handover import screen
from turnercalc.handover.display import Style
from turnercalc.handover.screen.verdict import set_text
from turnercalc.motors import read_motors
from turnercalc.sizing import size

from .conftest import CASES, MOTORS, RACK, Case

GetCase = Callable[[str], Case]
FILES = screen.Files("larder-rack.toml", "motors.csv")

ORDER = [
    "THE TURN",
    "HOW HARD IT TURNS",
    "YOUR MOTORS",
    "TIMER",
    "BUILD WITH CARE",
    "TAKEN FOR GRANTED",
    "NOT KNOWN",
    "CAUTIONS",
    "Next:",
]


def page(case: Case, style: Style | None = None, *, brief: bool = False) -> str:
    return screen.page(case.sizing, case.advice, FILES, style or Style(), brief=brief)


@pytest.mark.parametrize("plain", [False, True])
@pytest.mark.parametrize("system", ["metric", "us", "both"])
@pytest.mark.parametrize("name", CASES)
def test_every_line_fits_the_screen(case: GetCase, name: str, system: str, plain: bool) -> None:
    text = page(case(name), Style(system, plain))
    assert [line for line in text.splitlines() if len(line) > 80] == []
    assert [line for line in text.splitlines() if line != line.rstrip()] == []
    assert not plain or text.isascii()


@pytest.mark.parametrize("name", CASES)
def test_nothing_is_not_a_number_on_the_page(case: GetCase, name: str) -> None:
    assert not re.search(r"\b(nan|inf)\b", page(case(name)), re.I)


def test_that_friction_jams_the_drive_is_said_once_for_all_motors(case: GetCase) -> None:
    text = page(case("jams always"))
    motors = text[text.index("YOUR MOTORS") : text.index("\nTIMER")]
    assert "0.0 times" not in motors
    assert motors.count("Friction jams the drive") == 1
    assert motors.count(" jams ") >= 11  # every turning motor, and the sentence above them
    assert "best first" not in motors
    assert "Not known: friction jams the drive" in text  # its current


@pytest.mark.parametrize("name", CASES)
def test_the_verdict_comes_first_and_its_reason_next(case: GetCase, name: str) -> None:
    found = case(name)
    lines = page(found).splitlines()
    assert lines[0].startswith(f"{found.sizing.verdict.value.upper()} ")
    assert lines.index("") < 3
    because = next(i for i, line in enumerate(lines) if line.startswith("  Because  "))
    assert lines[because - 1] == ""


def test_the_sections_stand_in_their_order(case: GetCase) -> None:
    lines = page(case("as it is")).splitlines()
    heads = [next(i for i, line in enumerate(lines) if line.startswith(head)) for head in ORDER]
    assert heads == sorted(heads)


def test_a_drive_that_does_not_close_leaves_out_what_is_not_there(case: GetCase) -> None:
    text = page(case("does not close"))
    assert "HOW HARD IT TURNS" not in text
    assert "TIMER" not in text
    assert "What would just do: link.length of" in re.sub(r"\s+", " ", text)


@pytest.mark.parametrize("name", ["as it is", "with a chain", "either way", "to and fro"])
def test_the_torques_are_those_of_the_result(case: GetCase, name: str) -> None:
    sizing = case(name).sizing
    text = page(case(name)).split("HOW HARD IT TURNS")[1].split("YOUR MOTORS")[0]
    rows = [
        [float(figure) for figure in found[1].split()]
        for line in text.splitlines()
        if (found := re.search(r"((?: +\d+\.\d+){6})$", line))
    ]
    assert len(rows) == len(sizing.families)
    for row, family in zip(rows, sizing.families, strict=True):
        assert row == pytest.approx(family.peaks.T.ravel(), abs=0.00501)


def test_loads_that_are_not_planned_stand_apart(case: GetCase) -> None:
    text = page(case("mirror pairs"))
    planned, _, others = text.partition("not planned, told so that you know:")
    assert "left rows only, " not in planned.split("HOW HARD")[1].split("Let it turn")[0]
    assert "left rows only, " in others


def test_us_units_are_the_same_torques(case: GetCase) -> None:
    # 1 N·m = 8.850746 lbf·in (NIST SP 811, appendix B.8)
    sizing = case("as it is").sizing
    text = page(case("as it is"), Style("us"))
    peak = sizing.families[0].peaks[1, 0]
    row = next(line for line in text.splitlines() if line.startswith("  all trays full"))
    assert float(row.split()[4]) == pytest.approx(peak * 8.850746, abs=0.06)
    assert "lbf·in" in text
    assert "N·m" not in text.replace("N·m rated (", "")


def test_what_is_offered_to_try_is_read_back(case: GetCase) -> None:
    """The settings on the page, typed as they stand there, bring what the page promises."""
    found = case("as it is")
    text = page(found)
    best = found.advice.changes[0]
    typed = dict(re.findall(r'--set ([\w.]+)="([^"]*)"', text.split("  Or  ")[0]))
    assert typed == dict(best.settings)
    again = size(read_design(RACK, typed), read_motors(MOTORS))
    assert again.verdict is best.verdict_after
    assert again.chosen is not None
    promised = re.search(r"is (\d+\.\d) times\s+enough", text.split("Do this")[1])
    assert promised is not None
    assert again.chosen.times_enough == pytest.approx(float(promised[1]), abs=0.051)


def test_a_setting_with_quote_marks_inside_is_typed_in_single_ones() -> None:
    assert set_text("gearing", '[{kind = "chain"}]') == "--set gearing='[{kind = \"chain\"}]'"


def test_the_motor_that_is_judged_is_marked(case: GetCase) -> None:
    marked = [line for line in page(case("either way")).splitlines() if line.startswith("> ")]
    assert len(marked) == 1
    assert marked[0].startswith("> turntable ")


def test_every_motor_of_the_file_is_told(case: GetCase) -> None:
    found = case("as it is")
    told = page(found).split("YOUR MOTORS")[1].split("TIMER")[0]
    for result in found.sizing.motors:
        assert f"\n  {result.motor.id}  " in told or f"\n> {result.motor.id}  " in told


def test_without_motors_the_page_says_what_to_buy(case: GetCase) -> None:
    text = re.sub(r"\s+", " ", page(case("no motor file")))
    assert "motor worm 5 not judged" in text
    assert " Buy A gearmotor of at least " in text
    assert "No motor to judge: add -m motors.csv" in text


def test_a_motor_that_starts_either_way_is_told_why(case: GetCase) -> None:
    assert "It may start either way, so the harder way counts." in re.sub(
        r"\s+", " ", page(case("either way"))
    )


@pytest.mark.parametrize("name", CASES)
def test_everything_taken_for_granted_is_told_with_its_source(case: GetCase, name: str) -> None:
    text = re.sub(r"\s+", " ", page(case(name)))
    for one in case(name).sizing.assumed:
        assert f"{one.field} {one.text} " in text
        assert one.source in text


@pytest.mark.parametrize("name", ["half known", "as it is"])
def test_everything_unknown_is_told_with_what_to_do(case: GetCase, name: str) -> None:
    text = re.sub(r"\s+", " ", page(case(name)).split("NOT KNOWN")[1])
    unknown = case(name).sizing.unknown
    assert unknown
    for finding in unknown:
        assert finding.ask
        assert finding.ask in text


def test_brief_is_the_verdict_block_alone(case: GetCase) -> None:
    found = case("as it is")
    short = page(found, brief=True)
    assert page(found).startswith(short)
    assert "THE TURN" not in short
    assert "Because" in short


def test_colour_is_only_paint(case: GetCase) -> None:
    """With the paint scraped off, a coloured page says what the plain page says."""
    coloured = Style(paint=lambda text, _: f"\x1b[1m{text}\x1b[0m")
    painted = page(case("as it is"), coloured)
    assert painted != page(case("as it is"))
    assert re.sub(r"\x1b\[\d+m", "", painted) == page(case("as it is"))


@pytest.mark.parametrize("name", CASES)
def test_cautions_defer_to_local_codes(case: GetCase, name: str) -> None:
    text = re.sub(r"\s+", " ", page(case(name)).split("CAUTIONS")[1])
    assert "crush fingers" in text
    assert "by your local code" in text
    assert "licensed" in text
    assert "wash your hands" in text


def test_the_force_of_a_stall_and_the_standards_stand_among_the_cautions(case: GetCase) -> None:
    sizing = case("as it is").sizing
    force = next(one.value for one in sizing.findings if one.id == "jam_force")
    assert force is not None
    text = re.sub(r"\s+", " ", page(case("as it is")).split("CAUTIONS")[1])
    told = re.search(r"Held fast, worm 5 pushes with up to ([\d.]+) N\.", text)
    assert told is not None
    assert float(told[1]) == pytest.approx(force, rel=0.05)
    # By number and scope only: catalogue abstracts of IEC 60335-2-71 and IEC 60529.
    assert "IEC 60335-2-71" in text
    assert "IEC 60529" in text


def test_a_bare_timer_is_told_when_it_leaves_trays_flat(case: GetCase) -> None:
    sizing = case("by timer").sizing
    assert sizing.timing is not None
    drift = sizing.timing.drift
    assert drift is not None
    text = re.sub(r"\s+", " ", page(case("by timer")))
    assert f"run for {drift.run_time:.1f} s. Nothing but the clock stops it." in text
    assert f"after {drift.flat_after} turns" in text


@pytest.mark.parametrize(
    ("tilt_deg", "going", "words"),
    [
        (-4.0, 1.0, "4° right side down, coming up"),
        (-4.0, -1.0, "4° right side down, going down"),
        (30.2, 1.0, "30° left side down, going down"),
        (30.2, -1.0, "30° left side down, coming up"),
        (0.2, 1.0, "level"),
    ],
)
def test_places_are_told_as_seen_by_the_box(
    case: GetCase, tilt_deg: float, going: float, words: str
) -> None:
    # q > 0 is anticlockwise: the left side is down, and goes further down as q grows
    assert place(case("as it is").sizing.turner, np.radians(tilt_deg), going > 0.0) == words


def test_fine_has_no_advice_and_nothing_to_buy(case: GetCase) -> None:
    found = case("with a chain")
    assert found.sizing.verdict is Answer.FINE
    block = page(found, brief=True)
    assert "Do this" not in block
    assert "buy" not in block.lower()
