"""Which way round is kinder to the motor."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from turnercalc.checks.evidence import Evidence
from turnercalc.findings import Answer, Finding
from turnercalc.loads import hardest

ID = "direction"
TITLE = "Direction"
NAMES = ("anticlockwise", "clockwise")
#: A difference smaller than this part of the peak is not worth a word.
WORTH_SAYING = 0.02


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield a note naming the direction with the smaller worst peak over all planned loads."""
    cycle = evidence.cycle
    if cycle is None or evidence.drive.both_ways:
        return
    level = cycle.levels.index("middle") if "middle" in cycle.levels else 0
    better = evidence.better_direction
    easy = hardest(cycle, level, better).torque
    hard = hardest(cycle, level, 1 - better).torque
    if not np.isfinite(hard) or easy <= 0.0:
        return
    more = hard / easy - 1.0
    if more < WORTH_SAYING:
        return
    yield Finding(
        id=ID,
        title=TITLE,
        answer=Answer.NOTE,
        text=f"Let it turn {NAMES[better]}, seen from {evidence.design.drawn_from}: the other "
        f"way the hardest turn needs {100.0 * more:.0f} % more.",
        value=more,
        unit="",
        reason="The drive does not stand the same on the way up and on the way down.",
        source="statics of the linkage",
        fields=("crank.runs",),
    )
