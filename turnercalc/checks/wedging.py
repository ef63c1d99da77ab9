"""Whether an egg wedges between its bars where one of them stands and the other turns."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.belt_grip import times_gripped
from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_bars import on_bars
from turnercalc.checks.wording import degrees, judged
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit
from turnercalc.turners.rolling_bars import RollingBars

ID = "wedging"
TITLE = "A bar stands"
FIELDS = ("bars.surface", "bars.pitch", "bars.joined_by", "eggs.smallest")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield what is left to the angle at which the smallest egg, the deepest, is drawn in.

    It counts where a bar may stay behind: on a belt that hardly grips, or on a motor of its own.
    """
    found = on_bars(evidence)
    if found is None:
        return
    bars, sizes = found
    deepest = next(nest for nest in sizes if not nest.drops)
    rule = limit("wedge_margin")
    friction = math.atan(bars.egg_friction.high)
    in_hand = 0.5 * math.pi - deepest.angle - friction
    answer = rule.answer(math.degrees(in_hand))
    text = (
        f"Nest and friction leave {degrees(in_hand, 0)} to where a bar that stands beside one that "
        "turns would draw the smallest egg in."
    )
    if answer is not Answer.FINE:
        text = (
            "Should a bar ever stand beside one that turns, grip and deep nests draw the smallest "
            "eggs in and press them with all the motor has. "
        )
        text += "Smoother bars, or a tighter pitch, let them slip."
        if not may_stay_behind(bars, evidence):
            answer = Answer.NOTE
    yield judged(ID, TITLE, math.degrees(in_hand), rule, text, answer=answer, fields=FIELDS)


def may_stay_behind(bars: RollingBars, evidence: Evidence) -> bool:
    """Tell whether one bar may stand while the others turn."""
    if bars.joining.one_each:
        return True
    times = None if evidence.cycle is None else times_gripped(bars, evidence.cycle)
    return times is not None and limit("belt_grip").answer(times) is not Answer.FINE
