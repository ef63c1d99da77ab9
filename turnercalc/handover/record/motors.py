"""Motors and the shopping line as records."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from turnercalc.findings import Answer
from turnercalc.handover.motor_list import motor_record
from turnercalc.handover.numbers import rounded
from turnercalc.handover.record.gaps import Gaps
from turnercalc.handover.record.judgement import finding_record

if TYPE_CHECKING:
    from turnercalc.motors import MotorResult
    from turnercalc.sizing import Sizing

_RPM = 30.0 / math.pi


def shopping_record(sizing: Sizing, gaps: Gaps) -> dict[str, Any] | None:
    """Return what to look for in a listing."""
    shopping = sizing.shopping
    if gaps.known("shopping", shopping, "there is no turn cycle") is None:
        return None
    assert shopping is not None
    mains = gaps.number(
        "shopping mains_frequency_Hz", shopping.frequency, "the design names no mains frequency"
    )

    def least(name: str, value: float) -> float | None:
        return gaps.number(f"shopping {name}", value, "friction jams the drive")

    record: dict[str, Any]
    if sizing.demand is not None and sizing.demand.linear:
        record = {
            "rated_force_min_N": least("rated_force_min_N", shopping.rated_torque_min),
            "speed_min_mm_per_s": rounded(shopping.speed_min, 1e3),
            "speed_max_mm_per_s": rounded(shopping.speed_max, 1e3),
        }
    else:
        record = {
            "rated_torque_min_Nm": least("rated_torque_min_Nm", shopping.rated_torque_min),
            "stall_torque_min_Nm": least("stall_torque_min_Nm", shopping.stall_torque_min),
            "speed_min_rpm": rounded(shopping.speed_min, _RPM),
            "speed_max_rpm": rounded(shopping.speed_max, _RPM),
            "holding_torque_Nm": rounded(shopping.holding_torque),
        }
    return {
        **record,
        "mains_frequency_Hz": mains,
        "must_hold_when_off": shopping.must_hold_when_off,
        "motor_classes": list(shopping.motor_classes),
        "text": shopping.text,
    }


def motor_records(sizing: Sizing) -> list[dict[str, Any]]:
    """Return every motor of the file, best first."""
    return [_motor(sizing, result) for result in sizing.motors]


def _motor(sizing: Sizing, result: MotorResult) -> dict[str, Any]:
    motor = result.motor
    linear = sizing.demand is not None and sizing.demand.linear
    record: dict[str, Any] = {
        "id": motor.id,
        "row": motor.line,
        "chosen": result is sizing.chosen,
        "verdict": result.verdict.value,
        "times_enough": rounded(result.times_enough),
        "corner": rounded(result.corner),
        f"dependable_{'force_N' if linear else 'torque_Nm'}": rounded(result.dependable),
        "dependable_from": result.dependable_from or None,
        "shortest_move_s": rounded(result.shortest_move),
        "longest_move_s": rounded(result.longest_move),
        "average_heat_in_box_W": rounded(result.average_heat_in_box),
        **motor_record(motor),
    }
    record["not_listed"] = [key for key, value in record.items() if value is None]
    record |= {
        "why": result.why,
        "findings": [f.id for f in result.findings if f.answer is not Answer.FINE],
        "checks": [finding_record(finding, sizing.design) for finding in result.findings],
        "if_so": [_judged(other) for other in result.if_so],
    }
    # These two are answers to "what if"; without such a question they are left out.
    if result.staged is not None:
        record["stage_that_would_do"] = {
            "kind": result.staged.kind,
            "pairs": [
                {"motor_teeth": motor, "driven_teeth": driven}
                for motor, driven in result.staged.pairs
            ],
            **_judged(result.staged.result),
        }
    if result.without_stages is not None:
        record["without_stages"] = _judged(result.without_stages)
    return record


def _judged(result: MotorResult) -> dict[str, Any]:
    return {"verdict": result.verdict.value, **_figures(result)}


def _figures(result: MotorResult) -> dict[str, Any]:
    """Return what a possible reading of a row would give; keys without a figure are left out."""
    found = {
        "times_enough": rounded(result.times_enough),
        "dependable_torque_Nm": rounded(result.dependable),
    }
    return {key: value for key, value in found.items() if value is not None}
