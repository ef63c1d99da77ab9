"""What every figure and every part of a design does: page and JSON."""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING, Any

from turnercalc.handover.display import Scale, Style, decimals_for, scale_for
from turnercalc.handover.layout import section, table, wrap
from turnercalc.handover.numbers import rounded
from turnercalc.turners.wording import wording_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from turnercalc.advice.sensitivity import Effect, Part, Sensitivity
    from turnercalc.design import Design
    from turnercalc.sizing import Sizing

FORMAT = "turnercalc-sensitivity/2"
DEGREES = 180.0 / math.pi
#: What a rule divides an inch into, in millimetres: told in place of one.
RULE_MM, RULE_TEXT = 25.4 / 32.0, "1/32 in"
#: Figures of the present value that a change is told to.
FIGURES = 4


def sensitivity_page(found: Sensitivity, design: Design, sizing: Sizing, style: Style) -> str:
    """Return what a millimetre or a tenth of every figure does, part by part, strongest first."""
    words = wording_of(sizing.turner)
    columns = _Columns(found, style)
    now = (
        f"{columns.now(found.high, columns.end)} {words.high}, "
        f"{columns.now(-found.low, columns.end)} {words.low}, "
        f"{style.show(found.peak, 'torque' if found.force_unit == 'N·m' else 'force')}"
    )
    lines = wrap(style.letters(design.name))
    lines += wrap(f"As it stands: {style.letters(now)} at the hardest planned turn.", 2)
    lines += ["", section("WHAT EACH PART DOES", "the one that does most first")]
    rows = columns.heads(words.sides)
    for part in found.parts:
        rows.append(columns.of_part(part))
        rows += [columns.of(effect) for effect in part.effects]
    lines += table([[style.letters(cell) for cell in row] for row in rows])
    lines += ["", *wrap(style.letters(explained(columns.by_length)), 2)]
    return "\n".join(lines)


def explained(by_length: str) -> str:
    """Return what the table means."""
    return (
        f"Beside a part in brackets: every length of it {by_length} off, each one either way by "
        "chance (root of the sum of squares). What moves next to nothing is left out. Switches "
        "and timer stay as they were set. By small steps up and down, so a big change may do "
        "more or less in proportion: try it with --set."
    )


class _Columns:
    """How the columns of one page are scaled and rounded."""

    def __init__(self, found: Sensitivity, style: Style) -> None:
        us = style.system == "us"
        self.found = found
        self.length_share = RULE_MM if us else 1.0
        self.by_length = RULE_TEXT if us else "1 mm"
        self.end = scale_for("angle" if found.unit == "rad" else "length", style.system)
        self.angle = scale_for("angle")
        force = "torque" if found.force_unit == "N·m" else "force"
        self.force = scale_for(force, style.system)
        self.end_decimals = 2 if self.end.symbol in ("°", "mm") else 4
        self.force_decimals = decimals_for(self.force.of(abs(found.peak)), FIGURES)
        # Eggs that turn with the part need no column of their own.
        self.eggs_turn_otherwise = any(
            math.isfinite(one.turn)
            and (found.unit == "m" or abs(one.turn - (one.high - one.low)) > 1e-6)
            for one in found.effects
        )

    def now(self, value: float, scale: Scale) -> str:
        """Return an end as it stands."""
        return f"{scale.of(value):.{self.end_decimals - 1}f}{gap(scale)}{scale.symbol}"

    def heads(self, sides: tuple[str, str]) -> list[tuple[str, ...]]:
        """Return the head of the table: what, in two lines, and in what unit."""
        turn = [("egg", "turn", self.angle.symbol)] if self.eggs_turn_otherwise else []
        columns = [
            ("more of", "", ""),
            ("by", "", ""),
            *((side, "", self.end.symbol) for side in sides),
            *turn,
            ("hardest", "turn", self.force.symbol),
            ("share", "of it", "%"),
        ]
        return [tuple(line) for line in zip(*columns, strict=True)]

    def of(self, one: Effect) -> tuple[str, ...]:
        """Return the line of a figure."""
        by = self.by_length if one.is_length else one.per
        told = self._told(one, self.length_share if one.is_length else 1.0, signed)
        return (f"  {one.figure}", by, *told)

    def of_part(self, part: Part) -> tuple[str, ...]:
        """Return the heading of a part, with what all its lengths do."""
        name = f"[{part.name}]"
        if part.lengths < 2:
            return (name, *[""] * (6 if self.eggs_turn_otherwise else 5))
        return (name, self.by_length, *self._told(part, self.length_share, bracketed))

    def _told(
        self, one: Effect | Part, share: float, write: Callable[[float, int], str]
    ) -> list[str]:
        low = one.low if write is bracketed else -one.low
        cells = [write(self.end.of(share * end), self.end_decimals) for end in (one.high, low)]
        if self.eggs_turn_otherwise:
            turn = 0.0 if math.isnan(one.turn) else one.turn
            cells.append(write(self.angle.of(share * turn), 2))
        peak = share * one.peak
        cells.append(write(self.force.of(peak), self.force_decimals))
        cells.append(write(100.0 * peak / abs(self.found.peak) if self.found.peak else 0.0, 1))
        return cells


def gap(scale: Scale) -> str:
    """Return what stands between a figure and its unit."""
    return "" if scale.symbol == "°" else " "


def signed(value: float, digits: int) -> str:
    """Return a change with its sign; a dot where it rounds to nothing."""
    return "· " if round(value, digits) == 0.0 else f"{value:+.{digits}f} "


def bracketed(value: float, digits: int) -> str:
    """Return what may come out either way, in brackets."""
    return "· " if round(value, digits) == 0.0 else f"({value:.{digits}f})"


def sensitivity_json(found: Sensitivity, design: Design, sizing: Sizing) -> str:
    """Return the same as JSON text; keys carry their units."""
    per, unit = (DEGREES, "deg") if found.unit == "rad" else (1e3, "mm")
    force = "peak_shaft_torque_Nm" if found.force_unit == "N·m" else "peak_push_N"

    def figures(one: Sensitivity | Effect | Part) -> dict[str, Any]:
        return {
            f"high_end_{unit}": rounded(one.high, per),
            f"low_end_{unit}": rounded(one.low, per),
            force: rounded(one.peak),
            "egg_turn_deg": rounded(one.turn, DEGREES),
        }

    record = {
        "format": FORMAT,
        "design": {"name": design.name, "turner": design.turner, "drive": design.drive},
        "verdict": sizing.verdict.value,
        **figures(found),
        "effects": [
            {"part": one.part, "field": one.field, "per": one.per, **figures(one)}
            for one in found.effects
        ],
        "parts": [
            {
                "part": one.name,
                "lengths": one.lengths,
                "per": "1 mm on each length, root of the sum of squares",
                **figures(one),
            }
            for one in found.parts
        ],
    }
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False)
