"""What is seen of a turner and its drive from the side, while they move. No drawing.

A part that wants to be seen offers `sights`; a turner that does not is seen by its outlines.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol, runtime_checkable

import numpy as np
from numpy.typing import ArrayLike, NDArray

if TYPE_CHECKING:
    from turnercalc.paths import Path

Array = NDArray[np.float64]

#: How a sight is made up: a polygon that is closed, a bar or rod along its points, or discs of
#: one radius about its points.
AREA, BAR, DISC = "area", "bar", "disc"


@dataclass(frozen=True)
class Sight:
    """One thing seen from the side, at every position.

    Attributes
    ----------
    name : str
        What it is, in a builder's words: ``tray``, ``egg``, ``arm``, ``link``, ``crank``.
    shape : str
        `AREA`, `BAR` or `DISC`.
    x, y : ndarray, shape (points, positions)
        From the turner's origin [m]; one position for what stands still.
    radius : float
        Of a disc [m].
    """

    name: str
    shape: str
    x: Array
    y: Array
    radius: float = 0.0

    def at(self, index: int) -> tuple[Array, Array]:
        """Return its points at one position [m]."""
        column = index if self.x.shape[1] > 1 else 0
        return self.x[:, column], self.y[:, column]

    @property
    def stands_still(self) -> bool:
        """Whether it is at the same place all the time."""
        return bool(self.x.shape[1] == 1)


@runtime_checkable
class SeenTurner(Protocol):
    """A turner that says what is seen of it besides its outlines."""

    def sights(self, coordinate: Array) -> tuple[Sight, ...]:
        """Return arms, bars and pivots at the coordinates, shape (positions,) [rad or m]."""
        ...


@runtime_checkable
class SeenDrive(Protocol):
    """A drive that says what is seen of it."""

    def sights(self, path: Path, position: Array, coordinate: Array) -> tuple[Sight, ...]:
        """Return crank, link or rod at every position, with the turner's coordinate there."""
        ...


def through(
    name: str, shape: str, *points: tuple[ArrayLike, ArrayLike], radius: float = 0.0
) -> Sight:
    """Return a sight through points, each given as its x and y along the positions [m]."""
    x, y = (np.stack(np.broadcast_arrays(*(np.atleast_1d(p[i]) for p in points))) for i in (0, 1))
    return Sight(name, shape, np.asarray(x, float), np.asarray(y, float), radius)
