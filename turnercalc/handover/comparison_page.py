"""Designs side by side and what every figure does: pages and JSON."""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING, Any

from turnercalc.handover.display import Style
from turnercalc.handover.layout import WIDTH, section, table, wrap
from turnercalc.handover.numbers import rounded
from turnercalc.turners.wording import wording_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from turnercalc.advice.compare import Comparison, Line
    from turnercalc.advice.sensitivity import Sensitivity
    from turnercalc.design import Design
    from turnercalc.sizing import Sizing

COMPARE_FORMAT = "turnercalc-compare/1"
SENSITIVITY_FORMAT = "turnercalc-sensitivity/1"
DEGREES = 180.0 / math.pi


def compare_page(comparison: Comparison, names: Sequence[str], best: int, style: Style) -> str:
    """Return what came out, then what differs; what is alike is counted."""
    lines: list[str] = []
    marks = [chr(ord("A") + i) for i in range(len(names))]
    for mark, name, sizing in zip(marks, names, comparison.sizings, strict=True):
        lines += wrap(style.letters(f"{sizing.design.name}  ({name})"), 5, f"  {mark}  ")
    lines += ["", section("WHAT COMES OUT", "differences first")]
    lines += _rows(comparison.results, marks, style)
    answers = [one for one in comparison.findings if one.differs]
    lines += ["", section("WHAT IS ANSWERED OTHERWISE")]
    lines += _rows(answers, marks, style) if answers else ["  Every question alike."]
    told = [one for one in comparison.fields if one.differs and one.name != "name"]
    lines += ["", section("WHAT IS SAID OTHERWISE", "in brackets: taken for granted")]
    lines += _rows(told, marks, style) if told else ["  Nothing."]
    alike = sum(not one.differs for one in comparison.fields)
    lines += ["", *wrap(f"{alike} fields are alike. Best of them: {marks[best]}.", 2)]
    return "\n".join(lines)


def _rows(found: Sequence[Line], marks: Sequence[str], style: Style) -> list[str]:
    room = max((WIDTH - 4 - max((len(one.name) for one in found), default=0)) // len(marks) - 2, 8)
    rows = [("", *marks)]
    for one in found:
        texts = [text if len(text) <= room else f"{text[: room - 3]}..." for text in one.texts]
        rows.append((one.name, *(style.words(text) for text in texts)))
    return [style.letters(line) for line in table(rows)]


def compare_json(comparison: Comparison, names: Sequence[str], best: int) -> str:
    """Return the comparison as JSON text."""

    def rows(found: Sequence[Line]) -> list[dict[str, Any]]:
        return [
            {"name": one.name, "texts": list(one.texts), "differs": one.differs} for one in found
        ]

    record = {
        "format": COMPARE_FORMAT,
        "designs": [
            {"file": name, "name": sizing.design.name, "verdict": sizing.verdict.value}
            for name, sizing in zip(names, comparison.sizings, strict=True)
        ],
        "best": best,
        "results": rows(comparison.results),
        "findings": rows(comparison.findings),
        "fields": rows(comparison.fields),
    }
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False)


def sensitivity_page(found: Sensitivity, design: Design, sizing: Sizing, style: Style) -> str:
    """Return what a millimetre or a tenth of every figure does, strongest on the peak first."""
    swings = sizing.turner.coordinate_unit == "rad"
    per, unit = (DEGREES, "°") if swings else (1e3, " mm")
    torque = "N·m" if sizing.drive.position_unit == "rad" else "N"
    words = wording_of(sizing.turner)
    high, low = per * found.high, -per * found.low
    now = f"{high:.1f}{unit} {words.high}, {low:.1f}{unit} {words.low}, {found.peak:.3g} {torque}"
    lines = wrap(style.letters(design.name))
    lines += wrap(style.words(f"As it stands: {now} at the hardest planned turn."), 2)
    lines += ["", section("WHAT EACH FIGURE DOES", "strongest on the hardest turn first")]
    rows = [("more of", "by", words.sides[0], words.sides[1], "hardest turn", "share")]
    for one in found.effects:
        share = one.peak / found.peak if found.peak else 0.0
        rows.append(
            (
                one.field,
                one.per,
                signed(per * one.high, 2, unit),
                signed(-per * one.low, 2, unit),
                signed(one.peak, 3, f" {torque}"),
                f"{100 * share:+.1f} %",
            )
        )
    lines += [style.letters(line) for line in table(rows)]
    lines += [
        "",
        *wrap(
            "What moves nothing is left out. By small steps up and down, so a big "
            "change may do more or less in proportion: try it with --set.",
            2,
        ),
    ]
    return "\n".join(lines)


def signed(value: float, digits: int, unit: str) -> str:
    """Return a change with its sign; a dot where it rounds to nothing."""
    text = f"{value:+.{digits}f}"
    return "·" if float(text) == 0.0 else f"{text}{unit}"


def sensitivity_json(found: Sensitivity, design: Design, sizing: Sizing) -> str:
    """Return the same as JSON text; keys carry their units."""
    swings = sizing.turner.coordinate_unit == "rad"
    per, unit = (DEGREES, "deg") if swings else (1e3, "mm")
    force = "peak_shaft_torque_Nm" if sizing.drive.position_unit == "rad" else "peak_push_N"
    record = {
        "format": SENSITIVITY_FORMAT,
        "design": {"name": design.name},
        f"high_end_{unit}": rounded(found.high, per),
        f"low_end_{unit}": rounded(found.low, per),
        force: rounded(found.peak),
        "effects": [
            {
                "field": one.field,
                "per": one.per,
                f"high_end_{unit}": rounded(one.high, per),
                f"low_end_{unit}": rounded(one.low, per),
                force: rounded(one.peak),
            }
            for one in found.effects
        ],
    }
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False)
