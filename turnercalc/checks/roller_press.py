"""Whether an arc stays on both of its fixed rollers."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.runner_grip import ways_it_runs
from turnercalc.checks.wording import judged, place
from turnercalc.findings import Answer, Finding
from turnercalc.parts.footing import lightest_roller
from turnercalc.tables import limit
from turnercalc.turners.arc_on_rollers import ArcOnRollers

ID = "roller_press"
TITLE = "On its rollers"
FIELDS = ("rollers.spacing", "pin.across", "pin.height")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the least share of the weight that either roller bears."""
    cycle = evidence.cycle
    if not isinstance(evidence.turner, ArcOnRollers) or cycle is None:
        return
    rule, least = limit("roller_press"), lightest_roller(cycle, ways_it_runs(evidence))
    share = least.value if math.isfinite(least.value) else -1.0
    where = (
        f"at {place(evidence.turner, least.coordinate, least.rises)} "
        f"({cycle.loads[least.load].name})"
    )
    text = f"Either roller bears {100.0 * share:.0f} % of the weight or more."
    if rule.answer(share) is Answer.NO:
        text = (
            f"The drive lifts the arc off a roller {where}. Rollers farther apart, or a drive "
            "that pulls more nearly straight up and down, keep it on both."
        )
    elif rule.answer(share) is Answer.MARGINAL:
        text = (
            f"One roller bears only {100.0 * share:.0f} % of the weight {where}. Rollers farther "
            "apart bear more evenly."
        )
    yield judged(ID, TITLE, share, rule, text, fields=FIELDS)
