"""Single errors that would move the ends of the swing to where they were measured."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.diagnose.measured import ANGLE, LENGTH, Measured
from turnercalc.sizing import Sizing
from turnercalc.swing import Ends, ends_with, lengths
from turnercalc.turners.wording import wording_of

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
    pairs = [
        (there, seen) for there, seen in _read(high, low, measured, sizing) if seen is not None
    ]
    parts = [np.abs(there - seen) / tolerance(sizing) for there, seen in pairs]
    return np.asarray(np.max(parts, axis=0)) if parts else np.zeros_like(high)


def _read(
    high: Array, low: Array, measured: Measured, sizing: Sizing
) -> Iterator[tuple[Array, float | None]]:
    """Yield what is compared with what was read: both ends, or only how far apart they are.

    Where a part that slides stands is its own affair; eggs feel only how far it goes.
    """
    whole = measured.from_end_to_end
    if whole is not None and (measured.total is not None or only_stroke(sizing)):
        yield high + low, whole
        return
    yield high, measured.high
    yield low, measured.low


def only_stroke(sizing: Sizing) -> bool:
    """Tell whether only the distance between the ends counts, as of a part that slides."""
    return sizing.turner.coordinate_unit == "m" or wording_of(sizing.turner).anywhere


@dataclass(frozen=True)
class Setting:
    """A length to change, and where the ends are then.

    Attributes
    ----------
    field : str
        Field path.
    by : float
        Longer is positive [m].
    high, low : float or None
        Both ends then, counted positive; None where only their distance was compared [rad or m].
    total : float
        From end to end then [rad or m].
    left : float
        What is still missing [rad or m].
    """

    field: str
    by: float
    high: float | None
    low: float | None
    total: float
    left: float


def best_setting(sizing: Sizing, measured: Measured, found: tuple[Curve, ...]) -> Setting | None:
    """Return the length to change first; None where too little was measured to keep ends alike.

    What was measured is taken to move as the drawn linkage would. Least work wins where two
    lengths do about as well: the one that play is like, which a thread can change.
    """
    whole, apart = measured.from_end_to_end, only_stroke(sizing)
    if whole is None or (measured.total is not None and not apart):
        return None
    offers = {
        curve.field: _total_set(sizing, curve, whole)
        if apart
        else _ends_set(sizing, curve, measured)
        for curve in found
        if np.isfinite(curve.high + curve.low).any()
    }
    if not offers:
        return None
    easy = sizing.drive.play_like
    best = min(offers.values(), key=lambda one: one.left)
    if easy in offers and offers[easy].left <= best.left + 0.5 * tolerance(sizing):
        return offers[easy]
    return best


def _total_set(sizing: Sizing, curve: Curve, whole: float) -> Setting:
    """Return the error of one length that brings the distance between the ends back."""
    aim = sizing.ends.high - sizing.ends.low
    total = whole + curve.high + curve.low - aim
    best = int(np.nanargmin(np.abs(total - aim)))
    then = float(total[best])
    return Setting(curve.field, float(curve.error[best]), None, None, then, abs(then - aim))


def _ends_set(sizing: Sizing, curve: Curve, measured: Measured) -> Setting:
    """Return the error of one length that brings both ends back as well as it can."""
    assert measured.high is not None
    assert measured.low is not None
    aim = sizing.ends.high, -sizing.ends.low
    high = measured.high + curve.high - aim[0]
    low = measured.low + curve.low - aim[1]
    left = np.maximum(np.abs(high - aim[0]), np.abs(low - aim[1]))
    best = int(np.nanargmin(left))
    ends = float(high[best]), float(low[best])
    return Setting(curve.field, float(curve.error[best]), *ends, sum(ends), float(left[best]))
