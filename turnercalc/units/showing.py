"""From SI to the text a builder or a listing would use."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from types import MappingProxyType

from turnercalc.units.lookup import find_unit
from turnercalc.units.numbers import SMALLEST
from turnercalc.units.registry import factor, offset
from turnercalc.units.spellings import KINDS

SYSTEMS = ("metric", "us", "both")


def show(value: float, kind: str, system: str = "metric", digits: int = 3) -> str:
    """Return a quantity as text that `parse` reads back.

    Parameters
    ----------
    value : float
        The quantity in SI units; temperatures in [degC].
    kind : str
        One of `KINDS`.
    system : str
        ``metric``, ``us``, or ``both`` (the other units in brackets).
    digits : int
        Figures that count; digits before the decimal mark are never dropped.

    Returns
    -------
    str
        ``unknown`` where the value is not finite.
    """
    if kind not in KINDS:
        message = f"there is no kind of quantity called {kind!r}"
        raise ValueError(message)
    if system not in SYSTEMS:
        message = f"units are {', '.join(SYSTEMS)}, not {system!r}"
        raise ValueError(message)
    if not math.isfinite(value):
        return "unknown"
    value = value if abs(value) >= SMALLEST else 0.0
    metric = _METRIC[kind](value, digits)
    if system == "metric" or kind not in _US:
        return metric
    us = _US[kind](value, digits)
    if system == "us":
        return us
    others = (
        (kgf_cm(value, digits), in_unit(value, "ozf·in", "torque", digits))
        if (kind == "torque")
        else (us,)
    )
    return f"{metric} ({', '.join(others)})"


def plain(number: float, digits: int = 3) -> str:
    """Return a bare number with so many figures that count, without trailing zeros."""
    if number == 0.0:
        return "0"
    size = math.floor(math.log10(abs(number)))
    if size >= 15 or size < -6:
        return f"{number:.{max(digits - 1, 0)}e}"
    places = max(digits - 1 - size, 0)
    text = f"{number:.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def in_unit(value: float, symbol: str, kind: str, digits: int = 3) -> str:
    """Return a quantity in the unit that is asked for."""
    unit = find_unit(symbol, kind)
    if unit is None:
        message = f"{symbol!r} is no unit of {kind}"
        raise ValueError(message)
    if unit.inverse:
        number = factor(unit.definition) / value if value else math.inf
    else:
        number = (value - offset(unit.definition)) / factor(unit.definition)
    joint = "" if unit.symbol == "°" else " "
    return f"{plain(number, digits)}{joint}{unit.symbol}".strip()


def kgf_cm(value: float, digits: int = 3) -> str:
    """Return a torque [N·m] in kgf·cm, the unit of hobby listings."""
    return in_unit(value, "kgf·cm", "torque", digits)


def inch_fraction(value: float, parts: int = 16) -> str:
    """Return a length as the nearest mark of an inch tape.

    Parameters
    ----------
    value : float
        Length [m].
    parts : int
        Marks per inch.
    """
    marks = round(abs(value) / factor("inch") * parts)
    whole, rest = divmod(marks, parts)
    sign = "-" if value < 0.0 and marks else ""
    if rest == 0:
        return f"{sign}{whole} in"
    common = math.gcd(rest, parts)
    fraction = f"{rest // common}/{parts // common}"
    return f"{sign}{whole}-{fraction} in" if whole else f"{sign}{fraction} in"


# A tape is read to a fraction only where that hides next to nothing: a crank of 1.97 in called
# 1-15/16 in would tip the tray a degree less. At three digits it may hide one part in a
# thousand, and up to 0.2 mm of something longer than 20 mm; ten times less for each digit more.
_TAPE_HIDES = 0.2  # [m] at no digits
_TAPE_HIDES_AT_MOST = 0.01


def _us_length(value: float, digits: int) -> str:
    nearest = round(value / factor("inch") * 16) * factor("inch") / 16
    hidden = abs(nearest - value)
    fineness = 10.0**-digits
    share = min(_TAPE_HIDES_AT_MOST, 10.0 * fineness) * abs(value)
    if abs(value) < 1e4 and hidden <= max(
        fineness * abs(value), min(_TAPE_HIDES * fineness, share)
    ):
        return inch_fraction(value)
    return in_unit(value, "in", "length", digits)


def _us_mass(value: float, digits: int) -> str:
    pounds = abs(value) / factor("pound")
    if pounds < 1.0:
        return in_unit(value, "oz", "mass", digits)
    if pounds >= 20.0:
        return in_unit(value, "lb", "mass", digits)
    whole = math.floor(pounds)
    ounces = round((pounds - whole) * 16.0, max(digits - 2, 0))
    if ounces >= 16.0:
        whole, ounces = whole + 1, 0.0
    sign = "-" if value < 0.0 else ""
    return f"{sign}{whole} lb {ounces:g} oz" if ounces else f"{sign}{whole} lb"


def _steps(kind: str, *steps: tuple[float, str], zero: str = "") -> Callable[[float, int], str]:
    """Return a writer that takes the first unit whose limit [SI] the value stays under."""

    def write(value: float, digits: int) -> str:
        symbol = next((unit for limit, unit in steps if abs(value) < limit), steps[-1][1])
        if value == 0.0:
            symbol = zero or symbol
        return in_unit(value, symbol, kind, digits)

    return write


def _celsius(value: float, digits: int) -> str:
    return f"{plain(round(value, max(digits - 2, 0)), 15)} °C"


def _fahrenheit(value: float, digits: int) -> str:
    number = (value - offset("degF")) / factor("degF")
    return f"{plain(round(number, max(digits - 2, 0)), 15)} °F"


def _count(value: float, digits: int) -> str:
    del digits
    return f"{round(value)}"


def _ratio(value: float, digits: int) -> str:
    return plain(value, digits)


_ANY = math.inf
_METRIC: Mapping[str, Callable[[float, int], str]] = MappingProxyType(
    {
        "length": _steps("length", (10.0, "mm"), (_ANY, "m")),
        "mass": _steps("mass", (1.0, "g"), (_ANY, "kg")),
        "angle": _steps("angle", (_ANY, "°")),
        "torque": _steps("torque", (_ANY, "N·m")),
        "force": _steps("force", (_ANY, "N")),
        "rotation": _steps("rotation", (0.0104, "rev/h"), (_ANY, "rpm"), zero="rpm"),
        "speed": _steps("speed", (10.0, "mm/s"), (_ANY, "m/s")),
        "power": _steps("power", (_ANY, "W")),
        "voltage": _steps("voltage", (_ANY, "V")),
        "current": _steps("current", (0.1, "mA"), (_ANY, "A"), zero="A"),
        "time": _steps("time", (120.0, "s"), (7200.0, "min"), (172800.0, "h"), (_ANY, "d")),
        "temperature": _celsius,
        "frequency": _steps("frequency", (_ANY, "Hz")),
        "stiffness": _steps("stiffness", (_ANY, "N/mm")),
        "count": _count,
        "ratio": _ratio,
    }
)
_US: Mapping[str, Callable[[float, int], str]] = MappingProxyType(
    {
        "length": _us_length,
        "mass": _us_mass,
        "torque": _steps("torque", (0.7, "ozf·in"), (_ANY, "lbf·in")),
        "force": _steps("force", (4.4482, "ozf"), (_ANY, "lbf")),
        "speed": _steps("speed", (_ANY, "in/s")),
        "temperature": _fahrenheit,
        "stiffness": _steps("stiffness", (_ANY, "lbf/in")),
    }
)
