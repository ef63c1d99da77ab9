"""Whether the grid comes to rest at its ends, so that the next stroke is a whole one."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_grid import on_grid
from turnercalc.findings import Answer, Finding
from turnercalc.timing import Timing

ID = "grid_stops"
TITLE = "Stops"
FIELDS = ("motor.stopped_by",)
CURE = "A park switch or two end switches stop it at its ends."


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield what a bare timer does to the strokes; switches and counted steps keep the ends."""
    timing = evidence.timing
    if on_grid(evidence) is None or timing is None or timing.stopped_by != "timer":
        return
    answer, text = _told(timing, to_and_fro=evidence.drive.both_ways)
    yield Finding(
        id=ID,
        title=TITLE,
        answer=answer,
        text=text,
        reason="A stroke that begins and ends half way rolls the eggs out and back again.",
        source="geometry; what a timer does is reckoned from the motor's speed under load",
        fields=FIELDS,
    )


def _told(timing: Timing, *, to_and_fro: bool) -> tuple[Answer, str]:
    drift, count = timing.drift, timing.counts.last_day_count
    if to_and_fro or drift is None:
        return Answer.MARGINAL, f"Nothing but the clock ends a stroke, and it wanders. {CURE}"
    if drift.quarter_after is not None and drift.quarter_after < count:
        return (
            Answer.NO,
            f"By time alone it parks half way after {drift.quarter_after} turns, and then rolls "
            f"the eggs out and back again, which is no turn. {CURE}",
        )
    if drift.flat_after is not None and drift.flat_after < count:
        return (
            Answer.MARGINAL,
            f"By time alone the strokes get shorter after {drift.flat_after} turns. {CURE}",
        )
    return Answer.FINE, "By time alone it still keeps its ends through all the days of turning."
