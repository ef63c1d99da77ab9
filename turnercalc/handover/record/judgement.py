"""Findings, advice, what was assumed and what is not known, as records."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from turnercalc.handover.numbers import rounded
from turnercalc.handover.record.gaps import Gaps

if TYPE_CHECKING:
    from turnercalc.advice import Change
    from turnercalc.design import Design
    from turnercalc.findings import Assumed, Finding
    from turnercalc.sizing import Sizing


def reason_record(sizing: Sizing) -> dict[str, Any]:
    """Return the one finding that decides the verdict, and the load it is about if it is one."""
    reason: dict[str, Any] = {"check": sizing.reason.id}
    named = (
        [case.id for case in sizing.cycle.loads if f'"{case.name}"' in sizing.reason.text]
        if (sizing.cycle is not None)
        else []
    )
    if named:
        reason["load"] = named[0]
    return {**reason, "text": sizing.reason.text}


def change_record(change: Change, gaps: Gaps) -> dict[str, Any]:
    """Return one change and what it brings."""
    name = f"change {change.id}"
    why = "no motor is chosen, or the motor does not get through"
    return {
        "id": change.id,
        "set": dict(change.settings),
        "text": change.say,
        "verdict_after": change.verdict_after.value,
        **({"still": change.still} if change.still else {}),
        **({"better": list(change.gained)} if change.gained else {}),
        "peak_shaft_torque_after_Nm": gaps.number(
            f"{name} peak_shaft_torque_after_Nm", change.peak_after, "there is no turn cycle"
        ),
        "times_enough_after": gaps.number(
            f"{name} times_enough_after", change.times_enough_after, why
        ),
        "longest_move_after_s": gaps.number(
            f"{name} longest_move_after_s", change.move_time_after, why
        ),
    }


def finding_record(finding: Finding, design: Design, gaps: Gaps | None = None) -> dict[str, Any]:
    """Return one answer with its figure, its limits, and the lines of the file that decide it.

    A finding without a figure or a limit leaves these keys out: nothing is unknown about them.
    """
    record: dict[str, Any] = {
        "id": finding.id,
        "title": finding.title,
        "answer": finding.answer.value,
    }
    if finding.value is not None:
        value = rounded(finding.value)
        if gaps is not None:
            gaps.known(f"finding {finding.id}", value, finding.text, finding.ask)
        record |= {"value": value, "unit": finding.unit}
    for name in ("limit_fine", "limit_no"):
        limit = rounded(getattr(finding, name))
        if limit is not None:
            record[name] = limit
    lines = [design.line(field) for field in finding.fields]
    return {
        **record,
        "text": finding.text,
        "reason": finding.reason,
        "source": finding.source,
        "fields": list(finding.fields),
        "lines": [line for line in lines if line is not None],
        "caps_verdict": finding.caps_verdict,
    }


def assumed_record(one: Assumed) -> dict[str, Any]:
    """Return one thing that was taken for granted."""
    return {"field": one.field, "value": one.text, "source": one.source, "how": one.how}


def unknown_records(sizing: Sizing) -> list[dict[str, str]]:
    """Return what is not known of the design, or only half, and of the chosen motor."""
    own = sizing.chosen.findings if sizing.chosen else ()
    design = sizing.design
    half = [
        {
            "field": path,
            "why": f"half known: {design.origin[path].text}; its middle was taken",
            "ask_or_test": "Measure it, or let turnercalc tolerance draw it.",
        }
        for path in design.half_known
    ]
    return half + [
        {
            "field": _whose(sizing, finding) if finding in own else finding.id,
            "why": finding.text,
            "ask_or_test": finding.ask,
        }
        for finding in sizing.unknown
    ]


def _whose(sizing: Sizing, finding: Finding) -> str:
    assert sizing.chosen is not None
    return f"motor {sizing.chosen.motor.id} {finding.id}"
