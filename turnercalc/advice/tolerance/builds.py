"""Ends and peaks of a block of builds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.many import ManyEnds, ends_in_blocks
from turnercalc.building import Built
from turnercalc.cycle import frictionless, turn_cycle
from turnercalc.drives.base import Drive
from turnercalc.swing import lengths as deciding_lengths
from turnercalc.turners.base import LoadCase, Turner

Array = NDArray[np.float64]

#: Loose eggs change sides at one tilt: coarser than two degrees of crank, the peak there is missed.
POSITIONS = 180


def ends_with_play(
    built: Built, lengths: Mapping[str, Array], taken: Sequence[tuple[Array, Array]]
) -> ManyEnds:
    """Return the ends of builds whose play lies otherwise at either end."""
    deciding = deciding_lengths(built.turner, built.drive)
    own = {path: values for path, values in lengths.items() if path in deciding}
    if not taken:
        return ends_in_blocks(built.turner, built.drive, own, anew=False)
    like = built.drive.play_like
    base = own.get(like, np.full(taken[0][0].shape, deciding[like]))
    at_low = ends_in_blocks(
        built.turner, built.drive, {**own, like: base + taken[0][0]}, anew=False
    )
    at_high = ends_in_blocks(
        built.turner, built.drive, {**own, like: base + taken[0][1]}, anew=False
    )
    closes = at_low.closes & at_high.closes
    return ManyEnds(np.where(closes, at_low.low, np.nan), np.where(closes, at_high.high, np.nan))


def with_own_eggs(case: LoadCase, deviation: float, rng: np.random.Generator) -> LoadCase:
    """Return a load with the masses of its single eggs drawn: counts become heavier or lighter."""
    cells = np.asarray(case.cells, float)
    noise = rng.standard_normal(cells.shape)
    heavier = np.maximum(cells + deviation * np.sqrt(np.maximum(cells, 0.0)) * noise, 0.0)
    return replace(case, cells=heavier)


def friction_adds(turner: Turner, drive: Drive, loads: Sequence[LoadCase]) -> Array:
    """Return what friction and the link's weight add to the peaks of the kernel.

    With nominal lengths, shape (load, direction) [N·m or N]; infinite where friction jams it.
    """
    cycle = turn_cycle(turner, drive, loads, levels=("middle",), count=POSITIONS)
    rubbed = cycle.shaft_torque[:, 0].max(axis=-1)
    added = np.where(np.isnan(rubbed), np.inf, rubbed) - bare_peaks(turner, drive, loads)
    return np.asarray(added)


def bare_peaks(turner: Turner, drive: Drive, loads: Sequence[LoadCase]) -> Array:
    """Return the peaks of the kernel for one design, shape (load, direction)."""
    cells = np.stack([case.cells for case in loads]).astype(float)
    position = drive.positions(turner.travel, POSITIONS)
    torque = frictionless(turner, drive, cells, position)[3][:, 0, 0]
    return np.stack([torque.max(axis=-1), -torque.min(axis=-1)], axis=-1)
