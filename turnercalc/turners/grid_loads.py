"""Load cases of a sliding grid, in cells: which eggs are in, and how their heavy sides stand.

The grid rolls every egg alike, whichever cell it is in, so partial batches are told by how many
cells are filled. Every egg adds to the push, so the full grid is hardest on a level floor.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from turnercalc.turners.base import LoadCase
from turnercalc.turners.heavy_sides import IN_LINE, PHASES, PHASES_OF
from turnercalc.turners.tray_loads import slug

Cells = NDArray[np.int64]


def grid_load_cases(
    cells: int,
    eggs_per_cell: int,
    *,
    planned: str = IN_LINE,
    given: Iterable[tuple[str, Sequence[int]]] = (),
) -> tuple[LoadCase, ...]:
    """Return every load case of a sliding grid.

    Parameters
    ----------
    cells, eggs_per_cell : int
        The grid.
    planned : str
        How the heavy sides of the eggs are planned to stand: ``in line`` or ``scattered``; the
        other is computed too.
    given : iterable of (name, eggs)
        The builder's own cases: eggs in each cell, left cell first.
    """
    whole = np.full(cells, eggs_per_cell)
    place = np.arange(cells)
    cases = list(_with_phases("all cells full", "all cells full", whole, planned))
    cases.append(
        LoadCase("all_cells_empty", "all cells empty", "all cells empty", True, _empty(cells))
    )
    for name, eggs in given:
        cases += _with_phases(name, name, np.asarray(eggs, int), planned)
    for some in range(1, cells):
        name = f"{some} of {cells} cells full"
        cases += _with_phases(name, "some cells full", whole * (place < some), planned)
    return tuple(cases)


def _empty(cells: int) -> Cells:
    return np.zeros((cells, len(PHASES)), dtype=int)


def _with_phases(name: str, family: str, eggs: Cells, planned: str) -> Iterator[LoadCase]:
    """Yield one filling with the heavy sides of its eggs in every way they may stand."""
    for standing, phases in PHASES_OF.items():
        for phase in phases:
            cells = _empty(len(eggs))
            cells[:, PHASES.index(phase)] = eggs
            full_name = f"{name}, heavy sides {phase}"
            own = f"{family}, heavy sides {standing}"
            yield LoadCase(slug(full_name), full_name, own, standing == planned, cells)
