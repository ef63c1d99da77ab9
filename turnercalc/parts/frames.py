"""Frames of a mechanism that moves: every part once, and where it stands in each frame.

A part that keeps its shape is described by its shape in the first frame and, for every frame, by
a turn and a shift, where need be after mirroring it: a loose egg leans to the other side. A part
that does not (a rod that gets longer) is described by its points.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.cycle import TurnCycle
from turnercalc.drives.base import Drive
from turnercalc.parts.poses import poses
from turnercalc.sight import Sight
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]

MOST = 181  # frames of one cycle
RIGID = 2e-5  # m, by how much a part may miss its points and still count as rigid


@dataclass(frozen=True, eq=False)
class Placed:
    """How a rigid part comes from one frame to every other: with z = x + iy, as ``a z + b``.

    Attributes
    ----------
    turn : ndarray of complex, shape (frames,)
        a, of size 1.
    shift : ndarray of complex, shape (frames,)
        b [m].
    mirrored : ndarray of bool, shape (frames,)
        Where it is ``a conj(z) + b`` instead.
    """

    turn: NDArray[np.complex128]
    shift: NDArray[np.complex128]
    mirrored: NDArray[np.bool_]

    def seen_from(self, frame: int) -> Placed:
        """Return the same from another frame than the first."""
        a, b = self.turn[frame], self.shift[frame]
        mirrored = self.mirrored ^ self.mirrored[frame]
        turn = self.turn * np.where(mirrored, a, np.conj(a))
        return Placed(turn, self.shift - turn * np.where(mirrored, np.conj(b), b), mirrored)


@dataclass(frozen=True, eq=False)
class MovingPart:
    """One part in every frame.

    Attributes
    ----------
    sight : Sight
        What it is, with its points in every frame.
    place : Placed or None
        How it comes from the first frame; None: it changes its shape.
    """

    sight: Sight
    place: Placed | None = None


@dataclass(frozen=True, eq=False)
class Frames:
    """A cycle in pictures.

    Attributes
    ----------
    indices : ndarray of int, shape (frames,)
        Along the positions of the turn cycle.
    still : tuple of Sight
        What stands still.
    moving : tuple of MovingPart
        What moves, those further back first.
    low_end, high_end : int
        Frames in which the coordinate is lowest and highest.
    """

    indices: NDArray[np.int64]
    still: tuple[Sight, ...]
    moving: tuple[MovingPart, ...]
    low_end: int
    high_end: int


def frames(turner: Turner, drive: Drive, cycle: TurnCycle, *, most: int = MOST) -> Frames:
    """Return the frames of a cycle, both its ends among them.

    Parameters
    ----------
    turner, drive, cycle
        As sized.
    most : int
        About how many frames.
    """
    motion = cycle.motion
    count = motion.position.size
    q = motion.coordinate
    ends = {int(np.nanargmin(q)), int(np.nanargmax(q))}
    indices = np.array(sorted({*range(0, count, -(-count // most)), count - 1, *ends}))
    seen = poses(turner, drive, drive.close(turner.path(), motion.position[indices]))
    return Frames(
        indices=indices,
        still=tuple(sight for sight in seen if sight.stands_still),
        moving=tuple(moving_part(sight) for sight in seen if not sight.stands_still),
        low_end=int(np.argmin(q[indices])),
        high_end=int(np.argmax(q[indices])),
    )


def moving_part(sight: Sight) -> MovingPart:
    """Return a part as turns, shifts and mirrorings, where that is all it does.

    Notes
    -----
    The turn that fits corresponding points best is that of sum conj(z0) z, with z the points as
    complex numbers from their mean (least squares in the plane).
    """
    z = sight.x + 1j * sight.y
    plain, mirror = _fitted(z[:, :1], z), _fitted(np.conj(z[:, :1]), z)
    mirrored = mirror[2] < plain[2]
    if np.max(np.minimum(mirror[2], plain[2])) > RIGID:
        return MovingPart(sight)
    turn, shift = (np.where(mirrored, mirror[i], plain[i]) for i in (0, 1))
    return MovingPart(sight, Placed(turn, shift, mirrored))


def _fitted(
    first: NDArray[np.complex128], z: NDArray[np.complex128]
) -> tuple[NDArray[np.complex128], NDArray[np.complex128], Array]:
    """Return the turn and shift that bring the first shape nearest, and by how much it misses."""
    middle, from_middle = z.mean(axis=0), first - first.mean(axis=0)
    lean = (np.conj(from_middle) * (z - middle)).sum(axis=0)
    size = np.abs(lean)
    # One point alone, or points that fall together, have no turn.
    turn = np.where(size > 0.0, lean / np.where(size > 0.0, size, 1.0), 1.0)
    shift = middle - turn * first.mean(axis=0)
    return turn, shift, np.asarray(np.abs(turn * first + shift - z).max(axis=0))
