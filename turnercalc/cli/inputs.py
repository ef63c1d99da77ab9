"""What a command reads: a design with its settings, and a motor file."""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from turnercalc.design import Design
    from turnercalc.motors import MotorFile

_PAIRS = {'"': '"', "'": "'", "“": "”", "‘": "’", "„": "“"}


def settings_of(texts: Sequence[str], safety_factor: str | None = None) -> Mapping[str, str]:
    """Return settings as field path -> text; the last one of a field counts.

    Parameters
    ----------
    texts : sequence of str
        As given: ``link.length="205 mm"``, with or without the quote marks.
    safety_factor : str, optional
        The same as ``motor.safety_factor=...``.

    Raises
    ------
    click.UsageError
        A text has no equals sign.
    """
    settings = {}
    for text in texts:
        field, equals, value = text.partition("=")
        if not equals or not field.strip():
            raise click.UsageError(
                f"--set {text!r} does not say which field gets which value. "
                'Write it like   --set link.length="205 mm"'
            )
        settings[field.strip()] = unquoted(value.strip())
    if safety_factor is not None:
        settings["motor.safety_factor"] = safety_factor
    return settings


def unquoted(text: str) -> str:
    """Return text without one pair of quote marks round it; some shells leave them on."""
    if len(text) >= 2 and _PAIRS.get(text[0]) == text[-1]:
        return text[1:-1].strip()
    return text


def read_one_design(
    path: str, settings: Sequence[str] = (), safety_factor: str | None = None
) -> Design:
    """Read a design file with its settings; raises DesignError with every complaint."""
    from pathlib import Path

    from turnercalc.design import read_design

    return read_design(
        Path(path), settings_of(settings, safety_factor), consequence=_what_would_follow
    )


def _what_would_follow(path: str, text: str, values: Mapping[str, Mapping[str, Any]]) -> str:
    # Asked only where a number without a unit could be several lengths.
    from turnercalc.advice.consequence import consequence

    return consequence(path, text, values)


def read_motor_file(path: str | None) -> MotorFile | None:
    """Read a motor file, or the table on standard input where the path is ``-``."""
    if path is None:
        return None
    from pathlib import Path

    from turnercalc.motors import read_motors

    return read_motors(sys.stdin.buffer.read() if path == "-" else Path(path))
