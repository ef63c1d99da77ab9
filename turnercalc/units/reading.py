"""From text to SI, or to a sentence that says why not."""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from turnercalc.errors import UnitError
from turnercalc.units.numbers import LARGEST, NUMBER, SMALLEST, read_number, tidy
from turnercalc.units.registry import factor, offset
from turnercalc.units.spellings import (
    KIND_NAMES,
    KINDS,
    MILLI_OR_MEGA,
    SPELLINGS,
    USUAL_UNITS,
    Unit,
    key,
)


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


_SINGLE = re.compile(rf"([+-]?) ?({NUMBER}) ?(.*)")
_PIECE = re.compile(rf"({NUMBER}) ?([^\d]*)")
_ABOUT = re.compile(
    r"(?:about|approx\.?|approximately|ca\.?|circa|roughly|~|≈) ?(?=[\d.,+-])", re.I
)
_PER = re.compile(r" per | ?/ ?", re.I)
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
    tidied = tidy(text)
    if not tidied:
        message = f"Nothing is written here; {_wanted(kind)}."
        raise UnitError(message, text=text, choices=_examples(kind))
    reading = _read_plain(tidied, kind) or _read_special(tidied, kind)
    if not math.isfinite(reading.value) or abs(reading.value) > LARGEST:
        raise _absurd(tidied)
    if reading.value != 0.0 and abs(reading.value) < SMALLEST:
        raise _absurd(tidied)
    return reading


def _read_plain(text: str, kind: str) -> Reading | None:
    """Return number-and-unit, or None where the text is built otherwise."""
    match = _SINGLE.fullmatch(text)
    if match is None:
        return None
    sign, number, spelling = match.groups()
    unit = find_unit(spelling, kind)
    if unit is None:
        return None
    return _reading(sign, number, spelling, unit, kind)


def _reading(sign: str, number: str, spelling: str, unit: Unit, kind: str) -> Reading:
    _refuse_mains_pair(number, spelling, kind)
    amount = read_number(number, spelling)
    value = to_si(-amount if sign == "-" else amount, unit)
    if kind == "count":
        _refuse_part_of_one(value, number)
    return Reading(kind, value, unit.symbol, (unit.doubt,) if unit.doubt else ())


def to_si(amount: float, unit: Unit) -> float:
    """Return an amount of a unit in SI."""
    if unit.inverse:
        if amount == 0.0:
            message = f"0 {unit.symbol} would be endlessly fast."
            raise UnitError(message, text=f"0 {unit.symbol}")
        return factor(unit.definition) / amount
    return amount * factor(unit.definition) + offset(unit.definition)


@lru_cache(maxsize=4096)
def find_unit(spelling: str, kind: str) -> Unit | None:
    """Return the unit of this kind that is spelt so, or None."""
    if spelling == "" and kind not in ("count", "ratio"):
        return None
    spelling = _PER.sub("/", f"{spelling} ").strip(" ,;")
    unit = SPELLINGS[kind].get(key(spelling))
    if unit is not None and spelling.startswith("M") and key(spelling) in MILLI_OR_MEGA:
        milli = "m" + spelling[1:]
        message = (
            f'Is "{spelling}" a thousandth or a million? Small m stands for milli: write {milli}.'
        )
        raise UnitError(message, text=spelling, choices=(f"1 {milli}",))
    return unit


def _read_special(text: str, kind: str) -> Reading:
    """Try the longer forms in turn, then say what is wrong."""
    for form in (_about, _equivalents, _per_dozen, *_FORMS.get(kind, ()), _compound):
        reading = form(text, kind)
        if reading is not None:
            return reading
    raise _complaint(text, kind)


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
    if min(places) < 0 or any(b <= a for a, b in zip(places, places[1:], strict=False)):
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


_Form = Callable[[str, str], Reading | None]
_FORMS: Mapping[str, tuple[_Form, ...]] = MappingProxyType(
    {
        "angle": (_rise_over_run,),
        "rotation": (_turns_and_time,),
        "time": (_clock,),
        "ratio": (_a_to_b,),
    }
)

# --- refusals -------------------------------------------------------------------------------

