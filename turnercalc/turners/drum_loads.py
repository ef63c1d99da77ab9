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
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from turnercalc.turners.base import LoadCase
from turnercalc.turners.tray_loads import slug

Cells = NDArray[np.int64]

#: How eggs come and go: the builder's promise to the motor.
ANY_ORDER, PAIRS, BALANCED = "in any order", "in opposite pairs", "in the balanced order"
#: Up to so many shelves every order is looked at; beyond, one step ahead.
EVERY_ORDER_UP_TO = 12


def drum_load_cases(
    shelves: int,
    eggs_per_shelf: int,
    *,
    filled: str = ANY_ORDER,
    order: Sequence[int] = (),
    given: Iterable[tuple[str, Sequence[int]]] = (),
) -> tuple[LoadCase, ...]:
    """Return every load case of a drum, hardest ways of filling it included.

    Parameters
    ----------
    shelves, eggs_per_shelf : int
        The drum.
    filled : str
        `ANY_ORDER`: shelves may be filled and emptied one beside the other. `PAIRS` or `BALANCED`
        are promises: runs of neighbours are then computed but not planned.
    order : sequence of int
        The balanced order, see `loading_order`.
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
        planned = filled in (ANY_ORDER, PAIRS)
        cases.append(case(name, "opposite pairs", planned, eggs_per_shelf * cells))
    for count in range(1, len(order)):
        cells = np.isin(np.arange(shelves), order[:count]).astype(int)
        name = f"balanced order, {count} of {shelves}"
        planned = filled in (ANY_ORDER, BALANCED)
        cases.append(case(name, "balanced order", planned, eggs_per_shelf * cells))
    for count, first, cells in runs(shelves):
        family = "one shelf alone" if count == 1 else f"{count} neighbours"
        name = f"{family}, {'' if count == 1 else 'from '}shelf {first + 1}"
        cases.append(case(name, family, filled == ANY_ORDER, eggs_per_shelf * cells))
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


@lru_cache(maxsize=64)
def loading_order(
    shelves: int, shelf_moment: float = 1.0, empty: tuple[float, float] = (0.0, 0.0)
) -> tuple[int, ...]:
    """Return the order of filling the shelves that keeps the imbalance least, counted from 0.

    Emptying the drum goes the other way round. The largest imbalance on the way counts; where
    several orders are alike in that, small ones on the way to it do.

    Parameters
    ----------
    shelves : int
        Round the axle.
    shelf_moment : float
        Mass moment of one full shelf [kg·m].
    empty : tuple of float
        Mass moment of the empty drum with shelf 1 on top, right and up [kg·m].
    """
    arrows = shelf_moment * np.exp(0.5j * np.pi + 2j * np.pi * np.arange(shelves) / shelves)
    start = complex(*empty)
    found = (_one_step_ahead if shelves > EVERY_ORDER_UP_TO else _best_of_all)(arrows, start)
    if abs(start) > 1e-9 * shelf_moment:
        return found
    return tuple((shelf - found[0]) % shelves for shelf in found)  # begin with shelf 1


def order_moments(
    order: Sequence[int], shelf_moment: float, empty: tuple[float, float] = (0.0, 0.0)
) -> NDArray[np.float64]:
    """Return the size of the mass moment after each shelf of an order, the empty drum first."""
    turned = 0.5 * np.pi + 2.0 * np.pi * np.asarray(order) / len(order)
    arrows = shelf_moment * np.exp(1j * turned)
    return np.asarray(np.abs(complex(*empty) + np.concatenate([[0.0], np.cumsum(arrows)])))


def _one_step_ahead(arrows: NDArray[np.complex128], start: complex) -> tuple[int, ...]:
    left, order, now = list(range(len(arrows))), list[int](), start
    while left:
        best = min(left, key=lambda shelf: round(float(abs(now + arrows[shelf])), 12))
        order.append(best)
        now += arrows[best]
        left.remove(best)
    return tuple(order)


def _best_of_all(arrows: NDArray[np.complex128], start: complex) -> tuple[int, ...]:
    """Return the best of all orders, set by set: Bellman's principle over the 2^n fillings."""
    count = len(arrows)
    bits = (np.arange(2**count)[:, None] >> np.arange(count)) & 1
    size = np.round(np.abs(start + bits @ arrows) / np.abs(arrows[0]), 9).tolist()
    best: list[tuple[float, float]] = [(0.0, 0.0)] * 2**count
    last = [0] * 2**count
    for some in range(1, 2**count):
        found = (float("inf"), float("inf"))
        for shelf in range(count - 1, -1, -1):  # of orders alike the low shelves go first
            if some >> shelf & 1:
                peak, squares = best[some ^ (1 << shelf)]
                reached = (max(peak, size[some]), round(squares + size[some] ** 2, 6))
                if reached < found:
                    found, last[some] = reached, shelf
        best[some] = found
    order, some = [], 2**count - 1
    while some:
        order.append(last[some])
        some ^= 1 << last[some]
    return tuple(reversed(order))
