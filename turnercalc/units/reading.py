"""From text to SI, or to a sentence that says why not."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import pairwise
from types import MappingProxyType

from turnercalc.errors import UnitError
from turnercalc.units.lookup import find_unit
from turnercalc.units.lookup import to_si as to_si
from turnercalc.units.numbers import LARGEST, NUMBER, SINGLE, SMALLEST, read_number, tidy
from turnercalc.units.refusals import (
    PAIR,
    absurd,
    complaint,
    examples,
    is_mains_pair,
    mains_pair_error,
    wanted,
)
from turnercalc.units.registry import factor
from turnercalc.units.spellings import KINDS, SPELLINGS, Unit


@dataclass(frozen=True)
class Reading:
    """One quantity as it was understood.

    Attributes
    ----------
    kind : str
        One of `KINDS`.
    value : float
        The quantity in SI units; temperatures in [degC].
    unit : str
        Symbol of the (first) unit it was written in; empty for a bare number.
    doubts : tuple of str
        Sentences about anything odd in the way it was written.
    """

    kind: str
    value: float
    unit: str
    doubts: tuple[str, ...] = ()


_PIECE = re.compile(rf"({NUMBER}) ?([^\d]*)")
_ABOUT = re.compile(
    r"(?:about|approx\.?|approximately|ca\.?|circa|roughly|~|≈) ?(?=[\d.,+-])", re.I
)
_DOZEN = re.compile(r"(?: per | ?/ ?|-per-| a )(?:dozen|doz\.?|dz\.?|12)$", re.I)
_EQUIVALENTS = re.compile(r"([^()]+?) ?\(([^()]+)\)")


def parse(text: str, kind: str) -> float:
    """Read one quantity.

    Parameters
    ----------
    text : str
        What the builder wrote, such as ``18-1/2in`` or ``15 300 g·cm``.
    kind : str
        One of `KINDS`.

    Returns
    -------
    float
        The quantity in SI units (temperatures in [degC], counts and ratios bare); finite.

    Raises
    ------
    UnitError
        Where the text is no quantity of this kind, or could be several. ``choices`` holds texts
        that `parse` accepts, the likeliest first.
    """
    return read(text, kind).value


def read(text: str, kind: str) -> Reading:
    """Read one quantity and keep the doubts; parameters and errors as for `parse`."""
    if kind not in SPELLINGS:
        message = f"there is no kind of quantity called {kind!r}; there are {', '.join(KINDS)}"
        raise ValueError(message)
    try:
        return _read(text, kind)
    except UnitError as error:
        choices = tuple(choice for choice in error.choices if _reads(choice, kind))
        raise UnitError(str(error), text=error.text, choices=choices) from None


def _reads(text: str, kind: str) -> bool:
    try:
        _read(text, kind)
    except UnitError:
        return False
    return True


def _read(text: str, kind: str) -> Reading:
    tidied = tidy(text)
    if not tidied:
        message = f"Nothing is written here; {wanted(kind)}."
        raise UnitError(message, text=text, choices=examples(kind))
    reading = _read_plain(tidied, kind) or _read_special(tidied, kind)
    if not math.isfinite(reading.value) or abs(reading.value) > LARGEST:
        raise absurd(tidied)
    if reading.value != 0.0 and abs(reading.value) < SMALLEST:
        raise absurd(tidied)
    return reading


def _read_plain(text: str, kind: str) -> Reading | None:
    """Return number-and-unit, or None where the text is built otherwise."""
    match = SINGLE.fullmatch(text)
    if match is None:
        return None
    sign, number, spelling = match.groups()
    unit = find_unit(spelling, kind)
    if unit is None:
        return None
    return _reading(sign, number, spelling, unit, kind)


def _reading(sign: str, number: str, spelling: str, unit: Unit, kind: str) -> Reading:
    _refuse_mains_pair(number, spelling, kind)
    amount = _whole_number(number) if kind == "count" else read_number(number, spelling)
    value = to_si(-amount if sign == "-" else amount, unit)
    if kind == "count":
        _refuse_part_of_one(value, number)
    return Reading(kind, value, unit.symbol, (unit.doubt,) if unit.doubt else ())


def _read_special(text: str, kind: str) -> Reading:
    """Try the longer forms in turn, then say what is wrong."""
    for form in (_about, _equivalents, _per_dozen, *_FORMS.get(kind, ()), _compound):
        reading = form(text, kind)
        if reading is not None:
            return reading
    raise complaint(text, kind)


# --- longer forms; each returns None where the text is not of its form ------------------------


def _about(text: str, kind: str) -> Reading | None:
    match = _ABOUT.match(text)
    if match is None:
        return None
    reading = read(text[match.end() :], kind)
    doubt = f'"{match.group().strip()}" is taken for exactly that much'
    return Reading(reading.kind, reading.value, reading.unit, (doubt, *reading.doubts))


def _equivalents(text: str, kind: str) -> Reading | None:
    """Read ``1.94 N·m (19.8 kgf·cm)``, the way we show a quantity in both systems."""
    match = _EQUIVALENTS.fullmatch(text)
    if match is None:
        return None
    first = read(match.group(1), kind)
    for part in match.group(2).split(", "):
        other = read(part, kind)
        if abs(other.value - first.value) > 0.02 * max(abs(first.value), abs(other.value)) + 0.1 * (
            kind == "temperature"
        ):
            message = f"{match.group(1)} and {part} are not the same; write the one you mean."
            raise UnitError(message, text=text, choices=(match.group(1), part))
    return first


def _per_dozen(text: str, kind: str) -> Reading | None:
    match = _DOZEN.search(text)
    if kind != "mass" or match is None:
        return None
    dozen = read(text[: match.start()], "mass")
    if "dozen" in dozen.unit:
        return None
    return Reading("mass", dozen.value / 12.0, f"{dozen.unit} per dozen", dozen.doubts)


_COMPOUNDS = (
    ("yd", "ft", "in"),
    ("m", "cm", "mm"),
    ("kg", "g", "mg"),
    ("lb", "oz"),
    ("week", "d", "h", "min", "s", "ms"),
)


def _compound(text: str, kind: str) -> Reading | None:
    """Read ``1 ft 6 in``, ``2 lb 4 oz``, ``1 h 30 min``: one system, largest unit first."""
    sign = -1.0 if text.startswith("-") else 1.0
    pieces = _pieces(text.lstrip("+- ").replace(" and ", " "), kind)
    if pieces is None or len(pieces) < 2:
        return None
    symbols = [unit.symbol for _, _, unit in pieces]
    series = next((s for s in _COMPOUNDS if symbols[0] in s), ())
    places = [series.index(symbol) if symbol in series else -1 for symbol in symbols]
    if min(places) < 0 or any(b <= a for a, b in pairwise(places)):
        return None
    hyphens = any(spelling.rstrip().endswith("-") for _, spelling, _ in pieces[:-1])
    if hyphens and symbols != [
        "ft",
        "in",
    ]:  # 1'-6" is how draughtsmen write it; 2 h - 30 min is not
        return None
    value = sum(to_si(read_number(number, spelling), unit) for number, spelling, unit in pieces)
    doubts = tuple(unit.doubt for _, _, unit in pieces if unit.doubt)
    return Reading(kind, sign * value, symbols[0], doubts)


def _pieces(text: str, kind: str) -> list[tuple[str, str, Unit]] | None:
    pieces = []
    position = 0
    while position < len(text):
        match = _PIECE.match(text, position)
        unit = find_unit(match.group(2), kind) if match else None
        if match is None or unit is None:
            return None
        pieces.append((match.group(1), match.group(2), unit))
        position = match.end()
    return pieces


_CUT = re.compile(r" (?:in|over|per|on|every)(?= )| ?/ ?", re.I)


def _splits(text: str) -> list[tuple[str, str]]:
    """Return every way to cut the text in two; a quantity may itself hold such a word."""
    cuts = _CUT.finditer(text)
    return [(text[: cut.start()], text[cut.end() :]) for cut in cuts]


def _rise_over_run(text: str, kind: str) -> Reading | None:
    """Read ``4 in in 12 in``: the tray rises so much over so much level run."""
    for match in _splits(text):
        rise, run = (_read_plain(side.strip(), "length") for side in match)
        if rise is not None and run is not None:
            if run.value <= 0.0:
                message = f"{text}: the run has to be more than nothing."
                raise UnitError(message, text=text)
            return Reading(kind, math.atan2(rise.value, run.value), f"{rise.unit} in {run.unit}")
    return None


def _turns_and_time(text: str, kind: str) -> Reading | None:
    """Read ``1 rev in 4 h``, ``0.16 s/60°``, ``20 s per turn``, ``90° in 4 s``."""
    for left, right in _splits(text):
        left_text, right_text = (_with_number(side.strip()) for side in (left, right))
        for angle_text, time_text in ((left_text, right_text), (right_text, left_text)):
            angle = _read_plain(angle_text, "angle")
            time = _read_plain(time_text, "time") or _compound(time_text, "time")
            if angle is None or time is None:
                continue
            if time.value <= 0.0:
                message = f"{text}: the time has to be more than nothing."
                raise UnitError(message, text=text)
            return Reading(kind, angle.value / time.value, f"{angle.unit} in {time.unit}")
    return None


_WORD_ONE = re.compile(r"(?:an?|one|each|every) (?=[a-z])", re.I)


def _with_number(text: str) -> str:
    text = _WORD_ONE.sub("", text, count=1)
    return text if re.match(r"[+-]? ?[\d.,]", text) else f"1 {text}"


_CLOCK = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2}))?")


def _clock(text: str, kind: str) -> Reading | None:
    """Read ``01:30:00``; ``00:10`` could be minutes and seconds or hours and minutes."""
    match = _CLOCK.fullmatch(text)
    if match is None:
        return None
    first, second, third = match.groups()
    if third is None:
        hours = f"{int(first)} h {int(second)} min" if int(first) else f"{int(second)} min"
        minutes = f"{int(first)} min {int(second)} s" if int(first) else f"{int(second)} s"
        message = f"{text} could be {hours} or {minutes}. Write the one you mean."
        raise UnitError(message, text=text, choices=(hours, minutes))
    if int(second) > 59 or int(third) > 59:
        message = f"{text} is no time: minutes and seconds go up to 59."
        raise UnitError(message, text=text)
    return Reading(kind, int(first) * 3600.0 + int(second) * 60.0 + int(third), "h:min:s")


_TO_ONE = re.compile(rf"({NUMBER}) ?(?::| to ) ?({NUMBER})", re.I)


def _a_to_b(text: str, kind: str) -> Reading | None:
    """Read ``50:1`` or ``50 to 1``: the first number divided by the second."""
    match = _TO_ONE.fullmatch(text)
    if match is None:
        return None
    top, bottom = (read_number(part) for part in match.groups())
    if bottom == 0.0:
        message = f"{text} divides by nothing."
        raise UnitError(message, text=text)
    return Reading(kind, top / bottom, ":")


_ON_ARM = re.compile(r"(.+?)(?: ?@ ?| (?:at|on) (?:an? )?)(.+?)(?: arm)?", re.I)


def _weight_on_arm(text: str, kind: str) -> Reading | None:
    """Read ``1 kg @ 300 mm``: the bottle test, a weight hung from a level arm."""
    match = _ON_ARM.fullmatch(text)
    if match is None:
        return None
    arm = _read_plain(match.group(2), "length")
    force = _read_plain(match.group(1), "force")
    if force is None:
        mass = _read_plain(match.group(1), "mass") or _compound(match.group(1), "mass")
        if mass is not None:
            force = Reading("force", mass.value * factor("kgf"), mass.unit)
    if arm is None or force is None:
        return None
    return Reading(kind, force.value * arm.value, f"{force.unit} at {arm.unit}")


_TIMES = re.compile(r"(.+?) ?[x×*·] ?(.+)", re.I)


def _volts_times_amperes(text: str, kind: str) -> Reading | None:
    """Read ``12 V x 0.5 A``, the power that goes in."""
    match = _TIMES.fullmatch(text)
    if match is None:
        return None
    for first, second in (match.groups(), match.groups()[::-1]):
        volts, amperes = _read_plain(first, "voltage"), _read_plain(second, "current")
        if volts is not None and amperes is not None:
            unit = f"{volts.unit} x {amperes.unit}"
            return Reading(kind, volts.value * amperes.value, unit)
    return None


_Form = Callable[[str, str], Reading | None]
_FORMS: Mapping[str, tuple[_Form, ...]] = MappingProxyType(
    {
        "angle": (_rise_over_run,),
        "torque": (_weight_on_arm,),
        "rotation": (_turns_and_time,),
        "power": (_volts_times_amperes,),
        "time": (_clock,),
        "ratio": (_a_to_b,),
    }
)


def mains_pair(text: str, kind: str) -> tuple[float, float] | None:
    """Read a label such as ``5/6 rpm`` or ``3/2.5 W``: one figure at 50 Hz, the other at 60 Hz.

    Parameters
    ----------
    text, kind : str
        As for `parse`.

    Returns
    -------
    tuple of float or None
        The two figures in SI, in the order written; None where the text is no such pair, that
        is where the larger is not 1.2 times the smaller within 3 %.
    """
    match = re.fullmatch(rf"{PAIR.pattern} ?(.*)", tidy(text).replace(",", "."))
    if match is None or not is_mains_pair(match.group(1), match.group(2)):
        return None
    unit = find_unit(match.group(3), kind)
    if unit is None:
        return None
    return to_si(float(match.group(1)), unit), to_si(float(match.group(2)), unit)


def refuse_two_meanings(text: str) -> None:
    """Refuse what people write for two things: ``00:10`` and ``5/6 rpm``.

    Raises
    ------
    UnitError
        With what each could be.
    """
    if _CLOCK.fullmatch(text) and text.count(":") == 1:
        try:
            parse(text, "time")
        except UnitError as error:
            message = f"{error} A gear ratio is written with a space, {text.replace(':', ' : ')}."
            raise UnitError(message, text=text, choices=error.choices) from None
    pair = re.fullmatch(rf"{PAIR.pattern} ?(\D+)", text)
    for kind in ("rotation", "power"):
        if pair and is_mains_pair(pair[1], pair[2]) and find_unit(pair[3], kind):
            raise mains_pair_error(pair[1], pair[2], pair[3])


def _refuse_mains_pair(number: str, spelling: str, kind: str) -> None:
    match = PAIR.fullmatch(number) if "/" in number else None
    if match and kind in ("rotation", "power") and is_mains_pair(*match.groups()):
        raise mains_pair_error(match.group(1), match.group(2), spelling)


def _whole_number(number: str) -> float:
    """Read a count; ``1,500`` is still asked about, though there is only one answer."""
    try:
        return read_number(number)
    except UnitError as error:
        raise UnitError(str(error), text=number, choices=error.choices[1:]) from None


def _refuse_part_of_one(value: float, number: str) -> None:
    if value != round(value):
        message = f"{number} is not a whole number, and only whole ones can be counted here."
        raise UnitError(message, text=number, choices=(f"{round(value)}",))
