"""No error leaves as a traceback: what is said, and exit code 2."""

import subprocess
import sys

import click
import pytest

from turnercalc.cli.group import turnercalc
from turnercalc.errors import Complaint, DesignError, OutputError, UnitError

from .conftest import Run


def failing(monkeypatch: pytest.MonkeyPatch, error: BaseException) -> None:
    """Make `convert` fail in a way that cannot be brought about otherwise."""

    @click.command("convert")
    def command() -> int:
        raise error

    monkeypatch.setattr(type(turnercalc), "get_command", lambda *_: command)


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (UnitError("1,500 could be 1500 or 1.5."), "1,500 could be 1500 or 1.5.\n"),
        (OutputError("rack.txt is already in /home/you."), "rack.txt is already in /home/you.\n"),
        (PermissionError(13, "Permission denied", "a.csv"), "a.csv: Permission denied.\n"),
        (OSError(28, "No space left on device"), "No space left on device.\n"),
        (KeyboardInterrupt(), "\nStopped. Nothing was written.\n"),
        (click.Abort(), "Stopped. Nothing was written.\n"),
        (MemoryError(), "This is too large to work on. Try a smaller file.\n"),
        (RecursionError(), "This is too large to work on. Try a smaller file.\n"),
        (
            ModuleNotFoundError("No module named 'openpyxl'", name="openpyxl"),
            "This command needs the package openpyxl, which is not installed here. Install\n"
            "turnercalc with pip, and it comes along.\n",
        ),
    ],
)
def test_a_foreseen_error_is_one_message(
    run: Run, monkeypatch: pytest.MonkeyPatch, error: BaseException, said: str
) -> None:
    failing(monkeypatch, error)
    assert run("convert") == (2, "", said)


def test_an_unforeseen_error_apologises_and_says_what_to_report(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    failing(monkeypatch, ZeroDivisionError("division by zero"))
    monkeypatch.delenv("TURNERCALC_DEBUG", raising=False)
    code, out, err = run("convert")
    assert (code, out) == (2, "")
    assert err.startswith("Sorry: this is a mistake in turnercalc, not in your file.")
    assert "  ZeroDivisionError: division by zero\n" in err
    assert "TURNERCALC_DEBUG=1" in err
    assert "Traceback" not in err
    assert all(len(line) <= 80 for line in err.splitlines())


def test_the_traceback_is_there_for_who_asks(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    failing(monkeypatch, ZeroDivisionError("division by zero"))
    monkeypatch.setenv("TURNERCALC_DEBUG", "1")
    with pytest.raises(ZeroDivisionError):
        run("convert")


def test_a_design_error_becomes_the_page_of_complaints(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    complaint = Complaint(55, "", 'lenght = "200 mm"', '[link] has no "lenght". Nearest: length.')
    error = DesignError(
        "Nothing was calculated: 1 line of my-rack.toml needs you.",
        complaints=(complaint,),
        understood=51,
    )
    failing(monkeypatch, error)
    code, out, err = run("convert")
    assert (code, out) == (2, "")
    assert err == (
        "Nothing was calculated: 1 line of my-rack.toml needs you.\n\n"
        '  line 55   lenght = "200 mm"\n'
        '            [link] has no "lenght". Nearest: length.\n\n'
        "The other 51 lines were understood.\n"
    )


def test_a_reader_that_goes_away_is_no_traceback() -> None:
    writer = subprocess.Popen(
        [
            sys.executable,
            "-c",
            "import time; from turnercalc.cli import main; time.sleep(1); main(['explain'])",
        ],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert writer.stdout is not None
    assert writer.stderr is not None
    writer.stdout.close()
    said = writer.stderr.read().decode()
    writer.stderr.close()
    writer.wait()
    assert said == ""
