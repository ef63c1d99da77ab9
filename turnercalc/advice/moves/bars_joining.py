"""Join the bars otherwise, or pull their belts tighter."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from turnercalc.advice.moves import Proposal
from turnercalc.sizing import Sizing
from turnercalc.turners.bar_sections import JOININGS

TIGHTER = (1.5, 2.0)
#: Ways of joining to try, and what to do.
OTHERWISE = {
    "one belt round all": "Turn all bars by one belt round all of them, driven at an end.",
    "toothed belts, bar to bar": "Join the bars by toothed belts, from bar to bar.",
    "chain": "Turn all bars by one chain.",
}


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield other ways of joining, each with the bar to drive, and belts that pull more."""
    bars = sizing.design.get("bars")
    if bars is None:
        return
    for joined, say in OTHERWISE.items():
        if joined != bars.joined_by:
            yield Proposal("join_otherwise", joining(sizing, bars, joined), say)
    if JOININGS[bars.joined_by].by_friction:
        for factor in TIGHTER:
            pull = f"{factor * bars.belt_pull:.3g} N"
            say = f"Pull the belts tighter: {pull} on one strand."
            yield Proposal("tighter_belts", {"bars.belt_pull": pull}, say)


def joining(sizing: Sizing, bars: Any, joined: str) -> dict[str, str]:
    """Return a way of joining with the bar it is driven by, and a pull where one was given."""
    way = JOININGS[joined]
    settings = {
        "bars.joined_by": joined,
        "bars.driven_bar": f"{way.usual_bar(bars.count) or (bars.count + 1) // 2}",
    }
    said = sizing.design.origin.get("bars.belt_pull")
    if way.pull and said is not None and said.how != "taken for granted":
        settings["bars.belt_pull"] = f"{way.pull:g} N"
    return settings
