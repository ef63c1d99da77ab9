"""Whether the smallest egg stays on top of the bars."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_bars import guessed, on_bars
from turnercalc.checks.wording import judged, millimetres
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "drop_through"
TITLE = "Falls through"
FIELDS = ("bars.pitch", "bars.diameter", "eggs.smallest")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield how much broader the smallest egg is than the gap between two bars."""
    found = on_bars(evidence)
    if found is None:
        return
    bars, (small, _, _) = found
    rule = limit("drop_margin")
    by_table = guessed(evidence, "smallest")
    breadth, gap = 2.0 * small.radius, bars.gap
    in_hand = breadth - gap
    text = (
        f"The smallest is {millimetres(breadth, 1)} broad, the gap between bars "
        f"{millimetres(gap, 1)}{by_table}."
    )
    if rule.answer(1e3 * in_hand) is not Answer.FINE:
        what = "drops through" if in_hand <= 0.0 else "nearly drops through"
        text = f"The smallest {what}: {text[0].lower()}{text[1:]} Bring the bars closer together."
    yield judged(ID, TITLE, 1e3 * in_hand, rule, text, fields=FIELDS)
