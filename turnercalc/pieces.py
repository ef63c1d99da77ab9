"""What a builder makes and buys: pieces with their holes, and what holds them together. No drawing.

A turner or a drive offers `made()`; what it says is laid out and rounded in `parts`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import hypot
from types import MappingProxyType
from typing import TYPE_CHECKING, Protocol, runtime_checkable

if TYPE_CHECKING:
    from turnercalc.ingredients import Ingredients
    from turnercalc.paths import Path


@dataclass(frozen=True)
class Hole:
    """A hole in a piece.

    Attributes
    ----------
    name : str
        What goes through it: ``pivot``, ``link pin``.
    x, y : float
        From the piece's own origin, seen from where the design is drawn from [m].
    diameter : float or None
        Of what goes through it [m]; None: to suit what is bought, such as the motor's shaft.
    driven : bool
        Whether the drive takes hold here; a drive that runs in a slot has one cut instead.
    slot : bool
        Whether it is an end of a slot, `diameter` wide: nothing is pinned there.
    """

    name: str
    x: float
    y: float
    diameter: float | None = None
    driven: bool = False
    slot: bool = False


@dataclass(frozen=True)
class Piece:
    """One thing to make.

    Attributes
    ----------
    id, name : str
        For scripts and for people.
    count : int
        How many of it.
    holes : tuple of Hole
        In the piece's own frame: x right, y up, seen from where the design is drawn from.
    edge : float
        Material round the middle of every hole, at least [m].
    size : tuple of float or None
        Length, width and thickness to cut it from [m]; None: from holes and edge. None within:
        not said, so it is the builder's to choose.
    shape : str
        ``bar`` (a strip along its holes), ``disc`` (round about its first hole) or ``sheet`` (a
        rectangle `size` about the origin).
    material : str
        As the design names it; empty: what the builder has.
    template : bool
        Whether a template at true size makes sense: a small piece, drilled flat.
    says : str
        What else to know when making it.
    edge_line : tuple of (float, float)
        The edge to cut along where it is neither a strip nor a disc, closed, in the piece's own
        frame [m].
    critical : tuple of str
        Field paths of the lengths between its holes that decide the swing.
    """

    id: str
    name: str
    count: int = 1
    holes: tuple[Hole, ...] = ()
    edge: float = 0.010
    size: tuple[float | None, float | None, float | None] | None = None
    shape: str = "bar"
    material: str = ""
    template: bool = True
    says: str = ""
    edge_line: tuple[tuple[float, float], ...] = ()
    critical: tuple[str, ...] = ()


@dataclass(frozen=True)
class Fixed:
    """A hole in the wall or frame that carries everything, from the turner's origin [m].

    Attributes
    ----------
    name : str
        ``pivot 1``, ``crank shaft``.
    x, y : float
        [m].
    diameter : float or None
        Of what goes through it [m]; None: to suit what is bought.
    measured_only : bool
        Whether it must be measured out and never taken off a paper template, because the paper
        may stretch over the distance.
    """

    name: str
    x: float
    y: float
    diameter: float | None = None
    measured_only: bool = False


@dataclass(frozen=True)
class Fastener:
    """Something to buy that joins pieces.

    Attributes
    ----------
    what : str
        ``pin``, ``washer``, ``M6 nut and lock nut``.
    count : int
    size : float or None
        Diameter [m].
    where : str
    """

    what: str
    count: int
    size: float | None
    where: str


@dataclass(frozen=True)
class Made:
    """Everything to make and buy for a turner or a drive.

    Attributes
    ----------
    pieces, fixed, fasteners : tuple
    marked : mapping
        Field path -> length [m] that is marked out, besides those that decide the swing.
    """

    pieces: tuple[Piece, ...] = ()
    fixed: tuple[Fixed, ...] = ()
    fasteners: tuple[Fastener, ...] = ()
    marked: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))

    def __add__(self, other: Made) -> Made:
        """Return both together."""
        return Made(
            self.pieces + other.pieces,
            self.fixed + other.fixed,
            self.fasteners + other.fasteners,
            MappingProxyType({**self.marked, **other.marked}),
        )


@runtime_checkable
class Makes(Protocol):
    """A turner or drive that says what is made for it."""

    def made(self, ingredients: Ingredients) -> Made:
        """Return its pieces, its holes in the frame, and its fasteners."""
        ...


@runtime_checkable
class Reshapes(Protocol):
    """A drive that cuts something into what is made for the turner, such as a slot."""

    def reshape(self, made: Made, path: Path) -> Made:
        """Return what is made for the turner, as this drive needs it."""
        ...


def edge_round(diameter: float | None) -> float:
    """Return how much material to leave round the middle of a hole [m].

    One and a half diameters, and never less than 10 mm (common practice, no source).
    """
    return max(0.010, 1.5 * (diameter or 0.0))


def strip(holes: tuple[Hole, ...], edge: float) -> tuple[float, float]:
    """Return length and width of a strip that takes holes [m].

    Along its two holes furthest apart; wider where another lies beside the line through them.
    """
    one, other = max(
        ((a, b) for a in holes for b in holes),
        key=lambda ab: hypot(ab[0].x - ab[1].x, ab[0].y - ab[1].y),
    )
    reach = hypot(one.x - other.x, one.y - other.y)
    if not reach:
        return 2.0 * edge, 2.0 * edge
    ux, uy = (other.x - one.x) / reach, (other.y - one.y) / reach
    aside = [ux * (hole.y - one.y) - uy * (hole.x - one.x) for hole in holes]
    return reach + 2.0 * edge, max(aside) - min(aside) + 2.0 * edge
