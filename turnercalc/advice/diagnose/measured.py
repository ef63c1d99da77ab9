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
    total : float or None
        From end to end, where only that was measured [rad or m].
    move_time : float or None
        One move from end to end [s].
    turns, hours : float or None
        What a counter showed after so many hours.
    current : float or None
        While it moves [A].
    read, passed_over : tuple of str
        Columns of a log that were read, and those that are none of a log's.
    """

    high: float | None = None
    low: float | None = None
    total: float | None = None
    move_time: float | None = None
    turns: float | None = None
    hours: float | None = None
    current: float | None = None
    read: tuple[str, ...] = ()
    passed_over: tuple[str, ...] = ()

    @property
    def any_end(self) -> bool:
        """Whether an end was measured, or how far apart they are."""
        return any(value is not None for value in (self.high, self.low, self.total))

    @property
    def from_end_to_end(self) -> float | None:
        """How far apart the ends are, measured or added up [rad or m]."""
        if self.total is not None or self.high is None or self.low is None:
            return self.total
        return self.high + self.low

    @property
    def anything(self) -> bool:
        """Whether there is anything to explain."""
        counted = self.turns is not None and self.hours is not None
        known = self.move_time is not None or self.current is not None
        return counted or known or self.any_end


_SIDE = re.compile(
    r"(?P<size>.+?) ?(?:to (?:the )?)?(?P<side>left|right|far|near|anticlockwise|clockwise)"
    r"(?: (?:side )?(?:down|end|of the middle))?",
    re.I,
)
#: What a tray's sides are called, high end first; a turner may have other words.
TRAY = ("left", "right")
_ALWAYS = ("far", "near")
_STROKE = "52 mm in all"
_IN_ALL = re.compile(
    r"(?P<size>.+?) ?(?:in all|from end to end|end to end|in total|altogether)", re.I
)


def read_ends(
    text: str, kind: str = "angle", sides: tuple[str, str] = TRAY
) -> tuple[float | None, float | None, float | None]:
    """Read ``50 deg left, 40 deg right``; either may be missing. Or ``52 mm in all``.

    Parameters
    ----------
    text : str
    kind : str
        ``angle``, or ``length`` for a part that slides.
    sides : tuple of str
        What the turner calls its high and its low side; ``far`` and ``near`` always do.

    Returns
    -------
    (high, low, total) : float or None
        Both ends counted positive, and from end to end [rad or m].

    Raises
    ------
    UnitError
        It is no such pair, with what would be.
    """
    choices = (f"50 deg {sides[0]}, 40 deg {sides[1]}" if kind == "angle" else _STROKE,)
    whole = _IN_ALL.fullmatch(text.strip())
    if whole is not None:
        return None, None, abs(parse(whole["size"], kind))
    found: dict[bool, float] = {}
    for part in re.split(r"[,;]| and ", text):
        match = _SIDE.fullmatch(part.strip())
        if match is None or match["side"].lower() not in (*sides, *_ALWAYS):
            message = f'"{part.strip()}" does not say how far to which side. Write {choices[0]}.'
            raise UnitError(message, text=text, choices=choices)
        high = match["side"].lower() in (sides[0], _ALWAYS[0])
        if high in found:
            message = f'"{text}" gives the same side twice.'
            raise UnitError(message, text=text, choices=choices)
        if kind in _BARE and _NUMBER.fullmatch(match["size"].strip()):
            raise _without_unit(text, kind)
        found[high] = parse(match["size"], kind)
    return found.get(True), found.get(False), None


_NUMBER = re.compile(r"-?[\d.]+")


def _without_unit(text: str, kind: str) -> UnitError:
    """Return what to ask where ends have sides and no unit: the whole of it, sides and all."""
    units = ("deg",) if kind == "angle" else ("mm", "in")
    bare = re.compile(r"(?<![\w.])([\d.]+)(?= ?(?:to|left|right|far|near|anti|clock))", re.I)
    choices = tuple(bare.sub(rf"\1 {unit}", text.strip()) for unit in units)
    message = f'"{text.strip()}": in what unit? Write {" or ".join(choices)}.'
    return UnitError(message, text=text, choices=choices)


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
    "seconds": ("move_time", "time"),
    "time": ("move_time", "time"),
    "count": ("turns", "count"),
    "turns": ("turns", "count"),
    "hours": ("hours", "time"),
    "current": ("current", "current"),
}
#: Columns of a log that hold no figures.
_NOT_FIGURES = ("", "remarks")
_BARE = {"angle": " deg", "length": " mm", "time": " s", "current": " A", "count": ""}


def _columns(kind: str, sides: tuple[str, str]) -> dict[str, tuple[str, str]]:
    """Return the heads that a log may have: what each is, and of which kind."""
    ends = {
        name: (which, kind)
        for pair in (sides, _ALWAYS)
        for name, which in zip(pair, ("high", "low"), strict=True)
    }
    return {
        **ends,
        "in_all": ("total", kind),
        **_COLUMNS,
    }


def read_log(text: str, kind: str = "angle", sides: tuple[str, str] = TRAY) -> Measured:
    """Read the run log: a CSV with any of left, right, in_all, seconds, hours, count, current.

    Readings of the same thing are averaged; of counts and hours, which go up, the last counts.
    A bare number is in degrees, millimetres, seconds, amperes, or hours, as the sheet says. Of a
    table with more columns of other things than of these it is doubted that it is a log.

    Raises
    ------
    UnitError
        No column is known, or most are not, or a cell cannot be read, with its line.
    """
    rows = list(csv.reader(io.StringIO(text.strip())))
    heads = [head.strip().lower().split(" ")[0] for head in rows[0]] if rows else []
    heard = _columns(kind, sides)
    known = [head for head in heads if head in heard]
    others = tuple(
        name.strip()
        for name, head in zip(rows[0] if rows else [], heads, strict=True)
        if head not in heard and head not in _NOT_FIGURES
    )
    if not known or len(others) > len(known):
        had = f"only {_listed(known)}" if known else "none"
        message = (
            f"This is hardly a run log: of its {len(heads)} columns {had} can be meant. A log has "
            f"columns headed {_listed(tuple(heard))}; turnercalc trial --run-log gives one to fill "
            "in."
        )
        raise UnitError(message, text=text[:60], choices=tuple(heard))
    columns: dict[str, list[float]] = {}
    for number, row in enumerate(rows[1:], 2):
        for head, cell in zip(heads, row, strict=False):
            if head in heard and cell.strip():
                what, quantity = heard[head]
                found = _cell(head, quantity, cell.strip(), number)
                columns.setdefault(what, []).append(found)
    return Measured(
        high=_mean(columns.get("high")),
        low=_mean(columns.get("low")),
        total=_mean(columns.get("total")),
        move_time=_mean(columns.get("move_time")),
        turns=columns["turns"][-1] if "turns" in columns else None,
        hours=columns["hours"][-1] / 3600.0 if "hours" in columns else None,
        current=_mean(columns.get("current")),
        read=tuple(head for head in known if heard[head][0] in columns),
        passed_over=others,
    )


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _cell(head: str, kind: str, cell: str, line: int) -> float:
    unit = " h" if head == "hours" else _BARE[kind]
    bare = re.fullmatch(r"-?[\d.]+", cell) is not None
    try:
        return abs(parse(cell + unit if bare else cell, kind))
    except UnitError as error:
        message = f"Line {line} of the log, {head}: {error}"
        raise UnitError(message, text=cell, choices=error.choices) from None


def _mean(values: Sequence[float] | None) -> float | None:
    return fmean(values) if values else None
