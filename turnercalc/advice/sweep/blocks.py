"""Designs that differ in lengths alone: as arrays, a block at a time, on every core."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.cores import on_cores
from turnercalc.advice.many import (
    BLOCK,
    FRICTION_BLOCK,
    blocks,
    hardest_loads,
    look,
    with_lengths,
)
from turnercalc.advice.ranges import info_of
from turnercalc.building import Built
from turnercalc.cycle import turn_cycle
from turnercalc.design import Design
from turnercalc.drives.base import Drive, Passing, passing_of
from turnercalc.turners.base import LoadCase, Turner

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Progress = Callable[[int, int], None]

#: Positions of a cycle: with friction as many as a sizing has, so that the peaks are the same.
POSITIONS = 360
FREE_POSITIONS = 72
#: Behind the reasons of the drive.
REFUSED = "refused: a file does not take such a length"


class Block(NamedTuple):
    """What came out of a block: ends, peaks (design, direction), and the number of the reason."""

    low: Array
    high: Array
    peak: Array
    why: NDArray[np.intp]


@dataclass(frozen=True)
class _Work:
    """What is the same for every block."""

    turner: Turner
    drive: Drive
    loads: Sequence[LoadCase]
    cells: Array
    position: Array
    friction: str
    refused_as: int

    def __call__(self, task: tuple[Mapping[str, Array], Mask]) -> Block:
        """Return what comes out of one block of lengths, refused by a file or not."""
        lengths, refused = task
        with np.errstate(invalid="ignore", divide="ignore"):
            turner, drive = with_lengths(self.turner, self.drive, lengths)
            seen = look(turner, drive, self.cells, self.position)
            why = passing_of(drive, turner.path(), np.isfinite(seen.low))
            why = np.where(refused, self.refused_as, why)
            closes = why == Passing.THROUGH
            low, high = (np.where(closes, end, np.nan) for end in (seen.low, seen.high))
            peak = np.where(closes[:, None], seen.peak, np.nan)
            if self.friction != "none" and closes.any():
                rubbed = self.rubbed({path: own[closes] for path, own in lengths.items()})
                peak = np.full_like(peak, np.nan)
                peak[closes] = rubbed
        return Block(low, high, peak, why)

    def rubbed(self, lengths: Mapping[str, Array]) -> Array:
        """Return the peaks with friction of designs that close, shape (design, direction)."""
        pair = with_lengths(self.turner, self.drive, lengths)
        cycle = turn_cycle(*pair, self.loads, levels=(self.friction,), count=POSITIONS)
        found = cycle.shaft_torque[:, :, 0].max(axis=(1, 3))
        return np.where(np.isnan(found), np.inf, found)


def in_blocks(
    design: Design,
    built: Built,
    columns: Mapping[str, Any],
    reasons: tuple[str, ...],
    loads: Sequence[LoadCase] | None,
    friction: str,
    cores: int | None,
    progress: Progress | None,
) -> dict[str, Any]:
    """Return the columns of a sweep over lengths that decide the ends."""
    lengths = {path: np.asarray(values, float) for path, values in columns.items()}
    total = len(next(iter(lengths.values())))
    chosen = list(loads) if loads is not None else hardest_loads(built.turner, *widest(built))
    count = FREE_POSITIONS if friction == "none" else POSITIONS
    work = _Work(
        built.turner,
        built.drive,
        chosen,
        np.stack([case.cells for case in chosen]).astype(float),
        built.drive.positions(built.turner.travel, count),
        friction,
        len(reasons),
    )
    refused = outside(design, columns)
    low, high, peak = np.empty(total), np.empty(total), np.empty((total, 2))
    why = np.empty(total, dtype=np.intp)
    parts = list(blocks(total, BLOCK if friction == "none" else FRICTION_BLOCK))
    tasks = [({path: own[part] for path, own in lengths.items()}, refused[part]) for part in parts]
    done = 0
    for place, found in on_cores(work, tasks, cores):
        part = parts[place]
        low[part], high[part], peak[part], why[part] = found
        done += part.stop - part.start
        if progress is not None:
            progress(done, total)
    return {
        "low": low,
        "high": high,
        "peak": peak,
        "why": why,
        "closes": why == Passing.THROUGH,
        "reasons": (*reasons, REFUSED),
    }


def outside(design: Design, columns: Mapping[str, Any]) -> Mask:
    """Return which designs have a length that a file would refuse."""
    refused = np.zeros(len(next(iter(columns.values()))), bool)
    for path, values in columns.items():
        phrase, value = info_of(design, path).phrase, np.asarray(values, float)
        refused |= ~((value >= phrase.low) & (value <= phrase.high))
        refused |= (value <= phrase.low) & phrase.open_low
    return refused


def widest(built: Built) -> tuple[float, float]:
    """Return a swing a little wider than wanted, in which the hardest loads are looked for."""
    low, high = built.turner.travel
    middle, half = 0.5 * (low + high), 0.5 * (high - low)
    return middle - 1.5 * half, middle + 1.5 * half
