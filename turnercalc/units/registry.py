"""Our own small registry of units: every definition is exact, every factor plain arithmetic.

References
----------
.. [1] A. Thompson and B. N. Taylor, Guide for the Use of the International System of Units
       (SI), NIST Special Publication 811, 2008 edition, appendix B.8 and B.9.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

_INCH = 0.0254  # exact, SP 811 B.8
_FOOT = 12 * _INCH
_POUND = 0.45359237  # exact, SP 811 B.8, avoirdupois
_MINUTE = 60.0
_HOUR = 60 * _MINUTE
_DAY = 24 * _HOUR
_DEGREE = math.pi / 180
_TURN = 360 * _DEGREE
_KGF = 9.80665  # exact, SP 811 B.8
_LBF = _POUND * _KGF

#: What one of each is in SI; temperatures are kept in degC, so for them how large a step is.
_FACTORS: Mapping[str, float] = MappingProxyType(
    {
        "metre": 1.0,
        "micrometre": 1e-6,
        "millimetre": 1e-3,
        "centimetre": 1e-2,
        "inch": _INCH,
        "foot": _FOOT,
        "yard": 0.9144,  # exact, SP 811 B.8
        "kilogram": 1.0,
        "milligram": 1e-6,
        "gram": 1e-3,
        "pound": _POUND,
        "ounce": _POUND / 16,
        "second": 1.0,
        "millisecond": 1e-3,
        "minute": _MINUTE,
        "hour": _HOUR,
        "day": _DAY,
        "week": 7 * _DAY,
        "radian": 1.0,
        "degree": _DEGREE,
        "turn": _TURN,
        "sixty_degrees": 60 * _DEGREE,
        "newton": 1.0,
        "millinewton": 1e-3,
        "kilonewton": 1e3,
        "kgf": _KGF,
        "gf": 1e-3 * _KGF,
        "lbf": _LBF,
        "ozf": _LBF / 16,
        "watt": 1.0,
        "milliwatt": 1e-3,
        "kilowatt": 1e3,
        "horsepower": 550 * _FOOT * _LBF,  # SP 811 B.8, (550 ft·lbf/s)
        "volt": 1.0,
        "millivolt": 1e-3,
        "kilovolt": 1e3,
        "ampere": 1.0,
        "milliampere": 1e-3,
        "hertz": 1.0,
        "kilohertz": 1e3,
        "degC": 1.0,
        "kelvin": 1.0,
        "degF": 5 / 9,
    }
)
#: What zero of each is [degC].
_OFFSETS: Mapping[str, float] = MappingProxyType({"kelvin": -273.15, "degF": -160 / 9})
_STEP = re.compile(r"([*/]?)(\w+)")


@cache
def factor(definition: str) -> float:
    """Return how many SI units one of these is; for temperatures, how many kelvins a step is.

    A definition is a number, or units joined by ``*`` and ``/``, such as ``kgf*centimetre``.
    """
    if definition[0].isdigit():
        return float(definition)
    found = 1.0
    for sign, name in _STEP.findall(definition):
        found = found / _FACTORS[name] if sign == "/" else found * _FACTORS[name]
    return found


def offset(definition: str) -> float:
    """Return what zero of this unit is, in SI [degC for temperatures, else 0]."""
    return _OFFSETS.get(definition, 0.0)
