"""Listings in words: a title, properties under it, one motor below the other, as pages paste."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from turnercalc.motors.cells import scan, tidy
from turnercalc.motors.columns import Column, read_head
from turnercalc.motors.laid_out import RULE, Layout, Line

_PROPERTY = re.compile(r"^\W{0,4}([^:=\t|;]{1,50}?)\s*(?:[:=\t|;]|\s{2,})\s*(.*\S)\s*$")
_SIDE_BY_SIDE = re.compile(r"\t|\s{2,}")
_NAMES_A_MOTOR = re.compile(r"motor|actuator|servo|stepper|gearbox", re.I)
#: Kinds of figures, and topics of properties, without which nothing can be a motor.
STRENGTHS = frozenset({"torque", "force"})
_FIGURES = frozenset({"torque", "rotation", "voltage", "power", "force", "speed"})
TITLE, TEXT = Column("title", "title"), Column("text", "notes")


@dataclass
class _Block:
    """One motor as far as it was read.

    `known` tells whether it has a property that is understood, `strong` whether it says a torque
    or a force.
    """

    start: int
    columns: list[Column] = field(default_factory=list)
    values: list[str] = field(default_factory=list)
    lines: list[tuple[int, str]] = field(default_factory=list)
    heads: set[str] = field(default_factory=set)
    known: bool = False
    strong: bool = False

    def add(self, number: int, column: Column, value: str, line: str) -> None:
        """Take a property."""
        self._add(number, column, value, line)
        self.heads.add(column.head)
        self.known |= bool(column.topic)
        self.strong |= column.topic in STRENGTHS

    def add_text(self, number: int, line: str) -> None:
        """Take a line that is no property for the title, or for a note."""
        column = TEXT if self.columns else TITLE
        self._add(number, column, line.strip(" #*-=|:"), line)
        self.strong |= bool(kinds_in(line) & STRENGTHS)

    def _add(self, number: int, column: Column, value: str, line: str) -> None:
        self.columns.append(column)
        self.values.append(value)
        if not self.lines or self.lines[-1][0] != number:
            self.lines.append((number, line))


def listed(
    lines: Iterable[tuple[int, str]], *, beside_a_table: bool = False
) -> tuple[Layout | None, tuple[tuple[int, str], ...]]:
    """Read motors listed one below the other; a title or a repeated property begins the next.

    Parameters
    ----------
    lines : iterable of (int, str)
        With their numbers.
    beside_a_table : bool
        Whether a table holds the motors in any case, so that only what gives a torque or a force
        is one.

    Returns
    -------
    (Layout or None, tuple of (int, str))
        The motors, and the lines that none was made of.
    """
    found: list[_Block] = []
    unread: list[tuple[int, str]] = []
    for block in _blocks(lines):
        does = block.strong if beside_a_table else block.known or block.strong
        if does:
            found.append(block)
        else:
            unread += block.lines
    return (_merged(found) if found else None), tuple(unread)


def _blocks(lines: Iterable[tuple[int, str]]) -> list[_Block]:
    """Return the motors of some lines, those included that turn out to be none."""
    stack = _Stack()
    gap = True
    for number, line in lines:
        if not line.strip() or RULE.fullmatch(line):
            gap = True
            continue
        pairs = properties_in(line)
        if pairs:
            stack.add_properties(number, pairs, line)
        else:
            stack.add_text(number, line, gap)
        gap = False
    return stack.ended()


class _Stack:
    """Motors below one another; lines that are no property wait until it shows whose they are."""

    def __init__(self) -> None:
        self.blocks: list[_Block] = []
        self.waiting: list[tuple[int, str, bool]] = []
        self.strong_waits = False  # whether any of them says a torque or a force

    def add_properties(self, number: int, pairs: list[tuple[Column, str]], line: str) -> None:
        """Take the properties of a line; one that was there before is the next motor's."""
        heads = {column.head for column, _ in pairs if column.topic != "notes"}
        if self.blocks and heads & self.blocks[-1].heads:
            self._settle(_where_the_next_begins(self.waiting))
            self._begin(self.waiting[0][0] if self.waiting else number)
        self._settle(len(self.waiting))
        if not self.blocks:
            self._begin(number)
        for column, value in pairs:
            self.blocks[-1].add(number, column, value, line)

    def add_text(self, number: int, line: str, gap: bool) -> None:
        """Take a line that is no property: the next motor's title, or not yet known what."""
        if self.blocks and gap and self._ended() and _like_a_title(line):
            self._settle(len(self.waiting))
            self._begin(number)
            self.blocks[-1].add_text(number, line)
            return
        if not self.blocks:
            self._begin(number)
        self.waiting.append((number, line, gap))
        self.strong_waits |= bool(kinds_in(line) & STRENGTHS)

    def ended(self) -> list[_Block]:
        """Return the motors, now that no more lines come."""
        self._settle(len(self.waiting))
        return self.blocks

    def _begin(self, number: int) -> None:
        self.blocks.append(_Block(number))

    def _ended(self) -> bool:
        """Whether another motor may follow: this one says its torque, or is none."""
        last = self.blocks[-1]
        return last.strong or self.strong_waits or not last.known

    def _settle(self, count: int) -> None:
        """Give the first of the waiting lines to the last motor."""
        for number, text, _ in self.waiting[:count]:
            self.blocks[-1].add_text(number, text)
        del self.waiting[:count]
        self.strong_waits = any(kinds_in(text) & STRENGTHS for _, text, _ in self.waiting)


