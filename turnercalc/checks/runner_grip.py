"""Whether the runners roll on their floor, or slide."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import judged, place
from turnercalc.findings import Answer, Finding
from turnercalc.parts.footing import Hardest, grip_needed, strap_pull
from turnercalc.tables import limit
from turnercalc.turners.rocking_cradle import RockingCradle

ID = "runner_grip"
TITLE = "Grip"
FIELDS = (
    "cradle.runners",
    "cradle.grip",
    "cradle.straps",
    "cradle.runner_radius",
    "cradle.egg_floor",
    "pin.across",
    "pin.height",
)


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the friction coefficient that rolling needs against the least the floor gives."""
    cradle, cycle = evidence.turner, evidence.cycle
    if not isinstance(cradle, RockingCradle) or not cradle.rolls_on_floor or cycle is None:
        return
    ways = ways_it_runs(evidence)
    rule, asked = limit("runner_grip"), grip_needed(cycle, ways)
    if not math.isfinite(asked.value) or asked.value < 0.0:
        text = (
            f"The drive lifts the runners off the floor {_at(evidence, asked)}. A drive that pulls "
            "less steeply, or a heavier cradle, keeps them down."
        )
        yield judged(ID, TITLE, 0.0, rule, text, answer=Answer.NO, fields=FIELDS)
        return
    if cradle.strapped:
        pull = strap_pull(cycle, ways).value
        text = (
            f"Crossed straps hold the runners, with up to {pull:.0f} N in all; friction alone "
            f"would need a coefficient of {asked.value:.2f}."
        )
        yield judged(ID, TITLE, None, rule, text, answer=Answer.FINE, fields=FIELDS)
        return
    times = cradle.grip.low / asked.value if asked.value > 0.0 else math.inf
    answer = rule.answer(min(times, 1e6))
    need = f"Rolling needs a friction coefficient of {asked.value:.2f} {_at(evidence, asked)}"
    floor = evidence.ingredients.sections["cradle"].runners
    text = f"{need}; {floor} gives {cradle.grip.low:.2g} or more."
    if answer is not Answer.FINE:
        slides = "the runners slide" if answer is Answer.NO else "the runners may slide when damp"
        text = (
            f"{need}; {floor} gives as little as {cradle.grip.low:.2g}, so {slides} instead of "
            "rolling. Crossed straps, rubber on the runners, or a drive that pulls straight up "
            "and down hold them."
        )
    yield judged(ID, TITLE, min(times, 1e6), rule, text, answer=answer, fields=FIELDS)


def ways_it_runs(evidence: Evidence) -> Sequence[int]:
    """Return the directions it may run in: both where the drive or the motor needs both."""
    demand = evidence.demand
    if demand is None or demand.both_directions_needed:
        return (0, 1)
    return evidence.chosen.directions if evidence.chosen else (demand.better_direction,)


def _at(evidence: Evidence, asked: Hardest) -> str:
    """Return where and with which load."""
    assert evidence.cycle is not None
    where = place(evidence.turner, asked.coordinate, asked.rises)
    return f"at {where} ({evidence.cycle.loads[asked.load].name})"
