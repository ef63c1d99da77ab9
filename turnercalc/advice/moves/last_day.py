"""Stop turning on the usual day, where the design turns longer or much shorter than that."""

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.checks.last_day import ID
from turnercalc.findings import Answer
from turnercalc.sizing import Sizing


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the usual last day of turning for this bird."""
    found = next((one for one in sizing.findings if one.id == ID), None)
    if found is None or found.answer is Answer.FINE:
        return
    text = f"{sizing.ingredients.lot.species.last_turning_day:g}"
    say = f"Turn the eggs for the last time on day {text}."
    yield Proposal("usual_last_day", {"turning.last_day": text}, say)
