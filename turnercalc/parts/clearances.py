"""Room for everything that moves, over the whole swing.

Sideways the reach of a swinging tray is not largest at its ends: the corner of a tray of half
width a and height h comes to sqrt(a2 + h2) at mid-tilt. So every gap here is the least over the
whole swing, not the gap at its ends.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from turnercalc.drives.base import Motion
from turnercalc.parts.outlines import corners
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]

SWING_STEPS = 181
#: What the end of a link stands out beyond the middle of its pin, where nobody says [m].
LINK_END = 0.010


@dataclass(frozen=True)
class Reach:
    """The furthest that something comes in the whole cycle, from the turner's origin [m].

    Attributes
    ----------
    left, right : float
        Across; left is negative.
    low, high : float
        In height; below the origin is negative.
    """

    left: float
    right: float
    low: float
    high: float


@dataclass(frozen=True)
class Gaps:
    """The least distance from each wall of the box in the whole cycle [m].

    Negative where it does not fit; None where the design does not say enough.
    """

    left: float | None
    right: float | None
    above: float | None
    below: float | None

    @property
    def known(self) -> tuple[float, ...]:
        """The gaps that are known."""
        every = (self.left, self.right, self.above, self.below)
        return tuple(gap for gap in every if gap is not None)

    @property
    def sides(self) -> float | None:
        """The smaller of the gaps at the two side walls."""
        known = [gap for gap in (self.left, self.right) if gap is not None]
        return min(known, default=None)


@dataclass(frozen=True)
class Clearances:
    """Room in the box and between the parts.

    Attributes
    ----------
    reach : Reach
        Of the moving parts, the eggs in them included, all equal parts together.
    turner, drive : Gaps
        Between the box and the moving parts; between the box and crank and link. The drive's
        are None where it has no link.
    neighbours : float or None
        Least gap between one moving part, its largest eggs included, and the next, measured
        square to them [m]; None where there is only one.
    neighbours_at : float or None
        Coordinate at which it is least [rad or m].
    widest_at : float
        Coordinate at which the parts come nearest to a side wall [rad or m].
    centred : bool
        True where the origin was taken in the middle of the box, because nobody said.
    """

    reach: Reach
    turner: Gaps
    drive: Gaps | None
    neighbours: float | None
    neighbours_at: float | None
    widest_at: float
    centred: bool


class Walls(NamedTuple):
    """How far the walls of the box are from the turner's origin [m]; None where unknown."""

    left: float | None
    right: float | None
    above: float | None
    below: float | None


def clearances(
    turner: Turner,
    motion: Motion,
    swing: tuple[float, float],
    *,
    width: float | None,
    height: float | None,
    origin_across: float | None = None,
) -> Clearances:
    """Return the room around everything that moves.

    Parameters
    ----------
    turner : Turner
        Offers outlines, the places of its equal parts, and the path of any point.
    motion : Motion
        The drive closed on the turner, for crank and link.
    swing : (float, float)
        Lowest and highest coordinate reached [rad or m].
    width, height : float or None
        Inside of the box [m]; None: not known.
    origin_across : float or None
        The turner's origin from the middle of the box, right is positive [m]; None: nobody
        said, and it is taken in the middle.

    Notes
    -----
    The gap between neighbours tilted by t is ``pitch cos t - (highest egg - underside)``, with
    both heights from the pivot of a level tray. Arms, tie bar and counterweights move beside the
    trays; only the ends of the link are looked at, with `LINK_END` of material around the pins.
    """
    coordinate = np.linspace(*swing, SWING_STEPS)
    offset = origin_across or 0.0
    floor = turner.origin_height
    walls = Walls(
        left=None if width is None else 0.5 * width + offset,
        right=None if width is None else 0.5 * width - offset,
        above=None if height is None or floor is None else height - floor,
        below=floor,
    )
    x, y = _swept(turner, coordinate)
    across, up = np.array(turner.stack).T
    reach = Reach(
        left=float(x.min() + across.min()),
        right=float(x.max() + across.max()),
        low=float(y.min() + up.min()),
        high=float(y.max() + up.max()),
    )
    neighbours, neighbours_at = _neighbours(turner, coordinate)
    drive = _drive_reach(turner, motion)
    return Clearances(
        reach=reach,
        turner=_gaps(reach, walls),
        drive=_gaps(drive, walls) if drive else None,
        neighbours=neighbours,
        neighbours_at=neighbours_at,
        widest_at=float(coordinate[np.maximum(-x, x).max(axis=0).argmax()]),
        centred=origin_across is None,
    )


def _swept(turner: Turner, coordinate: Array) -> tuple[Array, Array]:
    """Return every corner at every coordinate, shape (corner, coordinate)."""
    across, height = corners(turner)
    return turner.path_of(across[:, None], height[:, None]).point(coordinate)


def _drive_reach(turner: Turner, motion: Motion) -> Reach | None:
    """Return how far both ends of the link come; None where there is no link."""
    if motion.bar_x is None or motion.bar_y is None:
        return None
    pin_x, pin_y = turner.path().point(motion.coordinate)
    x = np.concatenate([pin_x, pin_x - motion.bar_x])
    y = np.concatenate([pin_y, pin_y - motion.bar_y])
    return Reach(
        left=float(np.nanmin(x)) - LINK_END,
        right=float(np.nanmax(x)) + LINK_END,
        low=float(np.nanmin(y)) - LINK_END,
        high=float(np.nanmax(y)) + LINK_END,
    )


def _gaps(reach: Reach, walls: Walls) -> Gaps:
    """Return the gaps to the walls of the box."""
    return Gaps(
        left=None if walls.left is None else walls.left + reach.left,
        right=None if walls.right is None else walls.right - reach.right,
        above=None if walls.above is None else walls.above - reach.high,
        below=None if walls.below is None else walls.below + reach.low,
    )


def _neighbours(turner: Turner, coordinate: Array) -> tuple[float | None, float | None]:
    """Return the least gap between one part and the next, and where in the swing it is."""
    stack = np.array(turner.stack)
    if len(stack) < 2:
        return None, None
    _, heights = corners(turner)
    thickness = heights.max() - heights.min()
    # The direction square to a part: where a point one up from its origin has gone.
    foot_x, foot_y = turner.path_of(0.0, 0.0).point(coordinate)
    head_x, head_y = turner.path_of(0.0, 1.0).point(coordinate)
    steps = np.diff(stack, axis=0)
    square = steps[:, :1] * (head_x - foot_x) + steps[:, 1:] * (head_y - foot_y)
    gaps = square.min(axis=0) - thickness
    at = int(gaps.argmin())
    return float(gaps[at]), float(coordinate[at])
