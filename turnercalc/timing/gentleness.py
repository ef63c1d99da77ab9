"""How fast and how hard the farthest egg is moved, from the drive's real motion."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.drives.base import Motion
from turnercalc.mechanics.motion import moving_pin_acceleration
from turnercalc.parts.outlines import corners
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Gentleness:
    """What one unit of shaft speed does to the farthest egg.

    Attributes
    ----------
    acceleration_per_speed2 : float
        Largest acceleration over the square of the shaft speed, along the path and square to
        it together [m for a shaft in rad/s].
    position : float
        Drive position at which it is largest [rad or m].
    rate : float
        Largest speed of the coordinate over the speed of the shaft [-].
    """

    acceleration_per_speed2: float
    position: float
    rate: float

    def acceleration(self, shaft_speed: float) -> float:
        """Return the largest acceleration at a steady shaft speed [rad/s] -> [m/s2]."""
        return self.acceleration_per_speed2 * shaft_speed**2

    def speed(self, shaft_speed: float) -> float:
        """Return the largest speed of the coordinate at a steady shaft speed [rad/s]."""
        return self.rate * abs(shaft_speed)

    def shaft_speed_at(self, acceleration: float) -> float:
        """Return the shaft speed at which an acceleration [m/s2] is just reached [rad/s]."""
        if self.acceleration_per_speed2 <= 0.0:
            return float("inf")
        return float(np.sqrt(acceleration / self.acceleration_per_speed2))


def gentleness(turner: Turner, motion: Motion) -> Gentleness:
    """Return how hard the farthest egg is moved for each unit of shaft speed.

    Every corner of the eggs' common hull is followed, and for each position the one that is moved
    hardest counts. Where the turner offers no eggs, its other outlines count.
    """
    across, height = corners(turner, "egg")
    path = turner.path_of(across[:, None], height[:, None])
    x1, y1 = path.tangent(motion.coordinate)
    x2, y2 = path.second(motion.coordinate)
    shape = moving_pin_acceleration(x1, y1, x2, y2, motion.rate, motion.second).max(axis=0)
    at = int(np.nanargmax(shape))
    return Gentleness(
        acceleration_per_speed2=float(shape[at]),
        position=float(motion.position[at]),
        rate=float(np.nanmax(np.abs(motion.rate))),
    )
