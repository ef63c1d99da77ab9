"""Whether round belts turn the bars, or slip on them."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_bars import on_bars
from turnercalc.checks.wording import judged
from turnercalc.cycle import TurnCycle
from turnercalc.findings import Answer, Finding
from turnercalc.loads import planned
from turnercalc.tables import limit
from turnercalc.turners.rolling_bars import RollingBars

ID = "belt_grip"
TITLE = "Belts grip"
FIELDS = ("bars.belt_pull", "bars.belt_runs_on", "bars.joined_by", "bars.driven_bar")
BOTH_WAYS = np.array([[1.0], [-1.0]])


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield how many times the hardest belt grips what it has to drive, over all planned loads."""
    found = on_bars(evidence)
    if found is None or found[0].joining.belt is None or evidence.cycle is None:
        return
    rule, times = limit("belt_grip"), times_gripped(found[0], evidence.cycle)
    if times is None or not math.isfinite(times):
        return
    text = f"The hardest worked belt grips {times:.1f} times what it drives."
    if rule.answer(times) is not Answer.FINE:
        text = (
            f"The hardest worked belt grips only {times:.1f} times what it drives, and slips when "
            "it slackens in the warm. More pull, a pulley larger than the bar, or a driven bar "
            "from which fewer hang on one belt."
        )
    yield judged(ID, TITLE, times, rule, text, fields=FIELDS)


def times_gripped(bars: RollingBars, cycle: TurnCycle) -> float | None:
    """Return how many times the hardest belt grips what it drives; None where none can slip."""
    cells = np.stack([case.cells for case in cycle.loads])[planned(cycle)].astype(float)
    levels = ("middle",)
    torques = bars.bar_torques(cells, 0.0, BOTH_WAYS, levels)
    return bars.joining.grips(torques, bars.driven_bar, bars.share_let_through(levels))
