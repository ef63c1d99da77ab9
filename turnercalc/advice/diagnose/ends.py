"""Single errors that would move the ends of the swing to where they were measured."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.diagnose.measured import ANGLE, LENGTH, Measured
from turnercalc.sizing import Sizing
from turnercalc.swing import Ends, ends_with, lengths

Array = NDArray[np.float64]

#: Errors that are looked at: as large as a hand makes them, and then as large as a wrong hole.
LARGEST = 0.025  # m
COARSE = 41
FINE = 0.05e-3  # m
MOST_LEAN = 0.35  # rad
MOST_PLAY = 8e-3  # m


@dataclass(frozen=True, eq=False)
class Curve:
    """How both ends move with the error of one length.

    Attributes
    ----------
    field : str
        Field path.
    error : ndarray
        Built minus meant [m].
    high, low : ndarray
        Both ends, counted positive [rad or m]; NaN where it does not close.
    """

    field: str
    error: Array
    high: Array
    low: Array


def curves(sizing: Sizing) -> tuple[Curve, ...]:
    """Return the curve of every length that decides the ends."""
    found = []
    meant = lengths(sizing.turner, sizing.drive)
    fine = np.arange(-LARGEST, LARGEST + 0.5 * FINE, FINE)
    for field, length in meant.items():
        coarse = np.linspace(-LARGEST, LARGEST, COARSE)
        swings = [_swing(sizing, field, float(error), length) for error in coarse]
        high = np.interp(fine, coarse, [swing.high for swing in swings])
        low = np.interp(fine, coarse, [-swing.low for swing in swings])
        found.append(Curve(field, fine, high, low))
    return tuple(found)


def _swing(sizing: Sizing, field: str, error: float, length: float) -> Ends:
    nothing = Ends(np.nan, np.nan, np.nan, np.nan, rests=False)
    if abs(length) > 0.0 and np.sign(length + error) != np.sign(length):
        return nothing
    try:
        return ends_with(sizing.turner, sizing.drive, {field: error})
    except (ValueError, ArithmeticError):
        return nothing


@dataclass(frozen=True)
class EndError:
    """One error that explains the ends.

    Attributes
    ----------
    kind : str
        ``length``, ``level``, ``play`` or ``switch``.
    field : str
        Field path, where it is a length; else what it is about.
    error : float
        Built minus meant, or size of the error [m or rad].
    least, most : float
        Range that agrees with the readings.
    misfit : float
        Largest difference left over, as a share of what a reading may be off.
    """

    kind: str
    field: str
    error: float
    least: float
    most: float
    misfit: float


def tolerance(sizing: Sizing) -> float:
    """Return how far a reading of an end may be off [rad or m]."""
    return ANGLE if sizing.turner.coordinate_unit == "rad" else LENGTH


def as_meant(sizing: Sizing, measured: Measured) -> bool:
    """Tell whether the ends are where they are meant to be."""
    swing = sizing.ends
    return float(_misfit(np.array(swing.high), np.array(-swing.low), measured, sizing)) <= 1.0


def explain_ends(
    sizing: Sizing, measured: Measured, found: tuple[Curve, ...]
) -> Iterator[EndError]:
    """Yield every single error that brings both ends within reading error, best first by kind."""
    swing = sizing.ends
    high, low = np.array(swing.high), np.array(-swing.low)
    for curve in found:
        yield from _fitting(
            "length", curve.field, curve.error, curve.high, curve.low, measured, sizing
        )
    if sizing.turner.coordinate_unit == "rad":
        lean = np.linspace(-MOST_LEAN, MOST_LEAN, 1401)
        yield from _fitting("level", "box.leans", lean, high + lean, low - lean, measured, sizing)
    yield from _play(sizing, measured, found)
    if sizing.drive.both_ways:
        shift = np.linspace(-MOST_LEAN, MOST_LEAN, 1401)
        still = np.zeros_like(shift)
        yield from _fitting("switch", "high", shift, high + shift, low + still, measured, sizing)
        yield from _fitting("switch", "low", shift, high + still, low + shift, measured, sizing)


def _play(sizing: Sizing, measured: Measured, found: tuple[Curve, ...]) -> Iterator[EndError]:
    """Yield worn or slack pins: the part stays behind on both sides."""
    like = next((curve for curve in found if curve.field == sizing.drive.play_like), None)
    if like is None:
        return
    play = np.linspace(0.0, MOST_PLAY, 321)
    middle = like.error.size // 2
    slopes = [abs(float(np.gradient(one, like.error)[middle])) for one in (like.high, like.low)]
    high, low = (
        end - 0.5 * slope * play
        for end, slope in zip((sizing.ends.high, -sizing.ends.low), slopes, strict=True)
    )
    yield from _fitting("play", sizing.drive.play_field, play, high, low, measured, sizing)


def _fitting(
    kind: str,
    field: str,
    error: Array,
    high: Array,
    low: Array,
    measured: Measured,
    sizing: Sizing,
) -> Iterator[EndError]:
    """Yield the error that fits best, where it fits, and the range around it that does."""
    misfit = _misfit(high, low, measured, sizing)
    if not np.isfinite(misfit).any():
        return
    best = int(np.nanargmin(misfit))
    if misfit[best] > 1.0:
        return
    fits = np.nan_to_num(misfit, nan=np.inf) <= 1.0
    first, last = best, best
    while first > 0 and fits[first - 1]:
        first -= 1
    while last < fits.size - 1 and fits[last + 1]:
        last += 1
    yield EndError(
        kind,
        field,
        float(error[best]),
        float(error[first]),
        float(error[last]),
        float(misfit[best]),
    )


def _misfit(high: Array, low: Array, measured: Measured, sizing: Sizing) -> Array:
    """Return the largest difference of a reading, as a share of what it may be off."""
    off = tolerance(sizing)
    parts = [
        np.abs(there - seen) / off
        for there, seen in ((high, measured.high), (low, measured.low))
        if seen is not None
    ]
    return np.asarray(np.max(parts, axis=0)) if parts else np.zeros_like(high)


def best_setting(
    sizing: Sizing, measured: Measured, found: tuple[Curve, ...]
) -> tuple[str, float, float, float] | None:
    """Return the length to change first: field, by how much [m], and both ends then.

    What was measured is taken to move as the drawn linkage would. Least work wins where two
    lengths do about as well: the one that play is like, which a thread can change.
    """
    if measured.high is None or measured.low is None:
        return None
    aim = _aim(sizing)
    offers: dict[str, tuple[float, float, float, float]] = {}
    for curve in found:
        if not np.isfinite(curve.high).any():
            continue
        high = measured.high + curve.high - sizing.ends.high
        low = measured.low + curve.low + sizing.ends.low
        left = np.maximum(np.abs(high - aim[0]), np.abs(low - aim[1]))
        best = int(np.nanargmin(left))
        offers[curve.field] = (
            float(left[best]),
            float(curve.error[best]),
            float(high[best]),
            float(low[best]),
        )
    if not offers:
        return None
    easy = sizing.drive.play_like
    field = min(offers, key=lambda name: offers[name][0])
    if easy in offers and offers[easy][0] <= offers[field][0] + 0.5 * tolerance(sizing):
        field = easy
    _, error, high_then, low_then = offers[field]
    return field, error, high_then, low_then


def _aim(sizing: Sizing) -> tuple[float, float]:
    return sizing.ends.high, -sizing.ends.low
