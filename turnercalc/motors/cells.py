"""Figures inside a text: every number that has a unit, with what it could be.

A cell of a listing may hold one figure or a dozen (``220-240V 50/60Hz 2.5/3 rpm 3W 4 kgf.cm``).
`scan` finds them all; which is which is decided by `labels` and `columns`.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, replace
from functools import lru_cache

from turnercalc.errors import UnitError
from turnercalc.motors.decoding import MONTHS
from turnercalc.units.lookup import to_si
from turnercalc.units.numbers import read_number
from turnercalc.units.spellings import SPELLINGS, Unit, key

LONGEST_CELL = 1500  # characters looked at; a row of a shop page is a few hundred

# Where one spelling could be of several kinds, the first of these counts.
_KINDS = (
    "torque",
    "rotation",
    "speed",
    "power",
    "voltage",
    "current",
    "frequency",
    "temperature",
    "force",
    "length",
    "mass",
    "time",
    "angle",
)
_LONGEST_UNIT = 18
_UNITS: dict[str, tuple[str, Unit]] = {}
for _kind in _KINDS:
    for _spelling, _unit in SPELLINGS[_kind].items():
        _UNITS.setdefault(_spelling, (_kind, _unit))

_NUMBER = re.compile(
    r"(?:(?<![a-z0-9_.,'])|(?<=dc)|(?<=ac)|(?<=\.\.)|(?<=\dv)|(?<=\d x)|(?<=\dx))"
    r"(?:\d(?:[\d']|[.,](?=\d))*|(?<!\.)[.,]\d+)"
)
_GROUPED = re.compile(r"\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?![\d.,])")
_BETWEEN = re.compile(r"\s*(-|~|to|\.{2,3}|/|or|and|&|±|\+/-|\+-|,)\s*")
_BEFORE = re.compile(
    r"(≥|>=?|≤|<=?|~|\b(?:min(?:imum)?|at least|from|over|max(?:imum)?|at most|up to|under|approx"
    r"|approximately|about|circa|ca)\b\.?)\s*[:=]?\s*$"
)
_LOW_SIDE = re.compile(r"≥|>|min|at least|from|over")
_HIGH_SIDE = re.compile(r"≤|<|max|at most|up to|under")
_TOLERANCE = re.compile(r"\s*\(?\s*(?:±|\+/-|\+-)\s*(\d+(?:[.,]\d+)?)\s*%")
_TIME_PER_TURN = re.compile(
    r"(?<![\d.,/])(?P<turns>\d+(?:[.,]\d+)?)\s*(?:turns?|rev(?:s|olutions?)?)\.?\s*(?:in|per|every)"
    r"\s*(?P<time>\d+(?:[.,]\d+)?)?\s*(?P<unit>s|secs?|seconds?|min|minutes?|h|hrs?|hours?)\b"
)
_SECONDS_PER_TURN = re.compile(
    r"(?<![\d.,/])(?P<time>\d+(?:[.,]\d+)?)\s*(?P<unit>s|secs?|seconds?|min|minutes?|h|hrs?|hours?)"
    r"\s*(?:/|per|for one|a)\s*(?P<turns>)(?:turn|rev(?:olution)?)\b"
)
_AMOUNT_OF_TIME = {"s": 1.0, "m": 60.0, "h": 3600.0}
_DATE = re.compile(
    r"(?:(\d{1,2})[-. /]?(" + "|".join(m.lower() for m in MONTHS) + r")[a-z]*\.?"
    r"|(" + "|".join(m.lower() for m in MONTHS) + r")[a-z]*\.?[-. /]?(\d{1,2}))"
)


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure: one number, several alternatives, or a range, with its unit.

    Attributes
    ----------
    kind : str
        Kind of quantity, as in `units`; empty where no unit stands with it.
    values : tuple of float
        SI, in the order written; a range has two.
    form : str
        ``one``, ``range``, ``several`` (alternatives), ``at least``, ``at most``, ``about``.
    text : str
        As written, tidied.
    start, end : int
        Place in the text.
    unit : str
        Symbol of the unit, empty where there is none.
    tolerance : float
        Half-width of a stated tolerance [ratio].
    doubt : str
        What is odd about it, for people; a figure without values cannot be used.
    bare : tuple of float
        The numbers without their unit.
    """

    kind: str
    values: tuple[float, ...]
    form: str
    text: str
    start: int
    end: int
    unit: str = ""
    tolerance: float = 0.0
    doubt: str = ""
    bare: tuple[float, ...] = ()

    @property
    def low(self) -> float:
        """The least it says: the low end of a range, less its tolerance."""
        return min(self.values) * (1.0 - self.tolerance)


