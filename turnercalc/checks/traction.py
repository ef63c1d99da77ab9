"""Whether the bars turn the eggs, or slip under them."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_bars import on_bars
from turnercalc.checks.wording import judged
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "traction"
TITLE = "Bars grip"
FIELDS = ("bars.surface", "bars.rolling_arm", "eggs.off_centre", "eggs.friction")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield how many times more the bars grip than rolling a typical egg takes."""
    found = on_bars(evidence)
    if found is None:
        return
    bars, _ = found
    rule = limit("egg_traction")
    times = bars.traction()
    text = f"They grip an egg {times:.1f} times as well as rolling it takes, at the least."
    if rule.answer(times) is not Answer.FINE:
        text = (
            f"With little friction and much rolling resistance they grip an egg only {times:.1f} "
            "times as well as rolling it takes: some eggs stay behind. A sleeve of rubber or heat "
            "shrink tube on the bars grips."
        )
    yield judged(ID, TITLE, times, rule, text, fields=FIELDS)
