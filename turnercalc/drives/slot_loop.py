"""Crank pin in a straight slot of the moving part: where the part is, on each kind of path.

The slot is a line fixed to the part. e is the unit vector along it, n that one turned a quarter
turn anticlockwise, and the crank pin A stays `off_line` from the slot's foot along n. On a
circle the foot is the pivot and the pin on the side the slot points to (crank and slotted
lever). On a straight line the foot is the driven pin and n points along the travel, so that the
slot stands square to it (scotch yoke).
"""

from __future__ import annotations

from functools import singledispatch
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from turnercalc.errors import CombinationError
from turnercalc.mechanics.numeric import arcsin_or_nan
from turnercalc.paths import CirclePath, LinePath, Number, Path

Array = NDArray[np.float64]


class Slotted(NamedTuple):
    """The fixed lengths [m] and the angle [rad] of a crank whose pin runs in a slot.

    Attributes
    ----------
    crank, across, height
        Crank radius, and the crank's centre from the turner's origin.
    angle
        The slot against the path's own direction, anticlockwise: against the arm on a circle,
        against the square to the travel on a line.
    off_line
        How far the slot's middle line passes its foot, on the anticlockwise side.
    """

    crank: Number
    across: Number
    height: Number
    angle: Number = 0.0
    off_line: Number = 0.0


class InSlot(NamedTuple):
    """The part and the crank pin in its slot, at every crank angle.

    Attributes
    ----------
    coordinate, rate, second
        q and its derivatives by the crank angle.
    pin_x, pin_y
        The crank pin's place [m].
    ex, ey
        Unit vector along the slot.
    along
        Of the crank pin along the slot, from its foot [m].
    slip
        d(along)/d(crank angle) [m/rad].
    lever_n, lever_e
        How far the slot at the crank pin goes along n and along e per unit of q.
    """

    coordinate: Array
    rate: Array
    second: Array
    pin_x: Array
    pin_y: Array
    ex: Array
    ey: Array
    along: Array
    slip: Array
    lever_n: Array
    lever_e: Array


def crank_pin(slotted: Slotted, theta: Array) -> tuple[Array, Array, Array, Array]:
    """Return the crank pin's place from the origin, and from the crank's centre [m]."""
    rx = np.asarray(slotted.crank * np.cos(theta))
    ry = np.asarray(slotted.crank * np.sin(theta))
    return slotted.across + rx, slotted.height + ry, rx, ry


@singledispatch
def run_in_slot(path: Path, slotted: Slotted, theta: Array) -> InSlot:
    """Put the crank pin into the slot; raises CombinationError on a path it cannot serve."""
    del path, slotted, theta
    raise CombinationError(
        "A slotted lever drives a part that swings on a pivot or slides along a straight line. "
        'A part that rolls lifts its slot off the pin: take "crank and link".'
    )


@run_in_slot.register
def _(path: CirclePath, slotted: Slotted, theta: Array) -> InSlot:
    """Swing the slot about the pivot.

    Notes
    -----
    With the slot's direction f, A = off n + s e and ' = d/d(crank angle)::

        f   = direction of A - asin(off/|A|)
        f'  = A'.n / s              s' = A'.e + off f'
        f'' = (A''.n - (A'.e + s') f') / s
    """
    ax, ay, rx, ry = crank_pin(slotted, theta)
    off = np.asarray(slotted.off_line, float)
    with np.errstate(divide="ignore", invalid="ignore"):
        direction = np.arctan2(ay, ax) - arcsin_or_nan(off / np.hypot(ax, ay))
        ex, ey = np.cos(direction), np.sin(direction)
        along = ax * ex + ay * ey
        # A' = (-ry, rx), A'' = (-rx, -ry) and n = (-ey, ex), so that A''.n is A'.e.
        rate = (ry * ey + rx * ex) / along
        outward = rx * ey - ry * ex
        slip = outward + off * rate
        second = (outward - (outward + slip) * rate) / along
    turned = direction - path.angle - slotted.angle
    return InSlot(
        coordinate=np.arctan2(np.sin(turned), np.cos(turned)),
        rate=rate,
        second=second,
        pin_x=ax,
        pin_y=ay,
        ex=ex,
        ey=ey,
        along=along,
        slip=slip,
        lever_n=along,
        lever_e=-off + 0.0 * along,
    )


@run_in_slot.register
def _(path: LinePath, slotted: Slotted, theta: Array) -> InSlot:
    """Slide the slot along the line: q = ((A - start).n - off) / (n . line)."""
    ax, ay, rx, ry = crank_pin(slotted, theta)
    square = np.asarray(path.angle + slotted.angle)
    nx, ny = np.cos(square), np.sin(square)
    lever_n = np.asarray(np.cos(slotted.angle))
    # e is n turned a quarter turn clockwise.
    lever_e = np.asarray(np.sin(slotted.angle))
    dx, dy = ax - path.across, ay - path.height
    q = (dx * nx + dy * ny - slotted.off_line) / lever_n
    rate = (rx * ny - ry * nx) / lever_n
    still = 0.0 * q
    return InSlot(
        coordinate=q,
        rate=rate,
        second=-(rx * nx + ry * ny) / lever_n,
        pin_x=ax,
        pin_y=ay,
        ex=ny + still,
        ey=-nx + still,
        along=dx * ny - dy * nx - q * lever_e,
        slip=-ry * ny - rx * nx - rate * lever_e,
        lever_n=lever_n + still,
        lever_e=lever_e + still,
    )
