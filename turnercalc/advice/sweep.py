"""Sweeps: any fields over any values, arrays in and arrays out.

Lengths that decide the ends go through array kernels, a block of designs at a time and blocks on
every core. Any other field builds each design by itself. A design that does not go through, or
cannot be, has NaN and its reason; nothing is left out and nothing is made up.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.advice.many import (
    BLOCK,
    FRICTION_BLOCK,
    blocks,
    fast_fields,
    hardest_loads,
    look,
    takes_arrays,
    with_lengths,
)
from turnercalc.advice.ranges import info_of
from turnercalc.advice.rows import html_table
from turnercalc.building import Built, build
from turnercalc.cycle import turn_cycle
from turnercalc.design import Design
from turnercalc.drives.base import Drive
from turnercalc.drives.crank_link import CrankLink
from turnercalc.errors import TurnercalcError
from turnercalc.loads import hardest
from turnercalc.motors import MotorFile
from turnercalc.paths import CirclePath
from turnercalc.sizing import size
from turnercalc.swing import ends
from turnercalc.turners.base import LoadCase, Turner

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Progress = Callable[[int, int], None]

#: Positions of a cycle: with friction as many as a sizing has, so that the peaks are the same.
POSITIONS = 360
FREE_POSITIONS = 72
#: Designs that a notebook shows.
SHOWN = 12
#: Reasons by their number; 0 goes through. Longer ones come behind these.
REASONS = (
    "",
    "the link is too short",
    "the link is too long",
    "the drive does not go through",
    "no link of any length would do",
    "refused: a file does not take such a length",
)
FRICTION = ("none", "low", "middle", "high")


@dataclass(frozen=True, eq=False)
class Sweep:
    """What came out of a sweep, everything on one axis of designs.

    Attributes
    ----------
    varied : mapping
        Field path -> value of every design [SI, or words].
    closes : ndarray of bool
        The mask of designs that go through.
    why : ndarray of int
        For each design the number of its reason; 0 where it goes through.
    reasons : tuple of str
        The reasons by number.
    low, high : ndarray
        Ends of the swing [rad or m]; NaN where it does not go through.
    peak : ndarray, shape (design, direction)
        Hardest shaft torque over the loads, anticlockwise and clockwise [N·m or N]; infinite
        where friction jams it.
    friction : str
        With how much friction: ``none`` leaves the weight of the link out too.
    verdict, times_enough : tuple or None
        Of full sizings, where they were asked for.
    unit : str
        ``rad`` or ``m``, of the ends.
    force_unit : str
        ``N·m`` or ``N``, of the peak.
    """

    varied: Mapping[str, tuple[Any, ...] | Array]
    closes: Mask
    why: NDArray[np.intp]
    reasons: tuple[str, ...]
    low: Array
    high: Array
    peak: Array
    friction: str
    verdict: tuple[str, ...] | None = None
    times_enough: Array | None = None
    unit: str = "rad"
    force_unit: str = "N·m"
    shape: tuple[int, ...] = field(default=())

    def __len__(self) -> int:
        return len(self.closes)

    @property
    def better(self) -> Array:
        """The peak in the better direction, shape (design,)."""
        return np.asarray(self.peak.min(axis=1))

    def reason_of(self, design: int) -> str:
        """Return why a design does not go through; empty where it does."""
        return self.reasons[int(self.why[design])]

    def to_arrays(self) -> dict[str, Any]:
        """Return every column as an array, keys with their unit in SI."""
        found: dict[str, Any] = {path: np.asarray(values) for path, values in self.varied.items()}
        end = "rad" if self.unit == "rad" else "m"
        force = "Nm" if self.force_unit == "N·m" else "N"
        found |= {
            "closes": self.closes,
            f"low_end_{end}": self.low,
            f"high_end_{end}": self.high,
            f"peak_anticlockwise_{force}": self.peak[:, 0],
            f"peak_clockwise_{force}": self.peak[:, 1],
            "reason": np.array(self.reasons, dtype=object)[self.why],
        }
        if self.verdict is not None:
            found["verdict"] = np.array(self.verdict, dtype=object)
            found["times_enough"] = self.times_enough
        return found

    def to_dict(self) -> dict[str, list[Any]]:
        """Return the same as plain lists; None for what is not a number."""
        return {
            name: [
                None if isinstance(value, float) and not np.isfinite(value) else value
                for value in np.asarray(values).tolist()
            ]
            for name, values in self.to_arrays().items()
        }

    def _repr_html_(self) -> str:
        """Return a table of the first designs, for a notebook."""
        more = f"<p>{len(self):,} designs, {int(self.closes.sum()):,} go through.</p>"
        first = {name: values[:SHOWN].tolist() for name, values in self.to_arrays().items()}
        return html_table(first) + more


def sweep(
    design: Design,
    vary: Mapping[str, Sequence[Any] | ArrayLike],
    *,
    grid: bool = True,
    friction: str = "middle",
    loads: Sequence[LoadCase] | None = None,
    motor_file: MotorFile | None = None,
    full: bool = False,
    cores: int | None = None,
    progress: Progress | None = None,
) -> Sweep:
    """Return what comes out of a design with some fields varied.

    Parameters
    ----------
    design : Design
        What is varied.
    vary : mapping
        Field path -> values, SI numbers or words.
    grid : bool
        Whether every value of one field meets every value of the others; else the values stand
        side by side and are equally many.
    friction : str
        ``none``, ``low``, ``middle`` or ``high``. None is many times faster.
    loads : sequence of LoadCase, optional
        By default every planned load that can be the hardest anywhere.
    motor_file : MotorFile, optional
        For `full`.
    full : bool
        Whether each design is sized in full, with its verdict: slower by far.
    cores : int, optional
        Threads; all cores by default.
    progress : callable, optional
        Called with designs done and designs in all.

    Raises
    ------
    ValueError
        Nothing is varied, the values are not equally many, or `friction` is no such level.
    UnknownNameError
        There is no such field.
    """
    columns, shape = lay_out(vary, grid=grid)
    if friction not in FRICTION:
        raise ValueError(f"friction is one of {', '.join(FRICTION)}, not {friction!r}")
    for path in columns:
        design.value(path)
    built = build(design)
    fast = set(columns) <= fast_fields(built.turner, built.drive)
    if full or not fast or not takes_arrays(built.turner, built.drive, columns):
        found = _one_by_one(design, columns, loads, friction, motor_file, full, progress)
    else:
        refused = outside(design, columns)
        found = _in_blocks(built, columns, refused, loads, friction, cores, progress)
    return Sweep(
        varied=columns,
        shape=shape,
        friction=friction,
        unit=built.turner.coordinate_unit,
        force_unit="N·m" if built.drive.position_unit == "rad" else "N",
        **found,
    )


def lay_out(
    vary: Mapping[str, Sequence[Any] | ArrayLike], *, grid: bool
) -> tuple[dict[str, Any], tuple[int, ...]]:
    """Return one column for each field, all equally long, and the shape of the grid."""
    given = {path: np.atleast_1d(np.asarray(values)) for path, values in vary.items()}
    if not given:
        raise ValueError("name a field to vary, such as crank.radius")
    sizes = tuple(len(values) for values in given.values())
    if not grid:
        if len(set(sizes)) != 1:
            raise ValueError(f"side by side the values have to be equally many, not {sizes}")
        return given, (sizes[0],)
    mesh = np.meshgrid(*[np.arange(count) for count in sizes], indexing="ij")
    columns = {
        path: values[at.ravel()] for (path, values), at in zip(given.items(), mesh, strict=True)
    }
    return columns, sizes


# -- in blocks -----------------------------------------------------------------------------------


def outside(design: Design, columns: Mapping[str, Any]) -> Mask:
    """Return which designs have a length that a file would refuse."""
    refused = np.zeros(len(next(iter(columns.values()))), bool)
    for path, values in columns.items():
        phrase, value = info_of(design, path).phrase, np.asarray(values, float)
        refused |= ~((value >= phrase.low) & (value <= phrase.high))
        refused |= (value <= phrase.low) & phrase.open_low
    return refused


def _in_blocks(
    built: Built,
    columns: Mapping[str, Any],
    refused: Mask,
    loads: Sequence[LoadCase] | None,
    friction: str,
    cores: int | None,
    progress: Progress | None,
) -> dict[str, Any]:
    lengths = {path: np.asarray(values, float) for path, values in columns.items()}
    total = len(next(iter(lengths.values())))
    chosen = list(loads) if loads is not None else hardest_loads(built.turner, *widest(built))
    cells = np.stack([case.cells for case in chosen]).astype(float)
    low, high, peak = np.empty(total), np.empty(total), np.empty((total, 2))
    why = np.zeros(total, dtype=np.intp)
    count = FREE_POSITIONS if friction == "none" else POSITIONS
    position = built.drive.positions(built.turner.travel, count)

    def work(part: slice) -> int:
        some = {path: values[part] for path, values in lengths.items()}
        turner, drive = with_lengths(built.turner, built.drive, some)
        with np.errstate(invalid="ignore", divide="ignore"):
            seen = look(turner, drive, cells, position)
            reason = why_not(turner, drive, some, np.isfinite(seen.low))
            reason = np.where(refused[part], 5, reason)
            closes = reason == 0
            low[part], high[part] = (np.where(closes, end, np.nan) for end in seen[:2])
            peak[part] = np.where(closes[:, None] & (friction == "none"), seen.peak, np.nan)
            why[part] = reason
            if friction != "none" and closes.any():
                own = {path: values[closes] for path, values in some.items()}
                two = with_lengths(built.turner, built.drive, own)
                cycle = turn_cycle(*two, chosen, levels=(friction,), count=POSITIONS)
                found = cycle.shaft_torque[:, :, 0].max(axis=(1, 3))
                peak[np.arange(total)[part][closes]] = np.where(np.isnan(found), np.inf, found)
        return int(part.stop - part.start)

    parts = list(blocks(total, BLOCK if friction == "none" else FRICTION_BLOCK))
    done = 0
    with ThreadPoolExecutor(cores or os.cpu_count() or 1) as pool:
        for finished in pool.map(work, parts):
            done += finished
            if progress is not None:
                progress(done, total)
    return {
        "low": low,
        "high": high,
        "peak": peak,
        "why": why,
        "closes": np.isfinite(low),
        "reasons": REASONS,
    }


def widest(built: Built) -> tuple[float, float]:
    """Return a swing a little wider than wanted, in which the hardest loads are looked for."""
    low, high = built.turner.travel
    middle, half = 0.5 * (low + high), 0.5 * (high - low)
    return middle - 1.5 * half, middle + 1.5 * half


def why_not(
    turner: Turner, drive: Drive, lengths: Mapping[str, Array], closes: Mask
) -> NDArray[np.intp]:
    """Return the number of the reason why each of many designs does not go through; 0 if it does.

    Parameters
    ----------
    closes : ndarray of bool
        Where the loop closes at the positions looked at. Between two of them it may still miss:
        on a circle the nearest and the farthest place of the crank pin decide.
    """
    count = len(next(iter(lengths.values())))
    path = turner.path()
    if not isinstance(drive, CrankLink) or not isinstance(path, CirclePath):
        return np.where(closes, 0, 3)
    arm, ground = path.radius, np.hypot(drive.across, drive.height)
    far, near = ground + drive.crank, np.abs(ground - drive.crank)
    shortest, longest = np.maximum(far - arm, arm - near), arm + near
    short, long = shortest - drive.link, drive.link - longest
    found = np.where(np.maximum(short, long) <= 0.0, 0, np.where(short >= long, 1, 2))
    found = np.where((found != 0) & (shortest > longest), 4, found)
    found = np.broadcast_to(found, (count, 1, 1, 1, 1)).reshape(-1)
    return np.where((found == 0) & ~closes, 3, found)


# -- one by one ----------------------------------------------------------------------------------


def _one_by_one(
    design: Design,
    columns: Mapping[str, Any],
    loads: Sequence[LoadCase] | None,
    friction: str,
    motor_file: MotorFile | None,
    full: bool,
    progress: Progress | None,
) -> dict[str, Any]:
    total = len(next(iter(columns.values())))
    low, high = np.full(total, np.nan), np.full(total, np.nan)
    peak, enough = np.full((total, 2), np.nan), np.full(total, np.nan)
    verdicts, reasons = [], dict.fromkeys(REASONS)
    why = np.zeros(total, dtype=np.intp)
    for at in range(total):
        changes = {path: plain(values[at]) for path, values in columns.items()}
        text, verdict = "", ""
        try:
            changed = design.replace(changes, si=True)
            if full:
                text, verdict = _full(changed, motor_file, at, low, high, peak, enough)
            else:
                text = _quick(changed, loads, friction, at, low, high, peak)
        except TurnercalcError as error:
            text = first_complaint(error)
        reasons.setdefault(text)
        why[at] = list(reasons).index(text)
        verdicts.append(verdict or "refused")
        if progress is not None:
            progress(at + 1, total)
    return {
        "low": low,
        "high": high,
        "peak": peak,
        "why": why,
        "closes": why == 0,
        "reasons": tuple(reasons),
        "verdict": tuple(verdicts) if full else None,
        "times_enough": enough if full else None,
    }


def _quick(
    design: Design,
    loads: Sequence[LoadCase] | None,
    friction: str,
    at: int,
    low: Array,
    high: Array,
    peak: Array,
) -> str:
    """Compute ends and peak of one design; return why it does not go through."""
    with np.errstate(invalid="ignore", divide="ignore"):
        return _quickly(design, loads, friction, at, low, high, peak)


def _quickly(
    design: Design,
    loads: Sequence[LoadCase] | None,
    friction: str,
    at: int,
    low: Array,
    high: Array,
    peak: Array,
) -> str:
    built = build(design)
    closing = built.drive.closing(built.turner.path())
    swing = ends(built.turner, built.drive, count=POSITIONS)
    if not closing.closes or not np.isfinite(swing.total):
        return closing.text or link_reason(closing.nearest, design)
    chosen = loads or [case for case in built.turner.load_cases() if case.planned]
    cycle = turn_cycle(built.turner, built.drive, chosen, levels=(friction,), count=POSITIONS)
    low[at], high[at] = swing.low, swing.high
    worst = cycle.shaft_torque[:, 0].max(axis=(0, 2))
    peak[at] = np.where(np.isnan(worst), np.inf, worst)
    return ""


def _full(
    design: Design,
    motor_file: MotorFile | None,
    at: int,
    low: Array,
    high: Array,
    peak: Array,
    enough: Array,
) -> tuple[str, str]:
    """Size one design; return why it does not go through, and its verdict."""
    sizing = size(design, motor_file)
    if sizing.cycle is None:
        return sizing.reason.text, sizing.verdict.value
    low[at], high[at] = sizing.ends.low, sizing.ends.high
    middle = sizing.cycle.levels.index("middle")
    peak[at] = [hardest(sizing.cycle, middle, way).torque for way in (0, 1)]
    if sizing.chosen is not None and sizing.chosen.times_enough is not None:
        enough[at] = sizing.chosen.times_enough
    return "", sizing.verdict.value


def link_reason(nearest: Mapping[str, float], design: Design) -> str:
    """Return whether the link is too short or too long."""
    wanted = nearest.get("link.length")
    if wanted is None:
        return REASONS[4] if nearest else REASONS[3]
    return REASONS[1] if wanted > float(design.value("link.length")) else REASONS[2]


def first_complaint(error: TurnercalcError) -> str:
    """Return in one line why a design cannot be."""
    complaints = getattr(error, "complaints", ())
    return f"refused: {complaints[0].message}" if complaints else f"refused: {error}"


def plain(value: Any) -> Any:
    """Return a value of an array as Python has it."""
    return value.item() if isinstance(value, np.generic) else value
