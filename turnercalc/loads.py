"""Load cases over a cycle: the hardest planned one, families of cases, the better direction."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.cycle import TurnCycle

Array = NDArray[np.float64]

#: Peaks that differ by less than this part are the same.
SAME = 1e-9


@dataclass(frozen=True)
class Hardest:
    """Where a cycle is hardest.

    Attributes
    ----------
    torque : float
        Largest shaft torque, the motor pushing [N·m or N].
    load, position : int
        Index along the load axis and along the position axis.
    """

    torque: float
    load: int
    position: int


def planned(cycle: TurnCycle) -> NDArray[np.bool_]:
    """Return which loads of a cycle are planned, shape (L,)."""
    return np.array([case.planned for case in cycle.loads])


def peaks(cycle: TurnCycle) -> Array:
    """Return the largest shaft torque over the positions, shape (load, friction, direction).

    NaN where the drive jams anywhere in the cycle.
    """
    return np.asarray(cycle.shaft_torque.max(axis=-1))


def hardest(cycle: TurnCycle, level: int, direction: int) -> Hardest:
    """Return the hardest planned load at one friction level in one direction."""
    torque = np.where(planned(cycle)[:, None], cycle.shaft_torque[:, level, direction], -np.inf)
    if np.isnan(torque).any():
        jam = np.argwhere(np.isnan(torque))[0]
        return Hardest(float("inf"), int(jam[0]), int(jam[1]))
    load, position = np.unravel_index(int(torque.argmax()), torque.shape)
    return Hardest(float(torque[load, position]), int(load), int(position))


def better_direction(cycle: TurnCycle) -> int:
    """Return the direction with the smaller worst peak over all planned loads, middle friction."""
    level = cycle.levels.index("middle") if "middle" in cycle.levels else 0
    worst = [hardest(cycle, level, direction).torque for direction in (0, 1)]
    return 0 if worst[0] <= worst[1] else 1


@dataclass(frozen=True)
class Family:
    """Load cases told in one line: the name, and the member that is hardest at any friction.

    Attributes
    ----------
    name : str
        Family name.
    planned : bool
        Whether the motor must be ready for it.
    worst : int
        Index along the load axis of the member with the largest peak.
    peaks : ndarray, shape (friction, direction)
        Largest shaft torque of any member [N·m or N].
    """

    name: str
    planned: bool
    worst: int
    peaks: Array


def first_of_the_largest(values: Array) -> int:
    """Return the index of the first value that is as large as any, NaN (it jams) being largest.

    Loads that mirror each other differ in the last digit only, which must not decide.
    """
    known = np.where(np.isnan(values), np.inf, values)
    largest = known.max()
    slack = SAME * abs(largest) if np.isfinite(largest) else 0.0
    return int(np.argmax(known >= largest - slack))


def families(cycle: TurnCycle) -> tuple[Family, ...]:
    """Return the load cases grouped by family, in the order of their first member."""
    every = peaks(cycle)
    names = list(dict.fromkeys(case.family for case in cycle.loads))
    found = []
    for name in names:
        members = [i for i, case in enumerate(cycle.loads) if case.family == name]
        worst = members[first_of_the_largest(every[members].max(axis=(1, 2)))]
        found.append(Family(name, cycle.loads[worst].planned, worst, every[members].max(axis=0)))
    return tuple(found)
