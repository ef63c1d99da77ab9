"""Which supply of the builder's a motor runs on, and what its figures are there."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise

from turnercalc.fields import Supply
from turnercalc.findings import Answer
from turnercalc.motors.classes import HIGHEST_BATTERY, electrics
from turnercalc.motors.motor import Motor, Rating, Volts
from turnercalc.motors.traits import Traits

VOLTAGE_BAND = 0.1  # mains keeps to about a tenth either way (EN 50160); plug supplies do better
LEAST_SHARE = 0.4  # below it a brushed motor may not start its own gears


@dataclass(frozen=True)
class SupplyMatch:
    """How a motor and the supply at hand go together.

    Attributes
    ----------
    answer : Answer
        unknown where the listing names no supply.
    text : str
        For people.
    volts : float or None
        Supply it would run on [V].
    current : str
        ``dc`` or ``ac``.
    share : float
        That supply over the nearest the motor is made for [ratio].
    least_share : float
        The same over the highest it is made for [ratio]: a motor for 12 to 24 V may be listed
        with what it does on 24.
    fits : bool
        Whether it can run at all, as far as is known.
    """

    answer: Answer
    text: str
    volts: float | None = None
    current: str = ""
    share: float = 1.0
    least_share: float = 1.0

    @property
    def fits(self) -> bool:
        """Whether the motor can run, as far as is known."""
        return self.answer is not Answer.NO


def match_supply(motor: Motor, traits: Traits, supply: Supply) -> SupplyMatch:
    """Return which supply a motor runs on.

    Parameters
    ----------
    motor : Motor
    traits : Traits
    supply : Supply
        What the builder has.
    """
    if not motor.volts:
        text = "The listing does not say what it runs on."
        return SupplyMatch(Answer.UNKNOWN, text)
    if not (supply.dc_volts or supply.ac_volts):
        return SupplyMatch(Answer.UNKNOWN, "You did not say what there is to run it from.")
    matches = [
        _one_match(volts, current, at_hand, kind, traits)
        for volts in motor.volts
        for current in _currents(volts, motor, traits)
        for kind, at_hand in _at_hand(supply)
    ]
    order = (Answer.FINE, Answer.MARGINAL, Answer.NO)
    return min(matches, key=lambda match: (order.index(match.answer), -match.share))


def _currents(volts: Volts, motor: Motor, traits: Traits) -> tuple[str, ...]:
    if volts.current:
        return (volts.current,)
    if traits.all_mains:
        return ("ac",)
    if not traits.any_mains:
        return ("dc",)
    return ("ac",) if electrics((volts,), bool(motor.frequencies)) == "ac" else ("dc",)


def _at_hand(supply: Supply) -> list[tuple[str, float]]:
    return [("dc", v) for v in supply.dc_volts] + [("ac", v) for v in supply.ac_volts]


def _one_match(
    volts: Volts, current: str, at_hand: float, kind: str, traits: Traits
) -> SupplyMatch:
    wants = f"{_shown(volts)} {current.upper()}"
    if kind != current:
        return _other_current(volts, current, at_hand, kind, wants)
    low, high = volts.low * (1.0 - VOLTAGE_BAND), volts.high * (1.0 + VOLTAGE_BAND)
    if low <= at_hand <= high:
        text = f"It runs on your {at_hand:g} V {kind.upper()}."
        return SupplyMatch(Answer.FINE, text, at_hand, kind, 1.0, _least_share(volts, at_hand))
    if kind == "ac" and volts.high <= HIGHEST_BATTERY < at_hand:
        text = f"It wants {wants}: a transformer of that voltage from your {at_hand:g} V mains."
        return SupplyMatch(Answer.MARGINAL, text, volts.low, current, 1.0)
    if at_hand > high:
        text = f"It wants {wants}; on {at_hand:g} V it would burn."
        return SupplyMatch(Answer.NO, text, at_hand, kind, at_hand / volts.high)
    share = at_hand / volts.low
    if kind == "dc" and traits.line in ("straight", "stepped") and share >= LEAST_SHARE:
        text = (
            f"It wants {wants}; on your {at_hand:g} V it runs at {share:.0%} of its speed and "
            "stalls as much sooner."
        )
        least = at_hand / volts.high
        return SupplyMatch(Answer.MARGINAL, text, at_hand, kind, share, least)
    text = f"It wants {wants}; {at_hand:g} V will not run it."
    return SupplyMatch(Answer.NO, text, at_hand, kind, share)


def _least_share(volts: Volts, at_hand: float) -> float:
    """Return the supply over the highest of a wide range; 1 within the band of a narrow one."""
    wide = volts.high > volts.low * (1.0 + 2.0 * VOLTAGE_BAND)
    return min(at_hand / volts.high, 1.0) if wide else 1.0


def _other_current(
    volts: Volts, current: str, at_hand: float, kind: str, wants: str
) -> SupplyMatch:
    if kind == "ac" and volts.high < at_hand:
        need = "a plug supply" if current == "dc" else "a transformer"
        text = f"It wants {wants}: {need} of that voltage from your {at_hand:g} V mains."
        return SupplyMatch(Answer.MARGINAL, text, volts.low, current, 1.0)
    text = f"It wants {wants}; you have {at_hand:g} V {kind.upper()}."
    return SupplyMatch(Answer.NO, text, at_hand, kind, 0.0)


def _shown(volts: Volts) -> str:
    if volts.low == volts.high:
        return f"{volts.low:g} V"
    return f"{volts.low:g} to {volts.high:g} V"


def on_supply(motor: Motor, match: SupplyMatch, hertz: float | None) -> Motor:
    """Return the motor with the figures that hold on one supply, where it lists several."""
    if not motor.ratings:
        return motor
    chosen: dict[str, float] = {}
    for field in dict.fromkeys(rating.field for rating in motor.ratings):
        ratings = [rating for rating in motor.ratings if rating.field == field]
        chosen[field] = _at(ratings, match.volts, hertz)
    return replace(motor, **chosen)  # type: ignore[arg-type]


def _at(ratings: list[Rating], volts: float | None, hertz: float | None) -> float:
    lowest = min(rating.value for rating in ratings)
    by_hertz = {r.hertz: r.value for r in ratings if r.hertz is not None}
    if by_hertz:
        return lowest if hertz is None else by_hertz.get(hertz, lowest)
    by_volts = sorted((r.volts, r.value) for r in ratings if r.volts is not None)
    if not by_volts or volts is None:
        return lowest
    return _interpolated(by_volts, volts)


def _interpolated(points: list[tuple[float, float]], volts: float) -> float:
    if volts <= points[0][0]:
        return points[0][1]
    for (v0, y0), (v1, y1) in pairwise(points):
        if volts <= v1:
            return y0 + (y1 - y0) * (volts - v0) / (v1 - v0) if v1 > v0 else min(y0, y1)
    return points[-1][1]


def listed_frequencies(motor: Motor) -> tuple[float, ...]:
    """Return the mains frequencies a motor is listed for, those of its speeds included."""
    bound: Iterable[float] = (r.hertz for r in motor.ratings if r.hertz is not None)
    return tuple(sorted({*motor.frequencies, *bound}))


def supply_shares(motor: Motor, traits: Traits, match: SupplyMatch) -> tuple[float, float]:
    """Return the supply over that for which the figures hold: least and most [ratio].

    1 where they are listed for this very supply, and where it cannot run at all, so that the
    rest of the answer speaks of the motor on a supply of its own.
    """
    by_volts = any(rating.volts is not None for rating in motor.ratings)
    if by_volts or not match.fits:
        return 1.0, 1.0
    most = min(match.share, 1.0)
    least = match.least_share if traits.line == "straight" else most
    return min(least, most), most


def supply_share(motor: Motor, traits: Traits, match: SupplyMatch) -> float:
    """Return the least of `supply_shares`, which is reckoned with."""
    return supply_shares(motor, traits, match)[0]
