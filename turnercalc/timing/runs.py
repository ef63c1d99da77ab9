"""The driving shaft's speed at every position, with the motor that drives it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.mechanics.motion import time_along

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Runs:
    """How a motor runs the driving shaft through its cycle.

    Attributes
    ----------
    position : ndarray, shape (P,)
        Of the driving shaft, ascending [rad or m].
    speed : ndarray, shape (load, direction, P)
        Of the driving shaft under each planned load, in the direction it runs; 0 where it
        stands [rad/s or m/s].
    directions : tuple of int
        The directions it may run in: one where it can be chosen, else both.
    spans : tuple of (int, int)
        First and last index of each move; the last may run past the end of the turn.
    free_speed : float
        Of the driving shaft without load [rad/s or m/s].
    """

    position: Array
    speed: Array
    directions: tuple[int, ...]
    spans: tuple[tuple[int, int], ...]
    free_speed: float

    @property
    def fastest(self) -> float:
        """The highest speed of the shaft under any planned load."""
        return float(np.nanmax(self.speed[:, self.directions]))

    def indices(self, span: tuple[int, int]) -> NDArray[np.intp]:
        """Return the indices of the positions of one move, in ascending order of position."""
        return np.arange(span[0], span[1] + 1) % self.position.size

    def places(self, span: tuple[int, int]) -> Array:
        """Return the positions of one move, going on past a full turn."""
        count = self.position.size
        beyond = np.arange(span[0], span[1] + 1) // count
        return self.position[self.indices(span)] + 2.0 * np.pi * beyond

    def move_times(self) -> Array:
        """Return the time of each move, shape (load, direction run, move) [s].

        Infinite where the motor stands.
        """
        return np.stack(
            [
                time_along(
                    self.places(span), self.speed[:, self.directions][..., self.indices(span)]
                )
                for span in self.spans
            ],
            axis=-1,
        )
