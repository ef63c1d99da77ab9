"""A slot among the holes of its piece, and what passes by it, seen from the side. No drawing."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from turnercalc.pieces import Hole, Piece
from turnercalc.sight import Sight

Array = NDArray[np.float64]


class Wall(NamedTuple):
    """What is left between a slot and a hole.

    Attributes
    ----------
    piece, hole : str
        What they are in, and what goes through the hole.
    left : float
        [m]; below zero they run into each other.
    """

    piece: str
    hole: str
    left: float


def from_line(x: Array, y: Array, start: tuple[Array, Array], end: tuple[Array, Array]) -> Array:
    """Return the distance of points from a line between two ends [m]."""
    along_x, along_y = end[0] - start[0], end[1] - start[1]
    length2 = np.maximum(along_x**2 + along_y**2, 1e-18)
    share = np.clip(((x - start[0]) * along_x + (y - start[1]) * along_y) / length2, 0.0, 1.0)
    apart = np.hypot(x - start[0] - share * along_x, y - start[1] - share * along_y)
    return np.asarray(apart, float)


def thinnest_wall(pieces: tuple[Piece, ...]) -> Wall | None:
    """Return the thinnest wall between any slot and a hole beside it; None without a slot."""
    walls = [wall for piece in pieces for wall in _walls(piece)]
    return min(walls, key=lambda wall: wall.left, default=None)


def _walls(piece: Piece) -> list[Wall]:
    ends = [hole for hole in piece.holes if hole.slot]
    if len(ends) != 2:
        return []
    start, end = ((np.asarray(one.x), np.asarray(one.y)) for one in ends)

    def left(hole: Hole) -> float:
        apart = float(from_line(np.asarray(hole.x), np.asarray(hole.y), start, end))
        return apart - 0.5 * (hole.diameter or 0.0) - 0.5 * (ends[0].diameter or 0.0)

    return [Wall(piece.name, hole.name, left(hole)) for hole in piece.holes if not hole.slot]


def nearest_pass(bar: Sight, pin: Sight) -> float:
    """Return how near the edge of a disc comes to the middle line of a bar, at any time [m]."""
    (x0, x1), (y0, y1) = bar.x, bar.y
    apart = from_line(pin.x[0], pin.y[0], (x0, y0), (x1, y1))
    return float(np.nanmin(apart)) - pin.radius
