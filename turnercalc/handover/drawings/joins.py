"""Where the tiles of a large drawing join: never through a hole, and through few words."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

CLEAR = 1.0  # of a hole beside a join, at least [mm]
TRIED_EVERY = 1.0  # places of a join [mm]


class Span(NamedTuple):
    """From where to where something lies along one edge of the paper [mm]."""

    low: float
    high: float


class Tiles(NamedTuple):
    """Tiles along one edge.

    Attributes
    ----------
    number : int
    before : float
        How far the first one begins before the drawing does [mm].
    """

    number: int
    before: float


def tiles_along(
    need: float, have: float, overlap: float, holes: Sequence[Span], words: Sequence[Span]
) -> Tiles:
    """Return the tiles along one edge of a drawing.

    As few as it takes, shifted as a whole so that no join goes through a hole; where no shift
    does that, one more. Best is where what two neighbours share has neither holes nor words in it.

    Parameters
    ----------
    need, have, overlap : float
        Length of the drawing, of a tile, and of what two neighbours share [mm].
    holes, words : sequence of Span
        Measured from where the drawing begins. A join through words costs less than one through
        a hole, and only where they are whole on neither tile.
    """
    if need <= have:
        return Tiles(1, 0.0)
    fewest = math.ceil((need - overlap) / (have - overlap))
    best = [_best(count, need, have, overlap, holes, words) for count in (fewest, fewest + 1)]
    return min(best, key=lambda found: (found[0] > 0, found[1].number))[1]


def _best(
    count: int,
    need: float,
    have: float,
    overlap: float,
    holes: Sequence[Span],
    words: Sequence[Span],
) -> tuple[int, Tiles]:
    """Return how many holes the joins of so many tiles cut at least, and where they lie then."""
    spare = count * have - (count - 1) * overlap - need
    found = []
    for i in range(int(spare / TRIED_EVERY) + 1):
        before = i * TRIED_EVERY
        starts = [n * (have - overlap) - before for n in range(count)]
        shared = [Span(start, start + overlap) for start in starts[1:]]
        joins = [Span(*(0.5 * (one.low + one.high),) * 2) for one in shared]
        cut = _touched(holes, joins)
        lost = sum(
            not any(start <= one.low and one.high <= start + have for start in starts)
            for one in words
        )
        found.append((cut, lost, _touched(holes, shared), _touched(words, shared), before))
    cut, *_, before = min(found)
    return int(cut), Tiles(count, before)


def _touched(things: Sequence[Span], by: Sequence[Span]) -> int:
    """Return how many things lie at one of some spans, or too near to it."""
    return sum(
        any(one.low - CLEAR < other.high and other.low < one.high + CLEAR for other in by)
        for one in things
    )
