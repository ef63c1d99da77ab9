"""Whether the tilt is still right with marking errors and play in the pins."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.tilt import least_tilt
from turnercalc.checks.wording import between, degrees, judged, millimetres, worst
from turnercalc.drives.wording import wording_of
from turnercalc.findings import Answer, Finding
from turnercalc.swing import lengths
from turnercalc.tables import limit

ID = "as_built"
TITLE = "As built"
SAME = math.radians(0.001)
#: Falling short by less than this, a little more tilt is what helps [deg].
NEARLY = 5.0


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the range in which the ends come out, judged like the tilt itself."""
    built = evidence.as_built
    if built is None:
        return
    if math.isnan(built.least + built.most):
        yield _not_closing(evidence)
        return
    turning = evidence.ingredients.sections["turning"]
    low = least_tilt(evidence.ingredients.lot.species, turning.turns_per_day)
    high = limit("tilt_each_side_most")
    answer = worst((low.answer(math.degrees(built.least)), high.answer(math.degrees(built.most))))
    text = (
        f"{between(degrees(built.least, 0), degrees(built.most, 0))} to each side with "
        f"{millimetres(built.marking)} marking errors and {millimetres(built.play, 1)} pin play."
    )
    short = (low.fine or 0.0) - math.degrees(built.least)
    if low.answer(math.degrees(built.least)) is not Answer.FINE and short < NEARLY:
        text += f" Aim {math.ceil(short - 1e-9):d}° higher to be sure of {low.fine:g}°."
    if built.play == 0.0 and built.most - built.least < SAME:
        text = (
            f"{degrees(built.least, 0)} to each side: its ends are where its switches stand, and "
            "no length moves them."
        )
    yield judged(
        ID,
        TITLE,
        math.degrees(built.least),
        low,
        text,
        answer=answer,
        fields=(*wording_of(evidence.drive).play, *lengths(evidence.turner, evidence.drive)),
    )


def _not_closing(evidence: Evidence) -> Finding:
    """Return the finding about a drive that closes only if it is made to a hair."""
    return judged(
        ID,
        TITLE,
        None,
        limit("closing_margin"),
        f"A fraction of a millimetre off, and {wording_of(evidence.drive).stays}.",
        answer=Answer.MARGINAL,
        fields=tuple(lengths(evidence.turner, evidence.drive)),
    )