def tidy(text: str, *, keep_case: bool = False) -> str:
    """Return the text in lower case, with single spaces and no decoration."""
    text = text[:LONGEST_CELL] if keep_case else text[:LONGEST_CELL].lower()
    return " ".join(text.replace("*", " ").split()) if "**" in text else " ".join(text.split())


@lru_cache(maxsize=65536)
def find_unit(tail: str) -> tuple[str, Unit, int] | None:
    """Return kind, unit and length of the longest unit that a text begins with."""
    lead = len(tail) - len(tail.lstrip(" -"))
    if lead > 2:
        return None
    for length in range(min(len(tail), _LONGEST_UNIT), lead, -1):
        if not _ends_there(tail, length):
            continue
        found = _UNITS.get(key(tail[lead:length]))
        if found is not None:
            return *found, length
    return None


def _ends_there(tail: str, length: int) -> bool:
    last = tail[length - 1]
    if last in " -·.,(":
        return False
    following = tail[length : length + 1]
    if last.isalpha():
        return not (following.isalpha() or following == "°")
    return not (last.isdigit() and following.isdigit())


@lru_cache(maxsize=65536)
def number(token: str, comma_file: bool = False) -> float | str:
    """Return the value of a number, or why it cannot be read."""
    token = token.replace("'", "")
    if comma_file and re.fullmatch(r"[1-9]\d{0,2}\.\d{3}", token):
        thousand = token.replace(".", "")
        return (
            f"{token} stands in a file with decimal commas: is it {thousand}, or "
            f"{token.replace('.', ',').rstrip('0').rstrip(',')}?"
        )
    try:
        value = read_number(token)
    except UnitError as error:
        return str(error)
    return value if math.isfinite(value) else f"{token} is far outside anything a motor has."


@lru_cache(maxsize=65536)
def scan(text: str, comma_file: bool = False) -> tuple[Figure, ...]:
    """Return every figure of a text in the order written.

    Parameters
    ----------
    text : str
        Tidied by `tidy`.
    comma_file : bool
        The file writes decimal commas, so that a dot may be a thousands mark.

    Returns
    -------
    tuple of Figure
        Numbers without a unit come with an empty kind.
    """
    special, masked = _times_per_turn(text)
    figures = [*special, *_joined(masked, _numbers(masked, comma_file))]
    return tuple(sorted(figures, key=lambda figure: figure.start))


def _times_per_turn(text: str) -> tuple[list[Figure], str]:
    """Find speeds told as time per turn, and blank them out."""
    found: list[Figure] = []
    if "turn" not in text and "rev" not in text:
        return found, text
    for pattern in (_TIME_PER_TURN, _SECONDS_PER_TURN):
        for match in pattern.finditer(text):
            turns = float((match["turns"] or "1").replace(",", "."))
            time = float((match["time"] or "1").replace(",", "."))
            seconds = time * _AMOUNT_OF_TIME[match["unit"][0]]
            if seconds == 0.0:
                continue
            speed = math.tau * turns / seconds
            found.append(
                Figure("rotation", (speed,), "one", match[0], match.start(), match.end(), "rpm")
            )
            text = text[: match.start()] + "\x00" * len(match[0]) + text[match.end() :]
    return found, text


@dataclass(slots=True)
class _Token:
    start: int
    end: int
    value: float
    doubt: str = ""
    kind: str = ""
    unit: Unit | None = None


def _numbers(text: str, comma_file: bool) -> list[_Token]:
    tokens: list[_Token] = []
    taken = 0
    for match in _NUMBER.finditer(text):
        start = match.start()
        if start < taken:
            continue
        grouped = _GROUPED.match(text, start)
        token = (grouped or match)[0].rstrip(".,'")
        end = start + len(token)
        value = number(token.replace(" ", "") if grouped else token, comma_file)
        if grouped and text[:start].strip(" ±:(<>=≥≤~"):
            # Alone in its cell it is 15300; among other figures it may be a 15 and a 300.
            value = f"{token} may be one number or two. Write it without the space."
        kept = _Token(start, end, math.nan, value) if isinstance(value, str) else None
        found = kept or _Token(start, end, value if isinstance(value, float) else math.nan)
        unit = find_unit(text[end : end + _LONGEST_UNIT + 2])
        if unit is not None:
            found.kind, found.unit = unit[0], unit[1]
            found.end = end + unit[2]
        tolerance = _TOLERANCE.match(text, found.end)
        taken = tolerance.end() if tolerance else found.end
        tokens.append(found)
    return tokens


