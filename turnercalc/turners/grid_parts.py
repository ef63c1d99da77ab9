"""What a sliding grid is made of, and where its parts and eggs go."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.mechanics.pushing import contact_angle
from turnercalc.paths import Vector

Array = NDArray[np.float64]


@dataclass(frozen=True)
class GridBars:
    """The bars of a grid, from the side.

    Attributes
    ----------
    round : bool
        Whether they are round rods; else slats with upright faces and sharp edges.
    bottom, top : float
        Lowest and highest part above the floor the eggs lie on [m].
    thickness : float
        Along the slide [m].
    """

    round: bool = False
    bottom: float = 0.0
    top: float = np.inf
    thickness: float = 0.0

    def contact(self, radius: ArrayLike) -> Array:
        """Return how far above its middle height a bar touches an egg of a radius [rad].

        A slat touches it at its middle height wherever it reaches that height, else with an edge.
        """
        big = np.asarray(radius, float)
        if self.round:
            half = 0.5 * (self.top - self.bottom)
            return np.asarray(contact_angle(big, self.bottom + half, half))
        return np.asarray(contact_angle(big, np.clip(big, self.bottom, self.top)))


@dataclass(frozen=True)
class MeshFloor:
    """Wires along the bars that eggs have to climb over, one after the other [m]."""

    pitch: float
    wire: float = 0.0


@dataclass(frozen=True)
class Rolling:
    """A point of an egg that rolls along the floor, or of the grid where the radius is infinite.

    Attributes
    ----------
    across, height : ndarray
        Middle of the egg at q = 0 [m]; for a point of the grid, the point itself.
    reach, angle : ndarray
        From the middle to the point at q = 0 [m, rad].
    radius : ndarray
        Travel of the middle per radian of turn [m].
    slope : float
        How much the floor rises to the right [rad].
    """

    across: Array
    height: Array
    reach: Array
    angle: Array
    radius: Array
    slope: float = 0.0
    turning: float = 0.0

    def point(self, coordinate: ArrayLike) -> Vector:
        """Return middle + q along the floor + the point about it; it turns clockwise."""
        q = np.asarray(coordinate, float)
        direction = self.angle - q / self.radius
        return (
            self.across + q * np.cos(self.slope) + self.reach * np.cos(direction),
            self.height + q * np.sin(self.slope) + self.reach * np.sin(direction),
        )

    def tangent(self, coordinate: ArrayLike) -> Vector:
        """Return d(point)/dq."""
        direction = self.angle - np.asarray(coordinate, float) / self.radius
        share = self.reach / self.radius
        return (
            np.cos(self.slope) + share * np.sin(direction),
            np.sin(self.slope) - share * np.cos(direction),
        )

    def second(self, coordinate: ArrayLike) -> Vector:
        """Return d2(point)/dq2: the pull towards the egg's middle."""
        direction = self.angle - np.asarray(coordinate, float) / self.radius
        pull = self.reach / self.radius**2
        return -pull * np.cos(direction), -pull * np.sin(direction)


class Stroke(NamedTuple):
    """Where the eggs are while the grid slides.

    Attributes
    ----------
    moves : ndarray
        1 where the grid moves the eggs, 0 where it slides alone within the play.
    rolled : ndarray
        How far they have rolled to the right of the middle of their way [m].
    since : ndarray
        How far they have rolled since the stroke began [m].
    """

    moves: Array
    rolled: Array
    since: Array
