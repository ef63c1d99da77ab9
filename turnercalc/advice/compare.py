"""Designs side by side: what is said differently, and what comes out of it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite
from typing import Any

from turnercalc.design import Design
from turnercalc.errors import UnknownNameError
from turnercalc.findings import Answer
from turnercalc.loads import hardest
from turnercalc.motors import MotorFile
from turnercalc.sizing import Sizing, size
from turnercalc.turners.wording import wording_of


@dataclass(frozen=True)
class Line:
    """One thing of every design.

    Attributes
    ----------
    name : str
        Field path, or what came out.
    values : tuple
        For each design, SI, words, or None.
    texts : tuple of str
        The same as written.
    differs : bool
        Whether they are not all alike.
    """

    name: str
    values: tuple[Any, ...]
    texts: tuple[str, ...]
    differs: bool


@dataclass(frozen=True)
class Comparison:
    """Two or more designs side by side.

    Attributes
    ----------
    sizings : tuple of Sizing
    results : tuple of Line
        What came out.
    findings : tuple of Line
        Answer of every question.
    fields : tuple of Line
        What was said, differences first.
    """

    sizings: tuple[Sizing, ...]
    results: tuple[Line, ...]
    findings: tuple[Line, ...]
    fields: tuple[Line, ...]


def compare(designs: Sequence[Design], motor_file: MotorFile | None = None) -> Comparison:
    """Return designs side by side, what differs first.

    Raises
    ------
    ValueError
        Fewer than two designs.
    """
    if len(designs) < 2:
        raise ValueError("compare needs two designs or more")
    sizings = tuple(size_with_own(design, motor_file) for design in designs)
    return Comparison(
        sizings,
        differences_first(results(sizings)),
        differences_first(answers(sizings)),
        differences_first(said(designs)),
    )


def size_with_own(design: Design, motor_file: MotorFile | None) -> Sizing:
    """Return a sizing; without motors where the file lacks the one that the design names."""
    named = design["motor"].have
    if motor_file is not None and named and all(row.motor.id != named for row in motor_file):
        try:
            motor_file.row(named)
        except UnknownNameError:
            return size(design)
    return size(design, motor_file)


def differences_first(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return lines that differ before those that do not, otherwise in their order."""
    return tuple(sorted(lines, key=lambda line: not line.differs))


def line(name: str, values: Sequence[Any], texts: Sequence[str]) -> Line:
    """Return one line."""
    return Line(name, tuple(values), tuple(texts), len(set(texts)) > 1)


def said(designs: Sequence[Design]) -> list[Line]:
    """Return what the files say, every field that any of them has."""
    names = dict.fromkeys(path for design in designs for path in design.values())
    found = []
    for name in names:
        values = [design.values().get(name) for design in designs]
        if all(value is None for value in values):
            continue
        texts = [text_of(design, name) for design in designs]
        same = all(value == values[0] for value in values)
        found.append(Line(name, tuple(values), tuple(texts), not same))
    return found


def told_force(value: float | None, unit: str, endless: str) -> str | None:
    """Return a torque or force as it is told; in words where no torque is enough."""
    if value is None:
        return None
    return f"{value:.3g} {unit}" if isfinite(value) else endless


def text_of(design: Design, name: str) -> str:
    """Return a field as it was written, or as it was taken for granted."""
    value = design.values().get(name)
    if value is None:
        return "-"
    origin = design.origin.get(name)
    if origin is None:
        return str(value)
    return f"({origin.text})" if origin.how == "taken for granted" else origin.text


def answers(sizings: Sequence[Sizing]) -> list[Line]:
    """Return the answer to every question that any design was asked."""
    found: dict[str, str] = {}
    for sizing in sizings:
        for finding in sizing.findings:
            found.setdefault(finding.id, finding.title)
    lines = []
    for id_, title in found.items():
        own = [next((f for f in one.findings if f.id == id_), None) for one in sizings]
        values = [finding.answer.value if finding else None for finding in own]
        lines.append(line(title, values, [value or "-" for value in values]))
    return lines


def results(sizings: Sequence[Sizing]) -> list[Line]:
    """Return what came out of every design."""
    rows: list[tuple[str, list[Any], list[str]]] = []

    def add(name: str, values: list[Any], show: Any) -> None:
        rows.append((name, values, ["-" if value is None else show(value) for value in values]))

    add("verdict", [one.verdict.value for one in sizings], str.upper)
    words = wording_of(sizings[0].turner)
    add(words.high, [end(one, one.ends.high) for one in sizings], str)
    add(words.low, [end(one, -one.ends.low) for one in sizings], str)
    peak = [peak_of(one) for one in sizings]
    told = [told_force(p, force(s), "jams") for p, s in zip(peak, sizings, strict=True)]
    add("hardest turn", told, str)
    add("motor", [one.chosen.motor.id if one.chosen else None for one in sizings], str)
    enough = [one.chosen.times_enough if one.chosen else None for one in sizings]
    add("times enough", enough, lambda value: f"{value:.1f}")
    moves = [one.chosen.longest_move if one.chosen else None for one in sizings]
    add("longest turn", moves, lambda value: f"{value:.1f} s" if isfinite(value) else "stalls")
    rated = [one.shopping.rated_torque_min if one.shopping else None for one in sizings]
    units = [force(one) for one in sizings]
    least = [told_force(r, u, "none would do") for r, u in zip(rated, units, strict=True)]
    add("motor to buy, rated", least, str)
    return [line(*row) for row in rows]


def end(sizing: Sizing, value: float) -> str | None:
    """Return an end as text."""
    if not math.isfinite(value):
        return None
    if sizing.turner.coordinate_unit == "rad":
        return f"{math.degrees(value):.1f}°"
    return f"{1e3 * value:.1f} mm"


def peak_of(sizing: Sizing) -> float | None:
    """Return the hardest planned shaft torque or push."""
    if sizing.cycle is None:
        return None
    middle = sizing.cycle.levels.index("middle")
    return hardest(sizing.cycle, middle, sizing.told_direction).torque


def force(sizing: Sizing) -> str:
    """Return the unit of the peak."""
    return "N·m" if sizing.drive.position_unit == "rad" else "N"


def best(comparison: Comparison) -> int:
    """Return which design is best: the verdict, then how many questions are fine, then the peak."""
    order = {Answer.FINE: 0, Answer.MARGINAL: 1, Answer.NO: 2}

    def key(at: int) -> tuple[float, ...]:
        one = comparison.sizings[at]
        open_ones = sum(f.answer in (Answer.MARGINAL, Answer.NO) for f in one.findings)
        return order[one.verdict], open_ones, peak_of(one) or math.inf

    return min(range(len(comparison.sizings)), key=key)
