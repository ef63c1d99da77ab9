"""Whether anything under the bars touches an egg."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_bars import on_bars
from turnercalc.checks.wording import judged, millimetres
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "under_bars"
TITLE = "Under the bars"
FIELDS = ("bars.under_bars", "bars.pitch", "eggs.smallest")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the gap under the lowest egg, which is the smallest, and under the bars."""
    found = on_bars(evidence)
    if found is None:
        return
    _, sizes = found
    rule = limit("clearance")
    height = evidence.ingredients.sections["bars"].under_bars
    lowest = min(nest.bottom for nest in sizes if not nest.drops)
    if height is None:
        yield judged(
            ID,
            TITLE,
            None,
            rule,
            f"Not known: what lies under the bars. The eggs hang {_below(lowest)}.",
            fields=FIELDS,
            ask="Measure bars.under_bars, from the bar middles down to the first thing there.",
        )
        return
    gap = lowest - height
    text = f"{millimetres(gap)} under the lowest egg, which hangs {_below(lowest)}."
    if rule.answer(1e3 * gap) is not Answer.FINE:
        what = f"only {millimetres(gap, 1)} under it" if gap > 0.0 else "and it rubs there"
        text = f"The lowest egg hangs {_below(lowest)}, {what}: the bars have to come up."
    yield judged(ID, TITLE, 1e3 * gap, rule, text, fields=FIELDS)


def _below(height: float) -> str:
    """Return a height against the bar middles in words."""
    word = "below" if height < 0.0 else "above"
    return f"{millimetres(abs(height))} {word} the bar middles"
