"""Whether the link ever goes slack, so that its play is taken up with a knock."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import millimetres, place
from turnercalc.drives.wording import wording_of as words_of_drive
from turnercalc.findings import Answer, Finding
from turnercalc.timing.knock import Knock, farthest_egg, hardest_knock
from turnercalc.turners.wording import wording_of

ID = "knock"
TITLE = "Knock"
#: Up to here a knock is called small; past the other a bound says only that it may be hard [m].
SMALL, HIGHEST = 0.002, 0.1
SOURCE = "bound by energy; how stiff the stop is, nobody knows, so no acceleration is given"


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield a note about the hardest knock, told as a height of fall; fine where there is none."""
    cycle, built = evidence.cycle, evidence.as_built
    if cycle is None or cycle.bar_force is None or built is None or math.isnan(built.play_swing):
        return
    words = words_of_drive(evidence.drive)
    bar, fields = words.bar, (*words.play, *evidence.own_fields("egg_floor", "filled"))
    reason = f"Where the force in the {bar} changes sign, the play of its pins is taken up at once."
    radius = farthest_egg(evidence.turner, cycle.motion)
    shaft_speed = evidence.timing.shaft_speed if evidence.timing else None
    knock = hardest_knock(
        evidence.turner, cycle, evidence.told_direction, built.play_swing, radius, shaft_speed
    )
    if knock is None:
        yield Finding(
            id=ID,
            title=TITLE,
            answer=Answer.FINE,
            text=f"None: the force in the {bar} never changes sign with any planned load.",
            reason=reason,
            source=SOURCE,
            fields=fields,
        )
        return
    size = "small knock" if knock.fall < SMALL else "knock"
    yield Finding(
        id=ID,
        title=TITLE,
        answer=Answer.NOTE,
        text=f"A {size} {_where(evidence, knock)}: no harder than setting an egg down from "
        f"{_height(knock.fall)} (hardest load: {cycle.loads[knock.load].name}).",
        value=1e3 * knock.fall,
        unit="mm",
        reason=reason,
        source=SOURCE,
        fields=fields,
    )


def _where(evidence: Evidence, knock: Knock) -> str:
    """Return the place of a knock as a person by the box would say it."""
    where = place(evidence.turner, knock.coordinate, knock.rises)
    return f"at {where}" if where == wording_of(evidence.turner).middle else where


def _height(fall: float) -> str:
    """Return a height of fall [m]; hundredths of a millimetre are the finest that mean anything."""
    if fall > HIGHEST:
        return f"more than {millimetres(HIGHEST)}"
    return "less than 0.01 mm" if fall < 1e-5 else millimetres(fall, 2 if fall < 1e-3 else 1)
