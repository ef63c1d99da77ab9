"""Whether the drive gets through the whole of its cycle."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import judged, millimetres
from turnercalc.findings import Finding
from turnercalc.swing import lengths
from turnercalc.tables import limit

ID = "closes"
TITLE = "Goes through"


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield whether the link reaches at every position, with what is missing or in hand."""
    closing = evidence.closing
    in_hand = -closing.missing
    text = (
        f"The crank goes all the way, with {millimetres(in_hand)} in hand."
        if closing.closes
        else _missing(evidence)
    )
    fields = tuple(closing.nearest) or tuple(lengths(evidence.turner, evidence.drive))
    yield judged(ID, TITLE, 1e3 * in_hand, limit("closing_margin"), text, fields=fields)


def _missing(evidence: Evidence) -> str:
    """Return what is missing, and every single change that would just do."""
    closing = evidence.closing
    now = lengths(evidence.turner, evidence.drive)
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
