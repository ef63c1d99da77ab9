"""The corners of a turner's outlines that can come furthest or go fastest."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from turnercalc.turners.base import Turner

Array = NDArray[np.float64]
Point = tuple[float, float]


def corners(turner: Turner, name: str = "") -> tuple[Array, Array]:
    """Return the corners of the convex hull of a turner's outlines, at q = 0 [m].

    Whatever a rigid part does, a corner of its hull comes furthest in any direction, and as
    speed and acceleration are linear in the place on the part, a corner is moved hardest too.

    Parameters
    ----------
    turner : Turner
    name : str
        Only outlines of this name, such as ``egg``; all of them where there is none of it.

    Returns
    -------
    across, height : ndarray, shape (corner,)
    """
    every = turner.outlines()
    chosen = [outline for outline in every if outline.name == name] or list(every)
    points = np.array(
        [
            np.concatenate([outline.across for outline in chosen]),
            np.concatenate([outline.height for outline in chosen]),
        ]
    ).T
    hull = convex_hull(points)
    return hull[:, 0], hull[:, 1]


def convex_hull(points: Array) -> Array:
    """Return the corners of the convex hull of points, anticlockwise, shape (corner, 2).

    Points on an edge are left out. Andrew's monotone chain (A. M. Andrew, Information Processing
    Letters 9 (1979) 216, from memory).
    """
    ordered = sorted({(x, y) for x, y in points.tolist()})
    if len(ordered) < 3:
        return np.array(ordered)
    return np.array(_chain(ordered)[:-1] + _chain(ordered[::-1])[:-1])


def _chain(points: list[Point]) -> list[Point]:
    """Return the part of the hull below points that go from left to right."""
    kept: list[Point] = []
    for point in points:
        while len(kept) > 1 and not _turns_left(kept[-2], kept[-1], point):
            kept.pop()
        kept.append(point)
    return kept


def _turns_left(a: Point, b: Point, c: Point) -> bool:
    return (b[0] - a[0]) * (c[1] - a[1]) > (b[1] - a[1]) * (c[0] - a[0])
