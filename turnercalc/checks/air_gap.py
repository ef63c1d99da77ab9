"""Whether warm air can pass all round."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import judged, millimetres
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "air_gap"
TITLE = "Air gap"


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the least gap at the side walls against the half inch of common practice."""
    room = evidence.clearances
    if room is None or room.turner.sides is None:
        return
    gap = room.turner.sides
    rule = limit("air_gap")
    text = (
        f"{millimetres(gap)} at the sides for warm air to pass; leave as much in front and behind."
    )
    if rule.answer(1e3 * gap) is not Answer.FINE:
        text = (
            f"A solid tray leaves only {millimetres(gap)} at the side walls; half an inch "
            "(12.7 mm) all round lets the warm air pass. Narrower trays or holes in them help."
        )
    yield judged(
        ID, TITLE, 1e3 * gap, rule, text, fields=("box.width", *evidence.own_fields("width"))
    )