def _like_a_title(line: str) -> bool:
    """Tell whether a line by itself could head a motor: a figure of one, or its name."""
    return bool(kinds_in(line) & _FIGURES or _NAMES_A_MOTOR.search(line))


def _where_the_next_begins(waiting: list[tuple[int, str, bool]]) -> int:
    """Return which of the lines between two motors is the title of the second."""
    after_gaps = [at for at, (_, _, gap) in enumerate(waiting) if gap]
    return after_gaps[-1] if after_gaps else max(len(waiting) - 1, 0)


def properties_in(line: str) -> list[tuple[Column, str]]:
    """Return the properties of a line: one, several side by side, or none."""
    parts = [part for part in _SIDE_BY_SIDE.split(line.strip()) if part]
    if len(parts) > 1:
        several = [property_in(part) for part in parts]
        if all(":" in part for part in parts) and all(p and p[0].topic for p in several):
            return [pair for pair in several if pair]
    pair = property_in(line)
    if pair is None or (not pair[0].topic and any(c.isdigit() for c in pair[0].head)):
        return []  # a figure in front is no name of a property
    return [pair]


def property_in(line: str) -> tuple[Column, str] | None:
    """Return what a line ``property: value`` is about, and its value."""
    match = _PROPERTY.match(line.strip().strip("|").strip("*"))
    if match is None or RULE.fullmatch(line):
        return None
    column = read_head(match[1].strip("*` "))
    return column, match[2].strip("*`; ")


def kinds_in(text: str) -> frozenset[str]:
    """Return the kinds of the figures in a text."""
    return frozenset(figure.kind for figure in scan(tidy(text)) if figure.values)


def _merged(motors: list[_Block]) -> Layout:
    """Bring several property lists under one head."""
    columns: list[Column] = []
    place: dict[str, int] = {}
    for motor in motors:
        for column in motor.columns:
            if column.head not in place:
                place[column.head] = len(columns)
                columns.append(column)
    lines = []
    for motor in motors:
        cells = [""] * len(columns)
        for column, value in zip(motor.columns, motor.values, strict=True):
            spot = place[column.head]
            cells[spot] = f"{cells[spot]}; {value}" if cells[spot] else value
        lines.append(Line(motor.start, tuple(cells)))
    many = f"{len(lines)} lists of properties" if len(lines) > 1 else "a list of properties"
    return Layout(tuple(columns), tuple(lines), many)
