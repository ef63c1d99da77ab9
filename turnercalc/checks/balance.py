"""Whether loaded trays want to stay level, or to fall over to a side."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from turnercalc.checks.evidence import Evidence
from turnercalc.findings import Answer, Finding

ID = "balance"
TITLE = "Balance"
NEAR_LEVEL = np.radians(2.0)


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield a note where the full load is top-heavy: it runs ahead of the drive past level."""
    cycle = evidence.cycle
    if cycle is None or evidence.turner.coordinate_unit != "rad":
        return
    fullest = max(cycle.loads, key=lambda case: case.egg_count)
    around = np.array([-NEAR_LEVEL, NEAR_LEVEL])
    torque = evidence.turner.load_torque(fullest.cells[None].astype(float), around, np.ones(1))
    before, after = torque.reshape(-1, 2)[0]
    if after >= before:
        return
    yield Finding(
        id=ID,
        title=TITLE,
        answer=Answer.NOTE,
        text="With all eggs in it is top-heavy: past level it runs ahead and leans on the drive. "
        "Pivots nearer to the height of the eggs' middle need less torque.",
        reason="A weight above its pivot falls away from level; one below it comes back.",
        source="statics",
        fields=("trays.egg_floor", "trays.balance"),
    )
