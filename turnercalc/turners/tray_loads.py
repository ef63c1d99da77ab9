"""Load cases of a rack, in rows: which eggs are in, and the exact worst side.

The shaft torque is, but for friction, a sum over rows: a row at x adds m g (x cos q - y sin q).
All rows lie at one height, so the rows that hinder at a position are those on one side of a line,
and the worst of all 2^rows fillings at every position is among "the k right rows" and "the k
left rows". Enumerating these is therefore exact; the tests compare it with all 2^rows.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from turnercalc.turners.base import LoadCase

Cells = NDArray[np.int64]


def slug(name: str) -> str:
    """Return a name as an id: lower case words joined by underscores."""
    return re.sub(r"[^a-z0-9]+", "_", name.lower()).strip("_") or "unnamed"


def rack_load_cases(
    trays: int,
    rows: int,
    eggs_per_row: int,
    *,
    any_order: bool,
    given: Iterable[tuple[str, Sequence[Sequence[int]]]] = (),
) -> tuple[LoadCase, ...]:
    """Return every load case of a rack, hardest ways of filling it included.

    Parameters
    ----------
    trays, rows, eggs_per_row : int
        The rack.
    any_order : bool
        Whether trays may be filled and emptied from one side; else only in mirror pairs about
        the pivots, and one-sided cases are computed but not planned.
    given : iterable of (name, eggs)
        The builder's own cases: eggs in each row, trays lowest first, rows left first.
    """
    whole = np.full(rows, eggs_per_row)
    nothing = np.zeros(rows, dtype=int)

    def case(name: str, family: str, planned: bool, cells: Sequence[Cells]) -> LoadCase:
        stacked = np.stack(cells).astype(int)
        return LoadCase(slug(name), name, family, planned, stacked)

    cases = [
        case("all trays full", "full", True, [whole] * trays),
        case("all trays empty", "empty", True, [nothing] * trays),
    ]
    for name, eggs in given:
        cells = [np.asarray(tray, int) for tray in eggs]
        cases.append(case(name, f"given {slug(name)}", True, cells))
    for some in mirror_pairs(rows):
        name = f"in mirror pairs, {_rows(some, rows)}"
        cases.append(case(name, "mirror pairs", True, [whole * some] * trays))
    if trays > 1:
        odd_places = {0, 1}  # the lowest carries the link; the others are alike to each other
        for side, some in one_sided(rows):
            for place in sorted(odd_places):
                for others, filled in (("full", whole), ("empty", nothing)):
                    cells = [filled] * trays
                    cells[place] = whole * some
                    name = f"tray {place + 1} {side}, {some.sum()} of {rows}, others {others}"
                    cases.append(case(name, f"one tray {side}", any_order, cells))
    for side, some in one_sided(rows):
        name = f"{side}, {int(some.sum())} of {rows}"
        cases.append(case(name, side, any_order, [whole * some] * trays))
    return tuple(cases)


def one_sided(rows: int) -> list[tuple[str, Cells]]:
    """Return every filling from one side, neither full nor empty: (side, 0 or 1 per row)."""
    places = np.arange(rows)
    left = [("left rows only", (places < k).astype(int)) for k in range(1, rows)]
    right = [("right rows only", (places >= rows - k).astype(int)) for k in range(1, rows)]
    return left + right


def mirror_pairs(rows: int) -> list[Cells]:
    """Return fillings that are their own mirror image: only the inner or only the outer pairs."""
    depth = np.minimum(np.arange(rows), np.arange(rows)[::-1])
    pairs = depth.max()
    inner = [(depth >= k).astype(int) for k in range(1, pairs + 1)]
    outer = [(depth < k).astype(int) for k in range(1, pairs + 1)]
    return inner + outer


def _rows(some: Cells, rows: int) -> str:
    """Return which rows a mirrored filling has, in words."""
    where = "inner" if some[rows // 2] else "outer"
    return f"{where} {int(some.sum())} of {rows} rows"
