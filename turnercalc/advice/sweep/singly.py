"""Designs that differ in anything: each read, built and computed by itself."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import Any, NamedTuple

import numpy as np

from turnercalc.advice.sweep.blocks import POSITIONS
from turnercalc.building import build
from turnercalc.cycle import turn_cycle
from turnercalc.design import Design
from turnercalc.drives.base import passing_of
from turnercalc.errors import TurnercalcError
from turnercalc.loads import hardest
from turnercalc.motors import MotorFile
from turnercalc.sizing import size
from turnercalc.swing import ends
from turnercalc.turners.base import LoadCase

Progress = Callable[[int, int], None]
NOTHING = (math.nan, math.nan)


class One(NamedTuple):
    """What came out of one design; `why` is empty where it goes through."""

    why: str
    low: float = math.nan
    high: float = math.nan
    peak: tuple[float, float] = NOTHING
    verdict: str = "refused"
    enough: float = math.nan


def one_by_one(
    design: Design,
    columns: Mapping[str, Any],
    reasons: tuple[str, ...],
    loads: Sequence[LoadCase] | None,
    friction: str,
    motor_file: MotorFile | None,
    full: bool,
    progress: Progress | None,
) -> dict[str, Any]:
    """Return the columns of a sweep over any fields."""
    total = len(next(iter(columns.values())))
    found: list[One] = []
    for at in range(total):
        changes = {path: plain(values[at]) for path, values in columns.items()}
        try:
            changed = design.replace(changes, si=True)
            one = sized(changed, motor_file) if full else quick(changed, reasons, loads, friction)
        except TurnercalcError as error:
            one = One(first_complaint(error))
        found.append(one)
        if progress is not None:
            progress(at + 1, total)
    told = tuple(dict.fromkeys((*reasons, *(one.why for one in found))))
    why = np.array([told.index(one.why) for one in found], dtype=np.intp)
    return {
        "low": np.array([one.low for one in found]),
        "high": np.array([one.high for one in found]),
        "peak": np.array([one.peak for one in found]),
        "why": why,
        "closes": np.array([not one.why for one in found]),
        "reasons": told,
        "verdict": tuple(one.verdict for one in found) if full else None,
        "times_enough": np.array([one.enough for one in found]) if full else None,
    }


def quick(
    design: Design, reasons: tuple[str, ...], loads: Sequence[LoadCase] | None, friction: str
) -> One:
    """Return ends and peak of one design, or why it does not go through."""
    built = build(design)
    turner, drive = built.turner, built.drive
    with np.errstate(invalid="ignore", divide="ignore"):
        closing = drive.closing(turner.path())
        swing = ends(turner, drive, count=POSITIONS)
        if not closing.closes or not np.isfinite(swing.total):
            why = passing_of(drive, turner.path(), np.array([False]))[0]
            return One(closing.text or reasons[int(why)])
        chosen = loads or [case for case in turner.load_cases() if case.planned]
        cycle = turn_cycle(turner, drive, chosen, levels=(friction,), count=POSITIONS)
    worst = cycle.shaft_torque[:, 0].max(axis=(0, 2))
    peak = np.where(np.isnan(worst), np.inf, worst)
    return One("", swing.low, swing.high, (float(peak[0]), float(peak[1])))


def sized(design: Design, motor_file: MotorFile | None) -> One:
    """Size one design in full."""
    sizing = size(design, motor_file)
    if sizing.cycle is None:
        return One(sizing.reason.text, verdict=sizing.verdict.value)
    middle = sizing.cycle.levels.index("middle")
    one, other = (hardest(sizing.cycle, middle, way).torque for way in (0, 1))
    enough = sizing.chosen.times_enough if sizing.chosen is not None else None
    return One(
        "",
        sizing.ends.low,
        sizing.ends.high,
        (one, other),
        sizing.verdict.value,
        math.nan if enough is None else enough,
    )


def first_complaint(error: TurnercalcError) -> str:
    """Return in one line why a design cannot be."""
    complaints = getattr(error, "complaints", ())
    return f"refused: {complaints[0].message}" if complaints else f"refused: {error}"


def plain(value: Any) -> Any:
    """Return a value of an array as Python has it."""
    return value.item() if isinstance(value, np.generic) else value
