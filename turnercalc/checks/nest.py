"""Whether the eggs lie in their nests without wedging."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_bars import guessed, on_bars, spread
from turnercalc.checks.wording import degrees, judged
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "nest"
TITLE = "Nest"
FIELDS = ("bars.pitch", "bars.diameter", "eggs.smallest")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield how steeply the eggs lie between their bars, judged by the smallest that stays up."""
    found = on_bars(evidence)
    if found is None:
        return
    sizes = [nest for nest in found[1] if not nest.drops]
    small, large = sizes[0], sizes[-1]
    rule = limit("nest_angle_most")
    by_table = guessed(evidence, "smallest")
    angles = spread(large.angle, small.angle)
    text = (
        f"They touch the bars {angles} from straight down, {degrees(found[1][1].angle, 1)} a "
        f"typical one; each bar bears up to {small.share:.2f} of an egg's weight{by_table}."
    )
    if rule.answer(math.degrees(small.angle)) is not Answer.FINE:
        text += " The smallest sit deep and wedge: bars closer together or thicker hold them up."
    yield judged(ID, TITLE, math.degrees(small.angle), rule, text, fields=FIELDS)
