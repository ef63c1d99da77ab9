"""Whether the smallest egg stays in its seat at the steepest end."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.tilt import true_ends
from turnercalc.checks.wording import degrees, judged
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "retention"
TITLE = "Eggs stay in"
FIELDS = ("eggs.cell_wall", "eggs.cell_room", "eggs.smallest", "eggs.hole", "turning.tilt")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield how much more tilt than the steepest end the smallest egg would stand."""
    seating = evidence.ingredients.seating
    if evidence.turner.coordinate_unit != "rad" or math.isnan(evidence.ends.total):
        return
    steepest = max(true_ends(evidence))
    rule = limit("retention_margin")
    leaves = seating.leaves_tilt
    if leaves is None:
        yield _unknown(evidence)
        return
    in_hand = leaves - steepest
    text = f"The smallest stays in up to {degrees(leaves, 0)}; the tray tips {degrees(steepest)}."
    if rule.answer(math.degrees(in_hand)) is not Answer.FINE:
        text = (
            f"The smallest egg leaves its seat at {degrees(leaves, 0)}, and the tray tips "
            f"{degrees(steepest)}. Higher walls, narrower seats or less tilt hold it."
        )
    text = " ".join((text, *seating.notes))
    yield judged(ID, TITLE, math.degrees(in_hand), rule, text, fields=FIELDS)


def _unknown(evidence: Evidence) -> Finding:
    """Return what is missing to say when an egg leaves its seat."""
    unknowns = evidence.ingredients.seating.unknowns
    missing = next((u for u in unknowns if "leave" in u.why), None)
    field = missing.field if missing else "eggs.held_by"
    return judged(
        ID,
        TITLE,
        None,
        limit("retention_margin"),
        f"Not known whether eggs stay in: {field} is not given.",
        fields=(field,),
        ask=f"Measure {field}, or tilt a tray by hand with an egg in it and read the angle at "
        "which it leaves.",
    )
