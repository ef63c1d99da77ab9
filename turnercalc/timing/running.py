"""Everything about running the turner day by day that follows from its times."""

from __future__ import annotations

import math
from dataclasses import dataclass

from turnercalc.cycle import TurnCycle
from turnercalc.motors import Demand, MotorResult
from turnercalc.swing import Ends
from turnercalc.timing.continuous import Continuous, continuous
from turnercalc.timing.moves import RunDown, Way, run_down, ways
from turnercalc.timing.plan import Timing
from turnercalc.timing.power_cut import PowerCut, power_cut
from turnercalc.timing.timers import Setting, Task, settings


@dataclass(frozen=True)
class Running:
    """Moves to each side, run-down, timers, power cuts, and running all day.

    Attributes
    ----------
    ways : tuple of Way
        The moves to either side with the chosen motor; empty without one.
    run_down : RunDown or None
        How far it runs on after switching off.
    timers : tuple of Setting
        What to set on each kind of timer, or why it cannot; empty without a motor that gets
        through.
    power_cut : PowerCut
        What a power cut leaves behind.
    continuous : Continuous or None
        Running slowly all day instead; None where the shaft does not go over and back in a turn.
    """

    ways: tuple[Way, ...]
    run_down: RunDown | None
    timers: tuple[Setting, ...]
    power_cut: PowerCut
    continuous: Continuous | None


def plan_running(
    cycle: TurnCycle,
    demand: Demand,
    chosen: MotorResult | None,
    timing: Timing,
    swing: Ends,
    *,
    anywhere: bool = False,
) -> Running:
    """Return what follows from the times of a turner with its motor.

    `anywhere`: only how far it goes in a move counts, so that no end can be shifted.
    """
    motion, motor_line = cycle.motion, chosen.line if chosen is not None else None
    longest = timing.longest_move
    runs = longest is not None and math.isfinite(longest)
    held = chosen is not None and chosen.heat_at_rest == "holding current"
    told_run_down = None
    if chosen is not None and chosen.run_down is not None and timing.shaft_speed is not None:
        ends = (swing.low_position, swing.high_position)
        told_run_down = run_down(motion, timing.shaft_speed, chosen.run_down, ends, holds=held)
    return Running(
        ways=() if timing.endless else ways(motion, demand, chosen),
        run_down=told_run_down,
        timers=settings(_task(demand, timing)) if runs else (),
        power_cut=power_cut(
            timing.stopped_by,
            longest=longest if runs else None,
            interval=timing.interval,
            travel=timing.limits.longest_travel,
            holds=None if chosen is None else chosen.holds_when_off,
            holding_anywhere=demand.holding_anywhere,
            reverses=demand.both_directions_needed,
            anywhere=anywhere,
        ),
        continuous=None
        if timing.endless or anywhere
        else continuous(
            motion,
            timing.counts.turns_per_day,
            timing.near_level,
            timing.beyond,
            None if motor_line is None else motor_line.free_speed,
        ),
    )


def _task(demand: Demand, timing: Timing) -> Task:
    assert timing.shortest_move is not None
    assert timing.longest_move is not None
    drift_time = timing.drift.run_time if timing.drift is not None else timing.run_time
    return Task(
        stopped_by=timing.stopped_by,
        reverses=demand.both_directions_needed,
        interval=timing.interval,
        shortest=timing.shortest_move,
        longest=timing.longest_move,
        run_time=drift_time if drift_time is not None else timing.longest_move,
        shaft_speed=timing.shaft_speed or 0.0,
    )
