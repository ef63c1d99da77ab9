"""What stands right of an equals sign, as builders type it.

The standard reader (`tomllib`) is asked first. What it cannot read is looked at once more: nearly
always the meaning is plain and only the quote marks are wrong.
"""

from __future__ import annotations

import math
import re
import tomllib
from dataclasses import dataclass
from enum import Enum

CURLY = str.maketrans({
    "\u201c": '"', "\u201d": '"', "\u201e": '"', "\u201f": '"', "\u00ab": '"', "\u00bb": '"',
    "\u2018": "'", "\u2019": "'", "\u201a": "'", "\u201b": "'", "\u2039": "'", "\u203a": "'",
})  # fmt: skip

_TWO_ON_A_LINE = re.compile(r"""^(["'])[^"']*\1\s+[A-Za-z][\w \-]*=""")
_COMMENT_AFTER_SPACE = re.compile(r"(?:^|\s)#")
_FEET_AND_INCHES = re.compile(r"""^\s*[\d./ \-]+'\s*[\d./ \-]+("|'')\s*$""")
_ENDS_IN_INCH_MARK = re.compile(r"""\d\s*("|'')\s*$""")
_DOUBTFUL_FOOT = re.compile(r"""^'[\d./ \-]+''$""")
_COMMA_NUMBER = re.compile(r"^[-+]?\d+,\d+$")
_LARGEST_NUMBER = 10**15


class Repair(Enum):
    """What had to be overlooked to understand a value."""

    CURLY_QUOTES = "curly quotes"
    UNQUOTED = "no quote marks"
    INCH_MARK = "an inch mark between double quotes"
    FEET_AND_INCHES = "feet and inches between quote marks"
    STRAY_QUOTE = "a quote mark without its partner"
    DECIMAL_COMMA = "a comma as decimal mark"


@dataclass(frozen=True)
class Reading:
    """One value as the standard reader gives it (str, int, float, bool, list or dict)."""

    value: object
    repairs: tuple[Repair, ...] = ()


class ValueProblem(ValueError):  # noqa: N818 - it is turned into a complaint, never shown as an error
    """A value that cannot be understood; says what is wrong and what would be accepted."""

    def __init__(self, message: str, *accepted: str) -> None:
        super().__init__(message)
        self.message = message
        self.accepted = accepted


def read_value(text: str) -> Reading:
    """Read one value, with or without a comment behind it.

    Parameters
    ----------
    text : str
        What stands right of the equals sign; several lines for a list.

    Returns
    -------
    Reading
        The value and what was overlooked.

    Raises
    ------
    ValueProblem
        Where no meaning is certain.
    """
    found, value = _standard(text)
    if found:
        return Reading(value)
    straight = text.translate(CURLY)
    if straight != text:
        found, value = _standard(straight)
        if found:
            return Reading(value, (Repair.CURLY_QUOTES,))
        inner = _repair(straight)
        return Reading(inner.value, (Repair.CURLY_QUOTES, *inner.repairs))
    return _repair(text)


def comment_column(text: str) -> int:
    """Return where the comment begins in `text`, or its length where there is none.

    A number sign inside well-formed quote marks opens no comment; where the quote marks do not
    pair, one after a space does.
    """
    at = _scan_comment(text)
    if at is not None:
        return at
    found = _COMMENT_AFTER_SPACE.search(text)
    return len(text) if found is None else text.index("#", found.start())


def open_brackets(text: str) -> int:
    """Return how many square or curly brackets outside quote marks are still open."""
    depth = 0
    for kind, mark, _ in _marks(text):
        if kind == "plain":
            depth += (mark in "[{") - (mark in "]}")
    return depth


def _standard(text: str) -> tuple[bool, object]:
    """Ask tomllib. Dates and endless numbers are no values of ours: their text is taken."""
    try:
        value: object = tomllib.loads("v = " + text.lstrip()).get("v")
    except (ValueError, RecursionError):  # TOMLDecodeError is a ValueError
        return False, None
    if isinstance(value, float) and not math.isfinite(value):
        return False, None
    if isinstance(value, int | float) and abs(value) > _LARGEST_NUMBER:
        raise ValueProblem("This number is too large to mean anything here.")
    if not isinstance(value, str | int | float | list | dict):
        return False, None
    return True, value


