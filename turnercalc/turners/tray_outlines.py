"""Outlines of a loaded tray in the cross-section, from its pivot with the tray level."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from turnercalc.turners.base import Outline

Array = NDArray[np.float64]

#: How eggs may lie, in the words of the design file.
STANDING, ALONG, ACROSS = "big end up", "on the side, along the axis", "on the side, across"
CIRCLE_POINTS = 60


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


def egg(half: tuple[Array, Array], lie: str, bottom: float, place: float) -> Outline:
    """Return one egg as a closed polygon.

    Parameters
    ----------
    half : (along, radius)
        Half outline along the egg's own axis [m], as `eggs.shape.outline` gives it: the blunt end
        at the smallest `along`.
    lie : str
        `STANDING`, `ALONG` or `ACROSS`. An egg lying across is drawn with its axis level.
    bottom : float
        Lowest point of the egg above the pivot [m].
    place : float
        Middle of its row from the pivot, right is positive [m].
    """
    along, radius = half
    if lie == ALONG:
        turn = np.linspace(0.0, 2.0 * np.pi, CIRCLE_POINTS, endpoint=False)
        greatest = radius.max()
        return Outline(
            "egg", place + greatest * np.cos(turn), bottom + greatest * (1.0 + np.sin(turn))
        )
    axis = np.concatenate([along, along[::-1]])
    aside = np.concatenate([radius, -radius[::-1]])
    if lie == ACROSS:
        return Outline("egg", place + axis, bottom + radius.max() + aside)
    return Outline("egg", place + aside, bottom + along.max() - axis)


def loaded_tray(
    tray: Outline,
    half: tuple[Array, Array],
    lie: str,
    bottom: float,
    places: Sequence[float],
) -> tuple[Outline, ...]:
    """Return a tray with an egg at every row; parameters as in `egg`."""
    return (tray, *(egg(half, lie, bottom, place) for place in places))
