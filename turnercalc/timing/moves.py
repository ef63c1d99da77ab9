"""The moves to either side: how long each takes with the chosen motor, and how far it runs on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from turnercalc.drives.base import Motion
from turnercalc.motors import Demand, MotorResult


@dataclass(frozen=True)
class Way:
    """Every planned move to one side.

    Attributes
    ----------
    to_high : bool
        Whether it ends where the coordinate is greatest: left side down for trays.
    shortest, longest : float
        Over the planned loads and the directions it may run in [s]; infinite where it stalls.
    """

    to_high: bool
    shortest: float
    longest: float


def ways(motion: Motion, demand: Demand, chosen: MotorResult | None) -> tuple[Way, ...]:
    """Return the moves to either side, the one to the greatest coordinate first."""
    if chosen is None:
        return ()
    sorted_out: dict[bool, list[tuple[float, float]]] = {True: [], False: []}
    for move in chosen.moves:
        q = motion.coordinate[demand.indices(move.span)]
        rises = bool(q[-1] > q[0]) is (move.direction == 0)
        sorted_out[rises].append((move.shortest, move.longest))
    return tuple(
        Way(to_high, min(short for short, _ in times), max(long for _, long in times))
        for to_high, times in sorted_out.items()
        if times
    )


@dataclass(frozen=True)
class RunDown:
    """How far the drive runs on after the motor is switched off.

    Attributes
    ----------
    time : (float, float)
        Shortest and longest, without load, by the class of motor [s].
    shaft : (float, float)
        What the driving shaft turns meanwhile [rad or m].
    coordinate : float
        The most that either end of the swing shifts by it [rad or m].
    """

    time: tuple[float, float]
    shaft: tuple[float, float]
    coordinate: float


def run_down(
    motion: Motion,
    shaft_speed: float,
    time: tuple[float, float],
    stops: Sequence[float],
    *,
    holds: bool = False,
) -> RunDown:
    """Return how far a drive runs on after switching off.

    Parameters
    ----------
    motion : Motion
    shaft_speed : float
        When it is switched off [rad/s or m/s].
    time : (float, float)
        From switching off to standstill, without load [s].
    stops : sequence of float
        Positions of the drive at which it is switched off [rad or m].
    holds : bool
        Whether the motor holds its place by current, so that it does not run on at all.

    Notes
    -----
    Slowed evenly by its own friction it turns half of what it would have turned at speed. A load
    that resists stops it sooner. At a rest point the coordinate hardly changes (the second
    derivative times half the square); at an end switch in mid stroke it changes by the rate.
    """
    shortest, longest = (0.0, 0.0) if holds else time
    shaft = (0.5 * abs(shaft_speed) * shortest, 0.5 * abs(shaft_speed) * longest)
    shift = 0.0
    for stop in stops:
        at = int(np.argmin(np.abs(motion.position - stop)))
        rate, second = abs(float(motion.rate[at])), abs(float(motion.second[at]))
        if motion.round_and_round:
            rate = 0.0  # switched off on its rest point, up to the step of the grid
        shift = max(shift, rate * shaft[1] + 0.5 * second * shaft[1] ** 2)
    return RunDown((shortest, longest), shaft, shift)
