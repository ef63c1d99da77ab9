"""Whether the largest eggs of neighbouring shelves keep clear of each other."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_drum import on_drum
from turnercalc.checks.wording import judged, millimetres
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "eggs_apart"
TITLE = "Shelves apart"
FIELDS = ("drum.shelf_radius", "drum.shelves", "eggs.largest")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the gap between the largest eggs of two neighbouring shelves."""
    drum, breadth = on_drum(evidence), evidence.ingredients.lot.largest.breadth
    if drum is None:
        return
    chord = 2.0 * float(drum.shelf_radius) * math.sin(math.pi / drum.shelves)
    gap, rule = chord - breadth, limit("egg_gap")
    text = f"{millimetres(gap)} between the largest eggs of two shelves."
    if rule.answer(1e3 * gap) is not Answer.FINE:
        enough = (breadth + 1e-3 * (rule.fine or 0.0)) / (2.0 * math.sin(math.pi / drum.shelves))
        how = f"only {millimetres(gap, 1)} apart" if gap > 0.0 else "in each other's way"
        text = (
            f"The largest eggs are {millimetres(breadth, 1)} broad and two shelves "
            f"{millimetres(chord, 1)} apart, so they are {how}. {math.ceil(1e3 * enough)} mm of "
            "shelf radius, or fewer shelves, part them."
        )
    yield judged(ID, TITLE, 1e3 * gap, rule, text, fields=FIELDS)
