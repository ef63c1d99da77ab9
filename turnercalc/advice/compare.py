"""Designs side by side: what is said differently, and what comes out of it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import isfinite
from typing import Any

from turnercalc.advice.asked import need_design, need_motors
from turnercalc.advice.rows import Rows
from turnercalc.design import Design
from turnercalc.errors import AskedError, UnknownNameError
from turnercalc.findings import Answer, worst
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
class Best:
    """Which design is best, and by what.

    Attributes
    ----------
    at : int or None
        Its number; None where nothing sets one before the others.
    by : str
        What decides: ``verdict``, ``open questions`` or ``hardest turn``; empty where nothing does.
    among : tuple of int
        Those that were alike in all that counts for more.
    figures : tuple
        For each of these: its verdict, how many answers are marginal or no, or its hardest turn
        [N·m or N].
    unit : str
        Of the hardest turn; empty where torques and pushes stand side by side.
    """

    at: int | None
    by: str
    among: tuple[int, ...]
    figures: tuple[Any, ...]
    unit: str = ""


@dataclass(frozen=True)
class Comparison(Rows):
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
    without_motor : tuple of int
        Designs whose own motor is not in the motor file: they are judged without one.
    """

    sizings: tuple[Sizing, ...]
    results: tuple[Line, ...]
    findings: tuple[Line, ...]
    fields: tuple[Line, ...]
    without_motor: tuple[int, ...] = ()

    @property
    def verdicts(self) -> tuple[Answer, ...]:
        """The verdicts that can be compared: without motors where only some have one."""
        if len({one.chosen is None for one in self.sizings}) == 1:
            return tuple(one.verdict for one in self.sizings)
        return tuple(
            worst([f.answer for f in one.findings if f.caps_verdict]) for one in self.sizings
        )

    @property
    def reasons(self) -> tuple[str, ...]:
        """Why each design is not fine, its motor named where it is that; empty where it is fine."""
        return tuple("" if one.verdict is Answer.FINE else reason_of(one) for one in self.sizings)

    @property
    def best(self) -> Best:
        """Which design is best: by the verdict, then by open questions, then by the peak."""
        return best_of(self.sizings, self.verdicts)

    def rows(self) -> list[dict[str, Any]]:
        """Return one line for each thing compared; figures in SI, other things as written."""
        return [
            {
                "about": about,
                "name": one.name,
                "differs": one.differs,
                **{
                    f"design_{number}": value if isinstance(value, int | float | None) else text
                    for number, (value, text) in enumerate(
                        zip(one.values, one.texts, strict=True), start=1
                    )
                },
            }
            for about, lines in (
                ("result", self.results),
                ("answer", self.findings),
                ("field", self.fields),
            )
            for one in lines
        ]


def compare(designs: Sequence[Design], motor_file: MotorFile | None = None) -> Comparison:
    """Return designs side by side, what differs first.

    Raises
    ------
    AskedError
        Fewer than two designs.
    """
    designs = tuple(designs) if isinstance(designs, Iterable) else (designs,)
    if len(designs) < 2:
        raise AskedError("compare needs two designs or more")
    for design in designs:
        need_design(design)
    if motor_file is not None:
        need_motors(motor_file)
    absent = tuple(at for at, one in enumerate(designs) if lacks_motor(one, motor_file))
    sizings = tuple(
        size(design, None if at in absent else motor_file) for at, design in enumerate(designs)
    )
    return Comparison(
        sizings,
        differences_first(results(sizings)),
        differences_first(answers(sizings)),
        differences_first(said(designs)),
        absent,
    )


def lacks_motor(design: Design, motor_file: MotorFile | None) -> bool:
    """Tell whether the file lacks the motor that the design names."""
    named = design["motor"].have
    if motor_file is None or not named or any(row.motor.id == named for row in motor_file):
        return False
    try:
        motor_file.row(named)
    except UnknownNameError:
        return True
    return False


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
    titles = dict.fromkeys(finding.title for one in sizings for finding in one.findings)
    lines = []
    for title in titles:
        own = [[f.answer.value for f in one.findings if f.title == title] for one in sizings]
        lines.append(line(title, *told_answers(own)))
    return [*lines, *motor_answers(sizings)]


