"""Whether the eggs of one shelf fit into the box, end to end."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_drum import on_drum
from turnercalc.checks.wording import judged, millimetres
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "shelf_length"
TITLE = "Along the axle"
FIELDS = ("box.depth", "drum.eggs_per_shelf", "eggs.largest")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield what a row of typical eggs leaves of the depth of the box, the largest at its end."""
    drum, lot = on_drum(evidence), evidence.ingredients.lot
    if drum is None:
        return
    depth = evidence.ingredients.sections["box"].depth
    row = (drum.eggs_per_shelf - 1) * lot.typical.length + lot.largest.length
    left, rule = depth - row, limit("clearance")
    text = (
        f"{drum.eggs_per_shelf} eggs end to end take {millimetres(row)}, and leave "
        f"{millimetres(left)} for both ends of the drum."
    )
    if rule.answer(1e3 * left) is Answer.NO:
        text = (
            f"{drum.eggs_per_shelf} eggs end to end take {millimetres(row)}, and the box is "
            f"{millimetres(depth)} deep."
        )
    yield judged(ID, TITLE, 1e3 * left, rule, text, fields=FIELDS)
