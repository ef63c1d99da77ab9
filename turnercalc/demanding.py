"""What a design asks of the gearmotor's own shaft: the `Demand` that motors are judged by."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from turnercalc import timing
from turnercalc.building import Built
from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.design import Design
from turnercalc.drives.stages import Stages
from turnercalc.drives.wording import wording_of
from turnercalc.loads import better_direction, planned
from turnercalc.motors import Demand
from turnercalc.swing import FULL_TURN, Ends, rests
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]
DAY = 86400.0  # s


def asked_of_shaft(
    design: Design, built: Built, cycle: TurnCycle, starting: TurnCycle, swing: Ends
) -> Demand:
    """Return what the driving shaft must be given: what a motor gives that sits on it."""
    motor = design["motor"]
    wanted = planned(cycle)
    middle = cycle.levels.index("middle")
    limits = timing.speed_limits(built.turner, cycle.motion)
    return Demand(
        angle=cycle.motion.position,
        torque=or_jam(cycle.shaft_torque[wanted, middle]),
        corner_torque=or_jam(starting.shaft_torque[wanted, 0]),
        inertia_torque=cycle.inertia_torque[wanted, 0].max(axis=0),
        load_names=tuple(case.name for case in cycle.loads if case.planned),
        better_direction=turning_direction(design, cycle),
        both_directions_needed=built.drive.both_ways or turns(design) == "either way",
        moves_per_cycle=moves_per_cycle(built, swing),
        move_spans=move_spans(built.turner, cycle, swing),
        holding_torque=held_at_the_ends(built, cycle, swing),
        holding_anywhere=float(resting_torque(cycle)[wanted].max()),
        speed_min=limits.slowest,
        speed_max=limits.fastest,
        safety_factor=motor.safety_factor,
        interval_s=DAY / design["turning"].turns_per_day,
        supply=motor.supply,
        stands=motor.stands,
        box_temperature=design["box"].temperature,
        stopped_by=motor.stopped_by,
        stages_ratio=1.0,
        side_load=side_load(cycle),
        linear=built.drive.position_unit == "m",
        room_temperature=design["box"].room,
        runs_whole_stroke=whole_stroke(built),
        drawn_stroke=drawn_stroke(built),
        rest_points=wording_of(built.drive).can_rest,
    )


def behind(asked: Demand, stages: Stages) -> Demand:
    """Return what a motor behind stages must give for what is asked of the driving shaft."""
    if not stages.stages:
        return asked
    ratio = stages.ratio
    return replace(
        asked,
        angle=asked.angle * ratio,
        torque=motor_torque(stages, asked.torque, "middle"),
        corner_torque=motor_torque(stages, asked.corner_torque, "starting"),
        inertia_torque=asked.inertia_torque / ratio**3,
        holding_torque=float(stages.held_torque(asked.holding_torque)),
        holding_anywhere=float(stages.held_torque(asked.holding_anywhere)),
        speed_min=asked.speed_min * ratio,
        speed_max=asked.speed_max * ratio,
        stages_ratio=ratio,
        side_load=None,  # the stage's own shaft bears the link
    )


def motor_torque(stages: Stages, shaft_torque: Array, level: str) -> Array:
    """Return the torque before all stages, shape (load, direction, position); infinite: jams."""
    known = np.where(np.isinf(shaft_torque), np.nan, shaft_torque)
    return or_jam(stages.motor_torque(known[:, None], (level,))[:, 0])


def whole_stroke(built: Built) -> float | None:
    """Return the stroke of a rod that runs from one of its own ends to the other [m]; else None."""
    return built.drive.stroke if getattr(built.drive, "whole_stroke", False) else None  # type: ignore[attr-defined]


def drawn_stroke(built: Built) -> float | None:
    """Return the stroke that the design is drawn with [m]; None for a shaft that turns."""
    return getattr(built.drive, "stroke", None) if built.drive.position_unit == "m" else None


WAYS = ("anticlockwise", "clockwise")


def turns(design: Design) -> str:
    """Return which way the crank turns, as the design says it."""
    crank = design.get("crank")
    return crank.turns if crank is not None else "the better way"


def turning_direction(design: Design, cycle: TurnCycle) -> int:
    """Return the direction the shaft turns: as the design says, else the better one."""
    said = turns(design)
    return WAYS.index(said) if said in WAYS else better_direction(cycle)


def or_jam(torque: Array) -> Array:
    """Return a torque with infinity where friction jams the drive: no motor is strong enough."""
    return np.where(np.isnan(torque), np.inf, torque)


def moves_per_cycle(built: Built, swing: Ends) -> int:
    """Return the moves of one drive cycle: 1 to and fro, 2 for a crank that goes round.

    A shaft that goes on step by step makes as many as its steps take to come back; one that makes
    the same move again and again, 1.
    """
    if built.drive.both_ways or not getattr(built.turner, "turns_back", True):
        return 1
    return len(rests(built.turner, swing)) if built.turner.endless else 2


def move_spans(turner: Turner, cycle: TurnCycle, swing: Ends) -> tuple[tuple[int, int], ...]:
    """Return the index ranges of single moves, end to end; a range may run past the last index.

    A crank that goes round makes two moves a turn, from rest point to rest point; one that goes
    to and fro makes one, and runs it back; a shaft that goes on step by step makes one from every
    place where it comes to rest.
    """
    count = cycle.motion.position.size
    if turner.endless and cycle.motion.round_and_round:
        per_index = count / FULL_TURN
        starts = np.array(rests(turner, swing)) - swing.low_position
        return tuple(
            (round(start * per_index), round((start + swing.total) * per_index)) for start in starts
        )
    if not cycle.motion.round_and_round:
        return ((0, count - 1),)
    first, second = sorted(
        round(position / (2.0 * np.pi) * count) % count
        for position in (swing.low_position, swing.high_position)
    )
    return (first, second), (second, first + count)


def resting_torque(cycle: TurnCycle) -> Array:
    """Return what each load asks of the resting shaft, shape (load, position) [N·m], >= 0.

    What weights and springs put on it, less what the lowest friction holds back; nothing where
    friction jams it.
    """
    low = cycle.levels.index("low")
    pushing = cycle.shaft_torque[:, low] - cycle.lost[:, low]
    left = np.maximum(np.abs(pushing) - cycle.lost[:, low], 0.0)
    return np.asarray(np.nan_to_num(left, nan=0.0).max(axis=1))


def held_at_the_ends(built: Built, cycle: TurnCycle, swing: Ends) -> float:
    """Return the largest torque that any planned load puts on the shaft parked at an end [N·m]."""
    loads = [case for case in cycle.loads if case.planned]
    at = rests(built.turner, swing)
    parked = turn_cycle(built.turner, built.drive, loads, levels=("low",), positions=at)
    return float(resting_torque(parked).max())


def side_load(cycle: TurnCycle) -> float | None:
    """Return the largest force of the link on the driving shaft [N]; None without a link."""
    if "crank pin" not in cycle.pin_forces:
        return None
    return float(np.nanmax(cycle.pin_forces["crank pin"][planned(cycle)]))
