"""Whether a cradle's runners are long enough for its tilt."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import degrees, judged, millimetres
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit
from turnercalc.turners.rocking_cradle import RockingCradle

ID = "runner_ends"
TITLE = "Runners"
FIELD = "cradle.runner_width"


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield how much arc is left over where the cradle is steepest."""
    cradle, ends = evidence.turner, evidence.ends
    if not isinstance(cradle, RockingCradle) or math.isnan(ends.total):
        return
    rule = limit("runner_end")
    spare = cradle.spare_arc(ends.low, ends.high)
    if spare is None or cradle.runner_half_angle is None:
        text = "Not known whether the runners are long enough: their width is not given."
        ask = "Measure a runner straight across, from end to end of its arc."
        yield judged(ID, TITLE, None, rule, text, fields=(FIELD,), ask=ask)
        return
    least = min(spare)
    text = f"{millimetres(least)} of arc left over where it is steepest."
    if rule.answer(1e3 * least) is Answer.NO:
        reaches = cradle.runner_half_angle - cradle.stands_at
        where = "it tips onto a corner" if cradle.rolls_on_floor else "it runs off a roller"
        text = (
            f"The arc ends {millimetres(-least)} too early: past {degrees(max(reaches, 0.0), 0)} "
            f"{where}. {_wider(evidence, cradle)}"
        )
    elif rule.answer(1e3 * least) is Answer.MARGINAL:
        text = f"Only {millimetres(least)} of arc left over. {_wider(evidence, cradle)}"
    fields = (FIELD, "cradle.runner_radius", "turning.tilt")
    yield judged(ID, TITLE, 1e3 * least, rule, text, fields=fields)


def _wider(evidence: Evidence, cradle: RockingCradle) -> str:
    """Return how wide the runners would have to be, or that no arc is wide enough."""
    width = wide_enough(cradle, evidence.ends.low, evidence.ends.high)
    if width is None:
        return "No runner of this radius is wide enough: less tilt, or rollers nearer together."
    return f"Runners {millimetres(width)} across would do."


def wide_enough(cradle: RockingCradle, low: float, high: float) -> float | None:
    """Return the width of runners whose arc is just long enough with what is wanted in hand [m].

    None where that would be more than half a circle.
    """
    spare = cradle.spare_arc(low, high)
    wanted = limit("runner_end").fine
    if spare is None or cradle.runner_half_angle is None or wanted is None:
        return None
    radius = float(cradle.runner_radius)
    half = cradle.runner_half_angle + (1e-3 * wanted - min(spare)) / radius
    return 2.0 * radius * math.sin(half) if half < 0.5 * math.pi else None
