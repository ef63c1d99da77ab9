"""The driving shaft's speed at every position, with the motor that drives it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.cycle import TurnCycle
from turnercalc.motors import Demand, MotorResult

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Runs:
    """How a motor runs the driving shaft through its cycle.

    Attributes
    ----------
    speed : ndarray, shape (load, direction, P)
        Of the driving shaft under each planned load, in the direction it runs; 0 where it
        stands [rad/s or m/s].
    directions : tuple of int
        The directions it may run in: one where it can be chosen, else both.
    free_speed : float
        Of the driving shaft without load [rad/s or m/s].
    fullest : int
        Index along the load axis of the load with the most eggs.
    """

    speed: Array
    directions: tuple[int, ...]
    free_speed: float
    fullest: int

    @property
    def fastest(self) -> float:
        """The highest speed of the shaft under any planned load, in any direction it may run."""
        return float(np.nanmax(self.speed[:, self.directions], initial=0.0))

    @property
    def full(self) -> Array:
        """The speed with all eggs in, in the first of the directions, shape (P,)."""
        return np.asarray(self.speed[self.fullest, self.directions[0]])

    @property
    def full_gets_through(self) -> bool:
        """Whether it stands nowhere with all eggs in."""
        return bool((self.full > 0.0).all())

    @property
    def sense(self) -> float:
        """Sign of the first of the directions: +1 anticlockwise."""
        return 1.0 if self.directions[0] == 0 else -1.0


def runs_of(cycle: TurnCycle, demand: Demand, chosen: MotorResult | None) -> Runs | None:
    """Return how the chosen motor runs the driving shaft; None where its line is not known.

    The little that inertia asks is reckoned at the free speed.
    """
    if chosen is None or chosen.line is None or not chosen.directions:
        return None
    line, ratio = chosen.line, demand.stages_ratio
    eggs = [case.egg_count for case in cycle.loads if case.planned]
    return Runs(
        speed=line.speed(demand.running_torque(line.free_speed)) / ratio,
        directions=chosen.directions,
        free_speed=line.free_speed / ratio,
        fullest=int(np.argmax(eggs)),
    )
