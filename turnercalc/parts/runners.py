"""Runners of a cradle: the floor they touch, and how far their ends come."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from turnercalc.turners.rocking_cradle import RockingCradle

STEPS = 181
ARC_STEPS = 61


@dataclass(frozen=True)
class RunnerRoom:
    """What the runners need, from the level contact [m].

    Attributes
    ----------
    touched_left, touched_right : float
        How far the contact walks to either side; nothing on fixed rollers.
    reach_left, reach_right : float
        The furthest that any part of the arc comes to either side.
    """

    touched_left: float
    touched_right: float
    reach_left: float
    reach_right: float

    @property
    def touched(self) -> float:
        """Width of the floor that the runners roll over [m]."""
        return self.touched_left + self.touched_right


def runner_room(cradle: RockingCradle, swing: tuple[float, float]) -> RunnerRoom | None:
    """Return what the runners need; None where nobody said how wide they are.

    Parameters
    ----------
    cradle : RockingCradle
        On the floor or on fixed rollers.
    swing : (float, float)
        Lowest and highest tilt reached [rad].
    """
    if cradle.runner_half_angle is None:
        return None
    radius, low, high = float(np.asarray(cradle.runner_radius)), *swing
    along = np.linspace(-cradle.runner_half_angle, cradle.runner_half_angle, ARC_STEPS)[:, None]
    path = cradle.path_of(radius * np.sin(along), radius * (1.0 - np.cos(along)))
    x, _ = path.point(np.linspace(low, high, STEPS))
    rolls = radius if cradle.rolls_on_floor else 0.0
    return RunnerRoom(
        touched_left=rolls * max(high, 0.0),
        touched_right=rolls * max(-low, 0.0),
        reach_left=float(-x.min()),
        reach_right=float(x.max()),
    )
