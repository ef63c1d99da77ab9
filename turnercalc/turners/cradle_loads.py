"""Load cases of a cradle, in rows: which eggs are in, and the exact worst side.

The shaft torque is, but for rolling resistance, a sum over rows, and what a row adds grows
steadily from the left row to the right one: m g (x cos t + what is the same for all rows), t the
tilt from true level. So the rows that hinder at a position are those on one side of a line, and
the worst of all 2^rows fillings is among "the k right rows" and "the k left rows", full and empty
included. Enumerating these is exact; the tests compare it with all 2^rows.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from turnercalc.turners.base import LoadCase
from turnercalc.turners.tray_loads import mirror_pairs, one_sided, slug


def cradle_load_cases(
    rows: int,
    eggs_per_row: int,
    *,
    any_order: bool,
    given: Iterable[tuple[str, Sequence[int]]] = (),
) -> tuple[LoadCase, ...]:
    """Return every load case of a cradle, hardest ways of filling it included.

    Parameters
    ----------
    rows, eggs_per_row : int
        The cradle.
    any_order : bool
        Whether it may be filled and emptied from one side; else only in mirror pairs about the
        middle, and one-sided cases are computed but not planned.
    given : iterable of (name, eggs)
        The builder's own cases: eggs in each row, left row first.

    Returns
    -------
    tuple of LoadCase
        Cells are (1, rows).
    """

    def case(name: str, family: str, planned: bool, eggs: Sequence[int]) -> LoadCase:
        return LoadCase(slug(name), name, family, planned, np.asarray(eggs, int)[None])

    whole = [eggs_per_row] * rows
    cases = [case("full", "full", True, whole), case("empty", "empty", True, [0] * rows)]
    cases += [case(name, f"given {slug(name)}", True, eggs) for name, eggs in given]
    for some in mirror_pairs(rows):
        where = "inner" if some[rows // 2] else "outer"
        name = f"in mirror pairs, {where} {int(some.sum())} of {rows} rows"
        cases.append(case(name, "mirror pairs", True, list(eggs_per_row * some)))
    for side, some in one_sided(rows):
        name = f"{side}, {int(some.sum())} of {rows}"
        cases.append(case(name, side, any_order, list(eggs_per_row * some)))
    return tuple(cases)
