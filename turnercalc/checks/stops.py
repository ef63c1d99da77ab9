"""Whether something better than a clock stops a drum that goes to and fro."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.findings import Answer, Finding

ID = "stops"
TITLE = "Stops"
FIELDS = ("motor.stopped_by",)


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield a caution where only time ends a move that has to end at a place."""
    if evidence.design["motor"].stopped_by != "timer" or evidence.drive.both_ways is False:
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
