"""What every drive offers: its motion on a path, and the forces it applies for a load torque.

A drive has one position: the angle of its driving shaft [rad], or the extension of an actuator
[m]. It closes its loop on the path of a pin and knows nothing of what hangs on that pin.

Shapes: every array broadcasts to (design, load, friction, direction, position).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import IntEnum
from typing import Protocol

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.fields import Section
from turnercalc.ingredients import Ingredients
from turnercalc.paths import Path

Array = NDArray[np.float64]

#: Sign of the driving shaft's speed along the direction axis: anticlockwise first.
DIRECTIONS = np.array([1.0, -1.0])[:, None]


@dataclass(frozen=True)
class Motion:
    """A drive closed on a path, at every position of the cycle.

    Attributes
    ----------
    position : ndarray, shape (P,)
        Shaft angle [rad] or extension [m], ascending.
    coordinate : ndarray, shape (..., P)
        The turner's coordinate q [rad or m]; NaN where the loop does not close.
    rate, second : ndarray, shape (..., P)
        dq/dposition and d2q/dposition2.
    closes : ndarray of bool, shape (..., P)
        Where the loop closes.
    round_and_round : bool
        Whether the positions are one whole turn that starts again; else one stroke there,
        which is then run back.
    rest_points : tuple of float
        Positions where the coordinate stands still: ends, harmless, and they hold.
    bar_x, bar_y : ndarray or None
        Vector along the link, from crank pin to driven pin [m], where there is a link.
    bar_rate : ndarray or None
        Rotation of the link per unit of position.
    """

    position: Array
    coordinate: Array
    rate: Array
    second: Array
    closes: NDArray[np.bool_]
    round_and_round: bool
    rest_points: tuple[float, ...] = ()
    bar_x: Array | None = None
    bar_y: Array | None = None
    bar_rate: Array | None = None


@dataclass(frozen=True)
class Closing:
    """Whether the drive gets through the whole of its cycle, and what is missing if not.

    Attributes
    ----------
    closes : bool
        Whether it does.
    kind : str
        What the linkage is, for example ``crank_rocker``.
    missing : float
        Length by which the link misses at the worst position, or the margin (negative) [m].
    nearest : mapping
        Field path -> nearest value that would just close, SI.
    text : str
        The same in a sentence.
    """

    closes: bool
    kind: str
    missing: float
    nearest: Mapping[str, float] = field(default_factory=dict)
    text: str = ""


class Passing(IntEnum):
    """Whether one of many designs goes through its whole cycle, and if not, what is wrong."""

    THROUGH = 0
    TOO_SHORT = 1
    TOO_LONG = 2
    STAYS = 3
    NO_BAR = 4


def follow(drive: Drive, path: Path, position: ArrayLike) -> tuple[Array, Array]:
    """Return the coordinate and its rate at shaft positions, as `Drive.trace` does.

    A drive that is quicker without the second derivative offers a method ``follow`` of its own.
    """
    quick = getattr(drive, "follow", None)
    coordinate, rate = quick(path, position) if quick else drive.trace(path, position)[:2]
    return coordinate, rate


def passing_of(drive: Drive, path: Path, closes: NDArray[np.bool_]) -> NDArray[np.intp]:
    """Return a `Passing` for each of many designs, shape (design,).

    A drive that can tell more than that it stays somewhere says so in a method ``passing`` of the
    same arguments, its lengths arrays along the design axis or not.

    Parameters
    ----------
    closes : ndarray of bool, shape (design,)
        Where the loop closes at all positions looked at; between two of them it may still miss.
    """
    told = getattr(drive, "passing", None)
    if told is not None:
        return np.asarray(told(path, closes), np.intp)
    return np.where(closes, Passing.THROUGH, Passing.STAYS).astype(np.intp)


@dataclass(frozen=True)
class Reaction:
    """What a drive does to the turner, and what that costs in the drive itself.

    Attributes
    ----------
    x, y : ndarray
        Force on the turner's driven pin [N].
    loss : ndarray
        Power lost in the drive's own pins and guides per unit of shaft speed, >= 0 [N·m or N].
    bar_force : ndarray or None
        Force along the link [N], tension positive.
    pins : mapping
        Force on each of the drive's pins [N], always >= 0.
    at : tuple of ndarray, or None
        Where the force acts (x, y) [m]; None: at the turner's driven pin.
    couple : ndarray or None
        Moment that goes with the force, anticlockwise on the moving part [N·m]; None: none.
    """

    x: Array
    y: Array
    loss: Array
    bar_force: Array | None = None
    pins: Mapping[str, Array] = field(default_factory=dict)
    at: tuple[Array, Array] | None = None
    couple: Array | None = None


class Drive(Protocol):
    """A way of moving a turner; see the module's head for shapes."""

    @property
    def dimensions(self) -> Mapping[str, str]:
        """Lengths that decide the ends of the swing: attribute name -> field path."""
        ...

    @property
    def pin_mass(self) -> float:
        """Mass of the drive that rides on the driven pin, such as half the link [kg]."""
        ...

    @property
    def position_unit(self) -> str:
        """``rad`` where a shaft turns, ``m`` where a rod extends."""
        ...

    @property
    def both_ways(self) -> bool:
        """Whether the drive must run in both directions (to and fro)."""
        ...

    @property
    def play(self) -> float:
        """Free play of its pins together [m]."""
        ...

    @property
    def play_field(self) -> str:
        """Field path that says how much play a pin has; empty where it has none."""
        ...

    @property
    def play_like(self) -> str:
        """Field path, out of `dimensions`, of the length that play is like an error of."""
        ...

    def positions(self, travel: tuple[float, float], count: int) -> Array:
        """Return `count` positions over one cycle, ascending."""
        ...

    def assemble(
        self,
        path: Path,
        travel: tuple[float, float] | None = None,
        *,
        endless: bool = False,
        turns_back: bool = True,
    ) -> Drive:
        """Return the drive put together on a path, as a builder would bolt it.

        Parameters
        ----------
        path : Path
            Of the driven pin.
        travel : tuple of float, optional
            The wanted range of the coordinate: where end switches would be set.
        endless : bool
            Whether the turner wants to go round and round.
        turns_back : bool
            Whether every other move goes back. A part that is never turned back but does not come
            round to where it was either makes the same move again from wherever it stands.
        """
        ...

    def trace(self, path: Path, position: ArrayLike) -> tuple[Array, Array, Array]:
        """Return only the coordinate, its rate and its second derivative: what sweeps need."""
        ...

    def close(self, path: Path, position: ArrayLike) -> Motion:
        """Close the loop on a path at the given positions."""
        ...

    def closing(self, path: Path) -> Closing:
        """Say whether the drive gets through, and what is missing if not."""
        ...

    def weight_torque(self, motion: Motion, path: Path) -> Array:
        """Return the shaft torque of the drive's own moving weights, d(potential)/dposition."""
        ...

    def react(
        self,
        motion: Motion,
        path: Path,
        load: ArrayLike,
        direction: ArrayLike,
        levels: Sequence[str],
        start: Reaction | None = None,
    ) -> Reaction:
        """Return the forces for a load torque `load` at the coordinate, and what they cost.

        Friction in the drive's own pins depends on the forces, so that the force (x, y) of
        `start`, an earlier answer, makes it one step of an iteration. Without one the drive's
        own pins are free of friction.
        """
        ...


@dataclass(frozen=True)
class DriveKind:
    """One drive, as the registry knows it.

    Attributes
    ----------
    id, words, says, sections
        As for a turner kind.
    build : callable
        The design's ingredients -> Drive.
    holds_pin : bool
        Whether it pushes a pin of the turner (False: it turns the turner's own shaft).
    optional_sections : tuple of str
        Sections that may be left out.
    """

    id: str
    words: tuple[str, ...]
    says: str
    sections: Mapping[str, type[Section]]
    build: Callable[[Ingredients], Drive]
    holds_pin: bool = True
    optional_sections: tuple[str, ...] = ()
