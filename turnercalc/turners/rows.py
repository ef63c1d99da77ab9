"""Rows of eggs on a board that tilts: where they stand, and what is seen of them."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from turnercalc.eggs.seats import Seating
from turnercalc.turners.base import Outline


def row_places(section: Any) -> NDArray[np.float64]:
    """Return the middle of each row right of the origin, left row first [m].

    Parameters
    ----------
    section : Section
        Of a file that says ``rows``, ``row_spacing`` and ``off_centre``.
    """
    middle = (section.rows - 1) / 2
    return np.asarray(section.off_centre + section.row_spacing * (np.arange(section.rows) - middle))


def shapes(section: Any, seating: Seating) -> tuple[Outline, ...]:
    """Return the outlines of the board and of the largest eggs, leaning as they may.

    Parameters
    ----------
    section : Section
        As for `row_places`; it also says ``width``, ``underside`` and ``egg_floor``.
    seating : Seating
    """
    half = 0.5 * section.width
    board = Outline(
        "tray",
        section.off_centre + np.array([-half, half, half, -half]),
        np.array([section.underside, section.underside, section.egg_floor, section.egg_floor]),
    )
    eggs = [
        Outline("egg", place + across, section.egg_floor + height, side)
        for side, (across, height) in zip(seating.sides, seating.largest_sections, strict=True)
        for place in row_places(section)
    ]
    return (board, *eggs)
