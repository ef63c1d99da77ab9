"""Whether it tilts as far as these eggs need, to both sides."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import degrees, judged, worse
from turnercalc.eggs.practice import tilt_limit
from turnercalc.eggs.species import Species
from turnercalc.findings import Finding
from turnercalc.swing import lengths
from turnercalc.tables import Limit, limit

ID = "tilt"
TITLE = "Tilt"
#: Off by more than this from what was asked for, it is said [deg].
WORTH_SAYING = 1.0


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the tilt to both sides with the whole swing beside it, judged by the lesser end."""
    if math.isnan(evidence.ends.total):
        return
    turning = evidence.ingredients.sections["turning"]
    left, right = true_ends(evidence)
    least, most = math.degrees(min(left, right)), math.degrees(max(left, right))
    low = least_tilt(evidence.ingredients.lot.species, turning.turns_per_day)
    high = limit("tilt_each_side_most")
    steep_counts = worse(high.answer(most), low.answer(least))
    decides, value = (high, most) if steep_counts else (low, least)
    off = math.degrees(max(abs(left - turning.tilt), abs(right - turning.tilt)))
    asked = limit("tilt_off_asked")
    if worse(asked.answer(off), decides.answer(value)):
        decides, value = asked, off
    text = f"{degrees(left)} left down, {degrees(right)} right down, {degrees(left + right)} in all"
    if off > WORTH_SAYING:
        text += f"; you asked for {degrees(turning.tilt)} each side"
    yield judged(
        ID,
        TITLE,
        value,
        decides,
        f"{text}.",
        fields=("turning.tilt", *lengths(evidence.turner, evidence.drive)),
    )


def true_ends(evidence: Evidence) -> tuple[float, float]:
    """Return how far the left and the right side go down, from true level [rad].

    A box that leans to the left adds its lean to every tilt to the left.
    """
    leans = evidence.ingredients.sections["box"].leans or 0.0
    return evidence.ends.high + leans, -evidence.ends.low - leans


def least_tilt(species: Species, turns_per_day: float) -> Limit:
    """Return the limit on the tilt each side [deg] for a species turned so often.

    Where the species is content with less than chickens, that is fine too.
    """
    usual = tilt_limit(turns_per_day)
    own = math.degrees(species.tilt_low)
    if usual.fine is None or own >= usual.fine - 1e-9:
        return usual
    return replace(
        usual,
        fine=own,
        no=min(own, usual.no) if usual.no is not None else None,
        reason=f"{species.name}: {own:g} degrees each side is usual.",
        source=species.source,
        how=species.how("tilt_low"),
    )
