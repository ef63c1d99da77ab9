"""Whether the eggs rest at the ends of the swing, and not near level."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import amount, judged
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit
from turnercalc.timing import Timing
from turnercalc.turners.wording import wording_of

ID = "rest_at_ends"
TITLE = "Rests at the ends"
FIELDS = ("motor.stopped_by", "turning.turns_per_day")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the share of the day that the eggs spend near level."""
    timing = evidence.timing
    if timing is None or timing.share_near_level is None:
        return
    rule = limit("share_of_day_near_level")
    share = timing.share_near_level
    answer = rule.answer(share)
    middle, near = (
        wording_of(evidence.turner).middle,
        amount(evidence.turner, timing.near_level, 0),
    )
    if answer is Answer.FINE:
        text = f"{100.0 * share:.2g} % of the day nearer to {middle} than {near}."
        if timing.share_beyond is not None:
            far = f"{100.0 * timing.share_beyond:.3g} %"
            text = f"{far} of the day beyond {amount(evidence.turner, timing.beyond, 0)}."
    else:
        text = f"{100.0 * share:.0f} % of the day nearer to {middle} than {near}. {_why(timing)}"
    yield judged(ID, TITLE, share, rule, text, fields=FIELDS)


def _why(timing: Timing) -> str:
    if timing.stopped_by == "timer":
        return "A timer alone lets it stop anywhere: a park switch or two end switches hold it."
    return "The eggs have to rest on both sides, not in the middle."
