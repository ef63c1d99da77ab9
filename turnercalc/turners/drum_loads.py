"""Load cases of a drum, in shelves: which eggs are in, and the exact worst fillings.

Without friction the load torque is a sum over shelves: a shelf at the angle a adds
m g R cos(q + a). The shelves that hinder at a position are those on one side of a line through
the axle, and these are neighbours; so the worst of all 2^shelves fillings at every position is a
run of neighbours. Friction adds the same to every egg, which moves the line and leaves neighbours
neighbours. Every run, wherever it begins, is therefore exact; the tests compare it with all
2^shelves.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from turnercalc.turners.base import LoadCase
from turnercalc.turners.tray_loads import slug

Cells = NDArray[np.int64]


def drum_load_cases(
    shelves: int,
    eggs_per_shelf: int,
    *,
    any_order: bool,
    given: Iterable[tuple[str, Sequence[int]]] = (),
) -> tuple[LoadCase, ...]:
    """Return every load case of a drum, hardest ways of filling it included.

    Parameters
    ----------
    shelves, eggs_per_shelf : int
        The drum.
    any_order : bool
        Whether shelves may be filled and emptied one beside the other; else only in opposite
        pairs, and runs of neighbours are computed but not planned.
    given : iterable of (name, eggs)
        The builder's own cases: eggs on each shelf, shelf 1 first.
    """

    def case(name: str, family: str, planned: bool, cells: Cells) -> LoadCase:
        return LoadCase(slug(name), name, family, planned, np.asarray(cells, int))

    cases = [
        case("all shelves full", "full", True, np.full(shelves, eggs_per_shelf)),
        case("all shelves empty", "empty", True, np.zeros(shelves, int)),
    ]
    for name, eggs in given:
        cases.append(case(name, f"given {slug(name)}", True, np.asarray(eggs, int)))
    for pairs, cells in opposite_pairs(shelves):
        name = f"{pairs} opposite pair{'s' if pairs > 1 else ''}"
        cases.append(case(name, "opposite pairs", True, eggs_per_shelf * cells))
    for count, first, cells in runs(shelves):
        family = "one shelf alone" if count == 1 else f"{count} neighbours"
        name = f"{family}, {'' if count == 1 else 'from '}shelf {first + 1}"
        cases.append(case(name, family, any_order, eggs_per_shelf * cells))
    return tuple(cases)


def runs(shelves: int) -> Iterator[tuple[int, int, Cells]]:
    """Yield every run of neighbours, neither full nor empty: (how many, first, 0 or 1 a shelf)."""
    places = np.arange(shelves)
    for count in range(1, shelves):
        for first in range(shelves):
            yield count, first, ((places - first) % shelves < count).astype(int)


def opposite_pairs(shelves: int) -> Iterator[tuple[int, Cells]]:
    """Yield 1, 2 ... pairs of opposite shelves, side by side; none where no shelf has an opposite.

    Every pair balances itself, so that only how many there are makes a difference.
    """
    half, odd = divmod(shelves, 2)
    for pairs in range(1, 0 if odd else half):
        yield pairs, np.tile((np.arange(half) < pairs).astype(int), 2)
