"""The outline of everything a moving part passes through: keep it clear."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from turnercalc.parts.outlines import convex_hull
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]
Ring = tuple[Array, Array]

STEPS = 49  # coordinates of the swing that are looked at
MESH = 2e-3  # m; the outline is drawn through the cells, to about a tenth of one


def swept(turner: Turner, swing: tuple[float, float], *, mesh: float = MESH) -> tuple[Ring, ...]:
    """Return the outlines of what one of the equal parts passes through, its eggs included.

    Parameters
    ----------
    turner : Turner
    swing : (float, float)
        Lowest and highest coordinate reached [rad or m].
    mesh : float
        Width of the cells it is traced through [m].

    Returns
    -------
    tuple of (across, height)
        Closed rings about the part at the turner's origin (the others are as far off as `stack`
        says), the largest first; the first point is repeated at the end [m].

    Notes
    -----
    Every outline is taken as its convex hull. A point is inside a convex polygon by the least of
    its distances to the edges; the greatest of these over all outlines and coordinates is a
    surface whose zero line is the outline of what is swept.
    """
    from contourpy import contour_generator

    polygons = _polygons(turner, np.linspace(*swing, STEPS))
    low = np.min([p.min(axis=0) for p in polygons], axis=0) - 2.0 * mesh
    high = np.max([p.max(axis=0) for p in polygons], axis=0) + 3.0 * mesh
    x, y = (np.arange(low[i], high[i], mesh) for i in (0, 1))
    depth = np.full((y.size, x.size), -2.0 * mesh)
    for polygon in polygons:
        columns, rows = (_cells(axis, polygon[:, i], mesh) for i, axis in ((0, x), (1, y)))
        here = _depth(polygon, x[columns], y[rows])
        depth[rows, columns] = np.maximum(depth[rows, columns], here)
    lines = [np.asarray(line) for line in contour_generator(x, y, depth).lines(0.0)]
    rings = [(line[:, 0], line[:, 1]) for line in lines]
    return tuple(sorted(rings, key=lambda ring: -float(np.ptp(ring[0]))))


def _polygons(turner: Turner, coordinate: Array) -> list[Array]:
    """Return the hull of every outline at every coordinate, anticlockwise."""
    found = []
    for outline in turner.outlines():
        points = np.stack([outline.across, outline.height], axis=1)
        path = turner.path_of(points[:, :1], points[:, 1:])
        px, py = path.point(coordinate)
        found += [convex_hull(np.stack([px[:, i], py[:, i]], axis=1)) for i in range(px.shape[1])]
    return found


def _cells(axis: Array, values: Array, mesh: float) -> slice:
    first = int(np.searchsorted(axis, values.min() - 2.0 * mesh))
    last = int(np.searchsorted(axis, values.max() + 2.0 * mesh))
    return slice(first, last)


def _depth(polygon: Array, x: Array, y: Array) -> Array:
    """Return how deep points lie inside a convex polygon, outside is negative [m]."""
    edge = np.roll(polygon, -1, axis=0) - polygon
    normal = np.stack([-edge[:, 1], edge[:, 0]], axis=1) / np.hypot(edge[:, :1], edge[:, 1:])
    offset = (normal * polygon).sum(axis=1)
    inside = normal[:, 0, None, None] * x + normal[:, 1, None, None] * y[:, None]
    return np.asarray((inside - offset[:, None, None]).min(axis=0))
