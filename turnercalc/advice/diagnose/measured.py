"""What a builder measures on the finished turner, and how well tools at home measure it."""

from __future__ import annotations

import csv
import io
import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from turnercalc.errors import UnitError
from turnercalc.units import parse

#: How far a reading may be off: a phone's angle, a rule, a stopwatch held by hand, a cheap meter
#: (common practice, no source).
ANGLE = math.radians(1.0)
LENGTH = 1e-3  # m
TIME = 0.3  # s
CURRENT = 0.05  # of the reading


@dataclass(frozen=True)
class Measured:
    """What was measured; None for what was not.

    Attributes
    ----------
    high, low : float or None
        How far it goes to the high and to the low side of the middle, both counted positive; of a
        tray, left side down and right side down [rad or m].
    move_time : float or None
        One move from end to end [s].
    turns, hours : float or None
        What a counter showed after so many hours.
    current : float or None
        While it moves [A].
    """

    high: float | None = None
    low: float | None = None
    move_time: float | None = None
    turns: float | None = None
    hours: float | None = None
    current: float | None = None

    @property
    def anything(self) -> bool:
        """Whether there is anything to explain."""
        counted = self.turns is not None and self.hours is not None
        return counted or any(
            value is not None for value in (self.high, self.low, self.move_time, self.current)
        )


_SIDE = re.compile(
    r"(?P<size>.+?) ?(?:to (?:the )?)?(?P<side>left|right|far|near)(?: (?:side )?(?:down|end))?",
    re.I,
)
_HIGH = {"left": True, "right": False, "far": True, "near": False}
_PAIR = ("50 deg left, 40 deg right",)


def read_ends(text: str, kind: str = "angle") -> tuple[float | None, float | None]:
    """Read ``50 deg left, 40 deg right``; either may be missing.

    Parameters
    ----------
    text : str
    kind : str
        ``angle``, or ``length`` for a part that slides; its ends are ``far`` and ``near``.

    Returns
    -------
    (high, low) : float or None
        Both counted positive [rad or m].

    Raises
    ------
    UnitError
        It is no such pair, with what would be.
    """
    found: dict[bool, float] = {}
    for part in re.split(r"[,;]| and ", text):
        match = _SIDE.fullmatch(part.strip())
        if match is None:
            message = f'"{part.strip()}" does not say how far to which side. Write {_PAIR[0]}.'
            raise UnitError(message, text=text, choices=_PAIR)
        high = _HIGH[match["side"].lower()]
        if high in found:
            message = f'"{text}" gives the same side twice.'
            raise UnitError(message, text=text, choices=_PAIR)
        found[high] = parse(match["size"], kind)
    return found.get(True), found.get(False)


_COUNT = re.compile(r"(?P<turns>[\d.]+)(?: turns?| moves?)? (?:in|after|within) (?P<time>.+)", re.I)


def read_count(text: str) -> tuple[float, float]:
    """Read ``21 in 24 h``: turns, and hours.

    Raises
    ------
    UnitError
        It is not a number of turns and a time.
    """
    match = _COUNT.fullmatch(text.strip())
    if match is None:
        message = f'"{text}" does not say how many turns in what time. Write 21 in 24 h.'
        raise UnitError(message, text=text, choices=("21 in 24 h",))
    return parse(match["turns"], "count"), parse(match["time"], "time") / 3600.0


_COLUMNS = {
    "left": ("high", "angle"),
    "right": ("low", "angle"),
    "far": ("high", "length"),
    "near": ("low", "length"),
    "seconds": ("move_time", "time"),
    "time": ("move_time", "time"),
    "count": ("turns", "count"),
    "turns": ("turns", "count"),
    "hours": ("hours", "time"),
    "current": ("current", "current"),
}
_BARE = {"angle": " deg", "length": " mm", "time": " s", "current": " A", "count": ""}


def read_log(text: str) -> Measured:
    """Read the run log: a CSV with any of left, right, seconds, hours, count, current.

    Readings of the same thing are averaged; of counts and hours, which go up, the last counts.
    A bare number is in degrees, millimetres, seconds, amperes, or hours, as the sheet says.

    Raises
    ------
    UnitError
        No column is known, or a cell cannot be read, with its line.
    """
    rows = list(csv.reader(io.StringIO(text.strip())))
    heads = [head.strip().lower().split(" ")[0] for head in rows[0]] if rows else []
    known = [head for head in heads if head in _COLUMNS]
    if not known:
        message = "The log has no column that is known. Known: " + ", ".join(_COLUMNS) + "."
        raise UnitError(message, text=text[:60], choices=tuple(_COLUMNS))
    columns: dict[str, list[float]] = {}
    for number, row in enumerate(rows[1:], 2):
        for head, cell in zip(heads, row, strict=False):
            if head in _COLUMNS and cell.strip():
                columns.setdefault(_COLUMNS[head][0], []).append(_cell(head, cell.strip(), number))
    return Measured(
        high=_mean(columns.get("high")),
        low=_mean(columns.get("low")),
        move_time=_mean(columns.get("move_time")),
        turns=columns["turns"][-1] if "turns" in columns else None,
        hours=columns["hours"][-1] / 3600.0 if "hours" in columns else None,
        current=_mean(columns.get("current")),
    )


def _cell(head: str, cell: str, line: int) -> float:
    _, kind = _COLUMNS[head]
    unit = " h" if head == "hours" else _BARE[kind]
    bare = re.fullmatch(r"-?[\d.]+", cell) is not None
    try:
        return abs(parse(cell + unit if bare else cell, kind))
    except UnitError as error:
        message = f"Line {line} of the log, {head}: {error}"
        raise UnitError(message, text=cell, choices=error.choices) from None


def _mean(values: Sequence[float] | None) -> float | None:
    return fmean(values) if values else None
