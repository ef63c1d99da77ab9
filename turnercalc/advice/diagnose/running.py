"""Single errors that would explain the time of a move, a count, or a current."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from turnercalc.advice.diagnose.measured import CURRENT, TIME
from turnercalc.motors.line import Line
from turnercalc.sizing import Sizing

TIME_SHARE = 0.05
COUNT = 1.0  # turns: a reading just before or after a move
HALVING = 0.02
MOST_LOAD = 6.0
FREQUENCIES = (50.0, 60.0)
#: A supply further off than this is another supply.
SUPPLY = (0.4, 1.6)


@dataclass(frozen=True)
class RunError:
    """One error that explains a time, a count or a current.

    Attributes
    ----------
    about : str
        ``time``, ``count`` or ``current``.
    kind : str
        Such as ``frequency``, ``voltage``, ``ratio``, ``speed``, ``travel``, ``load``,
        ``interval``, ``missed``, ``double``, ``half``.
    value : float
        Its size: the other frequency [Hz], supply [V], ratio, speed [rad/s], travel
        speed of a rod [m/s], factor on the load, interval [s], moves missed.
    meant : float
        What it was meant to be, in the same unit.
    """

    about: str
    kind: str
    value: float
    meant: float


def time_as_meant(sizing: Sizing, time: float) -> bool | None:
    """Tell whether a move takes as long as it should; None where nobody knows how long."""
    timing = sizing.timing
    if timing is None or timing.shortest_move is None or timing.longest_move is None:
        return None
    margin = max(TIME, TIME_SHARE * time)
    return timing.shortest_move - margin <= time <= timing.longest_move + margin


def explain_time(sizing: Sizing, time: float) -> Iterator[RunError]:
    """Yield what would make a move take so long."""
    timing, chosen = sizing.timing, sizing.chosen
    if timing is None or chosen is None or chosen.line is None or timing.longest_move is None:
        return
    shortest, longest = timing.shortest_move or timing.longest_move, timing.longest_move
    # How much slower than meant it runs, at the least and at the most.
    slower = (time / longest, time / shortest)
    usual = time / math.sqrt(shortest * longest)
    supply = sizing.design["motor"].supply
    if chosen.electric is not None and chosen.electric.current == "ac" and supply.frequency:
        other = next(f for f in FREQUENCIES if f != supply.frequency)
        share = supply.frequency / other
        if slower[0] * (1.0 - TIME_SHARE) <= share <= slower[1] * (1.0 + TIME_SHARE):
            yield RunError("time", "frequency", other, supply.frequency)
    line = chosen.line
    volts = chosen.electric.volts if chosen.electric else None
    if line.form == "straight" and volts and SUPPLY[0] <= 1.0 / usual <= SUPPLY[1]:
        yield RunError("time", "voltage", volts / usual, volts)
    kind = "speed" if sizing.drive.position_unit == "rad" else "travel"
    yield RunError("time", kind, line.free_speed / usual, line.free_speed)
    if sizing.stages.stages:
        yield RunError("time", "ratio", sizing.stages.ratio * usual, sizing.stages.ratio)
    factor = _load_factor(line, _typical_torque(sizing), usual)
    if factor is not None:
        yield RunError("time", "load", factor, 1.0)


def _typical_torque(sizing: Sizing) -> float:
    demand = sizing.demand
    if demand is None or sizing.chosen is None or not sizing.chosen.times_enough:
        return 0.0
    return (sizing.chosen.dependable or 0.0) / sizing.chosen.times_enough


def _load_factor(line: Line, torque: float, slower: float) -> float | None:
    """Return by what the hardest load must be larger for the speed to fall so far."""
    if line.form not in ("straight", "induction") or slower <= 1.0 or torque <= 0.0:
        return None
    now = 1.0 - torque / line.zero_torque
    factor = (1.0 - now / slower) * line.zero_torque / torque
    return factor if 1.0 < factor <= MOST_LOAD else None


def count_as_meant(sizing: Sizing, turns: float, hours: float) -> bool:
    """Tell whether a counter shows what it should."""
    return abs(turns - expected_turns(sizing, hours)) <= COUNT + 0.5


def expected_turns(sizing: Sizing, hours: float) -> float:
    """Return what a counter should show after so many hours."""
    return hours / 24.0 * float(sizing.design["turning"].turns_per_day)


def explain_count(sizing: Sizing, turns: float, hours: float) -> Iterator[RunError]:
    """Yield what would make a counter show so many turns."""
    meant = expected_turns(sizing, hours)
    interval = 86400.0 / float(sizing.design["turning"].turns_per_day)
    if abs(turns - 0.5 * meant) <= max(COUNT, HALVING * meant):
        yield RunError("count", "half", turns, meant)
    if abs(turns - 2.0 * meant) <= max(COUNT, HALVING * meant):
        yield RunError("count", "double", turns, meant)
    if turns > 0.0:
        yield RunError("count", "interval", 3600.0 * hours / turns, interval)
    if turns < meant:
        yield RunError("count", "missed", meant - turns, 0.0)


def current_as_meant(sizing: Sizing, current: float) -> bool | None:
    """Tell whether it draws what it should while it moves; None where nobody knows."""
    electric = sizing.chosen.electric if sizing.chosen else None
    if electric is None or electric.running is None:
        return None
    return 0.4 * electric.running <= current <= electric.running * (1.0 + 2.0 * CURRENT)


def explain_current(sizing: Sizing, current: float) -> Iterator[RunError]:
    """Yield what would make it draw so much while it moves."""
    electric = sizing.chosen.electric if sizing.chosen else None
    if electric is None or electric.running is None:
        return
    if electric.stalled and current >= 0.8 * electric.stalled:
        yield RunError("current", "stalled", current, electric.running)
    if current > electric.running:
        yield RunError("current", "load", current / electric.running, 1.0)
        if electric.volts and electric.current == "dc":
            yield RunError(
                "current", "voltage", electric.volts * current / electric.running, electric.volts
            )
    else:
        yield RunError("current", "idle", current, electric.running)
