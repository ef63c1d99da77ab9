"""Where the part parks after each run of a timer, when nothing else stops it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.cycle import TurnCycle
from turnercalc.timing.drift import FULL_TURN, Drift, in_sense, stops
from turnercalc.timing.runs import Runs

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Course:
    """Parks of a drive that only a timer stops.

    Attributes
    ----------
    move : ndarray, shape (moves,)
        Number of the move, from 1.
    coordinate : ndarray, shape (moves,)
        Where the part parks after it [rad or m].
    run_time : float
        The timer's setting [s].
    """

    move: NDArray[np.int64]
    coordinate: Array
    run_time: float


def course(cycle: TurnCycle, runs: Runs, wander: Drift, moves: int) -> Course:
    """Return where the part parks with all eggs in, from its lowest end on.

    Parameters
    ----------
    cycle : TurnCycle
        That goes round and round.
    runs : Runs
        How the motor runs the shaft.
    wander : Drift
        With the timer's setting.
    moves : int
        How many moves to follow.
    """
    q = cycle.motion.coordinate
    turned, pace = in_sense(cycle.motion.position, runs.full, runs.sense)
    _, follows = in_sense(cycle.motion.position, q, runs.sense)
    begin = float(cycle.motion.position[np.nanargmin(q)]) * runs.sense
    gone = stops(turned, pace, begin, wander.run_time, moves)
    parks = np.interp(begin + gone, turned, follows, period=FULL_TURN)
    return Course(np.arange(1, moves + 1), parks, wander.run_time)
