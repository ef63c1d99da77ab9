"""Printing: to the terminal, or whole into a file."""

from __future__ import annotations

import os
import sys

import click

from turnercalc.handover.letters import ascii_only
from turnercalc.handover.writing import write_whole


def say(text: str, *, plain: bool = False) -> None:
    """Print a text; colour only on a terminal, and only letters that it can show."""
    if plain or not _can_show(text):
        text = ascii_only(text)
    colour = False if plain or os.environ.get("NO_COLOR") else None
    click.echo(text.rstrip("\n"), color=colour)


def hand_over(text: str, out: str | None, *, replace: bool = False, plain: bool = False) -> None:
    """Print a text, or write it to a file and say so on standard error."""
    if out is None or out == "-":
        say(text, plain=plain)
        return
    text = click.unstyle(ascii_only(text) if plain else text)
    write_whole(out, text.rstrip("\n") + "\n", replace=replace)
    click.echo(f"Written: {out}", err=True)


def _can_show(text: str) -> bool:
    encoding = getattr(sys.stdout, "encoding", None) or "utf-8"
    try:
        text.encode(encoding)
    except (UnicodeEncodeError, LookupError):
        return False
    return True
