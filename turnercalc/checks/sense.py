"""Whether the eggs are turned back in the next move."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.eggs.practice import evidence as practice
from turnercalc.findings import Answer, Finding

ID = "sense"
TITLE = "To and fro"
FIELDS = ("turning.sense", "turning.motion")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield a caution where the design turns the eggs one way for ever."""
    sense = getattr(evidence.ingredients.sections["turning"], "sense", None)
    if sense is None and not evidence.turner.endless:
        return
    known = next(one for one in practice("gentleness") if one.id == "one_way")
    one_way = evidence.turner.endless or sense == "always the same"
    text = "The eggs are turned back in the next move."
    if one_way:
        text = f"{known.finding} Let it alternate."
    yield Finding(
        id=ID,
        title=TITLE,
        answer=Answer.MARGINAL if one_way else Answer.FINE,
        text=text,
        reason=known.finding,
        source=f"{known.source} ({known.how})",
        fields=FIELDS,
    )
