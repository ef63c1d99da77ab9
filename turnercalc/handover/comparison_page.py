"""Designs side by side: page and JSON."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from turnercalc.handover.display import Style
from turnercalc.handover.layout import WIDTH, section, table, wrap

if TYPE_CHECKING:
    from collections.abc import Sequence

    from turnercalc.advice.compare import Comparison, Line

COMPARE_FORMAT = "turnercalc-compare/1"


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
