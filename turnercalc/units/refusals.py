"""Why a text could not be read, in words a builder can act on."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable
from dataclasses import dataclass

from turnercalc.errors import UnitError
from turnercalc.units.lookup import find_unit
from turnercalc.units.numbers import (
    NUMBER,
    SINGLE,
    ambiguous_number,
    read_number,
    two_readings,
)
from turnercalc.units.spellings import KIND_NAMES, KINDS, SPELLINGS, USUAL_UNITS, key

PAIR = re.compile(r"(\d+(?:\.\d+)?) ?/ ?(\d+(?:\.\d+)?)")


def is_mains_pair(first: str, second: str) -> bool:
    """Tell whether two figures stand as 60 Hz to 50 Hz; labels round, hence the 3 %."""
    low, high = sorted((float(first), float(second)))
    return low > 0.0 and abs(high / low - 1.2) < 0.036


def mains_pair_error(first: str, second: str, spelling: str) -> UnitError:
    """Return the question a label such as ``5/6 rpm`` leaves open."""
    label = f"{first}/{second} {spelling}"
    choices = (f"{first} {spelling}", f"{second} {spelling}")
    message = (
        f"{label} looks like a label for 50 and 60 Hz mains: {choices[0]} on one, {choices[1]} "
        "on the other. Write the one for your mains."
    )
    return UnitError(message, text=label, choices=choices)


def absurd(text: str) -> UnitError:
    """Return the error for a size that no part of a turner could have."""
    message = f"{text} is far outside anything an egg turner could have."
    return UnitError(message, text=text)


def examples(kind: str, number: str = "") -> tuple[str, ...]:
    """Return the number, or one of our own, in the usual units of its kind."""
    number = number or ("0.3" if kind == "ratio" else "50")
    return tuple(f"{number} {unit}".strip() for unit in USUAL_UNITS[kind])


def wanted(kind: str) -> str:
    """Return what is wanted, as the second half of a sentence."""
    return f"{KIND_NAMES[kind]} is wanted here, such as {_alternatives(examples(kind))}"


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


@dataclass(frozen=True)
class _Read:
    """A text that begins with a number: the whole, the number with its sign, the rest."""

    text: str
    amount: str
    spelling: str
    kind: str


def complaint(text: str, kind: str) -> UnitError:
    """Return the error that fits a text which no form could read."""
    match = SINGLE.fullmatch(text)
    if match is None:
        message = f'"{text}" has no number that can be read; {wanted(kind)}.'
        return UnitError(message, text=text, choices=examples(kind))
    sign, number, spelling = match.groups()
    if kind in ("rotation", "power") and (pair := re.match(PAIR, text)):
        rest = text[pair.end() :].strip()
        if is_mains_pair(pair.group(1), pair.group(2)) and find_unit(rest, kind):
            return mains_pair_error(pair.group(1), pair.group(2), rest)
    number = _settled(number, spelling, kind)
    amount = f"{sign}{number}"
    this = _Read(text, amount, spelling, kind)
    for explain in _EXPLANATIONS:
        error = explain(this)
        if error is not None:
            return error
    near = difflib.get_close_matches(key(spelling), SPELLINGS[kind], n=1, cutoff=0.75)
    choices = examples(kind, amount)
    if near:
        choices = (f"{amount} {SPELLINGS[kind][near[0]].symbol}".strip(),)
    message = (
        f'"{spelling}" is no unit for {KIND_NAMES[kind]}. '
        f"{'Did you mean' if near else 'Write'} {_alternatives(choices)}{'?' if near else '.'}"
    )
    return UnitError(message, text=text, choices=choices)


def _settled(number: str, spelling: str, kind: str) -> str:
    """Return the number; ask first where it could be two, together with its unit."""
    try:
        read_number(number, spelling)
    except UnitError as error:
        if not error.choices:
            raise
        unit = spelling or USUAL_UNITS[kind][0]
        if find_unit(unit, kind) is None:  # the unit is the greater trouble
            return error.choices[-1].removesuffix(f" {spelling}")
        figures = two_readings(number)
        choices = tuple(f"{figure} {unit}".strip() for figure in figures)
        raise ambiguous_number(number, choices) from None
    return number


def _bare_number(this: _Read) -> UnitError | None:
    if this.spelling:
        return None
    choices = examples(this.kind, this.amount)
    message = (
        f"{this.text} what? {KIND_NAMES[this.kind].capitalize()} needs a unit: "
        f"write {_alternatives(choices)}."
    )
    return UnitError(message, text=this.text, choices=choices)


def _feet_and(this: _Read) -> UnitError | None:
    """Explain ``1'6``: a foot mark, and the inches without theirs."""
    match = re.fullmatch(rf"(?:'|ft\.?|feet|foot) ?-? ?({NUMBER})", this.spelling, re.I)
    if this.kind != "length" or match is None:
        return None
    choices = (f"{this.amount} ft {match.group(1)} in",)
    message = f"{this.text}: {match.group(1)} what? If you mean inches, write {choices[0]}."
    return UnitError(message, text=this.text, choices=choices)


