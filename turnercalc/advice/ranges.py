"""Ranges of fields, as sweeps and searches take them: ``crank.radius=40..60mm:1mm``."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Any

import numpy as np

from turnercalc import units
from turnercalc.design import Design
from turnercalc.design.filing import nearest_path
from turnercalc.design.writer import schema_of
from turnercalc.errors import UnitError, UnknownNameError
from turnercalc.fields import FieldInfo, field_info

_HAS_UNIT = re.compile(r"[A-Za-z°%\"']")
_TRAILING_UNIT = re.compile(r"\d\s*([A-Za-z°%\"'/·²^ ]+)$")
_JOINT = re.compile(r"\s*(?:\.\.+|…|\bto\b)\s*")
_WITHIN = re.compile(r"\.\.|…|/|\bto\b")
_SIGNED = re.compile(r"[+\-−]\s*[\d.,]")
#: What a figure alone leaves open where the file tells of several.
_EACH = re.compile(r"\beach\b|\bone\b", re.I)
#: Values of a range whose step is not said.
USUAL_COUNT = 11
MOST_VALUES = 1_000_000


@dataclass(frozen=True)
class Range:
    """One field and the values it is given.

    Attributes
    ----------
    field : str
        Field path.
    values : tuple
        SI numbers, or words.
    quantity : str or None
        Kind of quantity; None for words.
    """

    field: str
    values: tuple[Any, ...]
    quantity: str | None

    @property
    def low(self) -> float:
        """The smallest value."""
        return float(min(self.values))

    @property
    def high(self) -> float:
        """The largest value."""
        return float(max(self.values))


def info_of(design: Design, path: str) -> FieldInfo:
    """Return what is known of a field of a design.

    Raises
    ------
    UnknownNameError
        There is no such field, or it is no quantity and no word; the nearest is named.
    """
    section, _, name = path.rpartition(".")
    model = schema_of(design).sections.get(section.partition(".")[0])
    if model is None or name not in model.model_fields:
        near = nearest_path(path, design.values())
        hint = f" Nearest: {near}." if near else ""
        raise UnknownNameError(f'This design has no field "{path}".{hint}')
    return field_info(model, name)


def read_range(design: Design, text: str) -> Range:
    """Read ``FIELD=LOW..HIGH``, ``FIELD=LOW..HIGH:STEP`` or ``FIELD=ONE|ANOTHER``.

    Parameters
    ----------
    design : Design
        Whose field it is: it decides what kind of quantity is read.
    text : str
        Unit and words of the file may stand at the last figure alone: ``5..6 in below pivot``;
        words before the figures at the first. Places are also read as figures with a sign, below
        and left negative; a figure with neither is asked for its side.

    Raises
    ------
    UnitError, UnknownNameError
        With what would be accepted.
    """
    path, equals, rest = (part.strip() for part in text.partition("="))
    rest = rest.strip("\"'“”")
    if not equals or not rest:
        raise UnitError(
            f"{text!r} gives no field its values. Write it like   crank.radius=40..60mm:1mm   or "
            '  trays.filled="in any order|in mirror pairs"',
            text=text,
        )
    info = info_of(design, path)
    _ask_of_how_many(design, path, info, rest)
    if "|" in rest or info.phrase.quantity is None or not _JOINT.search(rest):
        return Range(
            path, tuple(_one(info, part) for part in rest.split("|")), info.phrase.quantity
        )
    span, _, step_text = rest.partition(":")
    ends = _JOINT.split(span.strip(), maxsplit=1)
    words = _Words.around(info, *ends)
    low, high = _ends(info, words, span)
    if low > high and not words.tell:
        raise UnitError(f"{span} runs backwards: the low end comes first.", text=span)
    if not step_text:
        whole = info.phrase.whole
        count = int(abs(high - low)) + 1 if whole else USUAL_COUNT if high != low else 1
        return Range(path, _tuple(np.linspace(low, high, count), whole), info.phrase.quantity)
    step = _step(info, step_text, words)
    count = int(abs(high - low) / step + 1e-9) + 1 if step > 0.0 else 0
    if count > MOST_VALUES:
        raise UnitError(
            f"Steps of {step_text.strip()} from {ends[0]} to {ends[1]} are {count:,} values; "
            f"{MOST_VALUES:,} is the most. Take wider steps.",
            text=step_text,
        )
    if not count > 0:
        raise UnitError(f"{step_text} is no step from {ends[0]} to {ends[1]}.", text=step_text)
    # In words 5 to 6 below runs down: the steps begin where the builder began.
    values = low + math.copysign(step, high - low) * np.arange(count)
    return Range(path, _tuple(np.sort(values), info.phrase.whole), info.phrase.quantity)


@dataclass(frozen=True)
class _Words:
    """A range taken apart: its figures, and what is said once for both.

    Attributes
    ----------
    first, last : str
        Both ends, without what is said once.
    unit, before, behind : str
        Of the last figure; words before the first and behind the last.
    """

    first: str
    last: str
    unit: str
    before: str
    behind: str

    @classmethod
    def around(cls, info: FieldInfo, first: str, last: str) -> _Words:
        """Take both ends apart: the last figure with its unit is the longest that reads as one."""
        before, equals, figure = first.rpartition("=")
        parts = last.split()
        kind, at = info.phrase.quantity or "ratio", len(parts)
        while at > 0 and not _reads(" ".join(parts[:at]), kind):
            at -= 1
        known, behind = (" ".join(parts[:at]), " ".join(parts[at:])) if at else (last, "")
        return cls(figure.strip() or first, known, _unit_of(known), before + equals, behind)

    @property
    def tell(self) -> bool:
        """Whether words say how the figures are meant."""
        return bool(self.before or self.behind)

    def whole(self, figure: str) -> str:
        """Return one figure as the file would say it."""
        if not _HAS_UNIT.search(figure):
            figure += self.unit
        elif _FIGURE_IN_WORDS.fullmatch(figure):
            return figure  # it has words of its own: 2 in above pivot
        return " ".join(part for part in (self.before, figure, self.behind) if part)


_FIGURE_IN_WORDS = re.compile(r".*\d.*[A-Za-z\"'°%]\s+[A-Za-z]+.*", re.S)


def _reads(text: str, kind: str) -> bool:
    try:
        units.parse(text, kind)
    except UnitError:
        # 40..60 without a unit is asked for it, not taken for words
        return not _HAS_UNIT.search(text)
    return True


def _ends(info: FieldInfo, words: _Words, span: str) -> tuple[float, float]:
    """Return both ends; where one could be meant in several ways, ask for the whole range."""
    signed = _is_signed(words.first) and not words.tell
    try:
        low, high = (
            float(_one(info, words.whole(end), signed=signed)) for end in (words.first, words.last)
        )
    except UnitError as error:
        figure = words.first + (words.unit if not _HAS_UNIT.search(words.first) else "")
        tails = [one.removeprefix(figure).strip() for one in error.choices if one != figure]
        offered = [f'"{span.strip()} {tail}"' for tail in tails if tail[:1].isalpha()]
        if words.tell or not offered or not str(error).startswith(("Is that", f'"{figure}"')):
            raise
        message = f"{str(error).rstrip()} For a whole range: {' or '.join(offered)}."
        raise UnitError(message, text=span, choices=error.choices) from None
    return low, high


def _is_signed(text: str) -> bool:
    return _SIGNED.match(text.strip()) is not None


def _ask_of_how_many(design: Design, path: str, info: FieldInfo, rest: str) -> None:
    """Refuse a mass alone where the file weighs several eggs together: it would be one egg's."""
    origin = design.origin.get(path)
    own = origin.text if origin is not None else ""
    if info.phrase.kind != "egg mass" or "egg" not in own or _EACH.search(own):
        return
    if any(word in rest.casefold() for word in ("egg", "each", "dozen")):
        return
    span, colon, step = rest.partition(":")
    several = own.partition("=")[0].strip() if "=" in own else "12 eggs"
    raise UnitError(
        f'{rest}: of how many eggs? Write "{several} = {rest}" or, of one egg, '
        f'"{span.strip()} each{colon}{step}".',
        text=rest,
    )


