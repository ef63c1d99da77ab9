"""The outline of everything a moving part passes through: keep it clear."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from turnercalc.parts.outlines import convex_hull
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]
Ring = tuple[Array, Array]

STEPS = 49  # coordinates of the swing that are looked at
MESH = 1e-3  # m; corners are cut by less than half a cell
SMOOTH = 0.1e-3  # m; points nearer than this to the line past them are left out


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
    kept = [line[simplified(line, SMOOTH)] for line in lines]
    rings = [(line[:, 0], line[:, 1]) for line in kept]
    return tuple(sorted(rings, key=lambda ring: -float(np.ptp(ring[0]))))


def simplified(line: Array, within: float) -> NDArray[np.bool_]:
    """Return which points of a line to keep, so that none is further than `within` from it.

    Halving at the furthest point (D. Douglas and T. Peucker 1973, from memory). A ring is cut at
    its first point and the one furthest from it.
    """
    keep = np.zeros(len(line), bool)
    far = int(np.hypot(*(line - line[0]).T).argmax())
    keep[[0, far, len(line) - 1]] = True
    spans = [(0, far), (far, len(line) - 1)]
    while spans:
        first, last = spans.pop()
        if last - first < 2:
            continue
        chord = line[last] - line[first]
        off = line[first + 1 : last] - line[first]
        length = float(np.hypot(*chord))
        away = (
            np.abs(off[:, 0] * chord[1] - off[:, 1] * chord[0]) / length
            if length
            else (np.hypot(*off.T))
        )
        at = int(away.argmax())
        if away[at] > within:
            middle = first + 1 + at
            keep[middle] = True
            spans += [(first, middle), (middle, last)]
    return keep


def _polygons(turner: Turner, coordinate: Array) -> list[Array]:
    """Return the hull of every outline at every coordinate, anticlockwise."""
    found = []
    for outline in turner.outlines():
        # The part is rigid: what is a corner of its hull at one coordinate is one at all.
        hull = convex_hull(np.stack([outline.across, outline.height], axis=1))
        px, py = turner.path_of(hull[:, :1], hull[:, 1:]).point(coordinate)
        found += [np.stack([px[:, i], py[:, i]], axis=1) for i in range(px.shape[1])]
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