def _slope(this: _Read) -> UnitError | None:
    match = re.fullmatch(rf"(?:in|over|per|/) ?({NUMBER}) ?([a-z\"']*)", this.spelling, re.I)
    if this.kind != "angle" or match is None:
        return None
    unit = match.group(2) or "in"
    choices = (f"{this.amount} {unit} in {match.group(1)} {unit}",)
    message = (
        f"{this.text}: for a rise over a level run give each its unit, such as {choices[0]}; "
        f"for degrees write {this.amount} deg."
    )
    return UnitError(message, text=this.text, choices=choices)


_RANGE_SIGNS = re.compile(r"^(?:-|to\b|±|\+/?-|\.\.|~)", re.I)


def _range_instead(this: _Read) -> UnitError | None:
    if not _RANGE_SIGNS.match(this.spelling) or not re.search(r"\d", this.spelling):
        return None
    message = f"{this.text} is a range, and one figure is wanted here."
    return UnitError(message, text=this.text)


def _weight_for(this: _Read) -> UnitError | None:
    """Explain a mass where a torque or a force is wanted."""
    if this.kind == "torque":
        unit = find_unit(this.spelling, "mass") or find_unit(this.spelling, "force")
        units = _WEIGHT_AS_TORQUE.get(unit.symbol, ()) if unit else ()
        if not units:
            return None
        choices = tuple(f"{this.amount} {symbol}" for symbol in units)
        meant = f" Hobby listings that say so mostly mean {choices[0]}."
        if unit is None or unit.symbol in ("N", "mN"):
            meant = ""
        message = f"{this.text} is no torque: on what arm?{meant} Write {_alternatives(choices)}."
        return UnitError(message, text=this.text, choices=choices)
    unit = find_unit(this.spelling, "mass") if this.kind == "force" else None
    symbol = _MASS_AS_FORCE.get(unit.symbol) if unit else None
    if symbol is None:
        return None
    choices = (f"{this.amount} {symbol}",)
    message = (
        f"{this.text} is a mass, and a force is wanted here. For the weight of that mass write "
        f"{choices[0]}."
    )
    return UnitError(message, text=this.text, choices=choices)


def _temperature_letter(this: _Read) -> UnitError | None:
    if this.kind != "temperature" or find_unit(this.spelling, "angle") is None:
        return None
    choices = (f"{this.amount} C", f"{this.amount} F")
    message = f"{this.text} in Celsius or in Fahrenheit? Write {_alternatives(choices)}."
    return UnitError(message, text=this.text, choices=choices)


def _other_kind(this: _Read) -> UnitError | None:
    for other in KINDS:
        if other in (this.kind, "count", "ratio"):
            continue
        if find_unit(this.spelling, other) is not None:
            message = f"{this.text} is {KIND_NAMES[other]}; {wanted(this.kind)}."
            return UnitError(message, text=this.text, choices=examples(this.kind))
    return None


_EXPLANATIONS: tuple[Callable[[_Read], UnitError | None], ...] = (
    _bare_number,
    _feet_and,
    _slope,
    _range_instead,
    _weight_for,
    _temperature_letter,
    _other_kind,
)
