"""Whether the two ends of the swing are alike."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.tilt import true_ends
from turnercalc.checks.wording import degrees, judged
from turnercalc.drives.wording import wording_of
from turnercalc.findings import Answer, Finding
from turnercalc.swing import lengths
from turnercalc.tables import limit

ID = "tilt_ends"
TITLE = "Ends alike"
TENTH = math.radians(0.1)


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield how much steeper one end is than the other."""
    if math.isnan(evidence.ends.total):
        return
    left, right = true_ends(evidence)
    difference = abs(left - right)
    rule = limit("tilt_end_difference")
    if rule.answer(math.degrees(difference)) is Answer.FINE:
        text = f"Alike to {degrees(max(difference, TENTH))}."
    else:
        steep, flat = ("left", "right") if left > right else ("right", "left")
        text = (
            f"It tips {degrees(difference)} further to the {steep} than to the {flat}; "
            f"the flat side counts for the eggs. {wording_of(evidence.drive).ends_set_by} set this."
        )
    yield judged(
        ID,
        TITLE,
        math.degrees(difference),
        rule,
        text,
        fields=tuple(lengths(evidence.turner, evidence.drive)),
    )