def _repair(text: str) -> Reading:
    bare = text[: comment_column(text)].strip()
    if not bare:
        raise ValueProblem("Nothing stands after the equals sign. Give a value or delete the line.")
    if _TWO_ON_A_LINE.match(bare):
        raise ValueProblem("Two settings stand on one line. Give each a line of its own.")
    if bare[0] in "[{":
        raise ValueProblem(
            "This list cannot be read. Numbers stand between square brackets, with commas.",
            "[6, 6, 0]",
        )
    if _DOUBTFUL_FOOT.match(bare):
        size = bare.strip("'")
        raise ValueProblem("Is that feet or inches?", f"{size} in", f"{size} ft")
    return _strip_quotes(bare)


def _strip_quotes(bare: str) -> Reading:
    """Take the quote marks off that enclose the value and keep those that mean inches or feet."""
    first, last = bare[0], bare[-1]
    if first in "\"'" and last == first and len(bare) > 1:
        inner = bare[1:-1].strip()
        if not inner:
            raise ValueProblem("Nothing stands between the quote marks.")
        return Reading(inner, (_mark_repair(inner),))
    if first in "\"'":
        return Reading(_not_empty(bare[1:]), (Repair.STRAY_QUOTE,))
    if (
        last in "\"'"
        and not _ENDS_IN_INCH_MARK.search(bare)
        and not bare[:-1].endswith(tuple("0123456789"))
    ):
        return Reading(_not_empty(bare[:-1]), (Repair.STRAY_QUOTE,))
    if _COMMA_NUMBER.match(bare):
        return Reading(bare, (Repair.DECIMAL_COMMA,))
    return Reading(bare, (Repair.UNQUOTED,))


def _mark_repair(inner: str) -> Repair:
    if _FEET_AND_INCHES.match(inner):
        return Repair.FEET_AND_INCHES
    if _ENDS_IN_INCH_MARK.search(inner):
        return Repair.INCH_MARK
    return Repair.STRAY_QUOTE


def _not_empty(text: str) -> str:
    text = text.strip()
    if not text:
        raise ValueProblem("A single quote mark stands here and nothing else.")
    return text


def _scan_comment(text: str) -> int | None:
    """Position of the comment by the rules of TOML; None where a quote mark stays open."""
    for kind, mark, at in _marks(text):
        if kind == "open":
            return None
        if kind == "plain" and mark == "#":
            return at
    return len(text)


def _marks(text: str) -> list[tuple[str, str, int]]:
    """List what stands outside quote marks, as (kind, mark, position).

    The kind is ``plain``, or ``open`` for a quote mark that is never closed. What a comment holds
    is skipped.
    """
    marks: list[tuple[str, str, int]] = []
    at = 0
    while at < len(text):
        mark = text[at]
        if mark in "\"'":
            end = _string_end(text, at)
            if end is None:
                marks.append(("open", mark, at))
                end = _line_end(text, at)
            at = end
            continue
        marks.append(("plain", mark, at))
        at = _line_end(text, at) if mark == "#" else at + 1
    return marks


def _line_end(text: str, at: int) -> int:
    end = text.find("\n", at)
    return len(text) if end < 0 else end


def _string_end(text: str, at: int) -> int | None:
    """Position after the string that begins at `at`; None where it is not closed."""
    quote = text[at]
    triple = text.startswith(quote * 3, at)
    closing = quote * 3 if triple else quote
    at += len(closing)
    while at < len(text):
        if text[at] == "\\" and quote == '"':
            at += 2
        elif text.startswith(closing, at):
            return at + len(closing)
        elif text[at] == "\n" and not triple:
            return None
        else:
            at += 1
    return None
