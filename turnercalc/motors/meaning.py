"""From the readings of one row to a motor: what is taken, doubted, refused, passed over."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from turnercalc.motors.classes import guess_class
from turnercalc.motors.figures import FORCE_AS_TORQUE
from turnercalc.motors.motor import (
    SPEEDS,
    TORQUES,
    Motor,
    Outcome,
    Possible,
    Rating,
    Reading,
    Volts,
)
from turnercalc.motors.plausible import impossible, settle_bare_torque

NEWTON_METRES = {"kgf·cm": 0.0980665, "N·m": 1.0}
INCH_NEWTON_METRES = {"ozf·in": 0.0980665 * 2.54 / 35.27396195, "lbf·in": 0.1129848290276167}
MAINS_RATIO = 1.2  # 60 Hz over 50 Hz
_FIGURES = (
    *TORQUES,
    *SPEEDS,
    "input_power",
    "output_power",
    "rated_current",
    "stall_current",
    "free_current",
    "ambient_most",
    "side_load",
    "force",
    "holding_force",
    "travel_speed",
    "stroke",
    "mass",
)
_BOUND_TO_SUPPLY = frozenset({*TORQUES, *SPEEDS, "force", "travel_speed", "stall_current"})
_WORDS = ("start_direction", "holds_when_off", "duty", "protection", "insulation", "price")
_ALIKE = 0.02  # two figures closer than this say the same


@dataclass(frozen=True)
class Settled:
    """One row, understood as far as it goes."""

    motor: Motor
    readings: tuple[Reading, ...]
    refused: str = ""
    possible: tuple[Possible, ...] = ()


@dataclass(slots=True)
class _Gathered:
    """What has been taken so far, field by field."""

    values: dict[str, Any] = field(default_factory=dict)
    ratings: list[Rating] = field(default_factory=list)
    volts: list[Volts] = field(default_factory=list)
    frequencies: list[float] = field(default_factory=list)
    readings: list[Reading] = field(default_factory=list)
    columns: dict[str, str] = field(default_factory=dict)


def settle(
    name: str,
    line: int,
    title: str,
    notes: str,
    named_class: str,
    words: str,
    readings: Iterable[Reading],
    inches: bool = False,
) -> Settled:
    """Make a motor of the readings of one row.

    Parameters
    ----------
    name, line, title, notes : str, int, str, str
        As they stand.
    named_class : str
        Tidied cell of a class column.
    words : str
        Tidied wording of the row, from which the class is inferred.
    readings : iterable of Reading
        Those of columns of their own first, those of free text after them.
    inches : bool
        The file writes inch units, so a torque without a unit may be in one of them.
    """
    got = _Gathered()
    listed = list(readings)
    for reading in listed:
        if reading.field.startswith("volts"):
            _take_volts(got, reading)
        elif reading.field == "frequencies":
            _take_frequencies(got, reading)
    for reading in listed:
        _take(got, reading)
    _drop_the_unnamed_twin(got)
    volts = tuple(got.volts)
    guess = guess_class(named_class, words, volts, bool(got.frequencies) or _has_pair(got))
    _settle_forces(got, guess.candidates)
    motor = Motor(
        id=name,
        line=line,
        title=title,
        notes=notes,
        motor_class=guess.motor_class,
        class_from=guess.class_from,
        candidates=guess.candidates,
        ratings=tuple(got.ratings),
        volts=volts,
        frequencies=tuple(sorted(got.frequencies)),
        **got.values,
    )
    motor = _settle_bare(motor, got, inches)
    return _judged(motor, tuple(got.readings))


def _has_pair(got: _Gathered) -> bool:
    return any(rating.hertz for rating in got.ratings)


def _judged(motor: Motor, readings: tuple[Reading, ...]) -> Settled:
    lacking = _lacking(motor, readings)
    if lacking:
        return Settled(motor, readings, lacking)
    why, possible = impossible(motor)
    return Settled(motor, readings, why, possible)


def _lacking(motor: Motor, readings: tuple[Reading, ...]) -> str:
    if motor.any_torque is not None or motor.force is not None or motor.holding_force is not None:
        return ""
    told = [r for r in readings if r.outcome is Outcome.REFUSED and r.note]
    why = f" {told[0].note}" if told else ""
    return f"It gives no torque that can be used.{why}"


# -- taking one reading ------------------------------------------------------------------------


def _take(got: _Gathered, reading: Reading) -> None:
    name = reading.field
    if name.startswith("volts") or name == "frequencies":
        return
    if not name or reading.outcome is Outcome.REFUSED:
        got.readings.append(reading)
    elif name in _WORDS:
        _take_word(got, reading)
    elif name in _FIGURES:
        _take_figure(got, reading)
    else:
        got.readings.append(reading)


def _take_word(got: _Gathered, reading: Reading) -> None:
    if reading.field in got.values:
        return
    value: Any = reading.value
    if reading.field == "price":
        value, got.values["currency"] = value
    got.values[reading.field] = value
    got.readings.append(reading)


def _take_figure(got: _Gathered, reading: Reading) -> None:
    name = reading.field
    pairs, note, usable = _alternatives(got, reading)
    if not usable:
        got.readings.append(replace(reading, field="", outcome=Outcome.REFUSED, note=note))
        return
    if name in got.values and got.columns[name] != reading.column and not _elsewhere(got, pairs):
        got.readings.append(_second_opinion(got, reading, pairs[0].value))
        return
    values = [pair.value for pair in pairs]
    bound = any(pair.volts or pair.hertz for pair in pairs)
    if name in got.values:
        known = got.values[name]
        if not bound and abs(min(values) - known) > _ALIKE * abs(known):
            note = f"{note} Several figures stand here; the lowest was taken.".strip()
        values.append(known)
    if bound and name in _BOUND_TO_SUPPLY:
        got.ratings.extend(pairs)
    got.values[name] = min(values)
    got.columns[name] = reading.column
    outcome = Outcome.DOUBTED if note and reading.outcome is Outcome.TAKEN else reading.outcome
    if bound:
        outcome = reading.outcome
    if note or outcome is not reading.outcome:
        told = " ".join(part for part in (reading.note, note) if part)
        reading = replace(reading, outcome=outcome, note=told)
    got.readings.append(reading)


def _elsewhere(got: _Gathered, pairs: list[Rating]) -> bool:
    """Whether figures hold on a supply for which nothing was taken yet, in columns of their own."""
    taken = {(r.volts, r.hertz) for r in got.ratings if r.field == pairs[0].field}
    supplies = {(pair.volts, pair.hertz) for pair in pairs}
    return bool(taken) and (None, None) not in supplies and not taken & supplies


def _second_opinion(got: _Gathered, reading: Reading, value: float) -> Reading:
    known = got.values[reading.field]
    if abs(value - known) <= _ALIKE * abs(known):
        return replace(reading, outcome=Outcome.PASSED_OVER, note="It says the same.")
    note = f"It differs from {got.columns[reading.field] or 'the first figure'}, which counts."
    return replace(reading, outcome=Outcome.PASSED_OVER, note=note)


def _alternatives(got: _Gathered, reading: Reading) -> tuple[list[Rating], str, bool]:
    """Bind each of several figures to its supply, where the row tells which is which."""
    values = reading.value if isinstance(reading.value, tuple) else ()
    name = reading.field
    if not values:
        return [], reading.note, False
    if any(value < 0.0 for value in values) or (max(values) == 0.0 and name in _BOUND_TO_SUPPLY):
        return [], f"{reading.text}: a motor's figure is more than nothing.", False
    if len(values) == 1:
        rating = Rating(name, values[0], reading.volts, reading.hertz)
        return [rating], "", True
    low, high = min(values), max(values)
    if name in SPEEDS and len(values) == 2 and abs(high - MAINS_RATIO * low) < 0.021 * low:
        return [Rating(name, low, None, 50.0), Rating(name, high, None, 60.0)], "", True
    supplies = _supplies_in_order(got)
    if len(supplies) == len(values):
        pairs = zip(values, supplies, strict=True)
        return [Rating(name, v, volts, hertz) for v, (volts, hertz) in pairs], "", True
    if name in SPEEDS and _could_be_a_fraction(values):
        note = (
            f"{reading.text}: a fraction, or two speeds? "
            "Write one speed, or two with their supplies."
        )
        return [], note, False
    note = f"{reading.text} is several figures; the lowest was taken. Which is yours?"
    return [Rating(name, low)], note, True


def _could_be_a_fraction(values: tuple[float, ...]) -> bool:
    """Whether two numbers may be meant as one fraction, such as 1/2 or 1/4."""
    first, second = values[0], values[-1]
    whole = abs(second / first - round(second / first)) < 1e-9 if first > 0.0 else False
    return len(values) == 2 and whole and first < second


def _supplies_in_order(got: _Gathered) -> list[tuple[float | None, float | None]]:
    if len(got.frequencies) > 1:
        return [(None, hertz) for hertz in got.frequencies]
    return [(volts.high, None) for volts in got.volts] if len(got.volts) > 1 else []


def _take_volts(got: _Gathered, reading: Reading) -> None:
    values = reading.value if isinstance(reading.value, tuple) else ()
    current = reading.field.removeprefix("volts").strip()
    for low, high in zip(values[::2], values[1::2], strict=True):
        if not 0.5 <= low <= high <= 1000.0:
            note = f"{reading.text} is no supply of a small motor."
            got.readings.append(replace(reading, field="", outcome=Outcome.REFUSED, note=note))
            return
        if any(v.low <= low and high <= v.high for v in got.volts):
            continue
        got.volts = [v for v in got.volts if not (low <= v.low and v.high <= high)]
        got.volts.append(Volts(low, high, current or _marked_before(got, low, high)))
    got.readings.append(reading if reading.field == "volts" else replace(reading, field="volts"))


def _marked_before(got: _Gathered, low: float, high: float) -> str:
    """Return the kind of current that a voltage now swallowed by a range was marked with."""
    return next((v.current for v in got.volts if v.current and low <= v.low <= high), "")


def _take_frequencies(got: _Gathered, reading: Reading) -> None:
    values = reading.value if isinstance(reading.value, tuple) else ()
    got.frequencies.extend(v for v in values if v not in got.frequencies)
    got.readings.append(reading)


def _drop_the_unnamed_twin(got: _Gathered) -> None:
    """Let a figure whose kind is named stand before one of the same sort whose kind is not."""
    for unnamed, named in (("unnamed_torque", TORQUES[:3]), ("unnamed_speed", SPEEDS[:2])):
        if unnamed not in got.values:
            continue
        known: Mapping[str, float] = {n: got.values[n] for n in named if n in got.values}
        if not known:
            continue
        value = got.values[unnamed]
        # Two figures, one of them called stall or free: the other is the working one only if
        # it is the lower; nobody says so, so it stays unnamed.
        twin = any(abs(value - other) <= _ALIKE * other for other in known.values())
        if twin or named[0] in known:
            del got.values[unnamed]
            got.ratings = [r for r in got.ratings if r.field != unnamed]
            got.readings = [_passed_over(r, unnamed) for r in got.readings]


def _passed_over(reading: Reading, name: str) -> Reading:
    if reading.field != name:
        return reading
    note = "Another figure of the row says which kind it is and counts."
    return replace(reading, outcome=Outcome.PASSED_OVER, note=note)


def _settle_forces(got: _Gathered, candidates: tuple[str, ...]) -> None:
    """Take a force out of a column of torques for an actuator; of any other motor refuse it."""
    for place, reading in enumerate(got.readings):
        if reading.field != FORCE_AS_TORQUE:
            continue
        values = reading.value if isinstance(reading.value, tuple) else ()
        if candidates == ("linear_actuator",) and values and min(values) > 0.0:
            note = "An actuator pushes; its force stands where others have their torque."
            taken = replace(reading, field="force", outcome=Outcome.TAKEN, note=note)
            got.values.setdefault("force", min(values))
            got.readings[place] = taken
        else:
            got.readings[place] = replace(reading, field="", outcome=Outcome.REFUSED)


def _settle_bare(motor: Motor, got: _Gathered, inches: bool) -> Motor:
    """Find the unit of a torque that stands without one."""
    for place, reading in enumerate(got.readings):
        if not reading.field.startswith("bare ") or reading.outcome is Outcome.REFUSED:
            continue
        name = reading.field.removeprefix("bare ")
        values = reading.value if isinstance(reading.value, tuple) else ()
        if getattr(motor, name) is not None or not values:
            got.readings[place] = replace(reading, field="", outcome=Outcome.PASSED_OVER)
            continue
        units = {**NEWTON_METRES, **(INCH_NEWTON_METRES if inches else {})}
        amounts = {unit: min(values) * scale for unit, scale in units.items()}
        unit, note = settle_bare_torque(amounts, name, motor)
        if not unit or amounts[unit] <= 0.0:
            got.readings[place] = replace(reading, field="", outcome=Outcome.REFUSED, note=note)
            continue
        settled: dict[str, Any] = {name: amounts[unit]}
        motor = replace(motor, **settled)
        got.readings[place] = replace(
            reading, field=name, value=(amounts[unit],), outcome=Outcome.DOUBTED, note=note
        )
    return motor
