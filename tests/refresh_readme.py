"""Put real output into the pages that show some: ``python -m tests.refresh_readme``."""

import re
import shlex
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]
README = ROOT / "README.md"
PAGES = (README, ROOT / "examples" / "walk-through.md")
BLOCK = re.compile(
    r"(?P<head><!-- output: (?P<command>.*?) -->\n```text\n)(?P<text>.*?)(?P<tail>```\n<!-- end)",
    re.DOTALL,
)


def output_of(command: str) -> str:
    """Return what a command prints, as it is read from a file: no colour."""
    words = [sys.executable, "-m", "turnercalc", *shlex.split(command)]
    found = subprocess.run(words, cwd=ROOT, capture_output=True, encoding="utf-8", check=False)
    return found.stdout


def refreshed(text: str) -> str:
    """Return a page with every output block renewed."""
    return BLOCK.sub(lambda m: m["head"] + output_of(m["command"]) + m["tail"], text)


if __name__ == "__main__":
    for page in PAGES:
        page.write_text(refreshed(page.read_text(encoding="utf-8")), encoding="utf-8")
