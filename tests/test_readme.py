"""What the pages show is what happens: their output is the real one, their commands run."""

import re

import pytest

from tests.refresh_readme import BLOCK, PAGES, README, ROOT, output_of

TEXT = README.read_text(encoding="utf-8")
BLOCKS = [m for page in PAGES for m in BLOCK.finditer(page.read_text(encoding="utf-8"))]


@pytest.mark.parametrize("block", BLOCKS, ids=lambda m: m["command"])
def test_the_output_shown_is_the_output_printed(block: re.Match[str]) -> None:
    shown = block["text"]
    assert shown.strip()
    assert shown == output_of(block["command"]), "run: python -m tests.refresh_readme"


def test_nothing_shown_is_wider_than_a_terminal() -> None:
    for block in BLOCKS:
        assert max(len(line) for line in block["text"].splitlines()) <= 80


def test_the_job_stands_in_the_first_paragraph() -> None:
    first = TEXT.split("\n\n")[1].replace("\n", " ")
    for words in ("tilt", "torque over the whole turn cycle", "gear ratio", "turns per day"):
        assert words in first
    assert "sizing a motor for a homemade tilting rack" in first


def test_ci_ends_with_the_test_command_of_the_readme() -> None:
    commands = [line.strip() for line in TEXT.splitlines() if line.startswith("    ")]
    last = (ROOT / ".ci" / "run").read_text(encoding="utf-8").strip().splitlines()[-1]
    assert last in commands


def test_the_python_shown_runs(monkeypatch: pytest.MonkeyPatch) -> None:
    (code,) = re.findall(r"```python\n(.*?)```", TEXT, re.DOTALL)
    monkeypatch.chdir(ROOT)
    told: list[object] = []
    exec(compile(code, str(README), "exec"), {"print": lambda *words: told.extend(words)})
    verdict, swing, torque = told
    assert verdict in ("fine", "marginal", "no")
    assert 1.0 < float(str(swing)) < 2.0
    assert float(str(torque)) > 0.0


def test_every_file_named_is_there() -> None:
    for page in PAGES:
        for path in re.findall(r"examples/[\w.-]+\.(?:toml|csv|png|md)", page.read_text("utf-8")):
            assert (ROOT / path).is_file(), path
