"""Whether the eggs are turned back in the next move."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.eggs.practice import evidence as practice
from turnercalc.findings import Answer, Finding

ID = "sense"
TITLE = "To and fro"
FIELDS = ("turning.sense",)


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield a caution where the design turns the eggs one way for ever."""
    sense = getattr(evidence.ingredients.sections["turning"], "sense", None)
    if sense is None:
        return
    known = next(one for one in practice("gentleness") if one.id == "one_way")
    one_way = sense == "always the same"
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
