"""Whether a gap closes on a finger."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import millimetres, source_of
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "pinch"
TITLE = "Fingers"


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield a note where moving parts come nearer to something than a finger is thick."""
    room = evidence.clearances
    if room is None:
        return
    known = [*room.turner.known, *(room.drive.known if room.drive else ())]
    if room.neighbours is not None:
        known.append(room.neighbours)
    rule = limit("pinch_gap")
    least = min(known, default=None)
    if least is None or rule.fine is None or 1e3 * least >= rule.fine:
        return
    yield Finding(
        id=ID,
        title=TITLE,
        answer=Answer.NOTE,
        text=f"Gaps close to {millimetres(max(least, 0.0))}: under {rule.fine:g} mm a finger is "
        "crushed. Switch the motor off before you reach in.",
        value=1e3 * least,
        unit=rule.unit,
        limit_fine=rule.fine,
        reason=rule.reason,
        source=source_of(rule),
        fields=("box.width", "trays.pitch"),
    )
