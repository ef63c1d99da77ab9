"""The page on motor files shows what the command prints, and names only files that are there."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "examples" / "motor-files.md"
SHOWN = ("K1 ", "K5 ")


def rows_shown() -> str:
    """The rows of the shop page that the guide shows, as the command prints them."""
    done = subprocess.run(
        [sys.executable, "-m", "turnercalc", "motors", "examples/shop-page.txt"],
        cwd=ROOT,
        capture_output=True,
        encoding="utf-8",
        check=True,
    )
    parts = done.stdout.rstrip("\n").split("\n\n")
    kept = [part for part in parts if any(name in part.splitlines()[0] for name in SHOWN)]
    return "\n\n".join(kept) + "\n"


BLOCK = re.compile(r"(<!-- rows: .*? -->\n```text\n)(.*?)(```\n<!-- end)", re.DOTALL)


def test_the_rows_shown_are_the_rows_printed() -> None:
    found = BLOCK.search(PAGE.read_text(encoding="utf-8"))
    assert found is not None
    assert found[2] == rows_shown(), "run: python -m tests.motors.test_guide"


@pytest.mark.parametrize(
    "name", re.findall(r"examples/[\w.-]+\.(?:toml|csv|txt)", PAGE.read_text())
)
def test_files_named_are_there(name: str) -> None:
    assert (ROOT / name).is_file()


if __name__ == "__main__":
    text = PAGE.read_text(encoding="utf-8")
    PAGE.write_text(BLOCK.sub(lambda m: m[1] + rows_shown() + m[3], text), encoding="utf-8")
