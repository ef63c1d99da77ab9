"""Whether friction alone can hold the drive, however strong the motor."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import amount
from turnercalc.cycle import TurnCycle
from turnercalc.drives.wording import wording_of as words_of_drive
from turnercalc.findings import Answer, Finding
from turnercalc.loads import planned
from turnercalc.turners.wording import wording_of

ID = "jam"
TITLE = "Jams"
#: Friction level -> how bad a jam there is: with ordinary friction it will happen, with the
#: highest, or from rest only, it may.
ANSWERS = {"low": Answer.NO, "middle": Answer.NO, "high": Answer.MARGINAL}


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield a finding where forces and friction do not agree with any planned load."""
    if evidence.cycle is None:
        return
    for cycle in (evidence.cycle, evidence.starting):
        if cycle is None:
            continue
        for place, level in enumerate(cycle.levels):
            where = _where(cycle, place)
            if where is not None:
                yield _found(evidence, level, where)
                return


def _where(cycle: TurnCycle, level: int) -> float | None:
    """Return the coordinate of the first jam at a friction level."""
    stuck = cycle.jams[planned(cycle)][:, level].any(axis=(0, 1)) & cycle.motion.closes
    at = np.flatnonzero(stuck)
    return float(cycle.motion.coordinate[at[0]]) if at.size else None


def _found(evidence: Evidence, level: str, where: float) -> Finding:
    away = f"{amount(evidence.turner, abs(where), 0)} from {wording_of(evidence.turner).middle}"
    words = words_of_drive(evidence.drive)
    hint = getattr(evidence.turner, "jam_hint", None)
    remedy = hint(where) if hint is not None else ""
    angle = f" or a larger angle between {words.bar} and arm help" if words.bar else " help"
    remedy = remedy or f"Better bearings, thinner pins{angle}."
    how = {
        "starting": "from rest, with the highest friction",
        "high": "with the highest friction",
        "low": "even with the lowest friction",
    }.get(level, f"with {level} friction")
    return Finding(
        id=ID,
        title=TITLE,
        answer=ANSWERS.get(level, Answer.MARGINAL),
        text=f"About {away} friction alone holds it {how}, however strong the motor. {remedy}",
        reason="Where every newton of push makes more than a newton of friction, nothing moves.",
        source="balance of forces with Coulomb friction at every pin",
        fields=(*evidence.own_fields("bearing", "diameter"), *words.pins, *words.lengths),
    )
