"""One quantity in all the units of listings, and what a bare number could be."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from turnercalc.errors import UnitError
from turnercalc.units.lookup import find_unit, to_si
from turnercalc.units.numbers import SINGLE, read_number, tidy
from turnercalc.units.reading import read, refuse_two_meanings
from turnercalc.units.showing import in_unit, inch_fraction
from turnercalc.units.spellings import KINDS, UNITS


@dataclass(frozen=True)
class Conversion:
    """One quantity in all the units of listings.

    Attributes
    ----------
    kind : str
        What it was taken for, one of `KINDS`.
    value : float
        In SI units; temperatures in [degC].
    readings : tuple of str
        The same quantity in each unit that listings use.
    doubts : tuple of str
        Sentences about anything odd in the way it was written.
    """

    kind: str
    value: float
    readings: tuple[str, ...]
    doubts: tuple[str, ...]


_LISTED: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "length": ("mm", "cm", "m", "in", "ft"),
        "mass": ("g", "kg", "oz", "lb"),
        "angle": ("°", "rad", "turn"),
        "torque": ("N·m", "N·cm", "mN·m", "kgf·cm", "g·cm", "ozf·in", "lbf·in", "lbf·ft"),
        "force": ("N", "kgf", "gf", "lbf", "ozf"),
        "rotation": ("rpm", "rad/s", "°/s", "s/60°", "rev/h"),
        "speed": ("mm/s", "m/min", "in/s"),
        "power": ("W", "mW", "hp"),
        "voltage": ("V", "mV"),
        "current": ("A", "mA"),
        "time": ("s", "min", "h", "d"),
        "temperature": ("°C", "°F"),
        "frequency": ("Hz",),
        "stiffness": ("N/mm", "N/m", "kgf/mm", "lbf/in"),
        "count": ("",),
        "ratio": ("", "%"),
    }
)

# Kinds are tried in this order; torque before stiffness for kg/cm, but not for lb/in, below.
_ORDER = (
    "length",
    "mass",
    "torque",
    "stiffness",
    "angle",
    "rotation",
    "force",
    "speed",
    "power",
    "voltage",
    "current",
    "temperature",
    "time",
    "frequency",
    "ratio",
)
_SPRING_LIKE = frozenset({"N/m", "N/cm", "N/mm", "lbf/in"})


def convert(text: str) -> Conversion:
    """Read one quantity of whatever kind its unit says, and show it in the units of listings.

    Raises
    ------
    UnitError
        Where no kind fits; a bare number has no kind.
    """
    tidied = tidy(text)
    match = SINGLE.fullmatch(tidied)
    if match is not None and not match.group(3):
        message = f"{tidied} what? Write it with its unit, such as {tidied} kgf·cm or {tidied} mm."
        raise UnitError(message, text=text, choices=(f"{tidied} kgf·cm", f"{tidied} mm"))
    refuse_two_meanings(tidied)
    first_error: UnitError | None = None
    for kind in _kinds_for(match.group(3) if match else ""):
        try:
            reading = read(text, kind)
        except UnitError as error:
            if first_error is None or (error.choices and "two ways" in str(error)):
                first_error = error
            continue
        doubts = reading.doubts + _other_meanings(match.group(3) if match else "", kind)
        figures = max(4, sum(mark.isdigit() for mark in match.group(2)) if match else 4)
        return Conversion(kind, reading.value, readings(reading.value, kind, figures), doubts)
    if first_error is not None and "two ways" in str(first_error):
        raise first_error
    message = (
        f'"{text}" is no quantity that can be read. Write it like 46 kgf·cm, 18-1/2 in or 6 rpm.'
    )
    raise UnitError(message, text=text, choices=("46 kgf·cm", "18-1/2 in", "6 rpm"))


def _kinds_for(spelling: str) -> tuple[str, ...]:
    unit = find_unit(spelling, "stiffness")
    if unit is not None and unit.symbol in _SPRING_LIKE:
        return ("stiffness", *_ORDER)
    return _ORDER


def _other_meanings(spelling: str, kind: str) -> tuple[str, ...]:
    other = find_unit(spelling, "torque") if kind == "stiffness" else None
    if other is None or other.symbol == "N·mm":  # nobody lists a motor in N/mm
        return ()
    return (f"from a motor listing it would be a torque and mean {other.symbol}",)


def readings(value: float, kind: str, digits: int = 4) -> tuple[str, ...]:
    """Return a quantity [SI] in each unit that listings use."""
    shown = [
        in_unit(value, symbol, kind, digits)
        for symbol in _LISTED[kind]
        if value or symbol != "s/60°"
    ]
    if kind == "length":
        shown.append(f"about {inch_fraction(value)}")
    return tuple(shown)


def likely_units(number_text: str, kind: str, low: float, high: float) -> tuple[str, ...]:
    """Return the units in which a bare number would be of a sensible size.

    Parameters
    ----------
    number_text : str
        The number as written, such as ``50``.
    kind : str
        One of `KINDS`.
    low, high : float
        What would be sensible, in SI.

    Returns
    -------
    tuple of str
        Unit symbols, those of listings only; empty where none fits or the text is no number.
    """
    match = SINGLE.fullmatch(tidy(number_text))
    if kind not in KINDS or match is None or match.group(3):
        return ()
    try:
        number = read_number(match.group(2))
    except UnitError:
        return ()
    number = -number if match.group(1) == "-" else number
    fitting = []
    for unit in UNITS[kind]:
        if unit.symbol not in _LISTED[kind] or unit.symbol in fitting:
            continue
        if (number or not unit.inverse) and low <= to_si(number, unit) <= high:
            fitting.append(unit.symbol)
    return tuple(fitting)
