"""From a cycle and a motor to seconds, settings and counts."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.building import Built
from turnercalc.cycle import TurnCycle
from turnercalc.design import Design
from turnercalc.eggs.practice import is_turn, left_of_turn
from turnercalc.motors import Demand, MotorResult
from turnercalc.swing import egg_turn
from turnercalc.timing.counting import Counts, count
from turnercalc.timing.drift import FULL_TURN, Drift, drift, in_sense, stops
from turnercalc.timing.limits import SpeedLimits, fine_limit, one_step, speed_limits
from turnercalc.timing.rests import share_beyond
from turnercalc.timing.runs import Runs, runs_of
from turnercalc.turners.wording import wording_of

Array = NDArray[np.float64]

#: A move may take this many times the longest expected before the motor is switched off.
GIVE_UP_FACTOR = 2.0
GIVE_UP_BECAUSE = (
    "twice the longest move: high friction or a low supply slow it, but what takes longer is stuck"
)
#: A park that comes nearer to level than this share of the flatter end is no end any more.
FLAT_SHARE = 0.8
#: A tray nearer to level than this is as good as level: at 20 degrees each side hatch was far
#: lower (Funk and Forward 1960, from memory) [rad].
NEAR_LEVEL = math.radians(20.0)


@dataclass(frozen=True)
class Timing:
    """When and how long to run, what to count, and how gently it goes.

    Attributes
    ----------
    counts : Counts
        Interval, turns a day, counter readings, quiet days.
    stopped_by : str
        What ends a move: ``park switch``, ``end switches``, ``timer`` or ``counted steps``.
    limits : SpeedLimits
        How slow and how fast the driving shaft may turn.
    gear_ratio : float
        Turns of the motor's shaft per turn of the driving shaft now [-].
    gear_ratios_wanted : (float, float) or None
        From where it is strong and slow enough to where it gets too slow; the first is the
        larger where no ratio is both. None without a motor whose speed and torque are known, and
        where a rod pushes: nothing stands behind it.
    shaft_speed : float or None
        Highest speed of the driving shaft with the chosen motor [rad/s or m/s].
    shortest_move, longest_move : float or None
        Over the planned loads, both moves and the directions it may run in [s]; None without a
        motor, infinite where it stalls.
    give_up_after, give_up_because : float or None, str
        When to switch off because it must be stuck [s].
    peak_speed : float or None
        Of the turner's coordinate [rad/s or m/s].
    peak_acceleration : float or None
        Of the farthest egg, at the highest speed of the shaft held steady [m/s2].
    beyond, near_level : float
        Distances from level that the two shares go by [rad or m].
    share_beyond, share_near_level : float or None
        Share of the day further from level than `beyond`, and nearer than `near_level`; None
        without a motor, and where a rest in the middle is as good as any.
    drift : Drift or None
        What a timer alone would do; None where the shaft does not go over and back in one turn.
    run_time : float or None
        What the shorter move takes without load [s].
    endless : bool
        Whether each move goes on where the last one ended.
    """

    counts: Counts
    stopped_by: str
    limits: SpeedLimits
    gear_ratio: float
    gear_ratios_wanted: tuple[float, float] | None
    shaft_speed: float | None
    shortest_move: float | None
    longest_move: float | None
    give_up_after: float | None
    give_up_because: str
    peak_speed: float | None
    peak_acceleration: float | None
    beyond: float
    near_level: float
    share_beyond: float | None
    share_near_level: float | None
    drift: Drift | None
    run_time: float | None
    endless: bool = False

    @property
    def interval(self) -> float:
        """From the start of one move to the start of the next [s]."""
        return self.counts.interval


def plan_timing(
    design: Design, built: Built, cycle: TurnCycle, demand: Demand, chosen: MotorResult | None
) -> Timing:
    """Return everything about time, with the chosen motor where there is one."""
    turning, swinging = design["turning"], built.turner.coordinate_unit == "rad"
    q = cycle.motion.coordinate
    step = one_step(built.turner)
    total = float(np.nanmax(q) - np.nanmin(q)) if step is None else step
    turned = egg_turn(built.turner, total)
    counts = count(
        turning.turns_per_day,
        turning.last_day,
        built.ingredients.lot.species.incubation_days,
        changes_sides=turned is None or is_turn(left_of_turn(turned)),
    )
    limits = speed_limits(built.turner, cycle.motion)
    runs = runs_of(cycle, demand, chosen)
    longest = chosen.longest_move if chosen else None
    lesser_end = float(min(np.nanmax(q), -np.nanmin(q)))
    beyond, near = _distances(swinging, lesser_end)
    stopped_by = design["motor"].stopped_by
    wander = _drift(cycle, runs, lesser_end, swinging) if step is None else None
    rests = _rests(cycle, runs, stopped_by, wander, counts)
    middle_counts = wording_of(built.turner).middle_counts
    resting = runs if middle_counts else None
    return Timing(
        counts=counts,
        stopped_by=stopped_by,
        limits=limits,
        gear_ratio=built.stages.ratio,
        gear_ratios_wanted=None
        if demand.linear
        else _gear_ratios(built.stages.ratio, limits, runs, demand, chosen),
        shaft_speed=runs.fastest if runs else None,
        shortest_move=chosen.shortest_move if chosen else None,
        longest_move=longest,
        give_up_after=give_up_after(longest),
        give_up_because=GIVE_UP_BECAUSE,
        peak_speed=limits.gentleness.speed(runs.fastest) if runs else None,
        peak_acceleration=limits.gentleness.acceleration(runs.fastest) if runs else None,
        beyond=beyond,
        near_level=near,
        share_beyond=_share(cycle, demand, resting, rests, beyond),
        share_near_level=_less(_share(cycle, demand, resting, rests, near)),
        drift=wander,
        run_time=limits.shortest_travel / runs.free_speed if runs else None,
        endless=step is not None,
    )


def give_up_after(longest_move: float | None) -> float | None:
    """Return when to switch off a move that does not end [s], whole seconds."""
    if longest_move is None or not math.isfinite(longest_move):
        return None
    # what is over a whole second only by rounding stays at it
    return float(math.ceil(GIVE_UP_FACTOR * longest_move - 1e-6))


def _distances(swinging: bool, lesser_end: float) -> tuple[float, float]:
    """Return what counts as far from level, and as near to it."""
    if not swinging:
        return FLAT_SHARE * lesser_end, 0.5 * lesser_end
    return math.radians(fine_limit("tilt_each_side")), NEAR_LEVEL


def _gear_ratios(
    ratio: float,
    limits: SpeedLimits,
    runs: Runs | None,
    demand: Demand,
    chosen: MotorResult | None,
) -> tuple[float, float] | None:
    """Return the ratios between motor and driving shaft that suit both speed and torque.

    Before the loss of any stage that has to be added.
    """
    if runs is None or chosen is None or not chosen.times_enough:
        return None
    motor_speed = runs.free_speed * ratio
    strong = ratio * demand.safety_factor / chosen.times_enough
    return max(strong, motor_speed / limits.fastest), motor_speed / limits.slowest


def _drift(cycle: TurnCycle, runs: Runs | None, lesser_end: float, swinging: bool) -> Drift | None:
    """Return what a timer set by the listed speed does with all eggs in."""
    if runs is None or not cycle.motion.round_and_round or not runs.full_gets_through:
        return None
    flat = FLAT_SHARE * lesser_end
    if swinging:
        flat = min(math.radians(fine_limit("tilt_each_side_often")), flat)
    return drift(
        cycle.motion.position,
        cycle.motion.coordinate,
        runs.full,
        sense=runs.sense,
        start=_low_end(cycle),
        run_time=round(np.pi / runs.free_speed, 1),
        flat=flat,
    )


def _low_end(cycle: TurnCycle) -> float:
    return float(cycle.motion.position[np.nanargmin(cycle.motion.coordinate)])


def _rests(
    cycle: TurnCycle, runs: Runs | None, stopped_by: str, wander: Drift | None, counts: Counts
) -> tuple[float, ...]:
    """Return the coordinates at which it rests through the whole time of turning."""
    q = cycle.motion.coordinate
    ends = (float(np.nanmin(q)), float(np.nanmax(q)))
    if stopped_by != "timer" or runs is None or wander is None:
        return ends
    turned, pace = in_sense(cycle.motion.position, runs.full, runs.sense)
    _, follows = in_sense(cycle.motion.position, q, runs.sense)
    begin = _low_end(cycle) * runs.sense
    gone = stops(turned, pace, begin, wander.run_time, max(counts.last_day_count, 1))
    return tuple(np.interp(begin + gone, turned, follows, period=FULL_TURN).tolist())


def _share(
    cycle: TurnCycle,
    demand: Demand,
    runs: Runs | None,
    rests: tuple[float, ...],
    distance: float,
) -> float | None:
    """Return the share of the day further from level than a distance, with all eggs in."""
    if runs is None:
        return None
    shares = [
        share_beyond(
            cycle.motion.coordinate[demand.indices(span)],
            demand.places(span) / demand.stages_ratio,
            runs.full[demand.indices(span)],
            rests,
            distance,
            demand.interval_s,
        )
        for span in demand.move_spans
    ]
    mean = float(np.mean(shares))
    return mean if math.isfinite(mean) else None


def _less(share: float | None) -> float | None:
    """Return what is left of the day."""
    return None if share is None else 1.0 - share
