"""Our own small registry of units, loaded when the first quantity is read.

pint converts; the definitions are ours and each is exact. Factors are kept, so that a motor
file of many thousand rows asks pint only once for each unit.

References
----------
.. [1] A. Thompson and B. N. Taylor, Guide for the Use of the International System of Units
       (SI), NIST Special Publication 811, 2008 edition, appendix B.8 and B.9.
"""

from __future__ import annotations

from functools import cache
from typing import Any

_DEFINITIONS = (
    "metre = [length]",
    "second = [time]",
    "kilogram = [mass]",
    "ampere = [current]",
    # temperatures are kept in degC and never as differences, so degC is the base here
    "degC = [temperature]",
    "kelvin = degC; offset: -273.15",
    "degF = 5 / 9 * degC; offset: -160 / 9",
    "radian = []",
    "micrometre = 1e-6 * metre",
    "millimetre = 1e-3 * metre",
    "centimetre = 1e-2 * metre",
    "inch = 0.0254 * metre",  # exact, SP 811 B.8
    "foot = 12 * inch",
    "yard = 3 * foot",
    "milligram = 1e-6 * kilogram",
    "gram = 1e-3 * kilogram",
    "pound = 0.45359237 * kilogram",  # exact, SP 811 B.8, avoirdupois
    "ounce = pound / 16",
    "millisecond = 1e-3 * second",
    "minute = 60 * second",
    "hour = 60 * minute",
    "day = 24 * hour",
    "week = 7 * day",
    "degree = 3.141592653589793 / 180 * radian",
    "turn = 360 * degree",
    "sixty_degrees = 60 * degree",
    "newton = kilogram * metre / second ** 2",
    "millinewton = 1e-3 * newton",
    "kilonewton = 1e3 * newton",
    "kgf = 9.80665 * newton",  # exact, SP 811 B.8
    "gf = 1e-3 * kgf",
    "lbf = 0.45359237 * kgf",
    "ozf = lbf / 16",
    "watt = newton * metre / second",
    "milliwatt = 1e-3 * watt",
    "kilowatt = 1e3 * watt",
    "horsepower = 550 * foot * lbf / second",  # SP 811 B.8, (550 ft·lbf/s)
    "volt = watt / ampere",
    "millivolt = 1e-3 * volt",
    "kilovolt = 1e3 * volt",
    "milliampere = 1e-3 * ampere",
    "hertz = 1 / second",
    "kilohertz = 1e3 * hertz",
)
_OFFSET = ("degF", "kelvin")


@cache
def _registry() -> Any:
    """Return the registry; pint is imported here because it costs a fifth of a second."""
    import pint

    registry: Any = pint.UnitRegistry(None)
    for definition in _DEFINITIONS:
        registry.define(definition)
    return registry


def _to_base(number: float, definition: str) -> float:
    return float(_registry().Quantity(number, definition).to_base_units().magnitude)


@cache
def factor(definition: str) -> float:
    """Return how many SI units one of these is; for temperatures, how many kelvins a step is."""
    if definition[0].isdigit():
        return float(definition)
    if definition in _OFFSET:
        return _to_base(1.0, f"delta_{definition}")
    return _to_base(1.0, definition)


@cache
def offset(definition: str) -> float:
    """Return what zero of this unit is, in SI [degC for temperatures, else 0]."""
    return _to_base(0.0, definition) if definition in _OFFSET else 0.0
