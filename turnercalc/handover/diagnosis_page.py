"""What explains a measurement: a page and JSON."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from turnercalc.handover.display import Style
from turnercalc.handover.layout import wrap
from turnercalc.handover.numbers import rounded

if TYPE_CHECKING:
    from turnercalc.advice.diagnose import Diagnosis, Explanation
    from turnercalc.sizing import Sizing

FORMAT = "turnercalc-diagnosis/1"
_WHAT = {
    "ends": "the ends of the swing",
    "time": "the time of a move",
    "count": "the count",
    "current": "the current",
}


def page(sizing: Sizing, found: Diagnosis, style: Style) -> str:
    """Return what is off, every single error that explains it, and what to adjust first."""
    lines = wrap(style.letters(sizing.design.name))
    if found.log_read:
        lines += wrap(style.letters(_columns(found)))
    for text in _state(found):
        lines += ["", *wrap(text)]
    if found.explanations:
        lines += ["", "EACH OF THESE ALONE EXPLAINS IT"]
        lines += _listed(found.explanations, style)
    if found.partly:
        lines += ["", "WHAT EXPLAINS ONE OF THEM"]
        lines += _listed(found.partly, style)
    if found.adjustment is not None:
        lines += ["", "WHAT TO ADJUST FIRST", *wrap(style.words(found.adjustment.text), 2)]
    if found.not_judged:
        lines += ["", "NOT JUDGED"]
        for text in found.not_judged:
            lines += wrap(style.letters(text), 4, "  ")
    return "\n".join(lines)


def _columns(found: Diagnosis) -> str:
    """Return which columns of the log were read, and which were not."""
    told = f"Read in the log: {', '.join(found.log_read)}."
    if found.log_passed_over:
        told += f" Not read: {', '.join(found.log_passed_over)}."
    return told


def _state(found: Diagnosis) -> list[str]:
    """Return what is as it should be and what is not, and whether anything explains it."""
    told = []
    if found.right:
        told.append(f"As it should be: {_names(found.right)}.")
    if found.off:
        told.append(f"Not as it should be: {_names(found.off)}.")
    if found.unexplained:
        told.append(
            "Nothing single that was tried explains all of it. Look for two errors: put one right "
            "and measure again."
        )
    return told


def _names(which: Sequence[str]) -> str:
    return ", ".join(_WHAT[name] for name in which)


def _listed(several: Sequence[Explanation], style: Style) -> list[str]:
    lines = []
    for one in several:
        lines += wrap(style.words(one.text), 4, "  ")
    return lines


def as_json(sizing: Sizing, found: Diagnosis) -> str:
    """Return a diagnosis as JSON; sizes are in SI, as their key says."""
    adjustment = found.adjustment
    record: dict[str, Any] = {
        "format": FORMAT,
        "design": {"file": sizing.design.file or None, "name": sizing.design.name},
        "off": list(found.off),
        "right": list(found.right),
        "explanations": [_record(one) for one in found.explanations],
        "partly": [_record(one) for one in found.partly],
        "adjust_first": None
        if adjustment is None
        else {
            "field": adjustment.field,
            "by_mm": rounded(adjustment.by, 1e3),
            "to_mm": rounded(adjustment.to, 1e3),
            "text": adjustment.text,
        },
        "not_judged": list(found.not_judged),
        "log": {"read": list(found.log_read), "not_read": list(found.log_passed_over)},
    }
    return json.dumps(record, indent=2, ensure_ascii=False, allow_nan=False)


def _record(one: Explanation) -> dict[str, Any]:
    return {
        "id": one.id,
        "about": list(one.about),
        "error_si": rounded(one.error),
        "least_si": rounded(one.least),
        "most_si": rounded(one.most),
        "text": one.text,
    }
