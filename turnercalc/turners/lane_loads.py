"""Load cases of rolling bars, in lanes: which eggs are in, and how their heavy sides stand.

Every egg adds to the friction of its two bars and to nothing else, so the hardest filling is the
full one; partial batches are told because they ask for less and leave the ends lopsided.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from turnercalc.turners.base import LoadCase
from turnercalc.turners.rolling_bars import PHASES
from turnercalc.turners.tray_loads import slug

Lanes = NDArray[np.int64]

IN_LINE, SCATTERED = "in line", "scattered"
_PHASES_OF = {IN_LINE: PHASES[:2], SCATTERED: PHASES[2:]}


def lane_load_cases(
    lanes: int,
    eggs_per_lane: int,
    *,
    planned: str = IN_LINE,
    given: Iterable[tuple[str, Sequence[int]]] = (),
) -> tuple[LoadCase, ...]:
    """Return every load case of rolling bars.

    Parameters
    ----------
    lanes, eggs_per_lane : int
        The bars.
    planned : str
        How the heavy sides of the eggs are planned to stand: ``in line`` or ``scattered``; the
        other is computed too.
    given : iterable of (name, eggs)
        The builder's own cases: eggs in each lane, left lane first.
    """
    whole = np.full(lanes, eggs_per_lane)
    place = np.arange(lanes)
    cases = list(_with_phases("all lanes full", "all lanes full", whole, planned))
    cases.append(
        LoadCase("all_lanes_empty", "all lanes empty", "all lanes empty", True, _empty(lanes))
    )
    for name, eggs in given:
        cases += _with_phases(name, name, np.asarray(eggs, int), planned)
    for some in range(1, lanes):
        for side, filled in (("left", place < some), ("right", place >= lanes - some)):
            name = f"{side} lanes only, {some} of {lanes}"
            cases += _with_phases(name, f"{side} lanes only", whole * filled, planned)
    return tuple(cases)


def _empty(lanes: int) -> Lanes:
    return np.zeros((lanes, len(PHASES)), dtype=int)


def _with_phases(name: str, family: str, eggs: Lanes, planned: str) -> Iterator[LoadCase]:
    """Yield one filling with the heavy sides of its eggs in every way they may stand."""
    for standing, phases in _PHASES_OF.items():
        for phase in phases:
            cells = _empty(len(eggs))
            cells[:, PHASES.index(phase)] = eggs
            full_name = f"{name}, heavy sides {phase}"
            own = f"{family}, heavy sides {standing}"
            yield LoadCase(slug(full_name), full_name, own, standing == planned, cells)
