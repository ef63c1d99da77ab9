"""Whether the eggs are turned often enough, counting only moves that really change sides."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import between, degrees, judged, seconds, source_of, worst
from turnercalc.eggs.practice import evidence as practice
from turnercalc.eggs.practice import interval, is_turn, left_of_turn
from turnercalc.findings import Answer, Finding
from turnercalc.swing import egg_turn
from turnercalc.tables import limit

ID = "turns_per_day"
TITLE = "Turns a day"
FIELDS = ("turning.turns_per_day",)


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield how often the eggs change sides in a day, against hand turning and usual machines."""
    asked = evidence.ingredients.sections["turning"].turns_per_day
    total = evidence.ends.total
    turned = egg_turn(evidence.turner, total)
    if turned is not None and not math.isnan(total) and not is_turn(left_of_turn(turned)):
        yield _no_turn(asked, turned)
        return
    yield of_count(asked)


def of_count(turns: float) -> Finding:
    """Return the finding about so many turns a day."""
    least, most = limit("turns_per_day"), limit("turns_per_day_most")
    by_hand = limit("hand_turns_per_day")
    answer = worst((least.answer(turns), most.answer(turns)))
    decides = least if least.answer(turns) is answer else most
    every = f"One every {seconds(interval(turns))}"
    if answer is Answer.FINE:
        text = f"{turns:g} a day: {every[0].lower()}{every[1:]}."
    elif decides is most:
        text = f"{turns:g} a day is more than any hen does; {most.fine:g} hatched best."
    elif answer is Answer.NO:
        text = (
            f"{turns:g} a day is less than the {between(f'{by_hand.no:g}', f'{by_hand.fine:g}')} "
            f"that eggs get by hand at the least. {_hatch()}"
        )
    else:
        text = (
            f"{turns:g} a day is as few as by hand; machines turn {least.fine:g} times. {_hatch()}"
        )
        if turns <= 8 and turns % 2 == 0:
            text += " With so few, an odd number keeps the long night from falling on one side."
    return judged(ID, TITLE, turns, decides, text, answer=answer, fields=FIELDS)


def _hatch() -> str:
    """Return what was found of few turns, in one sentence."""
    best = next(e for e in practice("frequency") if e.id == "often_24")
    return f"Of 24, 12, 6 and 3 turns a day, 24 hatched best and each fewer worse ({best.source})."


def _no_turn(asked: float, total: float) -> Finding:
    rule = limit("counts_as_turn")
    return Finding(
        id=ID,
        title=TITLE,
        answer=Answer.NO,
        text=f"None of the {asked:g} moves a day counts: {degrees(total)} in all does not change "
        f"sides; {rule.fine:g}° and more does.",
        value=0.0,
        limit_fine=limit("turns_per_day").fine,
        limit_no=limit("turns_per_day").no,
        reason=rule.reason,
        source=source_of(rule),
        fields=("turning.tilt", *FIELDS),
    )
