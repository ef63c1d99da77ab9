"""How hard a rod pushes and pulls, going out and going in: what its eyes and pins have to take."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from turnercalc import units
from turnercalc.checks.evidence import Evidence
from turnercalc.drives.wording import wording_of
from turnercalc.findings import Answer, Finding
from turnercalc.loads import planned

ID = "push_and_pull"
TITLE = "Push and pull"


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the largest push and pull of a motor that moves in a line, at the highest friction."""
    cycle, demand = evidence.cycle, evidence.demand
    if cycle is None or demand is None or not demand.linear or cycle.bar_force is None:
        return
    push = -cycle.bar_force[planned(cycle), cycle.levels.index("high")]
    if np.isnan(push).any():
        return  # it jams, which has a check of its own
    out, inward = wording_of(evidence.drive).ways
    text = (
        f"Going {out} {_forces(push[:, 0])}; going {inward} {_forces(push[:, 1])}. Its eyes need "
        "pins that hold both."
    )
    yield Finding(
        id=ID,
        title=TITLE,
        answer=Answer.NOTE,
        text=text,
        value=float(np.abs(push).max()),
        unit="N",
        reason="Friction adds to the way it goes, so both differ with the direction.",
        source="balance of forces over the whole cycle, highest friction",
        fields=("actuator.eye_across", "actuator.eye_height"),
    )


def _forces(push: NDArray[np.float64]) -> str:
    """Return the largest push and the largest pull in words."""
    most, least = float(push.max()), float(push.min())
    told = [f"it pushes with up to {units.show(most, 'force')}"] if most > 0.0 else []
    if least < 0.0:
        told.append(f"{'' if told else 'it '}pulls with up to {units.show(-least, 'force')}")
    return " and ".join(told) or "it is not needed"