def _joined(text: str, tokens: list[_Token]) -> list[Figure]:
    """Make figures of numbers: a unit at the end of a list or range serves all of it."""
    figures: list[Figure] = []
    group: list[_Token] = []
    joints: list[str] = []
    for position, token in enumerate(tokens):
        group.append(token)
        following = tokens[position + 1] if position + 1 < len(tokens) else None
        joint = _joint(text, token, following)
        if joint:
            joints.append(joint)
            continue
        figures.append(_figure(text, group, joints))
        group, joints = [], []
    return figures


def _joint(text: str, token: _Token, following: _Token | None) -> str:
    """Return what joins two numbers into one figure, or an empty text."""
    if following is None:
        return ""
    match = _BETWEEN.fullmatch(text, token.end, following.start)
    if match is None:
        return ""
    joint = match[1]
    if joint in ("±", "+/-", "+-"):
        return "±" if not _is_percent(text, following) else ""
    if token.kind:
        alike = token.kind == following.kind and joint != ","
        return joint if alike else ""
    # A number without unit belongs to the next one only where that has a unit, or nothing does.
    if joint in (",", "and", "or", "&"):
        return ""
    return joint if joint != "-" or following.start - token.end <= 3 else ""


def _is_percent(text: str, token: _Token) -> bool:
    return text[token.end : token.end + 2].lstrip().startswith("%")


def _figure(text: str, group: list[_Token], joints: list[str]) -> Figure:
    start, end = group[0].start, group[-1].end
    unit = next((token.unit for token in reversed(group) if token.unit), None)
    kind = next((token.kind for token in reversed(group) if token.kind), "")
    doubts = [token.doubt for token in group if token.doubt]
    form, bare = _form(text, start, group, joints)
    tolerance, end = _tolerance(text, end)
    values: tuple[float, ...] = ()
    if not doubts and unit is not None:
        values = tuple(_amount(token.value, token.unit or unit) for token in group)
        values = _with_spread(values, joints)
        doubts = [unit.doubt] if unit.doubt else []
    if values and not all(math.isfinite(v) for v in values):
        values, doubts = (), [f"{text[start:end]} divides by nothing."]
    return Figure(
        kind=kind,
        values=values,
        form=form,
        text=text[start:end],
        start=start,
        end=end,
        unit=unit.symbol if unit else "",
        tolerance=tolerance,
        doubt=" ".join(doubts),
        bare=bare,
    )


def _amount(value: float, unit: Unit) -> float:
    if unit.inverse and value == 0.0:
        return math.inf
    return to_si(value, unit)


def _with_spread(values: tuple[float, ...], joints: list[str]) -> tuple[float, ...]:
    if joints == ["±"]:
        middle, spread = values
        return (middle - spread, middle + spread)
    return values


def _form(
    text: str, start: int, group: list[_Token], joints: list[str]
) -> tuple[str, tuple[float, ...]]:
    bare = tuple(token.value for token in group)
    if joints:
        alternatives = all(joint in ("/", "or", ",", "and", "&") for joint in joints)
        return ("several" if alternatives else "range"), bare
    before = _BEFORE.search(text, max(0, start - 16), start)
    if before is None:
        return "one", bare
    if _LOW_SIDE.match(before[1]):
        return "at least", bare
    return ("at most" if _HIGH_SIDE.match(before[1]) else "about"), bare


def _tolerance(text: str, end: int) -> tuple[float, int]:
    match = _TOLERANCE.match(text, end)
    if match is None:
        return 0.0, end
    share = float(match[1].replace(",", ".")) / 100.0
    return (share, match.end()) if share < 1.0 else (0.0, match.end())


def in_unit(figure: Figure, unit: Unit, kind: str) -> Figure:
    """Return a figure that stood without a unit in the unit its column head names."""
    values = tuple(_amount(value, unit) for value in figure.bare)
    if not all(math.isfinite(v) for v in values):
        return figure
    return replace(figure, kind=kind, unit=unit.symbol, values=values, doubt=unit.doubt)


def undo_date(text: str) -> tuple[str, str]:
    """Return what a spreadsheet made a date of, and how that was worked out.

    ``5-Jun`` was ``5/6``: the speeds of a mains motor at 50 and 60 Hz, which stand as 5 to 6.
    The text comes back unchanged where it is no date, and empty where it is a date that hides
    no such pair.
    """
    match = _DATE.fullmatch(text.strip().lower())
    if match is None:
        return text, ""
    day = int(match[1] or match[4])
    month = [m.lower() for m in MONTHS].index(match[2] or match[3]) + 1
    low, high = sorted((day, month))
    if low and abs(high / low - 1.2) < 1e-9:
        return f"{low}/{high}", f'"{text}" is what a spreadsheet makes of {low}/{high}.'
    return "", f'A spreadsheet made the date "{text}" of this. Write the speed as text.'
