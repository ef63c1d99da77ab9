"""``size`` at the terminal: exit codes, and what wrong input is told. Never a traceback."""

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Run

EXAMPLES = Path(__file__).parents[2] / "examples"
RACK = str(EXAMPLES / "larder-rack.toml")
MOTORS = str(EXAMPLES / "motors.csv")


def told(text: str) -> str:
    """Return a page as one line, so that where it is broken does not matter."""
    return " ".join(text.split())


@pytest.mark.parametrize(
    ("more", "code", "verdict"),
    [
        ([], 0, "MARGINAL"),
        (["--strict"], 1, "MARGINAL"),
        (["--set", "trays.filled=in mirror pairs"], 0, "FINE"),
        (["--set", "trays.filled=in mirror pairs", "--strict"], 0, "FINE"),
        (["--set", "motor.have=spur 6"], 1, "NO"),
        (["--set", "link.length=150 mm"], 1, "NO"),
        (["--safety-factor", "1.5"], 0, "FINE"),
    ],
)
def test_the_exit_code_follows_the_verdict(
    run: Run, more: list[str], code: int, verdict: str
) -> None:
    outcome = run("size", RACK, "-m", MOTORS, "--brief", *more)
    assert (outcome.code, outcome.err) == (code, "")
    assert outcome.out.startswith(verdict)


@pytest.mark.parametrize(
    ("setting", "words"),
    [
        ("trays.count=-3", "at least 1"),
        ("trays.rows=0", "at least 1"),
        ("eggs.weighed=-5 g", "at least"),
        ("trays.empty_weight=-1 kg", "has to be"),
        ("turning.tilt=95 deg each side", "at most 89 deg"),
        ("turning.tilt=45 deg", "to each side of level, or 45 in all?"),
        ("turning.tilt=45", "to each side of level, or 45 in all?"),
        ("crank.radius=1,500 mm", "two ways"),
        ("link.length=18", "18 what?"),
        ("eggs.kind=ostritch", '--set eggs.kind="ostrich"'),
        ("link.lenght=3 mm", "Nearest: link.length"),
        ("motor.safety_factor=0", "at least 1"),
        ("box.temperature=200 C", "at most 45 C"),
        ("turning.turns_per_day=0", "at least 0.5"),
        ("trays.egg_floor=16 mm", "16 mm below pivot"),
        ("link.length=banana", "link.length"),
        ("nonsense", "nonsense"),
    ],
)
def test_a_wrong_setting_is_told_with_what_would_do(run: Run, setting: str, words: str) -> None:
    outcome = run("size", RACK, "--set", setting)
    assert (outcome.code, outcome.out) == (2, "")
    assert words in told(outcome.err)
    assert "Traceback" not in outcome.err


def test_every_problem_of_a_file_comes_in_one_pass(run: Run, tmp_path: Path) -> None:
    text = Path(RACK).read_text(encoding="utf-8")
    bad = text.replace('radius = "', 'radius = "-').replace('"45 deg each side"', '"45 deg"')
    bad = bad.replace("[tie_bar]", "[tie_rod]")
    file = tmp_path / "bad.toml"
    file.write_text(bad, encoding="utf-8")
    outcome = run("size", str(file))
    assert outcome.code == 2
    wrong = [n for n, line in enumerate(bad.splitlines(), 1) if line not in text.splitlines()]
    assert len(wrong) >= 3
    for number in wrong:
        assert f"line {number} " in outcome.err


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["size", "nowhere.toml"], "nowhere.toml"),
        (["size", RACK, "-m", "nowhere.csv"], "nowhere.csv"),
        (["size", RACK, "-m", MOTORS, "--set", "motor.have=Z"], 'no motor "Z"'),
        (["cycle", RACK, "--load", "no such load"], "no such load"),
        (["plot", RACK, "torqe"], "torqe"),
        (["explain", "zzz"], "zzz"),
        (["start", "zzz"], "zzz"),
    ],
)
def test_what_is_not_there_is_told_by_name(run: Run, arguments: list[str], words: str) -> None:
    outcome = run(*arguments)
    assert outcome.code == 2
    assert words in told(outcome.err)
    assert "Traceback" not in outcome.err


def test_reptile_eggs_get_an_answer_and_no_turner(run: Run) -> None:
    # Reptile eggs are not turned: common practice, no source.
    outcome = run("size", RACK, "--set", "eggs.kind=ball python")
    assert (outcome.code, outcome.err) == (1, "")
    assert outcome.out.startswith("NO")
    assert all(line.startswith(" " * 11) for line in outcome.out.splitlines()[1:])


def test_reptile_eggs_are_an_answer_in_json_too(run: Run) -> None:
    outcome = run("size", RACK, "--json", "--set", "eggs.kind=tortoise")
    record = json.loads(outcome.out)
    assert (outcome.code, record["exit_code"], record["verdict"]) == (1, 1, "no")
    assert "not turned" in record["reason"]["text"]


def test_nothing_is_overwritten_unless_asked(run: Run, tmp_path: Path) -> None:
    target = tmp_path / "answer.txt"
    target.write_text("mine", encoding="utf-8")
    refused = run("size", RACK, "-o", str(target))
    assert refused.code == 2
    assert target.read_text(encoding="utf-8") == "mine"
    assert run("size", RACK, "-o", str(target), "--replace").code == 0
    assert "THE TURN" in target.read_text(encoding="utf-8")
