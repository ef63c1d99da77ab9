"""Whether the eggs lie otherwise after a move: a whole number of turns is none."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_bars import on_bars
from turnercalc.checks.wording import between, degrees, judged, seconds, worst
from turnercalc.eggs.practice import left_of_turn
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit
from turnercalc.turners.nests import Nest

ID = "egg_turn"
TITLE = "Egg turn"
FIELDS = ("turning.egg_turn", "bars.diameter", "eggs.smallest", "eggs.largest")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield how far the eggs of each size are turned, judged by what is left of whole turns."""
    found = on_bars(evidence)
    if found is None:
        return
    _, (small, typical, large) = found
    bar_turn = evidence.ends.total
    rule = limit("egg_turn_net")
    usual, least = left_of_turn(bar_turn * typical.turn), _least(bar_turn, large, small)
    answer = worst((rule.answer(math.degrees(usual)), _of_others(math.degrees(least))))
    turns = [degrees(bar_turn * nest.turn, 0) for nest in (typical, small, large)]
    text = (
        f"{turns[0]} for a typical egg, {turns[1]} for the smallest, {turns[2]} for the largest; "
        f"the bars turn {degrees(bar_turn, 0)}."
    )
    if rule.answer(math.degrees(usual)) is not Answer.FINE:
        text = (
            f"A typical egg turns {turns[0]} and then lies {degrees(usual, 0)} from where it lay"
            f"{': that is no turn' if rule.answer(math.degrees(usual)) is Answer.NO else ''}. "
            "A half turn, 180°, changes sides."
        )
    elif answer is not Answer.FINE:
        text += (
            f" Some of these sizes then lie only {degrees(least, 0)} from where they lay: whole "
            "turns count for nothing. Take less."
        )
    text += _times(evidence, typical, small, large)
    value = math.degrees(usual if answer is rule.answer(math.degrees(usual)) else least)
    yield judged(ID, TITLE, value, rule, text, answer=answer, fields=FIELDS)


def _of_others(least: float) -> Answer:
    """Return the answer for the size that fares worst [deg]: no turn of a few is marginal."""
    answer = limit("egg_turn_net").answer(least)
    return Answer.MARGINAL if answer is Answer.NO else Answer.FINE


def _least(bar_turn: float, large: Nest, small: Nest) -> float:
    """Return the least that is left of whole turns over all sizes from large to small [rad]."""
    low, high = bar_turn * large.turn, bar_turn * small.turn
    if math.ceil(low / math.tau) <= math.floor(high / math.tau):
        return 0.0
    return min(left_of_turn(low), left_of_turn(high))


def _times(evidence: Evidence, typical: Nest, small: Nest, large: Nest) -> str:
    """Return how long the wanted turn takes eggs of each size, where the motor's speed is known."""
    longest = evidence.timing.longest_move if evidence.timing else None
    if longest is None or not math.isfinite(longest):
        return ""
    times = [seconds(longest * typical.turn / nest.turn) for nest in (small, typical, large)]
    wanted = degrees(evidence.ends.total * typical.turn, 0)
    return f" {wanted} takes {between(times[0], times[2])}, a typical egg {times[1]}."
