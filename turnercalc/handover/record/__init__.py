"""One sizing as JSON.

Rules, for ever: the end of a key is the unit of its figure, in the symbol's own case (``_mm``,
``_N``, ``_Nm``, ``_deg``, ``_g0``); ranges are objects; what is not known is null and stands
with its reason under ``unknown``, or for a motor under its own ``not_listed``; NaN never
appears; within a format number keys are only added. Texts are for people, scripts use ids.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from turnercalc import __version__
from turnercalc.drives.wording import wording_of
from turnercalc.findings import Answer
from turnercalc.handover.cycle_record import records
from turnercalc.handover.record.gaps import Gaps
from turnercalc.handover.record.judgement import (
    assumed_record,
    change_record,
    finding_record,
    reason_record,
    unknown_records,
)
from turnercalc.handover.record.motors import motor_records, shopping_record
from turnercalc.handover.record.running import electric_record, running_record, warmth_record
from turnercalc.handover.record.turn import (
    gearing_record,
    linkage_record,
    load_records,
    motion_record,
    sensitivity_records,
    swing_record,
    timer_record,
)

if TYPE_CHECKING:
    from turnercalc.advice import Advice
    from turnercalc.sizing import Sizing

FORMAT = "turnercalc-sizing/1"

__all__ = ["FORMAT", "as_json", "exit_code", "no_turner_as_json", "sizing_record"]


def exit_code(sizing: Sizing, *, strict: bool = False) -> int:
    """Return 0 for fine or marginal, 1 for no; with `strict` marginal is 1 too."""
    if strict and sizing.verdict is Answer.MARGINAL:
        return 1
    return sizing.exit_code


def as_json(
    sizing: Sizing,
    advice: Advice,
    *,
    file: str | None = None,
    with_cycle: bool = False,
    strict: bool = False,
) -> str:
    """Return a sizing as JSON text; parameters as for `sizing_record`."""
    record = sizing_record(sizing, advice, file=file, with_cycle=with_cycle, strict=strict)
    indent = None if with_cycle else 2
    return json.dumps(record, indent=indent, ensure_ascii=False, allow_nan=False)


def no_turner_as_json(why: str, *, file: str) -> str:
    """Return the answer for eggs that are not turned: a verdict, a reason and nothing else."""
    record = {
        "format": FORMAT,
        "made_with": f"turnercalc {__version__}",
        "design": {"file": file},
        "verdict": Answer.NO.value,
        "reason": {"id": "species_turned", "text": why},
        "exit_code": 1,
    }
    return json.dumps(record, indent=2, ensure_ascii=False)


def sizing_record(
    sizing: Sizing,
    advice: Advice,
    *,
    file: str | None = None,
    with_cycle: bool = False,
    strict: bool = False,
) -> dict[str, Any]:
    """Return a sizing as a dictionary of plain values.

    Parameters
    ----------
    sizing : Sizing
        A complete result.
    advice : Advice
        What helps, best first.
    file : str, optional
        Name of the design file as it was given; the design's own by default.
    with_cycle : bool
        Add the turn cycle of every load in both directions.
    strict : bool
        Whether a marginal verdict counts as failed in the exit code.
    """
    gaps = Gaps()
    design = sizing.design
    changes = [change_record(change, gaps) for change in advice.changes]
    best = changes[0] if changes else None
    record: dict[str, Any] = {
        "format": FORMAT,
        "made_with": f"turnercalc {__version__}",
        "design": {
            "file": file or design.file or "",
            "name": design.name,
            "turner": design.turner,
            "drive": design.drive,
            "drawn_from": design.drawn_from,
        },
        "verdict": sizing.verdict.value,
        "reason": reason_record(sizing),
        "best_change": gaps.known("best_change", best, _why_no_change(sizing)),
        "other_changes": changes[1:],
        "shopping": shopping_record(sizing, gaps),
        **swing_record(sizing, gaps),
        "linkage": linkage_record(sizing, gaps),
        "gearing": gearing_record(sizing, gaps),
        "loads": load_records(sizing, gaps),
        "better_direction": _better_direction(sizing, gaps),
        "motion": motion_record(sizing, gaps),
        "timer": timer_record(sizing, gaps),
        "running": running_record(sizing, gaps),
        "supply": electric_record(sizing, gaps),
        "warmth": warmth_record(sizing, gaps),
        "chosen_motor": gaps.known(
            "chosen_motor", sizing.chosen and sizing.chosen.motor.id, "no motor is chosen"
        ),
        "motors": motor_records(sizing),
        "findings": [finding_record(finding, design, gaps) for finding in sizing.findings],
        "sensitivity": sensitivity_records(sizing),
        "assumed": [assumed_record(one) for one in sizing.assumed],
    }
    if with_cycle:
        record["cycles"] = records(sizing) if sizing.cycle is not None else []
    record["unknown"] = unknown_records(sizing) + gaps.records()
    record["notes"] = [{"lines": list(note.lines), "text": note.text} for note in design.notes]
    record["exit_code"] = exit_code(sizing, strict=strict)
    return record


def _why_no_change(sizing: Sizing) -> str:
    if sizing.verdict is Answer.FINE:
        return "nothing needs to be changed"
    return "no change that was tried makes it better"


def _better_direction(sizing: Sizing, gaps: Gaps) -> str | None:
    ways = wording_of(sizing.drive).ways
    found = None if sizing.cycle is None else ways[sizing.better_direction]
    return gaps.known("better_direction", found, "there is no turn cycle")
