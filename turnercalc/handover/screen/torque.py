"""HOW HARD IT TURNS: every family of loads, both directions, three frictions."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from turnercalc.checks.wording import place
from turnercalc.drives.wording import wording_of
from turnercalc.handover.cycle_record import cycle_of
from turnercalc.handover.display import DIRECTION_WORDS, Scale, Style, decimals_for, scale_for
from turnercalc.handover.layout import WIDTH, section, wrap
from turnercalc.loads import hardest
from turnercalc.units import show

if TYPE_CHECKING:
    from turnercalc.loads import Family
    from turnercalc.sizing import Sizing

_FIGURE = 7
_GAP = 3
_NAME = WIDTH - 2 - 6 * _FIGURE - _GAP - 1


def how_hard(sizing: Sizing, style: Style) -> list[str]:
    """Return the largest shaft torque of every family of loads, and where the hardest is."""
    if sizing.cycle is None:
        return []
    turns = sizing.drive.position_unit == "rad"
    scale = scale_for("torque" if turns else "force", style.system)
    at = wording_of(sizing.drive).shaft
    what = f"shaft torque at {at}" if turns else f"push on {at}"
    planned = [family for family in sizing.families if family.planned]
    others = [family for family in sizing.families if not family.planned]
    decimals = decimals_for(largest(sizing, scale))
    lines = [section("HOW HARD IT TURNS", style.letters(f"{what}, {scale.symbol}"))]
    lines += _heads(sizing)
    for family in planned:
        lines += _row(sizing, family, scale, decimals, style)
    if others:
        lines.append("  not planned, told so that you know:")
    for family in others:
        lines += _row(sizing, family, scale, decimals, style)
    lines += wrap(style.words(where_words(sizing)), 2)
    lines += wrap(style.words(moving_words(sizing)), 2) if moving_words(sizing) else []
    return lines + _other_units(style, turns)


def largest(sizing: Sizing, scale: Scale) -> float:
    """Return the largest torque of the table, in its unit."""
    peaks = np.array([family.peaks for family in sizing.families])
    return scale.per_si * float(np.max(peaks[np.isfinite(peaks)], initial=0.0))


def _heads(sizing: Sizing) -> list[str]:
    both = wording_of(sizing.drive).ways
    block = 3 * _FIGURE
    first = " " * (2 + _NAME) + both[0].rjust(block) + " " * _GAP + both[1].rjust(block)
    levels = "".join(word.rjust(_FIGURE) for word in ("low", "middle", "high"))
    second = "  " + "friction".ljust(_NAME) + levels + " " * _GAP + levels
    return [first, second]


def _row(sizing: Sizing, family: Family, scale: Scale, decimals: int, style: Style) -> list[str]:
    name = style.letters(cycle_of(sizing).loads[family.worst].name)
    figures = [
        "".join(
            figure(scale.of(float(peak)), decimals).rjust(_FIGURE)
            for peak in family.peaks[:, direction]
        )
        for direction in (0, 1)
    ]
    lines = wrap(name, 4, "  ", width=_NAME)
    lines[-1] = lines[-1].ljust(2 + _NAME) + (" " * _GAP).join(figures)
    return lines


def figure(value: float, decimals: int) -> str:
    """Return a torque as it stands in a table; ``jams`` where there is none."""
    if not math.isfinite(value):
        return "jams"
    text = f"{value:.{decimals}f}"
    return text.lstrip("-") if float(text) == 0.0 else text


def where_words(sizing: Sizing) -> str:
    """Return which way to turn, and where in the swing the hardest planned load is hardest."""
    cycle = cycle_of(sizing)
    middle = cycle.levels.index("middle")
    ways = (0, 1) if sizing.drive.both_ways else (sizing.better_direction,)
    peak, way = max(
        ((hardest(cycle, middle, way), way) for way in ways), key=lambda found: found[0].torque
    )
    if not math.isfinite(peak.torque):
        return "Where it says jams, friction holds it whatever the motor."
    words = wording_of(sizing.drive)
    text = f"Let it turn {DIRECTION_WORDS[way]}. " if cycle.motion.round_and_round else ""
    text += "Hardest"
    if sizing.drive.both_ways:
        text += f" {words.moving} {words.ways[way]},"
    q = float(cycle.motion.coordinate[peak.position])
    going = float(cycle.motion.rate[peak.position]) * (1.0 if way == 0 else -1.0)
    text += f" at {place(sizing.turner, q, going > 0.0)},"
    return f"{text} {cycle.loads[peak.load].name}."


#: Told where a motor is judged by so much more than the table says.
WORTH_TELLING = 1.01


def moving_words(sizing: Sizing) -> str:
    """Return why the chosen motor is judged by a harder turn than the table's; or empty."""
    chosen = sizing.chosen
    strength = chosen.finding("motor_strength") if chosen else None
    if chosen is None or strength is None or "harder way" in strength.text:
        return ""
    if not (chosen.dependable and chosen.times_enough) or not math.isfinite(chosen.times_enough):
        return ""
    middle = cycle_of(sizing).levels.index("middle")
    planned = (f.peaks[middle, sizing.told_direction] for f in sizing.families if f.planned)
    least, needed = float(max(planned)), chosen.dependable / chosen.times_enough
    told = show(needed, "torque" if sizing.drive.position_unit == "rad" else "force")
    if not needed > WORTH_TELLING * least or f"needs {told}" not in strength.text:
        return ""
    return (
        f"The table is at a crawl. At its own speed {chosen.motor.id} also moves the masses: "
        f"it is judged by {told}."
    )


def _other_units(style: Style, turns: bool) -> list[str]:
    if style.system != "both" or not turns:
        return []
    return wrap(style.letters("1 N·m is 10.2 kgf·cm, 142 ozf·in or 8.85 lbf·in."), 2)
