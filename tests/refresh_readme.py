"""Put the real output of the example into README.md: ``python -m tests.refresh_readme``."""

import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]
README = ROOT / "README.md"
BLOCK = re.compile(
    r"(?P<head><!-- output: (?P<command>.*?) -->\n```text\n)(?P<text>.*?)(?P<tail>```\n<!-- end)",
    re.DOTALL,
)


def output_of(command: str) -> str:
    """Return what a command prints, as it is read from a file: no colour."""
    words = [sys.executable, "-m", "turnercalc", *command.split()]
    found = subprocess.run(words, cwd=ROOT, capture_output=True, encoding="utf-8", check=False)
    return found.stdout


def refreshed(text: str) -> str:
    """Return the README with every output block renewed."""
    return BLOCK.sub(lambda m: m["head"] + output_of(m["command"]) + m["tail"], text)


if __name__ == "__main__":
    README.write_text(refreshed(README.read_text(encoding="utf-8")), encoding="utf-8")
