"""How far a stroke of the grid turns the eggs of each size; a whole number of turns is none."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_grid import on_grid
from turnercalc.checks.wording import degrees, judged, worst
from turnercalc.eggs.practice import left_of_turn
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "grid_turn"
TITLE = "Egg turn"
FIELDS = ("turning.egg_turn", "crank.radius", "eggs.cell_room", "eggs.smallest", "eggs.largest")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield how far eggs of each size roll, judged by what is left of whole turns."""
    grid = on_grid(evidence)
    if grid is None or math.isnan(evidence.ends.total):
        return
    small, typical, large = grid.turns_of(evidence.ends.total)
    rule = limit("egg_turn_net")
    usual, least = left_of_turn(typical), _least(large, small)
    own = rule.answer(math.degrees(usual))
    others = Answer.MARGINAL if rule.answer(math.degrees(least)) is Answer.NO else Answer.FINE
    answer = worst((own, others))
    text = (
        f"{degrees(typical, 0)} for a typical egg, {degrees(small, 0)} for the smallest, "
        f"{degrees(large, 0)} for the largest."
    )
    if own is not Answer.FINE:
        none = ": that is no turn" if own is Answer.NO else ""
        text = (
            f"A typical egg rolls {degrees(typical, 0)} and then lies {degrees(usual, 0)} from "
            f"where it lay{none}. A half turn, 180°, changes sides."
        )
    elif answer is not Answer.FINE:
        text += (
            f" Some of these sizes then lie only {degrees(least, 0)} from where they lay: whole "
            "turns count for nothing. Take less."
        )
    value = math.degrees(usual if answer is own else least)
    yield judged(ID, TITLE, value, rule, text, answer=answer, fields=FIELDS)


def _least(low: float, high: float) -> float:
    """Return the least that is left of whole turns over all turns between two [rad]."""
    if math.ceil(low / math.tau) <= math.floor(high / math.tau):
        return 0.0
    return min(left_of_turn(low), left_of_turn(high))
