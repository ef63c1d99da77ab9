"""The corners of a turner's outlines that can come furthest or go fastest."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from turnercalc.turners.base import Turner

Array = NDArray[np.float64]


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

    Points on an edge are left out. The two chains of Andrew (A. M. Andrew, Information Processing
    Letters 9 (1979) 216, from memory), each thinned as a whole instead of point by point.
    """
    ordered = np.array(sorted({(x, y) for x, y in points.tolist()}))
    if len(ordered) < 3:
        return ordered
    return np.concatenate([_chain(ordered)[:-1], _chain(ordered[::-1])[:-1]])


def _chain(points: Array) -> Array:
    """Return the part of the hull below points that go from left to right.

    A point at which the way does not turn left lies on or above the straight way between its
    neighbours. Of two neighbours only one is taken out at a time: the other may then turn left.
    """
    spared = 0
    while len(points) > 2:
        to_point, to_next = points[1:-1] - points[:-2], points[2:] - points[:-2]
        left = to_point[:, 0] * to_next[:, 1] > to_point[:, 1] * to_next[:, 0]
        if left.all():
            break
        left[spared::2] = True
        spared = 1 - spared
        points = points[np.concatenate([[True], left, [True]])]
    return points
