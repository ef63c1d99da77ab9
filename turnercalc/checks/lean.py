"""Whether a loose egg leans far beyond its tray."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import degrees, judged
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "lean"
TITLE = "Lean"
FIELDS = ("eggs.cell_room", "eggs.typical", "eggs.held_by")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield how much further than its tray the typical egg leans."""
    seating = evidence.ingredients.seating
    rule = limit("egg_lean")
    if seating.leaned is None:
        field = next((u.field for u in seating.unknowns if "lean" in u.why), "eggs.cell_room")
        yield judged(
            ID,
            TITLE,
            None,
            rule,
            seating.notes[0] if seating.notes else f"Not known: {field} is not given.",
            fields=(field,),
            ask=f"Measure {field}.",
        )
        return
    lean = seating.leaned.lean
    text = "Held without play, they tilt as the tray does."
    if lean > 0.0:
        text = f"They lean {degrees(lean, 0)} more than the tray."
        if rule.answer(math.degrees(lean)) is not Answer.FINE:
            text = (
                f"A typical egg leans {degrees(lean, 0)} more than the tray and goes over to the "
                "other side in every turn. Narrower cells or a filler hold it."
            )
    yield judged(ID, TITLE, math.degrees(lean), rule, text, fields=FIELDS)