def _tuple(values: np.ndarray, whole: bool) -> tuple[Any, ...]:
    if whole:
        return tuple(round(value) for value in values.tolist())
    # 0.1 + 0.2 is not what a builder wrote; a billionth of a metre is.
    return tuple(round(value, 12) for value in values.tolist())


def read_value(design: Design, path: str, text: str) -> Any:
    """Read one value of a field: a figure with a unit and a sign, or the words of the file.

    Raises
    ------
    UnitError, UnknownNameError
        With what would be accepted.
    """
    return _one(info_of(design, path), text)


def _one(info: FieldInfo, text: str, *, signed: bool = False) -> Any:
    """Return one value: as the file says it, or of a place a figure with a sign."""
    quantity, text = info.phrase.quantity, text.strip()
    # Of a field that holds a range itself, "0.1 to 0.2" is one value, and no ratio of both.
    a_range = bool(info.phrase.instances) and _WITHIN.search(text) is not None
    if quantity is not None and not a_range:
        plain = signed or _is_signed(text) or bool(info.phrase.instances)
        try:
            value = units.parse(text, quantity) if plain else info.phrase.reader(text)
        except UnitError as error:
            return _as_in_the_file(info, text, error)
        return round(value) if info.phrase.whole else value
    return _as_in_the_file(info, text, None)


def _as_in_the_file(info: FieldInfo, text: str, error: UnitError | None) -> Any:
    """Return a value as the file says it: ``200 mm below pivot``."""
    try:
        if info.phrase.half_known(text) is not None:
            message = f"{text!r}: from where to where? Write both ends, such as 30..40 mm."
            raise UnitError(message, text=text)
        found = info.phrase.read(text)
    except UnitError:
        raise
    except ValueError as other:
        raise error or UnitError(str(other), text=text) from None
    # What is neither a figure nor a word, such as a supply, stays as it is written.
    return found if isinstance(found, str | int | float) else text


def _step(info: FieldInfo, text: str, words: _Words) -> float:
    given = text.strip()
    if not _HAS_UNIT.search(given):
        given += words.unit
    if words.tell:  # 5 deg in all is 2.5 to each side; 10 g of 12 eggs is less of one
        return abs(float(_one(info, " ".join((words.before, given, words.behind)).strip())))
    return float(units.parse(given, info.phrase.quantity or "ratio"))


def _unit_of(text: str) -> str:
    found = _TRAILING_UNIT.search(text.strip())
    return f" {found.group(1).strip()}" if found else ""
