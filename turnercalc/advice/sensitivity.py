"""What a millimetre, a gram or a part does: ends and peak by every figure of a design."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from turnercalc.advice.ranges import info_of
from turnercalc.advice.rows import Rows
from turnercalc.building import build
from turnercalc.cycle import turn_cycle
from turnercalc.design import Design
from turnercalc.errors import TurnercalcError, UnknownNameError
from turnercalc.loads import hardest
from turnercalc.swing import ends
from turnercalc.tables import Range3

#: A length is changed by this [m], a mass and a friction by this share of it.
LENGTH_STEP = 0.25e-3
SHARE_STEP = 0.02
#: What is told: the change for a millimetre, and for a tenth of a mass or a friction.
MILLIMETRE, TENTH = 1e-3, 0.1
SKIPPED = ("box.", "eggs.", "motor.", "loads.", "turning.", "gearing.")
COUNT = 180


@dataclass(frozen=True)
class Effect:
    """What one figure does.

    Attributes
    ----------
    field : str
        Field path; ``eggs.weighed`` for the mass of an egg.
    per : str
        What the changes are for: ``1 mm`` or ``10 %``.
    low, high : float
        Change of the ends [rad or m].
    peak : float
        Change of the hardest planned shaft torque, better direction, middle friction [N·m or N].
    """

    field: str
    per: str
    low: float
    high: float
    peak: float


@dataclass(frozen=True)
class Sensitivity(Rows):
    """Every figure that does something, the strongest on the peak first.

    Attributes
    ----------
    low, high, peak : float
        As the design stands.
    effects : tuple of Effect
    """

    low: float
    high: float
    peak: float
    effects: tuple[Effect, ...]

    def rows(self) -> list[dict[str, Any]]:
        """Return one line for each figure; ends in rad or m, the peak in N·m or N."""
        return [vars(one).copy() for one in self.effects]


def sensitivity(design: Design) -> Sensitivity:
    """Return what a millimetre more of every length, and a tenth more of every mass, does.

    By central differences, every design built anew, so that what is worked out from a field
    follows it.

    Raises
    ------
    TurnercalcError
        The design does not go through as it stands.
    """
    here = figures(design)
    if not all(math.isfinite(value) for value in here):
        raise TurnercalcError(
            "The design does not go through as it stands. turnercalc size says what is missing."
        )
    found = [effect for path in fields(design) if (effect := effect_of(design, path)) is not None]
    telling = [effect for effect in found if tells(effect, here)]
    ordered = sorted(telling, key=lambda effect: -abs(effect.peak))
    return Sensitivity(*here, tuple(ordered))


def fields(design: Design) -> list[str]:
    """Return the figures that can matter: lengths, places, masses and friction in the machine."""
    found = ["eggs.weighed"] if design.values().get("eggs.weighed") else []
    for path, value in design.values().items():
        if path.startswith(SKIPPED) or path not in design.origin:
            continue
        rubs = isinstance(value, Range3) and path.endswith(".friction")
        if rubs or (isinstance(value, float) and quantity(design, path) in ("length", "mass")):
            found.append(path)
    return found


def quantity(design: Design, path: str) -> str | None:
    """Return the kind of quantity of a field; None where it has none."""
    try:
        return info_of(design, path).phrase.quantity
    except UnknownNameError:
        return None


def effect_of(design: Design, path: str) -> Effect | None:
    """Return what one field does; None where it cannot be changed so little."""
    value = design.value(path)
    if isinstance(value, Range3):
        more, less = (f"{value.low * k:.12g} to {value.high * k:.12g}" for k in UP_AND_DOWN)
        step, told = 2.0 * SHARE_STEP, TENTH
    elif quantity(design, path) == "mass":
        if not value:
            return None
        more, less = (value * k for k in UP_AND_DOWN)
        step, told = 2.0 * SHARE_STEP, TENTH
    else:
        more, less = value + LENGTH_STEP, value - LENGTH_STEP
        step, told = 2.0 * LENGTH_STEP, MILLIMETRE
    try:
        up, down = (figures(design.replace({path: new}, si=True)) for new in (more, less))
    except TurnercalcError:
        return None
    slopes = [told * (a - b) / step for a, b in zip(up, down, strict=True)]
    return Effect(path, "1 mm" if told == MILLIMETRE else "10 %", *slopes)


UP_AND_DOWN = (1.0 + SHARE_STEP, 1.0 - SHARE_STEP)


def figures(design: Design) -> tuple[float, float, float]:
    """Return both ends and the hardest planned peak; NaN where it does not go through."""
    built = build(design)
    swing = ends(built.turner, built.drive, count=COUNT)
    if not np.isfinite(swing.total):
        return math.nan, math.nan, math.nan
    loads = [case for case in built.turner.load_cases() if case.planned]
    cycle = turn_cycle(built.turner, built.drive, loads, levels=("middle",), count=COUNT)
    peaks = [hardest(cycle, 0, way).torque for way in (0, 1)]
    return swing.low, swing.high, max(peaks) if built.drive.both_ways else min(peaks)


def tells(effect: Effect, here: tuple[float, float, float]) -> bool:
    """Tell whether a figure does anything worth a line."""
    ends_move = max(abs(effect.low), abs(effect.high)) > 1e-4 * (here[1] - here[0])
    return ends_move or abs(effect.peak) > 1e-3 * abs(here[2])
