"""How one-sided the drum is, full, empty and at its worst."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_drum import between_shelves, on_drum
from turnercalc.checks.wording import millimetres, newton_metres
from turnercalc.findings import Answer, Finding

ID = "imbalance"
TITLE = "Imbalance"
FIELDS = ("drum.filled", "drum.empty_balance", "drum.counterweight", "drum.shelf_radius")
#: An empty drum is called out of balance from this share of one full shelf.
WORTH_SAYING = 0.05


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield what the heavy side asks for when it is level with the axle, without friction."""
    drum = on_drum(evidence)
    if drum is None:
        return
    cases = drum.load_cases()
    every = drum.imbalance(np.stack([case.cells for case in cases]).astype(float))
    planned = [i for i, case in enumerate(cases) if case.planned]
    worst = max(planned, key=lambda i: float(every[i]))
    text = f"{newton_metres(float(every[worst]))} at the worst you plan: {cases[worst].name}"
    hardest = int(np.argmax(every))
    if every[hardest] > 1.01 * every[worst]:
        text += f"; {newton_metres(float(every[hardest]))} with {cases[hardest].name}"
    full, empty = (
        float(every[next(i for i, case in enumerate(cases) if case.family == name)])
        for name in ("full", "empty")
    )
    text += f". {newton_metres(full)} full, {newton_metres(empty)} empty."
    share = float(np.hypot(*drum.empty_in_shelves))
    if share > WORTH_SAYING and drum.counterweight is None:
        weight = drum.balancing_weight(float(drum.shelf_radius))
        text += (
            f" {1e3 * weight.mass:.2g} g {millimetres(weight.radius)} from the axle toward "
            f"{between_shelves(weight.shelf, drum.shelves)} would balance the empty drum."
        )
    yield Finding(
        id=ID,
        title=TITLE,
        answer=Answer.NOTE,
        text=text,
        value=float(every[worst]),
        unit="N·m",
        reason="It is what the motor has to lift once in every turn, and to hold back once.",
        source="statics",
        fields=FIELDS,
    )
