"""Outlines of a loaded tray in the cross-section, from its pivot with the tray level."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from turnercalc.eggs.seats import Seating
from turnercalc.turners.base import Outline

#: Points along half an egg's outline; the polygon stays within 0.05 mm of a hen's egg.
HALF_POINTS = 31
#: A loose egg may stand in the middle of its seat or lean to either side.
SIDES = (-1, 0, 1)


def board(width: float, underside: float, top: float, middle: float = 0.0) -> Outline:
    """Return a tray as a rectangle.

    Parameters
    ----------
    width : float
        Outside, across the tilt axis [m].
    underside, top : float
        Its lowest part, and its egg floor or the rim above it, from the pivot [m].
    middle : float
        Middle of the tray across from the pivot, right is positive [m].
    """
    half = 0.5 * width
    across = middle + np.array([-half, half, half, -half])
    return Outline("tray", across, np.array([underside, underside, top, top]))


def eggs(seating: Seating, egg_floor: float, places: Sequence[float]) -> Iterable[Outline]:
    """Yield the largest egg at every row, in the middle of its seat and leaning to both sides.

    Parameters
    ----------
    seating : Seating
        How the eggs sit.
    egg_floor : float
        What they stand on, from the pivot [m].
    places : sequence of float
        Middle of every row from the pivot, right is positive [m].
    """
    for side in SIDES:
        across, height = seating.section(seating.lot.largest, side, points=HALF_POINTS)
        for place in places:
            yield Outline("egg", place + across, egg_floor + height)


def loaded_tray(
    seating: Seating,
    *,
    width: float,
    underside: float,
    egg_floor: float,
    places: Sequence[float],
) -> tuple[Outline, ...]:
    """Return a tray with cell walls, where their height is known, and the largest eggs on it.

    Parameters as in `board` and `eggs`; the tray's middle is the middle of its rows.
    """
    middle = 0.5 * (places[0] + places[-1])
    walls = seating.seat.wall or 0.0
    tray = board(width, underside, egg_floor + walls, middle)
    return (tray, *eggs(seating, egg_floor, places))
