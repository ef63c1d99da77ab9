"""Whether an egg that is held back would climb over a bar."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_bars import on_bars
from turnercalc.checks.wording import degrees, judged
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "climbing_out"
TITLE = "Stays in nest"
FIELDS = ("bars.pitch", "bars.diameter", "bars.surface", "eggs.largest", "box.leans")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield what the nest of the largest egg, the shallowest, has over the friction angle."""
    found = on_bars(evidence)
    if found is None:
        return
    bars, (_, _, large) = found
    rule = limit("climb_margin")
    friction, lean = math.atan(bars.egg_friction.high), abs(bars.lean)
    in_hand = large.angle - friction - lean
    leaning = f" and a lean of {degrees(lean)}" if lean else ""
    text = (
        f"The largest lies {degrees(large.angle, 0)} deep, against a friction angle of up to "
        f"{degrees(friction, 0)}{leaning}."
    )
    if rule.answer(math.degrees(in_hand)) is not Answer.FINE:
        text += (
            " One that is held back, by a neighbour or a stop, climbs over the bar. Bars further "
            "apart, thinner or smoother keep it in."
        )
    yield judged(ID, TITLE, math.degrees(in_hand), rule, text, fields=FIELDS)
