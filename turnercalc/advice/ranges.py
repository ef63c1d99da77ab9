"""Ranges of fields, as sweeps and searches take them: ``crank.radius=40..60mm:1mm``."""

from __future__ import annotations

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
        The unit may stand at the last figure alone. Places are figures with a sign (below and
        left are negative) or the words of the file.

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
    if "|" in rest or info.phrase.quantity is None or not _JOINT.search(rest):
        return Range(
            path, tuple(_one(info, part) for part in rest.split("|")), info.phrase.quantity
        )
    span, _, step_text = rest.partition(":")
    ends = _JOINT.split(span.strip(), maxsplit=1)
    unit = _unit_of(ends[1])
    low, high = (_one(info, end if _HAS_UNIT.search(end) else f"{end}{unit}") for end in ends)
    if low > high:
        raise UnitError(f"{span} runs backwards: the low end comes first.", text=span)
    if not step_text:
        whole = info.phrase.whole
        count = int(high - low) + 1 if whole else USUAL_COUNT if high > low else 1
        return Range(path, _tuple(np.linspace(low, high, count), whole), info.phrase.quantity)
    step = _step(info, step_text, unit)
    count = int((high - low) / step + 1e-9) + 1 if step > 0.0 else 0
    if count > MOST_VALUES:
        raise UnitError(
            f"Steps of {step_text.strip()} from {ends[0]} to {ends[1]} are {count:,} values; "
            f"{MOST_VALUES:,} is the most. Take wider steps.",
            text=step_text,
        )
    if not count > 0:
        raise UnitError(f"{step_text} is no step from {ends[0]} to {ends[1]}.", text=step_text)
    values = low + step * np.arange(count)
    return Range(path, _tuple(values, info.phrase.whole), info.phrase.quantity)


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


def _one(info: FieldInfo, text: str) -> Any:
    """Return one value: a figure with a sign, or as the file says it."""
    quantity, text = info.phrase.quantity, text.strip()
    # Of a field that holds a range itself, "0.1 to 0.2" is one value, and no ratio of both.
    a_range = bool(info.phrase.instances) and _WITHIN.search(text) is not None
    if quantity is not None and not a_range:
        try:
            value = units.parse(text, quantity)
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


def _step(info: FieldInfo, text: str, unit: str) -> float:
    given = text.strip()
    if not _HAS_UNIT.search(given):
        given += unit
    return float(units.parse(given, info.phrase.quantity or "ratio"))


def _unit_of(text: str) -> str:
    found = _TRAILING_UNIT.search(text.strip())
    return f" {found.group(1).strip()}" if found else ""
