"""Whether the drive gets through the whole of its cycle."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import judged, millimetres
from turnercalc.drives.wording import wording_of
from turnercalc.findings import Answer, Finding
from turnercalc.swing import lengths
from turnercalc.tables import limit

ID = "closes"
TITLE = "Goes through"


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield whether the link reaches at every position, with what is missing or in hand."""
    closing = evidence.closing
    in_hand = -closing.missing
    fields = tuple(closing.nearest) or tuple(lengths(evidence.turner, evidence.drive))
    rule = limit("closing_margin")
    if math.isinf(in_hand):  # nothing could be missing at all
        yield judged(ID, TITLE, None, rule, closing.text, answer=Answer.FINE, fields=fields)
        return
    text = (
        f"{wording_of(evidence.drive).goes_through}, with {millimetres(in_hand)} in hand."
        if closing.closes
        else _missing(evidence)
    )
    yield judged(ID, TITLE, 1e3 * in_hand, rule, text, fields=fields)


def _missing(evidence: Evidence) -> str:
    """Return what is missing, and every single change that would just do."""
    closing = evidence.closing
    now = lengths(evidence.turner, evidence.drive)
    if "link.length" not in now:
        return closing.text
    link, wanted = now.get("link.length"), closing.nearest.get("link.length")
    gap = millimetres(closing.missing, 1)
    if link is not None and wanted is not None:
        found = f"The link is {gap} too {'short' if wanted > link else 'long'} at the worst place"
    else:
        found = f"The parts miss each other by {gap} at the worst place"
    ways = [f"{field} of {millimetres(value, 1)}" for field, value in closing.nearest.items()]
    if not ways:
        return f"{found}, and no link of any length would do: move the crank's shaft."
    return f"{found}: the crank cannot go all the way. What would just do: {', or '.join(ways)}."
