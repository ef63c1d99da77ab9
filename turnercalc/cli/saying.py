"""Printing: to the terminal, or whole into a file."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

import click

from turnercalc.handover.letters import ascii_only
from turnercalc.handover.writing import write_whole

if TYPE_CHECKING:
    from turnercalc.handover.display import Style

_COLOURS = {
    "fine": "green",
    "marginal": "yellow",
    "no": "red",
    "unknown": "magenta",
    "note": None,
}


def style_of(system: str, *, plain: bool = False, colour: bool = False) -> Style:
    """Return how a page is to look."""
    from turnercalc.handover.display import Style, unpainted

    return Style(system, plain or not _can_show("·°×"), paint if colour else unpainted)


def paint(text: str, answer: str) -> str:
    """Return text in the colour of an answer; the word itself always says the same."""
    return click.style(text, fg=_COLOURS.get(answer), bold=answer in ("no", "marginal"))


def colours(out: str | None) -> bool:
    """Whether to colour: only on a terminal, and not where somebody asked for none."""
    return out is None and sys.stdout.isatty() and not os.environ.get("NO_COLOR")


def say(text: str, *, plain: bool = False) -> None:
    """Print a text in letters that the terminal can show; colour only on a terminal."""
    if plain or not _can_show(text):
        text = ascii_only(text)
    click.echo(text.rstrip("\n"), color=False if plain else None)


def hand_over(text: str, out: str | None, *, replace: bool = False, plain: bool = False) -> None:
    """Print a text, or write it to a file and say so on standard error."""
    if out is None or out == "-":
        say(text, plain=plain)
        return
    text = ascii_only(text) if plain else text
    write_whole(out, text.rstrip("\n") + "\n", replace=replace)
    click.echo(f"Written: {out}", err=True)


def _can_show(text: str) -> bool:
    encoding = getattr(sys.stdout, "encoding", None) or "utf-8"
    try:
        text.encode(encoding)
    except (UnicodeEncodeError, LookupError):
        return False
    return True
