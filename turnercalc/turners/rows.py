"""Rows of eggs on a board that tilts: where they stand, and what is seen of them."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

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


def loose_shift(
    tilt: ArrayLike, sense: ArrayLike, shift: float, slip_angle: float
) -> NDArray[np.float64]:
    """Return where loose eggs lie in their seats, right is positive [m].

    They lie on the low side, and stay there until the board is past level by the slip angle.
    Where the swing of a design does not reach it to both sides, they never change sides and are
    taken in the middle.

    Parameters
    ----------
    tilt : array_like, shape (..., P)
        From true level, the position in the cycle last [rad].
    sense : array_like
        Sign of its rate; broadcasts with `tilt`.
    shift : float
        How far an egg's middle goes to the low side [m].
    slip_angle : float
        Tilt past level at which it does [rad].
    """
    t = np.atleast_1d(np.asarray(tilt, float))
    left, right = t > slip_angle, t < -slip_angle
    rising = np.asarray(sense) > 0.0
    on_left = (rising & left) | ~(rising | right)
    # Of each design by itself.
    changes = left.any(axis=-1, keepdims=True) & right.any(axis=-1, keepdims=True)
    return np.asarray((1.0 - 2.0 * on_left) * (shift * changes))
