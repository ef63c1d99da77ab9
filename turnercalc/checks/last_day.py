"""Whether turning ends in time for the chicks to take up their hatching position."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import judged
from turnercalc.eggs.practice import quiet_days
from turnercalc.eggs.species import Species
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "last_day"
TITLE = "Last day"
FIELDS = ("turning.last_day",)


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the last day of turning and the quiet days before the hatch."""
    yield of_day(
        evidence.ingredients.sections["turning"].last_day, evidence.ingredients.lot.species
    )


def of_day(day: float, species: Species) -> Finding:
    """Return the finding about a last day of turning, counted from setting."""
    late, early = limit("last_day_late"), limit("turning_share_least")
    quiet = quiet_days(species.incubation_days, day)
    over = day - species.last_turning_day
    too_late = late.answer(over)
    share = day / species.incubation_days
    if too_late is Answer.FINE and early.answer(share) is not Answer.FINE:
        text = (
            f"Day {day:g} of {species.incubation_days:g} is early: the usual last day is "
            f"{species.last_turning_day:g}, and nobody tried stopping before a good third of the "
            "time."
        )
        return judged(ID, TITLE, share, early, text, fields=FIELDS)
    text = f"Turning ends on day {day:g}; {quiet:g} quiet days before the hatch."
    if too_late is not Answer.FINE:
        text = (
            f"Day {day:g} leaves {max(quiet, 0.0):g} quiet days; {species.name} eggs are usually "
            f"left alone after day {species.last_turning_day:g}, when chicks take up their "
            "hatching position."
        )
    elif over < 0.0:
        text += f" The usual last day is {species.last_turning_day:g}."
    return judged(ID, TITLE, over, late, text, fields=FIELDS)
