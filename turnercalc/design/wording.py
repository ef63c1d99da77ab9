"""A value as it stands in a file: in the builder's words, or converted to other units."""

from __future__ import annotations

import math
import re
from typing import Any

from pydantic_core import PydanticCustomError

from turnercalc import units
from turnercalc.design.complaints import quoted
from turnercalc.design.evaluating import phrase_info
from turnercalc.fields import HalfKnown, Range3, Section, Size
from turnercalc.fields.phrases import write_quantity
from turnercalc.fields.things import HeavySide

EXACT = 1e-15  # as near as the last digit of a number allows
CONVERTED = 1e-6  # far below what anybody can measure, and short enough to read
_WORDS = frozenset({"name", "choice", "species", "stage kind"})
_DIGITS = (4, 5, 6, 7, 8, 10, 12, 15, 17)
_US_UNITS = {
    "mm": ("in", "length"),
    "m": ("ft", "length"),
    "g": ("oz", "mass"),
    "kg": ("lb", "mass"),
}
_METRIC_SIZE = re.compile(r"(\d[\d.]*) (mm|m|g|kg)(?![\w/·])")


def value_text(
    model: type[Section], name: str, value: Any, system: str = "metric", near: float = EXACT
) -> str:
    """Return a value in SI as text that its field reads back.

    Parameters
    ----------
    model, name : type and str
        The section and the field.
    value : object
        As the model holds it.
    system : str
        ``metric`` or ``us``.
    near : float
        How near the text has to come to the value, as a share of it.
    """
    info = phrase_info(model, name)
    if info is None:
        return str(value) if isinstance(value, str) else list_text(value)
    text = ""
    for digits in _DIGITS:
        for text in _writings(info.phrase, value, system, digits):
            if _reads_back(info.phrase, text, value, near):
                return text
    return text


def spread_text(
    model: type[Section], name: str, known: HalfKnown, system: str = "metric", near: float = EXACT
) -> str:
    """Return what stands behind the middle of a half-known number: `` +/- 5 mm``.

    Parameters are those of `value_text`; a share stays one, in percent.
    """
    info = phrase_info(model, name)
    assert info is not None
    kind = info.phrase.quantity or "ratio"
    text = ""
    for digits in _DIGITS:
        if known.share:
            text = f"{100.0 * known.spread / abs(known.middle):.{digits}g} %"
        else:
            text = _difference_text(known.spread, kind, system, digits)
        again = info.phrase.half_known(f"{value_text(model, name, known.middle)} +/- {text}")
        if again is not None and math.isclose(again.spread, known.spread, rel_tol=max(near, 1e-9)):
            break
    return f" +/- {text}"


def _difference_text(spread: float, kind: str, system: str, digits: int) -> str:
    """Return a difference: of temperatures it has no zero to stand on."""
    if kind == "temperature":
        return f"{1.8 * spread:.{digits}g} F" if system == "us" else f"{spread:.{digits}g} C"
    metric = write_quantity(spread, kind, "metric", 17 if system == "us" else digits)
    return metric if system == "metric" else _METRIC_SIZE.sub(lambda m: _in_us(m, digits), metric)


def _writings(phrase: Any, value: Any, system: str, digits: int) -> tuple[str, ...]:
    """Return the ways to write a value: as a tape shows it, and in decimals.

    A tape's nearest sixteenth may lie beside the value, and then only decimals will do.
    """
    plain = phrase.write(value, system, digits)
    if system == "metric":
        return (plain,)
    metric = phrase.write(value, "metric", 17)
    return (plain, _METRIC_SIZE.sub(lambda found: _in_us(found, digits), metric))


def _in_us(found: re.Match[str], digits: int) -> str:
    unit, kind = _US_UNITS[found.group(2)]
    return units.in_unit(units.parse(found.group(), kind), unit, kind, digits)


def _reads_back(phrase: Any, text: str, value: Any, near: float) -> bool:
    try:
        return same(phrase.read(text), value, near)
    except PydanticCustomError:
        return False


def same(one: Any, other: Any, near: float = CONVERTED) -> bool:
    """Tell whether two values of a field are the same, numbers within a share of their size."""
    if isinstance(one, Range3 | Size | HeavySide) and type(one) is type(other):
        return all(same(a, getattr(other, name), near) for name, a in vars(one).items())
    numbers = all(isinstance(v, int | float) and not isinstance(v, bool) for v in (one, other))
    if numbers:
        return math.isclose(one, other, rel_tol=near, abs_tol=1e-12)
    return bool(one == other)


def list_text(value: Any) -> str:
    """Return a list, a number or a text as TOML writes it."""
    if isinstance(value, list | tuple):
        return "[" + ", ".join(list_text(one) for one in value) + "]"
    if isinstance(value, bool):
        return "true" if value else "false"
    return quoted(value) if isinstance(value, str) else f"{value}"


def assignment(model: type[Section], name: str, text: str) -> str:
    """Return ``name = "text"`` as a line of a file that any reader of TOML takes."""
    return f"{name} = {toml_value(model, name, text)}"


def toml_value(model: type[Section], name: str, text: str) -> str:
    """Return the text of a field as a TOML value: bare for numbers and lists, else quoted.

    Words stand between quote marks even where they look like a number or a list.
    """
    info = phrase_info(model, name)
    words = info is not None and info.phrase.quantity is None and info.kind in _WORDS
    short = quoted(text, always=words)
    if short[0] not in "\"'":
        return short
    if "'" not in text and '"' in text:
        return f"'{text}'"
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
