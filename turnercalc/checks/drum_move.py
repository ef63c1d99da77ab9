"""How far the drum goes in one move, and whether another side of the eggs then lies on top."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_drum import on_drum
from turnercalc.checks.wording import degrees, judged
from turnercalc.eggs.practice import left_of_turn
from turnercalc.findings import Answer, Finding
from turnercalc.swing import lengths
from turnercalc.tables import limit

ID = "drum_move"
TITLE = "One move"
#: Off by more than this from what was asked for, it is said [rad].
WORTH_SAYING = math.radians(1.0)


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the move with the whole swing beside it, judged by how far the eggs lie turned."""
    ends, drum = evidence.ends, on_drum(evidence)
    if drum is None or math.isnan(ends.total):
        return
    net = left_of_turn(ends.total)
    rule = limit("drum_turn")
    if drum.endless:
        text = f"{degrees(ends.total)} on, always the same way round"
    elif abs(ends.high + ends.low) < WORTH_SAYING:
        text = f"{degrees(0.5 * ends.total)} to each side, {degrees(ends.total)} in all"
    else:
        text = (
            f"{degrees(ends.high)} anticlockwise and {degrees(-ends.low)} clockwise of shelf 1 on "
            f"top, {degrees(ends.total)} in all"
        )
    asked = drum.travel[1]
    off = max(abs(ends.high - asked), 0.0 if drum.endless else abs(ends.low + asked))
    if off > WORTH_SAYING:
        text += f"; you asked for {degrees(asked)} each side"
    if net > WORTH_SAYING and abs(net - ends.total) > WORTH_SAYING:
        text += f". Less whole turns the eggs lie {degrees(net)} from where they lay"
    text += _too_little(rule.answer(math.degrees(net)), net, rule.fine or 0.0)
    yield judged(
        ID,
        TITLE,
        math.degrees(net),
        rule,
        f"{text}.",
        fields=("turning.swing", "turning.step", *lengths(evidence.turner, evidence.drive)),
    )


def _too_little(answer: Answer, net: float, wanted: float) -> str:
    """Return what is wrong with a move that brings no other side up."""
    if answer is Answer.FINE:
        return ""
    if net < WORTH_SAYING:
        return ": the same side comes up again, as if nothing had moved at all"
    return f": {wanted:g}° is as good as 90°" if answer is Answer.MARGINAL else ": no turn at all"
