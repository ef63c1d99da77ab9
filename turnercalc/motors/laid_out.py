"""The records of a table as it was found in a text: its rows, what its columns hold."""

from __future__ import annotations

import re
from dataclasses import dataclass

from turnercalc.motors.columns import Column

#: A line that only divides.
RULE = re.compile(r"[\s|:+=-]*-[\s|:+=-]*")
_EMPTY_CELLS = frozenset(
    {"", "-", "--", "---", "/", "?", "n/a", "na", "n.a.", "none", "null", "nan", "unknown", "tbd"}
    | {"not given", "not specified", "unspecified", "nil", "#n/a", "...", "…", "·", "."}
)


@dataclass(frozen=True, slots=True)
class Line:
    """One row of cells and the line of the file it begins in."""

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True)
class Layout:
    """A table as it was found.

    Attributes
    ----------
    columns : tuple of Column
        What each column holds; empty for a table without a head.
    lines : tuple of Line
        The rows, head excluded.
    words : str
        How the table was found, for people.
    above : Layout or None
        Motors that stand in front of it, listed in another way.
    unread : tuple of (int, str)
        Lines that no motor was made of, and their numbers.
    """

    columns: tuple[Column, ...]
    lines: tuple[Line, ...]
    words: str
    above: Layout | None = None
    unread: tuple[tuple[int, str], ...] = ()


def is_blank(cell: str) -> bool:
    """Whether a cell says nothing: empty, a dash, ``n/a``, a question mark."""
    return cell.strip().strip('"').lower() in _EMPTY_CELLS
