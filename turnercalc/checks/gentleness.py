"""Whether the eggs are moved gently, at the speed of the chosen motor."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import between, gravities, judged, rpm, seconds, source_of, worst
from turnercalc.findings import Answer, Finding
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.tables import limit
from turnercalc.timing import Timing

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
    if timing.peak_acceleration is None or timing.shortest_move is None:
        yield Finding(
            id=ID,
            title=TITLE,
            answer=Answer.NOTE,
            text=f"No motor yet: {most}; {timing.limits.fastest_because}.",
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
    text = f"{gravities(share)} moving, {_moves(timing)} a turn."
    if answer is not Answer.FINE:
        text = f"A turn in {_moves(timing)}, {gravities(share)}: too hard on the eggs. {most}."
    yield judged(ID, TITLE, share, hardest, text, answer=answer, fields=FIELDS)


def _moves(timing: Timing) -> str:
    shortest, longest = timing.shortest_move, timing.longest_move
    assert shortest is not None
    return seconds(shortest) if longest is None else between(seconds(shortest), seconds(longest))
