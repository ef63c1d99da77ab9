"""What is cut from what: strips, the saw's cut, and lengths of stock."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from turnercalc.pieces import Piece

KERF = 3e-3  # m, what a saw takes (common practice, no source)
#: Lengths that shops sell strip in [m] (common practice, no source).
STOCK, STOCK_US = 1.0, 36 * 25.4e-3


@dataclass(frozen=True)
class Cut:
    """One line of the cut list.

    Attributes
    ----------
    piece : Piece
    length, width, thickness : float or None
        [m]; None: not said, so it is the builder's to choose.
    """

    piece: Piece
    length: float | None
    width: float | None
    thickness: float | None


@dataclass(frozen=True)
class Strip:
    """Stock that several pieces are cut from.

    Attributes
    ----------
    width : float
        [m].
    material : str
        Empty: what the builder has.
    pieces : int
    length : float
        Of all pieces and the saw's cuts [m].
    bars : int
        Lengths of `stock` it takes, or of the longest piece where that is longer.
    stock : float
        [m].
    """

    width: float
    material: str
    pieces: int
    length: float
    bars: int
    stock: float


def cut_list(pieces: Iterable[Piece]) -> tuple[Cut, ...]:
    """Return a line for each piece; a disc is cut from a square."""
    return tuple(_cut(piece) for piece in pieces)


def _cut(piece: Piece) -> Cut:
    if piece.size is not None:
        return Cut(piece, *piece.size)
    first = piece.holes[0]
    reach = max(((h.x - first.x) ** 2 + (h.y - first.y) ** 2) ** 0.5 for h in piece.holes)
    return Cut(piece, 2.0 * (reach + piece.edge), 2.0 * (reach + piece.edge), None)


def strips(cuts: Iterable[Cut], stock: float = STOCK) -> tuple[Strip, ...]:
    """Return how much strip of each width to buy in lengths of `stock` [m].

    The longest pieces are cut first, each from the first length with room for it.
    """
    groups: dict[tuple[float, str], list[float]] = {}
    for cut in cuts:
        if cut.piece.shape == "bar" and cut.length is not None and cut.width is not None:
            group = groups.setdefault((round(cut.width, 6), cut.piece.material), [])
            group += [cut.length] * cut.piece.count
    return tuple(
        Strip(
            width=width,
            material=material,
            pieces=len(lengths),
            length=sum(lengths) + KERF * len(lengths),
            bars=_bars(lengths, stock),
            stock=stock,
        )
        for (width, material), lengths in sorted(groups.items())
    )


def _bars(lengths: list[float], stock: float) -> int:
    """Return how many lengths of stock are started."""
    whole = max(stock, max(lengths) + KERF)
    left: list[float] = []
    for length in sorted(lengths, reverse=True):
        need = length + KERF
        at = next((i for i, rest in enumerate(left) if rest >= need - 1e-9), None)
        if at is None:
            left.append(whole - need)
        else:
            left[at] -= need
    return len(left)
