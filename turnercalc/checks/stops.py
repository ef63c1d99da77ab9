"""Whether what stops a move can stop it: to and fro, or step by step."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.findings import Answer, Finding

ID = "stops"
TITLE = "Stops"
FIELDS = ("motor.stopped_by",)


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield a caution where only time ends a move at a place, or an end that there is not."""
    stopped_by = evidence.design["motor"].stopped_by
    if evidence.turner.endless and stopped_by == "end switches":
        yield Finding(
            id=ID,
            title=TITLE,
            answer=Answer.NO,
            text="It goes on the same way round and has no ends: an end switch would stop it once "
            "and for all. A park switch with a notch for every step, or counted steps, stop it.",
            reason="Two end switches belong to a part that turns back.",
            source="definition",
            fields=(*FIELDS, "turning.motion"),
        )
    if stopped_by != "timer" or not evidence.drive.both_ways:
        return
    yield Finding(
        id=ID,
        title=TITLE,
        answer=Answer.MARGINAL,
        text="Nothing but the clock ends a move: a one-sided drum goes further down than up, and "
        "wanders a little every time. Two end switches stop it where it should.",
        reason="A motor turns faster where the load pulls than where it hinders.",
        source="the motor's line of torque and speed",
        fields=FIELDS,
    )
