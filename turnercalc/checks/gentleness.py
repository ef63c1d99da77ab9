"""Whether the eggs are moved gently, at the speed of the chosen motor."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import between, gravities, judged, rpm, seconds, source_of, worst
from turnercalc.findings import Answer, Finding
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.tables import limit

ID = "gentleness"
TITLE = "Gentleness"
FIELDS = ("motor.have", "gearing")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the hardest acceleration of the farthest egg; without a motor, how fast is gentle."""
    timing = evidence.timing
    if timing is None:
        return
    hardest, quickest = limit("peak_acceleration"), limit("move_time_shortest")
    most = f"{rpm(timing.limits.fastest)} at the driving shaft is the most"
    if (
        timing.peak_acceleration is None
        or timing.shortest_move is None
        or not math.isfinite(timing.shortest_move)
    ):
        yield Finding(
            id=ID,
            title=TITLE,
            answer=Answer.NOTE,
            text=f"{_why_not(evidence)}: {most}; {timing.limits.fastest_because}.",
            limit_fine=hardest.fine,
            limit_no=hardest.no,
            unit=hardest.unit,
            reason=hardest.reason,
            source=source_of(hardest),
            fields=FIELDS,
        )
        return
    share = timing.peak_acceleration / STANDARD_GRAVITY
    answer = worst((hardest.answer(share), quickest.answer(timing.shortest_move)))
    moves = _moves(timing.shortest_move, timing.longest_move)
    text = f"{gravities(share)} moving, {moves} a turn."
    if answer is not Answer.FINE:
        text = f"A turn in {moves}, {gravities(share)}: too hard on the eggs. {most}."
    yield judged(ID, TITLE, share, hardest, text, answer=answer, fields=FIELDS)


def _why_not(evidence: Evidence) -> str:
    """Return why no move can be timed."""
    if evidence.chosen is None:
        return "No motor yet"
    return "This motor's speed under load is not known, or it stands still"


def _moves(shortest: float, longest: float | None) -> str:
    """Return how long a move takes; one that never ends is for the motor's own checks."""
    if longest is None or not math.isfinite(longest):
        return seconds(shortest)
    return between(seconds(shortest), seconds(longest))
