"""Running commands as a person at a terminal does, in this process."""

from collections.abc import Callable
from typing import NamedTuple

import pytest

from turnercalc.cli import main


class Outcome(NamedTuple):
    """Exit code, standard output and standard error of one command."""

    code: int
    out: str
    err: str


Run = Callable[..., Outcome]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    def run_one(*arguments: str) -> Outcome:
        code = main(arguments)
        captured = capsys.readouterr()
        return Outcome(code, captured.out, captured.err)

    return run_one