_PAIR = re.compile(r"(\d+(?:\.\d+)?) ?/ ?(\d+(?:\.\d+)?)")


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
    match = re.fullmatch(rf"{_PAIR.pattern} ?(.*)", tidy(text).replace(",", "."))
    if match is None or not _is_mains_pair(match.group(1), match.group(2)):
        return None
    unit = find_unit(match.group(3), kind)
    if unit is None:
        return None
    return to_si(float(match.group(1)), unit), to_si(float(match.group(2)), unit)


def _is_mains_pair(first: str, second: str) -> bool:
    """Tell whether two figures stand as 60 Hz to 50 Hz; labels round, hence the 3 %."""
    low, high = sorted((float(first), float(second)))
    return low > 0.0 and abs(high / low - 1.2) < 0.036


def _refuse_mains_pair(number: str, spelling: str, kind: str) -> None:
    match = _PAIR.fullmatch(number) if "/" in number else None
    if match and kind in ("rotation", "power") and _is_mains_pair(*match.groups()):
        raise _mains_pair_error(match.group(1), match.group(2), spelling)


def _mains_pair_error(first: str, second: str, spelling: str) -> UnitError:
    label = f"{first}/{second} {spelling}"
    choices = (f"{first} {spelling}", f"{second} {spelling}")
    message = (
        f"{label} looks like a label for 50 and 60 Hz mains: {choices[0]} on one, {choices[1]} "
        "on the other. Write the one for your mains."
    )
    return UnitError(message, text=label, choices=choices)


def _refuse_part_of_one(value: float, number: str) -> None:
    if value != round(value):
        message = f"{number} is not a whole number, and only whole ones can be counted here."
        raise UnitError(message, text=number, choices=(f"{round(value)}",))


def _absurd(text: str) -> UnitError:
    message = f"{text} is far outside anything an egg turner could have."
    return UnitError(message, text=text)


def _examples(kind: str, number: str = "") -> tuple[str, ...]:
    number = number or ("0.3" if kind == "ratio" else "50")
    return tuple(f"{number} {unit}".strip() for unit in USUAL_UNITS[kind])


def _wanted(kind: str) -> str:
    examples = _examples(kind)
    return f"{KIND_NAMES[kind]} is wanted here, such as {_alternatives(examples)}"


def _alternatives(texts: tuple[str, ...]) -> str:
    return texts[0] if len(texts) == 1 else f"{', '.join(texts[:-1])} or {texts[-1]}"


_WEIGHT_AS_TORQUE = {
    "kg": ("kgf·cm", "N·m"),
    "kgf": ("kgf·cm", "N·m"),
    "g": ("g·cm",),
    "gf": ("g·cm",),
    "oz": ("ozf·in",),
    "ozf": ("ozf·in",),
    "lb": ("lbf·in", "lbf·ft"),
    "lbf": ("lbf·in", "lbf·ft"),
    "N": ("N·m", "N·cm"),
    "mN": ("mN·m",),
}
_MASS_AS_FORCE = {"kg": "kgf", "g": "gf", "lb": "lbf", "oz": "ozf"}


def _complaint(text: str, kind: str) -> UnitError:
    """Return the error that fits a text which no form could read."""
    match = _SINGLE.fullmatch(text)
    if match is None:
        message = f'"{text}" has no number that can be read; {_wanted(kind)}.'
        return UnitError(message, text=text, choices=_examples(kind))
    sign, number, spelling = match.groups()
    if kind in ("rotation", "power") and (pair := re.match(_PAIR, text)):
        rest = text[pair.end() :].strip()
        if _is_mains_pair(*pair.groups()) and find_unit(rest, kind):
            return _mains_pair_error(*pair.groups(), rest)
    read_number(number, spelling)  # an ambiguous number is the first thing to ask about
    amount = f"{sign}{number}"
    for explain in (
        _bare_number,
        _feet_and,
        _slope,
        _range_instead,
        _weight_for,
        _temperature_letter,
        _other_kind,
    ):
        error = explain(text, amount, spelling, kind)
        if error is not None:
            return error
    near = difflib.get_close_matches(key(spelling), SPELLINGS[kind], n=1, cutoff=0.75)
    choices = _examples(kind, amount)
    if near:
        choices = (f"{amount} {SPELLINGS[kind][near[0]].symbol}".strip(),)
    message = (
        f'"{spelling}" is no unit for {KIND_NAMES[kind]}. '
        f"{'Did you mean' if near else 'Write'} {_alternatives(choices)}{'?' if near else '.'}"
    )
    return UnitError(message, text=text, choices=choices)


