"""Designs side by side: page and JSON."""

from __future__ import annotations

import json
import math
import textwrap
from itertools import zip_longest
from typing import TYPE_CHECKING, Any

from turnercalc.handover.display import Style
from turnercalc.handover.layout import WIDTH, section, table, wrap

if TYPE_CHECKING:
    from collections.abc import Sequence

    from turnercalc.advice.compare import Best, Comparison, Line

COMPARE_FORMAT = "turnercalc-compare/1"
#: Narrowest column of a design; where more of them do not fit, the rest stands below.
NARROWEST = 16
#: What stands where a design has no such thing.
NOTHING = "-"


def compare_page(comparison: Comparison, names: Sequence[str], style: Style) -> str:
    """Return what came out, then what differs; what is alike is counted."""
    lines: list[str] = []
    marks = marks_of(len(names))
    for mark, name, sizing in zip(marks, names, comparison.sizings, strict=True):
        lines += wrap(style.letters(f"{sizing.design.name}  ({name})"), 5, f"  {mark}  ")
    lines += ["", section("WHAT COMES OUT", "differences first")]
    lines += _rows(comparison.results, marks, style)
    lines += without_motor(comparison, marks, style)
    lines += why_not_fine(comparison, marks, style)
    answers = [one for one in comparison.findings if one.differs]
    lines += ["", section("WHAT IS ANSWERED OTHERWISE")]
    lines += _rows(answers, marks, style) if answers else ["  Every question alike."]
    told = [one for one in comparison.fields if one.differs and one.name != "name"]
    lines += ["", section("WHAT IS SAID OTHERWISE", "in brackets: taken for granted")]
    lines += _rows(told, marks, style) if told else ["  Nothing."]
    alike = sum(not one.differs for one in comparison.fields)
    lines += ["", *wrap(f"{alike} fields are alike.", 2)]
    lines += wrap(style.words(best_told(comparison, marks)), 2)
    return "\n".join(lines)


def marks_of(count: int) -> list[str]:
    """Return a letter for each design; numbers where the letters do not do."""
    if count > 26:
        return [str(number) for number in range(1, count + 1)]
    return [chr(ord("A") + at) for at in range(count)]


def without_motor(comparison: Comparison, marks: Sequence[str], style: Style) -> list[str]:
    """Return which designs are judged without their motor, and what that does to the verdicts."""
    if not comparison.without_motor:
        return []
    names = [comparison.sizings[at].design["motor"].have for at in comparison.without_motor]
    told = [
        f'{marks[at]} is judged without a motor: its "{name}" is not in the motor file.'
        for at, name in zip(comparison.without_motor, names, strict=True)
    ]
    return ["", *wrap(style.letters(" ".join(told)), 2)]


def why_not_fine(comparison: Comparison, marks: Sequence[str], style: Style) -> list[str]:
    """Return the one reason of every verdict that is not fine."""
    told = [
        f"{mark} is {sizing.verdict.value.upper()}. {reason}"
        for mark, sizing, reason in zip(marks, comparison.sizings, comparison.reasons, strict=True)
        if reason
    ]
    lines = [line for text in told for line in wrap(style.letters(style.words(text)), 4, "  ")]
    return ["", *lines] if lines else []


def best_told(comparison: Comparison, marks: Sequence[str]) -> str:
    """Return which design is best, and why, in a sentence or two."""
    best = comparison.best
    without = ""
    if comparison.verdicts != tuple(one.verdict for one in comparison.sizings):
        without = " with the motors left out"
    if best.at is None:
        alike = [f"verdict{without}", "open questions", *(["hardest turn"] if best.unit else [])]
        aside = "" if best.unit else " A torque and a push cannot be compared."
        which = listed([marks[at] for at in best.among])
        return f"Best of them: none. {which} are alike in {listed(alike)}.{aside}"
    return f"Best of them: {marks[best.at]}, {why_best(best, marks, without)}."


def why_best(best: Best, marks: Sequence[str], without: str) -> str:
    """Return what sets the best design before the others that were as good until then."""
    figures = dict(zip(best.among, best.figures, strict=True))
    own = figures.pop(best.at) if best.at is not None else None
    if best.by == "verdict":
        return f"the only one that is {own}{without}"
    with_it = listed([marks[at] for at in figures])
    alike = "" if len(best.among) == len(marks) else f"before {with_it}, "
    if best.by == "open questions":
        return (
            f"{alike}alike in verdict{without}, by the fewest answers that are marginal or no: "
            f"{own} against {min(figures.values())}"
        )
    least = min(figures.values())
    against = f"{least:.3g} {best.unit}" if math.isfinite(least) else "one that jams"
    return (
        f"{alike}as good in its answers{without}, by the easiest turn: {own:.3g} {best.unit} "
        f"against {against}"
    )


def listed(names: Sequence[str]) -> str:
    """Return names in a row: ``A, B and C``."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _rows(found: Sequence[Line], marks: Sequence[str], style: Style) -> list[str]:
    """Return a table with a column for each design, in as many blocks as fit the width.

    A row of which no design of a block has anything is left out of that block.
    """
    name_room = max(len(one.name) for one in found)
    texts = [[style.words(text) for text in one.texts] for one in found]
    longest = max(len(text) for row in texts for text in row)
    free = WIDTH - 2 - name_room
    together = max(min(len(marks), free // (min(longest, NARROWEST) + 2)), 1)
    lines: list[str] = []
    for start in range(0, len(marks), together):
        part = slice(start, start + together)
        room = free // len(marks[part]) - 2
        rows: list[Sequence[str]] = [("", *marks[part])]
        for one, row in zip(found, texts, strict=True):
            if any(text != NOTHING for text in row[part]):
                rows += _wrapped(one.name, row[part], room)
        lines += ([""] if lines else []) + [style.letters(line) for line in table(rows)]
    return lines


def _wrapped(name: str, texts: Sequence[str], room: int) -> list[Sequence[str]]:
    """Return a row, of several lines where a text is longer than its column."""
    cells = [textwrap.wrap(text, room, break_on_hyphens=False) or [""] for text in texts]
    lines = zip_longest([name], *cells, fillvalue="")
    return [tuple(line) for line in lines]


def compare_json(comparison: Comparison, names: Sequence[str]) -> str:
    """Return the comparison as JSON text."""

    def rows(found: Sequence[Line]) -> list[dict[str, Any]]:
        return [
            {"name": one.name, "texts": list(one.texts), "differs": one.differs} for one in found
        ]

    best = comparison.best
    record = {
        "format": COMPARE_FORMAT,
        "designs": [
            {"file": name, "name": sizing.design.name, "verdict": sizing.verdict.value}
            for name, sizing in zip(names, comparison.sizings, strict=True)
        ],
        "best": best.at,
        "best_by": best.by,
        "reasons": [reason or None for reason in comparison.reasons],
        "without_motor": list(comparison.without_motor),
        "results": rows(comparison.results),
        "findings": rows(comparison.findings),
        "fields": rows(comparison.fields),
    }
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False)
