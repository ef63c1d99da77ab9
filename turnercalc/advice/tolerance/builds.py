"""Ends and peaks of a block of builds."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.many import ManyEnds, ends_in_blocks, free_peaks, takes_arrays
from turnercalc.advice.tolerance.friction import POSITIONS, FrictionFit, friction_adds
from turnercalc.building import Built
from turnercalc.cycle import turn_cycle
from turnercalc.drives.base import Drive
from turnercalc.swing import ends
from turnercalc.swing import lengths as deciding_lengths
from turnercalc.turners.base import LoadCase, Turner

Array = NDArray[np.float64]

#: Positions of a build that is looked at by itself; its ends are polished.
ENDS = 72
#: Positions from which both ends of many builds are polished; they are few degrees apart.
COARSE = 48


def ends_with_play(
    built: Built,
    lengths: Mapping[str, Array],
    taken: Sequence[tuple[Array, Array]],
    count: int = 0,
    *,
    at_once: bool | None = None,
) -> ManyEnds:
    """Return the ends of builds whose play lies otherwise at either end.

    Parameters
    ----------
    built : Built
        As it is put together.
    lengths : mapping
        Field path -> length in every build [m].
    taken : sequence of (at low, at high)
        What the play adds to the length it is like, at either end; at most one.
    count : int
        Builds, where no length says how many.
    at_once : bool, optional
        Whether turner and drive take arrays, where that is known already.
    """
    deciding = deciding_lengths(built.turner, built.drive)
    own = {path: values for path, values in lengths.items() if path in deciding}
    if not taken:
        return ends_of_builds(built, own, count, at_once=at_once)
    like = built.drive.play_like
    base = own.get(like, np.full(taken[0][0].shape, deciding[like]))
    at_low, at_high = (
        ends_of_builds(built, {**own, like: base + play}, count, at_once=at_once)
        for play in taken[0]
    )
    closes = at_low.closes & at_high.closes
    return ManyEnds(np.where(closes, at_low.low, np.nan), np.where(closes, at_high.high, np.nan))


def ends_of_builds(
    built: Built, lengths: Mapping[str, Array], count: int, *, at_once: bool | None = None
) -> ManyEnds:
    """Return the ends of builds, all at once where turner and drive take arrays."""
    if at_once is None:
        at_once = takes_arrays(built.turner, built.drive, lengths)
    if at_once and lengths:
        return ends_in_blocks(built.turner, built.drive, lengths, COARSE, anew=False)
    found = [ends(*one, count=ENDS) for one in each_build(built, lengths, count)]
    return ManyEnds(np.array([one.low for one in found]), np.array([one.high for one in found]))


def each_build(
    built: Built, lengths: Mapping[str, Array], count: int
) -> Iterator[tuple[Turner, Drive]]:
    """Yield turner and drive of every build by itself."""
    builds = len(next(iter(lengths.values()))) if lengths else count
    for at in range(builds):
        pair: list[Any] = []
        for owner in (built.turner, built.drive):
            new = {
                name: float(lengths[path][at])
                for name, path in owner.dimensions.items()
                if path in lengths
            }
            pair.append(replace(owner, **new) if new else owner)  # type: ignore[type-var]
        yield pair[0], pair[1]


def peaks_at_once(
    built: Built, lengths: Mapping[str, Array], loads: Sequence[LoadCase], fit: FrictionFit | None
) -> Array:
    """Return the peaks of builds at middle friction, shape (build, load, direction) [N·m].

    The peak without friction of every build, and what friction adds with the lengths as meant,
    corrected for its lengths. Infinite where friction jams it.
    """
    turner, drive = built.turner, built.drive
    free = free_peaks(turner, drive, lengths, loads, POSITIONS, anew=False)
    adds = friction_adds(turner, drive, loads)
    return free + (adds if fit is None else adds * fit.factor(lengths, adds.shape))


def peaks_one_by_one(
    built: Built, lengths: Mapping[str, Array], loads: Sequence[LoadCase], count: int
) -> Array:
    """Return the same from the whole cycle of every build by itself [N·m or N]."""
    found = []
    for one in each_build(built, lengths, count):
        with np.errstate(invalid="ignore", divide="ignore"):
            cycle = turn_cycle(*one, loads, levels=("middle",), count=ENDS)
        found.append(np.broadcast_to(cycle.shaft_torque.max(axis=-1), (len(loads), 1, 2))[:, 0])
    return np.where(np.isnan(found), np.inf, found)


def with_own_eggs(case: LoadCase, deviation: float, rng: np.random.Generator) -> LoadCase:
    """Return a load with the masses of its single eggs drawn: counts become heavier or lighter."""
    cells = np.asarray(case.cells, float)
    noise = rng.standard_normal(cells.shape)
    heavier = np.maximum(cells + deviation * np.sqrt(np.maximum(cells, 0.0)) * noise, 0.0)
    return replace(case, cells=heavier)