def motor_answers(sizings: Sequence[Sizing]) -> list[Line]:
    """Return the answers about each design's motor that are not fine in one of them."""
    motors = [one.chosen.findings if one.chosen else () for one in sizings]
    doubts = (Answer.NO, Answer.MARGINAL, Answer.UNKNOWN)
    titles = dict.fromkeys(f.title for own in motors for f in own if f.answer in doubts)
    return [
        line(
            f"Motor: {title[:1].lower()}{title[1:]}",
            *told_answers([[f.answer.value for f in own if f.title == title] for own in motors]),
        )
        for title in titles
    ]


def told_answers(own: Sequence[Sequence[str]]) -> tuple[list[str | None], list[str]]:
    """Return the answers of each design as values and as texts."""
    values = [", ".join(found) or None for found in own]
    return values, [value or "-" for value in values]


def reason_of(sizing: Sizing) -> str:
    """Return what decides a verdict, with the motor's name where it is the motor."""
    reason, chosen = sizing.reason, sizing.chosen
    if chosen is not None and any(finding is reason for finding in chosen.findings):
        return f'Motor "{chosen.motor.id}": {reason.text}'
    return f"{reason.title}: {reason.text}"


def results(sizings: Sequence[Sizing]) -> list[Line]:
    """Return what came out of every design."""
    rows: list[tuple[str, list[Any], list[str]]] = []

    def add(name: str, values: list[Any], show: Any) -> None:
        rows.append((name, values, ["-" if value is None else show(value) for value in values]))

    add("verdict", [one.verdict.value for one in sizings], str.upper)
    for name, ends in told_ends(sizings):
        add(name, ends, str)
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
    return [line(*row) for row in rows if any(value is not None for value in row[1])]


def told_ends(sizings: Sequence[Sizing]) -> list[tuple[str, list[Any]]]:
    """Return both ends: named once where all designs call them alike, else each in its words."""
    words = [wording_of(one.turner) for one in sizings]
    high = [end(one, one.ends.high) for one in sizings]
    low = [end(one, -one.ends.low) for one in sizings]
    if len({(one.high, one.low) for one in words}) == 1:
        return [(words[0].high, high), (words[0].low, low)]
    return [
        ("one end", [v and f"{v} {one.high}" for v, one in zip(high, words, strict=True)]),
        ("other end", [v and f"{v} {one.low}" for v, one in zip(low, words, strict=True)]),
    ]


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


def best_of(sizings: Sequence[Sizing], verdicts: Sequence[Answer]) -> Best:
    """Return which design is best: the verdict, then how few questions are open, then the peak."""
    everyone = tuple(range(len(sizings)))
    ranks = [_ORDER.index(verdict) for verdict in verdicts]
    first = leading(everyone, ranks)
    if len(first) == 1:
        return Best(first[0], "verdict", everyone, tuple(verdicts))
    among, opened = first, [open_questions(one) for one in sizings]
    first = leading(among, opened)
    if len(first) == 1:
        return Best(first[0], "open questions", among, tuple(opened[at] for at in among))
    among, units = first, {force(sizings[at]) for at in first}
    peaks = [peak_of(one) or math.inf for one in sizings]
    told, unit = tuple(peaks[at] for at in among), units.pop() if len(units) == 1 else ""
    first = leading(among, peaks, SAME_PEAK) if unit else among
    if len(first) == 1:
        return Best(first[0], "hardest turn", among, told, unit)
    return Best(None, "", among, told, unit)


_ORDER = (Answer.FINE, Answer.MARGINAL, Answer.NO)
#: Peaks that differ by less than this share are one.
SAME_PEAK = 1e-3


def leading(among: Sequence[int], figures: Sequence[float], same: float = 0.0) -> tuple[int, ...]:
    """Return those with the least figure, or one as good as that."""
    least = min(figures[at] for at in among)
    return tuple(at for at in among if figures[at] <= least * (1.0 + same))


def open_questions(sizing: Sizing) -> int:
    """Return how many answers are marginal or no."""
    return sum(f.answer in (Answer.MARGINAL, Answer.NO) for f in sizing.findings)
