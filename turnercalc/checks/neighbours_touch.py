"""Whether the largest eggs of neighbouring lanes keep clear of each other."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_bars import guessed, on_bars
from turnercalc.checks.wording import judged, millimetres
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "neighbours_touch"
TITLE = "Neighbours"
FIELDS = ("bars.pitch", "eggs.largest")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the gap between two of the largest side by side; theirs is the least of all sizes."""
    found = on_bars(evidence)
    if found is None or found[0].lanes < 2:
        return
    bars, (_, _, large) = found
    rule = limit("egg_gap")
    by_table = guessed(evidence, "largest")
    gap = bars.pitch - 2.0 * large.radius
    text = f"{millimetres(gap, 1)} between the largest side by side{by_table}."
    if rule.answer(1e3 * gap) is not Answer.FINE:
        enough = math.ceil(2e3 * large.radius + (rule.fine or 0.0))
        how = f"{millimetres(gap, 1)} apart" if gap > 0.0 else "in each other's way"
        text = (
            f"The largest are {millimetres(2.0 * large.radius, 1)} broad and the bars "
            f"{millimetres(bars.pitch, 1)} from middle to middle, so neighbours are {how}"
            f"{by_table}: they turn against each other and rub. A pitch of {enough} mm "
            "parts them."
        )
    yield judged(ID, TITLE, 1e3 * gap, rule, text, fields=FIELDS)
