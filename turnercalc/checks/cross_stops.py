"""Whether cross stops keep the eggs from wandering along the bars, and leave them free."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_bars import guessed, on_bars
from turnercalc.checks.wording import judged, millimetres
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "cross_stops"
TITLE = "Cross stops"
FIELDS = ("bars.stop_spacing", "bars.length", "bars.eggs_per_lane", "eggs.largest")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the play of the longest egg between its stops, and whether a lane fits its bars."""
    found = on_bars(evidence)
    if found is None:
        return
    _, (_, _, large) = found
    bars = evidence.ingredients.sections["bars"]
    rule = limit("stop_play")
    by_table = guessed(evidence, "largest")
    play = bars.stop_spacing - large.length
    over = bars.eggs_per_lane * bars.stop_spacing - bars.length
    text = (
        f"{millimetres(play)} of play for the longest{by_table}; an egg is thicker at one "
        "end and creeps along turning bars, so each needs its stops."
    )
    if over > 0.0:
        fit = int(bars.length / bars.stop_spacing)
        yield judged(
            ID,
            TITLE,
            -1e3 * over,
            rule,
            f"{bars.eggs_per_lane} places of {millimetres(bars.stop_spacing)} are "
            f"{millimetres(over)} longer than the bars; {fit} fit.",
            answer=Answer.NO,
            fields=FIELDS,
        )
        return
    if play < 0.0:
        text = (
            f"The longest egg is {millimetres(-play)} longer than the space between its stops"
            f"{by_table}."
        )
    elif rule.answer(1e3 * play) is not Answer.FINE:
        text = f"Only {millimetres(play, 1)} of play for the longest{by_table}: it may jam."
    yield judged(ID, TITLE, 1e3 * play, rule, text, fields=FIELDS)
