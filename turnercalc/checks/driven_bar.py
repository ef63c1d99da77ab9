"""Whether the motor turns the bar from which the others are turned with the least loss."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_bars import on_bars
from turnercalc.checks.wording import newton_metres
from turnercalc.findings import Answer, Finding
from turnercalc.turners.rolling_bars import RollingBars

ID = "driven_bar"
TITLE = "Driven bar"
FIELDS = ("bars.driven_bar", "bars.joined_by")
#: Less than this part of the torque is not worth a word.
WORTH_SAYING = 0.02


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield what another driven bar would save, where the bars drive one another."""
    found = on_bars(evidence)
    if found is None:
        return
    bars = found[0]
    if bars.joining.one_each:
        yield _one_each(bars)
    if not bars.joining.bar_to_bar:
        return
    asked = [torque_driving(bars, bar) for bar in range(bars.count)]
    best = int(np.argmin(asked))
    now = asked[bars.driven_bar]
    text = f"Bar {bars.driven_bar + 1}: to turn any other asks as much or more."
    worth = now > (1.0 + WORTH_SAYING) * asked[best]
    if worth:
        text = (
            f"The motor turns bar {bars.driven_bar + 1}, and every belt on the way to the last "
            f"bar takes its share: {newton_metres(now)} with all lanes full. From bar {best + 1} "
            f"it is {newton_metres(asked[best])}."
        )
    yield Finding(
        id=ID,
        title=TITLE,
        answer=Answer.NOTE if worth else Answer.FINE,
        text=text,
        value=now / asked[best] if asked[best] > 0.0 else 1.0,
        reason="A belt that lets 90 % through loses a tenth at every bar: sum of T/0.9^j.",
        source="load-proportional loss of belts (from memory)",
        fields=FIELDS,
    )


def _one_each(bars: RollingBars) -> Finding:
    """Return how many motors it takes where every bar has its own."""
    return Finding(
        id=ID,
        title=TITLE,
        answer=Answer.NOTE,
        text=f"Every bar has a motor of its own, {bars.count} alike; all that is said of the motor "
        "is said of the one with the hardest bar. Slow and quick ones turn their eggs unalike.",
        reason="An egg is turned by two bars, which have to run alike.",
        source="geometry of rolling",
        fields=("bars.joined_by",),
    )


def torque_driving(bars: RollingBars, driven: int) -> float:
    """Return the hardest shaft torque with all lanes full from one driven bar [N·m]."""
    full = max(bars.load_cases(), key=lambda case: case.egg_count)
    levels = ("middle",)
    other = replace(bars, driven_bar=driven)
    torques = other.bar_torques(
        full.cells[None].astype(float), 0.0, np.array([[1.0], [-1.0]]), levels
    )
    asked = other.joining.together(torques, driven, other.share_let_through(levels))
    return float(asked.max())
