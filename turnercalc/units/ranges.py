"""Ranges as listings and builders write them: ``30-60 kg·cm``, ``>=4 N·m``, ``6 rpm ±10 %``."""

from __future__ import annotations

import math
import re

from turnercalc.errors import UnitError
from turnercalc.units.numbers import NUMBER, tidy
from turnercalc.units.reading import parse

_AT_LEAST = re.compile(
    r"(?:≥|>=?|=>|at least|min(?:imum)?\b\.?:?|from|over|above|more than) ?", re.I
)
_AT_MOST = re.compile(
    r"(?:≤|<=?|=<|at most|max(?:imum)?\b\.?:?|up to|under|below|less than|not more than) ?", re.I
)
_MOST_LAST = re.compile(r"(.*\S) ?\(?max(?:imum)?\.?\)?", re.I)
_LEAST_LAST = re.compile(r"(.*\S) ?\(?min(?:imum)?\.?\)?", re.I)
_TOLERANCE = re.compile(r"(.*?) ?(?:±|\+ ?/ ?-|\+-) ?(.*)")
_BETWEEN = re.compile(r"(?:between|from) (.*?) (?:and|to) (.*)", re.I)
_MIXED = re.compile(r"(?<![\d/.,])\d+ ?- ?\d+ ?/ ?\d+(?![\d.,/])")
_JOINTS = re.compile(r" to | ?\.\.\.? ?| ?~ ?| ?- ?| ?… ?", re.I)


def parse_range(text: str, kind: str) -> tuple[float, float]:
    """Read a range, or one figure as a range of no width.

    Parameters
    ----------
    text : str
        Such as ``30-60 kg·cm``, ``30 mm to 2 in``, ``>=4 N·m``, ``max 70 N``, ``35 mm +/- 5 mm``
        or ``6 rpm ±10 %``.
    kind : str
        One of `KINDS`.

    Returns
    -------
    tuple of float
        Low and high in SI. The open end of ``>=4 N·m`` is ``inf``; the open end of ``max 70 N``
        is zero (for temperatures absolute zero), because no listing means less.

    Raises
    ------
    UnitError
        Where it is no range of this kind, or the low end is above the high end.
    """
    tidied = tidy(text)
    low, high = _ends(tidied, kind)
    if low > high:
        message = f"{text} runs backwards: the low end comes first."
        raise UnitError(message, text=text)
    return low, high


def _ends(text: str, kind: str) -> tuple[float, float]:
    between = _BETWEEN.fullmatch(text)
    if between:
        return _two(between.group(1), between.group(2), kind)
    lowest = -273.15 if kind == "temperature" else 0.0
    if match := _AT_LEAST.match(text):
        return parse(text[match.end() :], kind), math.inf
    if match := _AT_MOST.match(text):
        return lowest, parse(text[match.end() :], kind)
    if match := _TOLERANCE.fullmatch(text):
        return _with_tolerance(match.group(1), match.group(2), kind)
    if match := _MOST_LAST.fullmatch(text):
        return lowest, parse(match.group(1), kind)
    if kind != "time" and (match := _LEAST_LAST.fullmatch(text)):
        return parse(match.group(1), kind), math.inf
    return _joined(text, kind)


def _with_tolerance(middle: str, part: str, kind: str) -> tuple[float, float]:
    """Read ``35 mm ± 5 mm``, ``5 ± 1 mm``, ``6 rpm ± 10 %`` and ``6 ±10% rpm``."""
    share = re.fullmatch(rf"({NUMBER}) ?% ?(.*)", part)
    if share:
        value = parse(f"{middle} {share.group(2)}", kind)
        spread = abs(value) * parse(share.group(1), "ratio") / 100.0
    else:
        borrowed = middle if _has_unit(middle) else f"{middle} {_unit_of(part)}"
        value = parse(borrowed, kind)
        other = part if _has_unit(part) else f"{part} {_unit_of(middle)}"
        spread = abs(parse(other, kind) - (parse(f"0 {_unit_of(other)}", kind)))
    return value - spread, value + spread


def _joined(text: str, kind: str) -> tuple[float, float]:
    """Read ``30-60 mm``; where the text can be one figure (``18-1/2in``) it is."""
    halves = _halves(text)
    # for a ratio "0.15 to 0.45" would also be one number divided by another
    if halves is not None and kind == "ratio" and " to " in text:
        return _two(*halves, kind)
    try:
        value = parse(text, kind)
    except UnitError:
        if halves is None:
            raise
        return _two(*halves, kind)
    return value, value


def _halves(text: str) -> tuple[str, str] | None:
    for joint in _JOINTS.finditer(text):
        left, right = text[: joint.start()], text[joint.end() :]
        whole = re.search(r"\d", left) and re.match(r"[+-]?[\d.,]", right)
        if whole and not _cuts_a_mixed_number(text, joint):
            return left, right
    return None


def _cuts_a_mixed_number(text: str, joint: re.Match[str]) -> bool:
    return any(m.start() < joint.start() < m.end() for m in _MIXED.finditer(text))


def _two(left: str, right: str, kind: str) -> tuple[float, float]:
    if not _has_unit(left):
        left = f"{left} {_unit_of(right)}"
    elif not _has_unit(right):
        right = f"{right} {_unit_of(left)}"
    return parse(left, kind), parse(right, kind)


_LEADING = re.compile(rf"[+-]? ?{NUMBER} ?(.*)")


def _unit_of(text: str) -> str:
    match = _LEADING.fullmatch(text.strip())
    return match.group(1) if match else ""


def _has_unit(text: str) -> bool:
    return bool(_unit_of(text))
