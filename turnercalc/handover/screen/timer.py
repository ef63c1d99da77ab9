"""TIMER: what to set, how long a turn takes, what a counter should show."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from turnercalc.checks.wording import amount, between, seconds
from turnercalc.handover.display import Style
from turnercalc.handover.layout import wrap
from turnercalc.turners.wording import wording_of

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing
    from turnercalc.timing import Timing

_UNTIL = {
    "park switch": "run until the park switch opens",
    "end switches": "run until the end switch opens, the other way next time",
    "counted steps": "run the counted steps to the other side",
}
#: A crank that goes round and round is not turned back: it runs on from one switch to the other.
_ROUND_TO_THE_NEXT = "run until the switch of the other end opens"


def timer(sizing: Sizing, style: Style) -> list[str]:
    """Return timer settings, the time of a turn, what a bare timer does, and the counts."""
    lines = []
    for text in timer_texts(sizing):
        lines += wrap(style.words(text), 4, "  ")
    return ["TIMER", *lines] if lines else []


def timer_texts(sizing: Sizing) -> list[str]:
    """Return the same, a sentence or two each; nothing where there is no cycle to time."""
    timing = sizing.timing
    if timing is None:
        return []
    told = [
        _setting(sizing, timing),
        *_move(sizing, timing),
        *_ratio(timing),
        *_drift(sizing, timing),
    ]
    return [*told, _counter(timing)]


def _setting(sizing: Sizing, timing: Timing) -> str:
    every = f"Every {_minutes(timing.interval)}"
    give_up = f", give up after {seconds(timing.give_up_after)}" if timing.give_up_after else ""
    if timing.stopped_by == "end switches" and not sizing.drive.both_ways:
        return f"{every}, {_ROUND_TO_THE_NEXT}{give_up}."
    if timing.stopped_by in _UNTIL:
        return f"{every}, {_UNTIL[timing.stopped_by]}{give_up}."
    if timing.drift is not None:
        return f"{every}, run for {timing.drift.run_time:.1f} s. Nothing but the clock stops it."
    how = f"run for {timing.run_time:.1f} s" if timing.run_time is not None else "run for one move"
    if timing.endless or not sizing.drive.both_ways:
        return f"{every}, {how}. Nothing but the clock stops it."
    if wording_of(sizing.turner).anywhere:
        return f"{every}, {how} the other way. Where it stops does not matter."
    return f"{every}, {how} the other way; two end switches would keep its ends."


def _minutes(time: float) -> str:
    minutes = time / 60.0
    return f"{minutes:.0f} min" if minutes < 100.0 else f"{minutes / 60.0:.3g} h"


def _move(sizing: Sizing, timing: Timing) -> list[str]:
    if timing.shortest_move is None or timing.longest_move is None or sizing.chosen is None:
        return []
    name = sizing.chosen.motor.id
    if not math.isfinite(timing.longest_move):
        return [f"{name} does not get through with the hardest planned load: it stalls."]
    span = between(seconds(timing.shortest_move), seconds(timing.longest_move))
    return [f"{name} takes {span} a turn."]


def _ratio(timing: Timing) -> list[str]:
    """Return which gear ratios between motor and crank would suit, beside the present one."""
    wanted = timing.gear_ratios_wanted
    if wanted is None:
        return []
    now = "none" if timing.gear_ratio == 1.0 else f"{timing.gear_ratio:.3g}"
    if wanted[0] > wanted[1]:
        return [
            f"No gear ratio makes it both strong and quick enough: strong from {wanted[0]:.3g} "
            f"up, quick enough up to {wanted[1]:.3g} (now {now})."
        ]
    return [f"A gear ratio of {wanted[0]:.2g} to {wanted[1]:.2g} behind it would suit (now {now})."]


def _drift(sizing: Sizing, timing: Timing) -> list[str]:
    drift = timing.drift
    if drift is None:
        return []
    begin = "By time alone" if timing.stopped_by == "timer" else "Not by time alone:"
    words = wording_of(sizing.turner)
    flat = f"{amount(sizing.turner, drift.flat, 0)}{words.from_middle}"
    run = f"{drift.run_time:.1f} s"
    if drift.flat_after is not None:
        return [
            f"{begin} {run} would leave {words.moving} under {flat} {_after(drift.flat_after)}."
        ]
    if timing.stopped_by == "timer":
        return [f"{begin} {run} keeps {words.moving} above {flat} through the longest hatch."]
    return []


def _after(turns: int) -> str:
    return f"after {turns} turns" if turns else "at once"


def _counter(timing: Timing) -> str:
    counts = timing.counts
    if not counts.changes_sides:
        return "These moves do not change sides (60° in all), so none of them counts as a turn."
    parts = [f"{counts.turns_per_day:.3g} a day"]
    if counts.last_day > 7.0:
        parts.append(f"{counts.day_7} after 7 days")
    parts.append(f"{counts.last_day_count} when turning ends on day {counts.last_day:g}")
    return f"Counter: {', '.join(parts)}."
