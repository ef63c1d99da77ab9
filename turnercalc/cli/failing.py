"""What is said when a command cannot answer. Always on standard error, always exit code 2."""

from __future__ import annotations

import os
import platform
import sys
import textwrap

import click

from turnercalc.errors import DesignError, NotTurnedError, TurnercalcError

UNUSABLE = 2
NO = 1
WIDTH = 80


def say_why(error: BaseException) -> int:
    """Tell a person why there is no answer, and return the exit code.

    With TURNERCALC_DEBUG set, an error that nobody foresaw keeps its traceback.
    """
    if isinstance(error, click.ClickException):
        error.show()
        return UNUSABLE
    if isinstance(error, BrokenPipeError):
        _leave_the_pipe_alone()
        return UNUSABLE
    if isinstance(error, NotTurnedError):
        # An answer, not a fault: there is no turner to design.
        click.echo(answer(str(error)))
        return NO
    text = _foreseen(error)
    if text is None:
        if os.environ.get("TURNERCALC_DEBUG"):
            raise error
        text = apology(error)
    click.echo(text, err=True)
    return UNUSABLE


def answer(why: str) -> str:
    """Return the verdict where there is nothing to size, laid out like any other."""
    return textwrap.fill(why, WIDTH, initial_indent="NO".ljust(11), subsequent_indent=" " * 11)


def _foreseen(error: BaseException) -> str | None:
    """Return what to say about an error that can happen to anybody; None for one that must not."""
    if isinstance(error, KeyboardInterrupt | click.Abort):
        return "Stopped. Nothing was written."
    if isinstance(error, DesignError):
        # Only here: the complaint page needs the design floor, which --help must not load.
        from turnercalc.design.complaints import complaint_text

        return complaint_text(error).rstrip("\n")
    if isinstance(error, TurnercalcError):
        return wrapped(str(error))
    if isinstance(error, UnicodeEncodeError):
        return "This terminal cannot show some of the letters. Try --plain."
    if isinstance(error, OSError):
        return wrapped(os_error_text(error))
    if isinstance(error, ImportError) and not _is_ours(error):
        return wrapped(missing_package_text(error))
    if isinstance(error, RecursionError | MemoryError):
        return "This is too large to work on. Try a smaller file."
    return None


def os_error_text(error: OSError) -> str:
    """Return what the operating system refused, with the file's name."""
    what = error.strerror or str(error) or type(error).__name__
    where = f"{error.filename}: " if error.filename else ""
    return f"{where}{what}."


def missing_package_text(error: ImportError) -> str:
    """Return which package is missing and how to get it."""
    return (
        f"This command needs the package {error.name}, which is not installed here. "
        "Install turnercalc with pip, and it comes along."
    )


def _is_ours(error: ImportError) -> bool:
    return error.name is None or error.name.split(".")[0] == "turnercalc"


def apology(error: BaseException) -> str:
    """Return a short apology with what to report."""
    from turnercalc import __version__

    said = " ".join(str(error).split())[:200]
    lines = (
        "Sorry: this is a mistake in turnercalc, not in your file. Nothing was written.",
        "Please report it with your file and these lines:",
        f"  turnercalc {__version__}, Python {platform.python_version()}, {sys.platform}",
        f"  {type(error).__name__}: {said}",
        "For the whole story, set TURNERCALC_DEBUG=1 and run it again.",
    )
    return wrapped("\n".join(lines))


def wrapped(text: str) -> str:
    """Return text in lines of the terminal's width, line breaks of its own kept."""
    lines = []
    for line in text.splitlines() or [""]:
        indent = " " * (len(line) - len(line.lstrip()))
        lines += textwrap.wrap(
            line,
            WIDTH,
            subsequent_indent=indent,
            break_on_hyphens=False,
            break_long_words=False,
        ) or [""]
    return "\n".join(lines)


def _leave_the_pipe_alone() -> None:
    """Keep Python from complaining at exit that whoever read the output has gone."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
