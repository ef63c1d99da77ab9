"""Many designs at once: one turner and one drive whose lengths are arrays, a design a line.

Turner and drive name the lengths that decide the ends of the swing (`dimensions`). Here any of
them may be an array along the design axis; everything else is the same for all designs. Work is
done in blocks, so that memory does not grow with the number of designs.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.cycle import frictionless, turn_cycle
from turnercalc.drives.base import Drive, follow
from turnercalc.mechanics.numeric import keep_freed_memory
from turnercalc.paths import Path
from turnercalc.swing import lengths as lengths_of
from turnercalc.turners.base import LoadCase, Turner

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]

#: Designs worked on at once without friction: enough that Python's own steps do not count, and
#: threads seldom wait for one another; few enough that the arrays stay in the processor's cache.
BLOCK = 1000
#: The same with friction, where every load, direction and round of iteration counts.
FRICTION_BLOCK = 64
POLISHING_STEPS = 5
#: Steps of Newton from the nearest of many positions that leave an end right to rounding.
QUICK_STEPS = 2


def on_design_axis(values: ArrayLike) -> Array:
    """Return values of many designs, shape (design, 1, 1, 1, 1)."""
    return np.asarray(values, float).reshape(-1, 1, 1, 1, 1)


def takes_arrays(turner: Turner, drive: Drive, paths: Iterable[str]) -> bool:
    """Tell whether arrays of these lengths go through turner and drive at once.

    A path that takes many, a drive that goes round and round, and a load torque that takes a design
    axis: not every turner's does, and one that does not is looked at design by design.
    """
    now = {path: length for path, length in lengths_of(turner, drive).items() if path in set(paths)}
    round_and_round = turner.rests_on_pin and not drive.both_ways and not turner.endless
    if not now or not round_and_round or not getattr(turner.path(), "many", False):
        return False
    two = with_lengths(turner, drive, {path: np.full(2, value) for path, value in now.items()})
    cells = np.stack([case.cells for case in turner.load_cases()[:2]]).astype(float)
    try:
        with np.errstate(all="ignore"):
            look(*two, cells, drive.positions(turner.travel, 8))
    except (ValueError, IndexError):
        return False
    return True


def blocks(count: int, size: int) -> Iterator[slice]:
    """Yield slices that cover `count` designs, `size` at a time."""
    keep_freed_memory()
    for start in range(0, count, size):
        yield slice(start, min(start + size, count))


def fast_fields(turner: Turner, drive: Drive) -> frozenset[str]:
    """Return the field paths that may be arrays."""
    return frozenset([*turner.dimensions.values(), *drive.dimensions.values()])


def with_lengths(
    turner: Turner, drive: Drive, lengths: Mapping[str, Array], *, anew: bool = True
) -> tuple[Turner, Drive]:
    """Return turner and drive with lengths of many designs: field path -> (design,) [m].

    Where its way of being put together depends on the lengths, the drive is put together `anew`;
    builds of one design that come out a little otherwise stay put together as that is.
    """
    changed: list[Any] = []
    for owner in (turner, drive):
        new = {
            name: on_design_axis(lengths[path])
            for name, path in owner.dimensions.items()
            if path in lengths
        }
        changed.append(replace(owner, **new) if new else owner)  # type: ignore[type-var]
    turner, drive = changed
    if anew and turner.rests_on_pin and not drive.both_ways:
        drive = drive.assemble(turner.path())
    return turner, drive


class Look(NamedTuple):
    """Ends and peaks of many designs from one pass, shape (design,) and (design, direction)."""

    low: Array
    high: Array
    peak: Array


def look(turner: Turner, drive: Drive, cells: Array, position: Array) -> Look:
    """Return ends and the largest frictionless peak over the loads, of a drive that goes round."""
    path = turner.path()
    q, rate = follow(drive, path, position)
    torque = turner.load_torque(cells, q, rate) * rate
    most, least = torque.max(axis=-1).max(axis=1), torque.min(axis=-1).min(axis=1)
    peak = np.stack([most.reshape(-1), -least.reshape(-1)], axis=-1)
    low, high = _ends_near(drive, path, position, q)
    return Look(low, high, np.where(np.isfinite(low)[:, None], peak, np.nan))


def _ends_near(drive: Drive, path: Path, position: Array, q: Array) -> tuple[Array, Array]:
    """Return the lowest and the highest coordinate of drives that go round, shape (design,) each.

    The parabola through the extreme position and its neighbours, then Newton on q' = 0; both
    ends stand on an axis before all others. NaN where a loop does not close anywhere: argmin and
    argmax give that place.
    """
    own = q.reshape(len(q), -1)
    at, design = np.stack([own.argmin(axis=-1), own.argmax(axis=-1)]), np.arange(len(own))
    before, here, after = (own[design, (at + shift) % len(position)] for shift in (-1, 0, 1))
    step = position[1] - position[0]
    slope, bend = 0.5 * (after - before) / step, (after - 2.0 * here + before) / step**2
    near = position[at]
    for _ in range(QUICK_STEPS):
        near = near - np.clip(np.where(bend != 0.0, slope / bend, 0.0), -step, step)
        end, slope, bend = (
            each.reshape(2, -1) for each in drive.trace(path, near.reshape(2, -1, 1, 1, 1, 1))
        )
    low, high = np.where(np.isnan(here), np.nan, end)
    return low, high


@dataclass(frozen=True)
class ManyEnds:
    """The ends of the swing of many designs, shape (design,).

    Attributes
    ----------
    low, high : ndarray
        Lowest and highest coordinate [rad or m]; NaN where the drive does not close.
    """

    low: Array
    high: Array

    @property
    def closes(self) -> Mask:
        """Where the drive goes through its whole cycle."""
        return np.isfinite(self.low)


def ends_of_many(turner: Turner, drive: Drive, count: int = 72) -> ManyEnds:
    """Return the ends of the swing of designs on the first axis.

    For a drive that goes round and round, Newton on q' = 0 from the nearest of `count`
    positions, as `swing.ends` does it for one design. A drive that runs to and fro is taken at
    its stops, and at a rest point between them where there is one.
    """
    path = turner.path()
    position = drive.positions(turner.travel, count)
    q, _, _ = drive.trace(path, position)
    closes = np.asarray(np.isfinite(q).all(axis=-1))
    spacing = position[..., 1:2] - position[..., :1]
    every = np.broadcast_to(position, q.shape)  # an actuator has its own stops in each design
    found = []
    for index in (np.nanargmin, np.nanargmax):
        at = index(np.where(closes[..., None], q, 0.0), axis=-1)[..., None]
        inner = np.ones(at.shape, bool) if not drive.both_ways else _between(at, q.shape[-1])
        place = np.take_along_axis(every, at, axis=-1)
        best = np.take_along_axis(q, at, axis=-1)
        for _ in range(POLISHING_STEPS):
            value, rate, second = drive.trace(path, place)
            with np.errstate(divide="ignore", invalid="ignore"):
                step = np.where(inner & (second != 0.0), rate / second, 0.0)
            place = place - np.clip(step, -spacing, spacing)
        value, _, _ = drive.trace(path, place)
        best = np.where(inner & np.isfinite(value), value, best)
        found.append(np.where(closes, best[..., 0], np.nan).reshape(-1))
    return ManyEnds(*found)


def _between(at: NDArray[np.intp], count: int) -> Mask:
    return np.asarray((at > 0) & (at < count - 1))


def ends_in_blocks(
    turner: Turner,
    drive: Drive,
    lengths: Mapping[str, Array],
    count: int = 72,
    *,
    anew: bool = True,
) -> ManyEnds:
    """Return the ends of designs given by their lengths, block by block."""
    total = len(next(iter(lengths.values())))
    low, high = np.empty(total), np.empty(total)
    for part in blocks(total, BLOCK):
        some = {path: values[part] for path, values in lengths.items()}
        many = with_lengths(turner, drive, some, anew=anew)
        ends = ends_of_many(*many, count)
        low[part], high[part] = ends.low, ends.high
    return ManyEnds(low, high)


def hardest_loads(turner: Turner, low: float, high: float, count: int = 41) -> list[LoadCase]:
    """Return the planned loads that are the hardest one anywhere in a swing, either way.

    Without friction the shaft torque is load torque times q', so that at every position the
    hardest load is the one of the largest or of the smallest load torque there: no other can
    have the largest peak, whatever the drive.
    """
    loads = [case for case in turner.load_cases() if case.planned]
    cells = np.stack([case.cells for case in loads]).astype(float)
    q = np.linspace(low, high, count)
    picked: set[int] = set()
    for sense in (1.0, -1.0):
        torque = turner.load_torque(cells, q, np.full((1, 1, 1, 1), sense))
        torque = np.broadcast_to(torque, (len(loads), 1, 1, count))[:, 0, 0]
        picked.update(torque.argmax(axis=0).tolist(), torque.argmin(axis=0).tolist())
    return [loads[index] for index in sorted(picked)]


def free_peaks(
    turner: Turner,
    drive: Drive,
    lengths: Mapping[str, Array],
    loads: Sequence[LoadCase],
    count: int = 72,
    *,
    anew: bool = True,
) -> Array:
    """Return the largest shaft torque without friction, shape (design, load, direction)."""
    cells = np.stack([case.cells for case in loads]).astype(float)
    total = len(next(iter(lengths.values())))
    found = np.empty((total, len(loads), 2))
    position = drive.positions(turner.travel, count)
    for part in blocks(total, BLOCK):
        some = {path: values[part] for path, values in lengths.items()}
        many = with_lengths(turner, drive, some, anew=anew)
        torque = frictionless(*many, cells, position)[3][:, :, 0, 0]
        found[part, :, 0] = torque.max(axis=-1)
        found[part, :, 1] = -torque.min(axis=-1)
    return found


def peaks_with_friction(
    turner: Turner,
    drive: Drive,
    lengths: Mapping[str, Array],
    loads: Sequence[LoadCase],
    *,
    level: str = "middle",
    count: int = 72,
) -> Array:
    """Return the largest shaft torque with friction, shape (design, load, direction).

    Infinite where friction jams the drive.
    """
    total = len(next(iter(lengths.values())))
    found = np.empty((total, len(loads), 2))
    for part in blocks(total, FRICTION_BLOCK):
        many = with_lengths(turner, drive, {path: v[part] for path, v in lengths.items()})
        cycle = turn_cycle(*many, loads, levels=(level,), count=count)
        shaft = cycle.shaft_torque
        shape = (part.stop - part.start, *shaft.shape[-4:])
        peak = np.broadcast_to(shaft, shape)[:, :, 0].max(axis=-1)
        found[part] = np.where(np.isnan(peak), np.inf, peak)
    return found


def least_link_angle(
    turner: Turner, drive: Drive, lengths: Mapping[str, Array], count: int = 72
) -> Array:
    """Return the least angle between link and arm over the cycle, shape (design,) [rad].

    As `checks.link_to_arm` has it, over every position. NaN where there is no link, or where it
    does not close.
    """
    total = len(next(iter(lengths.values())))
    found = np.full(total, np.nan)
    position = drive.positions(turner.travel, count)
    for part in blocks(total, BLOCK):
        many_turner, many_drive = with_lengths(
            turner, drive, {path: v[part] for path, v in lengths.items()}
        )
        motion = many_drive.close(many_turner.path(), position)
        if motion.bar_x is None or motion.bar_y is None:
            return found
        tx, ty = many_turner.path().tangent(motion.coordinate)
        along = np.abs(motion.bar_x * tx + motion.bar_y * ty)
        across = np.abs(motion.bar_x * ty - motion.bar_y * tx)
        found[part] = np.arctan2(along, across).min(axis=-1).reshape(-1)
    return found
