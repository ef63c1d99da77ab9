"""The trial before eggs go in: what to load, how long to run, and what every reading must be."""

from __future__ import annotations

import math
from dataclasses import dataclass

from turnercalc.advice.diagnose.ends import only_stroke, tolerance
from turnercalc.advice.diagnose.measured import CURRENT, TIME
from turnercalc.advice.diagnose.running import COUNT, TIME_SHARE, expected_turns
from turnercalc.cycle import TurnCycle
from turnercalc.loads import hardest
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.sizing import Sizing

#: The finished build runs this long before eggs go in (common practice, no source).
HOURS = 48.0
#: When to read the counter [h].
READINGS = (1.0, 6.0, 12.0, 24.0, 36.0, 48.0)
#: Arm of the bottle test [m]: a foot of batten is at hand everywhere.
BOTTLE_ARM = 0.300
SURE = 0.25  # of the torque worked out: the bottle test is no better (common practice, no source)


@dataclass(frozen=True)
class DummyLoad:
    """A load to try it with: eggs replaced by something of their weight.

    Attributes
    ----------
    name : str
        Which places are filled.
    egg_count : int
    mass : float
        Of all that stands in for eggs [kg].
    peak : float
        Hardest shaft torque at middle friction, in the direction it is to turn [N·m or N].
    """

    name: str
    egg_count: int
    mass: float
    peak: float


@dataclass(frozen=True)
class BottleTest:
    """A known weight on a level arm at the driving shaft, with the motor off the shaft.

    Attributes
    ----------
    load : str
        The load it is done with.
    torque : float
        What the shaft asks at its hardest place [N·m].
    arm : float
        From the middle of the shaft to the string [m].
    mass : float
        Bottle, its water and the string that should just move it [kg].
    least, most : float
        Range that agrees with what was worked out [kg].
    """

    load: str
    torque: float
    arm: float
    mass: float
    least: float
    most: float


@dataclass(frozen=True)
class Reading:
    """What a counter must show at an hour of the run."""

    hours: float
    least: float
    due: float
    most: float


@dataclass(frozen=True)
class TrialPlan:
    """The whole trial.

    Attributes
    ----------
    loads : tuple of DummyLoad
        In the order to try them; the last one stays in for the long run.
    bottle : BottleTest or None
        Where a shaft can be turned by hand.
    readings : tuple of Reading
    high, low : (float, float) or None
        Least and most of either end, counted positive [rad or m]; None: as drawn it does not go
        through, or only how far it goes counts.
    total : (float, float) or None
        Least and most from end to end, where only that counts [rad or m].
    move_time : (float, float) or None
        Least and most of a move [s].
    current : (float, float) or None
        Most while it moves, and what it draws when blocked [A].
    give_up : float or None
        When the control must switch off [s].
    """

    loads: tuple[DummyLoad, ...]
    bottle: BottleTest | None
    readings: tuple[Reading, ...]
    high: tuple[float, float] | None
    low: tuple[float, float] | None
    total: tuple[float, float] | None
    move_time: tuple[float, float] | None
    current: tuple[float, float] | None
    give_up: float | None


def trial_plan(sizing: Sizing) -> TrialPlan:
    """Return the trial of a design."""
    cycle = sizing.cycle
    loads = () if cycle is None else _loads(sizing, cycle)
    apart = only_stroke(sizing)
    spread = None if apart else _spread(sizing)
    return TrialPlan(
        loads=loads,
        bottle=_bottle(sizing, loads),
        readings=tuple(_reading(sizing, hours) for hours in READINGS),
        high=spread and spread[0],
        low=spread and spread[1],
        total=_stroke(sizing) if apart else None,
        move_time=_move_time(sizing),
        current=_current(sizing),
        give_up=sizing.timing.give_up_after if sizing.timing else None,
    )


def _loads(sizing: Sizing, cycle: TurnCycle) -> tuple[DummyLoad, ...]:
    """Return empty, full, and the hardest planned load, each once; the full one last."""
    way, middle = sizing.told_direction, cycle.levels.index("middle")
    worst = hardest(cycle, middle, way).load
    counts = [case.egg_count for case in cycle.loads]
    planned = [i for i, case in enumerate(cycle.loads) if case.planned]
    empty = min(planned, key=lambda i: counts[i])
    full = max(planned, key=lambda i: counts[i])
    egg = sizing.ingredients.lot.typical.mass
    order = dict.fromkeys((empty, worst, full) if worst != full else (empty, full))
    return tuple(
        DummyLoad(
            cycle.loads[i].name,
            counts[i],
            counts[i] * egg,
            float(cycle.shaft_torque[i, middle, way].max()),
        )
        for i in order
    )


def _bottle(sizing: Sizing, loads: tuple[DummyLoad, ...]) -> BottleTest | None:
    if sizing.drive.position_unit != "rad":
        return None
    hard = max(loads, key=lambda load: load.peak, default=None)
    if hard is None or not math.isfinite(hard.peak) or hard.peak <= 0.0:
        return None
    mass = hard.peak / (BOTTLE_ARM * STANDARD_GRAVITY)
    return BottleTest(
        hard.name, hard.peak, BOTTLE_ARM, mass, (1.0 - SURE) * mass, (1.0 + SURE) * mass
    )


def _reading(sizing: Sizing, hours: float) -> Reading:
    due = expected_turns(sizing, hours)
    return Reading(hours, max(math.floor(due) - COUNT, 0.0), due, math.ceil(due) + COUNT)


def _spread(sizing: Sizing) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """Return the range of either end as marked and played, no finer than it can be read."""
    swing, built = sizing.ends, sizing.as_built
    if built is None or not math.isfinite(swing.total):
        return None
    high, low = swing.high, -swing.low
    down = max(min(high, low) - built.least, tolerance(sizing))
    up = max(built.most - max(high, low), tolerance(sizing))
    return (high - down, high + up), (low - down, low + up)


def _stroke(sizing: Sizing) -> tuple[float, float] | None:
    """Return the range from end to end as marked and played, no finer than it can be read."""
    total, built, off = sizing.ends.total, sizing.as_built, tolerance(sizing)
    if built is None or not math.isfinite(total):
        return None
    return min(built.total_least, total - off), max(built.total_most, total + off)


def _move_time(sizing: Sizing) -> tuple[float, float] | None:
    timing = sizing.timing
    if timing is None or timing.shortest_move is None or timing.longest_move is None:
        return None
    if not math.isfinite(timing.longest_move):
        return None
    off = max(TIME, TIME_SHARE * timing.longest_move)
    return max(timing.shortest_move - off, 0.0), timing.longest_move + off


def _current(sizing: Sizing) -> tuple[float, float] | None:
    electric = sizing.chosen.electric if sizing.chosen else None
    if electric is None or electric.running is None:
        return None
    return electric.running * (1.0 + 2.0 * CURRENT), electric.stalled or math.inf
