"""Turn as often as hatches best, where the timetable says less."""

from collections.abc import Iterator
from math import ceil

from turnercalc.advice.moves import Proposal
from turnercalc.checks.turns_per_day import ID
from turnercalc.findings import Answer
from turnercalc.sizing import Sizing
from turnercalc.tables import limit


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the number of turns a day where fine begins."""
    found = next((one for one in sizing.findings if one.id == ID), None)
    rule = limit(ID)
    if found is None or found.value is None or rule.answer(found.value) is Answer.FINE:
        return
    if rule.fine is not None:
        text = f"{ceil(rule.fine):g}"
        yield Proposal(
            "more_turns", {"turning.turns_per_day": text}, f"Let it turn {text} times a day."
        )