def _bare_number(text: str, amount: str, spelling: str, kind: str) -> UnitError | None:
    if spelling:
        return None
    choices = _examples(kind, amount)
    message = (
        f"{text} what? {KIND_NAMES[kind].capitalize()} needs a unit: "
        f"write {_alternatives(choices)}."
    )
    return UnitError(message, text=text, choices=choices)


def _feet_and(text: str, amount: str, spelling: str, kind: str) -> UnitError | None:
    """Explain ``1'6``: a foot mark, and the inches without theirs."""
    match = re.fullmatch(rf"(?:'|ft\.?|feet|foot) ?-? ?({NUMBER})", spelling, re.I)
    if kind != "length" or match is None:
        return None
    choices = (f"{amount} ft {match.group(1)} in",)
    message = f"{text}: {match.group(1)} what? If you mean inches, write {choices[0]}."
    return UnitError(message, text=text, choices=choices)


def _slope(text: str, amount: str, spelling: str, kind: str) -> UnitError | None:
    match = re.fullmatch(rf"(?:in|over|per|/) ?({NUMBER}) ?([a-z\"']*)", spelling, re.I)
    if kind != "angle" or match is None:
        return None
    unit = match.group(2) or "in"
    choices = (f"{amount} {unit} in {match.group(1)} {unit}",)
    message = (
        f"{text}: for a rise over a level run give each its unit, such as {choices[0]}; "
        f"for degrees write {amount} deg."
    )
    return UnitError(message, text=text, choices=choices)


_RANGE_SIGNS = re.compile(r"^(?:-|to\b|±|\+/?-|\.\.|~)", re.I)


def _range_instead(text: str, amount: str, spelling: str, kind: str) -> UnitError | None:
    if not _RANGE_SIGNS.match(spelling) or not re.search(r"\d", spelling):
        return None
    message = f"{text} is a range, and one figure is wanted here."
    return UnitError(message, text=text)


def _weight_for(text: str, amount: str, spelling: str, kind: str) -> UnitError | None:
    """Explain a mass where a torque or a force is wanted."""
    if kind == "torque":
        unit = find_unit(spelling, "mass") or find_unit(spelling, "force")
        units = _WEIGHT_AS_TORQUE.get(unit.symbol, ()) if unit else ()
        if not units:
            return None
        choices = tuple(f"{amount} {symbol}" for symbol in units)
        meant = f" Hobby listings that say so mostly mean {choices[0]}."
        if unit is None or unit.symbol in ("N", "mN"):
            meant = ""
        message = f"{text} is no torque: on what arm?{meant} Write {_alternatives(choices)}."
        return UnitError(message, text=text, choices=choices)
    unit = find_unit(spelling, "mass") if kind == "force" else None
    symbol = _MASS_AS_FORCE.get(unit.symbol) if unit else None
    if symbol is None:
        return None
    choices = (f"{amount} {symbol}",)
    message = (
        f"{text} is a mass, and a force is wanted here. For the weight of that mass write "
        f"{choices[0]}."
    )
    return UnitError(message, text=text, choices=choices)


def _temperature_letter(text: str, amount: str, spelling: str, kind: str) -> UnitError | None:
    if kind != "temperature" or find_unit(spelling, "angle") is None:
        return None
    choices = (f"{amount} C", f"{amount} F")
    message = f"{text} in Celsius or in Fahrenheit? Write {_alternatives(choices)}."
    return UnitError(message, text=text, choices=choices)


def _other_kind(text: str, amount: str, spelling: str, kind: str) -> UnitError | None:
    for other in KINDS:
        if other in (kind, "count", "ratio"):
            continue
        if find_unit(spelling, other) is not None:
            message = f"{text} is {KIND_NAMES[other]}; {_wanted(kind)}."
            return UnitError(message, text=text, choices=_examples(kind))
    return None
