"""Where everything that is seen from the side stands, at every position of a drive."""

from __future__ import annotations

from itertools import groupby

import numpy as np
from numpy.typing import NDArray

from turnercalc.drives.base import Drive, Motion
from turnercalc.sight import AREA, SeenDrive, SeenTurner, Sight
from turnercalc.turners.base import Outline, Turner

Array = NDArray[np.float64]


def poses(turner: Turner, drive: Drive, motion: Motion) -> tuple[Sight, ...]:
    """Return what is seen of turner and drive at every position of a motion.

    Parameters
    ----------
    turner : Turner
    drive : Drive
    motion : Motion
        The drive closed on the turner's path, at any positions.

    Returns
    -------
    tuple of Sight
        Those further back first.
    """
    q = np.atleast_1d(motion.coordinate)
    drawn = [*outlined(turner, q)]
    if isinstance(turner, SeenTurner):
        drawn += turner.sights(q)
    if isinstance(drive, SeenDrive):
        drawn += drive.sights(turner.path(), motion.position, q)
    return tuple(drawn)


def outlined(turner: Turner, coordinate: Array) -> tuple[Sight, ...]:
    """Return every outline of every equal part at the coordinates.

    Of an egg that may lean to either side, the one is shown that leans to the low side.
    """
    found = []
    for across, up in turner.stack:
        for name, outlines in groupby(turner.outlines(), lambda outline: outline.name):
            several = list(outlines)
            lefts = [moved(turner, one, coordinate) for one in several if one.side < 0]
            rights = [moved(turner, one, coordinate) for one in several if one.side > 0]
            fixed = [moved(turner, one, coordinate) for one in several if not one.side]
            left_down = coordinate > 0.0
            leaning = [
                (np.where(left_down, lx, rx), np.where(left_down, ly, ry))
                for (lx, ly), (rx, ry) in zip(lefts, rights, strict=True)
            ]
            found += [Sight(name, AREA, x + across, y + up) for x, y in (*fixed, *leaning)]
    return tuple(found)


def moved(turner: Turner, outline: Outline, coordinate: Array) -> tuple[Array, Array]:
    """Return the corners of an outline at every coordinate, shape (corner, coordinate)."""
    path = turner.path_of(outline.across[:, None], outline.height[:, None])
    return path.point(coordinate)
