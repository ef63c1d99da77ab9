"""Whether a cradle walks away over the days."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.runner_grip import ways_it_runs
from turnercalc.checks.wording import judged, millimetres
from turnercalc.findings import Answer, Finding
from turnercalc.loads import planned
from turnercalc.parts.footing import creep
from turnercalc.tables import limit
from turnercalc.turners.rocking_cradle import RockingCradle

ID = "runner_creep"
TITLE = "Walking"
FIELDS = ("cradle.straps", "box.leans", "cradle.filled", "turning.turns_per_day")
MOVES_A_CYCLE = 2


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield about how far the cradle creeps along its floor in a day."""
    cradle, cycle = evidence.turner, evidence.cycle
    if not isinstance(cradle, RockingCradle) or not cradle.rolls_on_floor or cycle is None:
        return
    rule = limit("runner_creep")
    if cradle.strapped:
        text = "Crossed straps bring it back to its mark in every turn."
        yield judged(ID, TITLE, None, rule, text, answer=Answer.FINE, fields=FIELDS)
        return
    if cycle.bar_force is None:
        return
    cycles = evidence.ingredients.sections["turning"].turns_per_day / MOVES_A_CYCLE
    found = [
        (abs(step), way, load)
        for way in ways_it_runs(evidence)
        for load, step in enumerate(cycles * creep(cradle, cycle, way))
        if planned(cycle)[load]
    ]
    if np.isnan([step for step, _, _ in found]).any():
        return  # it slides: its grip is judged, and how far it goes nobody can say
    far, way, load = max(found)
    towards = "right" if creep(cradle, cycle, way)[load] > 0.0 else "left"
    told = f"{_told(far)} a day to the {towards} with the load {cycle.loads[load].name}"
    text = f"Roughly {told}: mark where the runners stand when level, and look once a week."
    if rule.answer(1e3 * far) is not Answer.FINE:
        text = (
            f"It creeps, roughly {told}, and then one end gets steeper than the other. Crossed "
            "straps from runner to floor stop it; so does a stop at each end of the track."
        )
    # Too rough a figure to lower a verdict by: a note at most.
    answer = Answer.FINE if rule.answer(1e3 * far) is Answer.FINE else Answer.NOTE
    yield judged(ID, TITLE, 1e3 * far, rule, text, answer=answer, fields=FIELDS)


def _told(length: float) -> str:
    """Return how far it creeps, no finer than a rough figure deserves."""
    if length < 5e-5:
        return "less than 0.1 mm"
    return millimetres(length, 1 if length < 1e-3 else 0)
