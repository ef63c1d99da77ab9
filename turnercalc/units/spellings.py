"""The units of the trade and every way builders and listings spell them.

A spelling is looked up by its *key*: lower case, without spaces, dots, hyphens, stars and
times signs, so that ``KGF.CM``, ``kgf-cm`` and ``kgf·cm`` are one entry. A slash stays in the
key, because ``kg/cm`` says something else than it means and the reader has to doubt it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

KINDS = (
    "length",
    "mass",
    "angle",
    "torque",
    "force",
    "rotation",
    "speed",
    "power",
    "voltage",
    "current",
    "time",
    "temperature",
    "frequency",
    "stiffness",
    "count",
    "ratio",
)

KIND_NAMES: Mapping[str, str] = MappingProxyType(
    {
        "length": "a length",
        "mass": "a mass",
        "angle": "an angle",
        "torque": "a torque",
        "force": "a force",
        "rotation": "a turning speed",
        "speed": "a travel speed",
        "power": "a power",
        "voltage": "a voltage",
        "current": "a current",
        "time": "a time",
        "temperature": "a temperature",
        "frequency": "a frequency",
        "stiffness": "a spring stiffness",
        "count": "a whole number",
        "ratio": "a ratio",
    }
)


@dataclass(frozen=True)
class Unit:
    """One unit as it is shown, defined and spelt.

    Attributes
    ----------
    symbol : str
        How we write it; reading the symbol gives the unit back.
    definition : str
        The same in the words of the registry, such as ``kgf*centimetre``.
    spellings : tuple of str
        Keys (see `key`) under which builders write it, the symbol's own key included.
    doubt : str
        What is odd about the spelling; empty where nothing is.
    inverse : bool
        True where the figure counts time per turn, so that a larger one means slower.
    """

    symbol: str
    definition: str
    spellings: tuple[str, ...]
    doubt: str = ""
    inverse: bool = False


_DROPPED = re.compile(r"[\s.·*×_-]+")


def key(spelling: str) -> str:
    """Return the form under which a spelling is looked up."""
    return _DROPPED.sub("", spelling).lower()


def _unit(symbol: str, definition: str, spellings: str = "") -> Unit:
    return Unit(symbol, definition, (key(symbol), *spellings.split()))


_LENGTHS = (
    _unit("mm", "millimetre", "mms millimetre millimetres millimeter millimeters"),
    _unit("cm", "centimetre", "cms centimetre centimetres centimeter centimeters"),
    _unit("m", "metre", "metre metres meter meters mtr mtrs"),
    _unit("in", "inch", '" inch inches ins'),
    _unit("ft", "foot", "' foot feet fts"),
    _unit("yd", "yard", "yard yards yds"),
    _unit("µm", "micrometre", "μm um micron microns micrometre micrometer"),
)

_MASSES = (
    _unit("g", "gram", "gm gms gr grs gram grams gramme grammes"),
    _unit("kg", "kilogram", "kgs kilo kilos kilogram kilograms kilogramme kilogrammes"),
    _unit("mg", "milligram", "milligram milligrams"),
    _unit("oz", "ounce", "ozs ounce ounces"),
    _unit("lb", "pound", "lbs pound pounds"),
)

_ANGLES = (
    _unit("°", "degree", "deg degs degree degrees"),
    _unit("rad", "radian", "rads radian radians"),
    _unit("turn", "turn", "turns rev revs revolution revolutions rotation rotations"),
)

_FORCES = (
    _unit("N", "newton", "newton newtons"),
    _unit("mN", "millinewton", "millinewton millinewtons"),
    _unit("kN", "kilonewton", "kilonewton kilonewtons"),
    _unit("kgf", "kgf", "kgsf kp kilopond kilogramforce kilogramsforce kgforce kiloforce"),
    _unit("gf", "gf", "p pond gramforce gramsforce gforce"),
    _unit("lbf", "lbf", "lbsf poundforce poundsforce lbforce lbsforce"),
    _unit("ozf", "ozf", "ozsf ounceforce ouncesforce ozforce"),
)

# In a torque or a spring rate builders write the mass for the weight: kg for kgf.
_WEIGHT_SPELLINGS: Mapping[str, str] = MappingProxyType(
    {
        "N": "n newton newtons newt",
        "mN": "mn millinewton millinewtons",
        "kgf": "kg kgs kgf kp kilo kilos kilogram kilograms kilogramforce",
        "gf": "g gf gram grams gr gms",
        "ozf": "oz ozs ozf ounce ounces ounceforce",
        "lbf": "lb lbs lbf lbsf pound pounds poundforce",
    }
)
_LENGTH_SPELLINGS: Mapping[str, str] = MappingProxyType(
    {
        "m": "m metre metres meter meters",
        "cm": "cm cms centimetre centimetres centimeter centimeters",
        "mm": "mm millimetre millimetres millimeter millimeters",
        "in": "in ins inch inches",
        "ft": "ft foot feet",
    }
)
_LENGTH_DEFINITIONS: Mapping[str, str] = MappingProxyType(
    {"m": "metre", "cm": "centimetre", "mm": "millimetre", "in": "inch", "ft": "foot"}
)
_FORCE_DEFINITIONS: Mapping[str, str] = MappingProxyType(
    {"N": "newton", "mN": "millinewton"}
)  # the others carry their symbol as definition
_TORQUE_PAIRS = (
    ("N", "m"),
    ("N", "cm"),
    ("N", "mm"),
    ("mN", "m"),
    ("kgf", "cm"),
    ("kgf", "m"),
    ("kgf", "mm"),
    ("gf", "cm"),
    ("gf", "mm"),
    ("ozf", "in"),
    ("lbf", "in"),
    ("lbf", "ft"),
)
_SHOWN_WITHOUT_F: Mapping[str, str] = MappingProxyType({"gf·cm": "g·cm", "gf·mm": "g·mm"})


def _pairs(pair: tuple[str, str], joint: str) -> Iterator[str]:
    force, length = pair
    for force_spelling in _WEIGHT_SPELLINGS[force].split():
        for length_spelling in _LENGTH_SPELLINGS[length].split():
            yield f"{force_spelling}{joint}{length_spelling}"


def _reversed_pairs(pair: tuple[str, str]) -> Iterator[str]:
    force, length = pair
    # "in-lb" and "cm-kg" are written, "m-N" would read as millinewton
    if force in ("N", "mN"):
        return
    for force_spelling in _WEIGHT_SPELLINGS[force].split():
        for length_spelling in _LENGTH_SPELLINGS[length].split():
            yield f"{length_spelling}{force_spelling}"


def _torques() -> Iterator[Unit]:
    for pair in _TORQUE_PAIRS:
        force, length = pair
        definition = f"{_FORCE_DEFINITIONS.get(force, force)}*{_LENGTH_DEFINITIONS[length]}"
        symbol = f"{force}·{length}"
        symbol = _SHOWN_WITHOUT_F.get(symbol, symbol)
        spellings = [s for s in (*_pairs(pair, ""), *_reversed_pairs(pair)) if s != "gm"]
        yield Unit(symbol, definition, (key(symbol), *spellings))
        slashed = f"{force}/{length}".replace("f", "", 1)
        yield Unit(
            symbol,
            definition,
            tuple(_pairs(pair, "/")),
            doubt=(
                f"{slashed} would be a force for each {length}, the stiffness of a spring; "
                f"taken for {symbol}, which is what motor listings mean by it"
            ),
        )


def _per_time(symbol: str, per: str, definition: str, words: str, times: str) -> Unit:
    spellings = [f"{word}/{time}" for word in words.split() for time in times.split()]
    return Unit(f"{symbol}/{per}", definition, (key(f"{symbol}/{per}"), *spellings))


_TURN_WORDS = "r rev revs revolution revolutions turn turns rotation rotations u t"
_SECOND_WORDS = "s sec secs second seconds"
_MINUTE_WORDS = "min mins minute minutes m"
_HOUR_WORDS = "h hr hrs hour hours"
_DAY_WORDS = "d day days"


def _seconds_for_60_degrees() -> Unit:
    sixty = ("60°", "60deg", "60degs", "60degree", "60degrees")
    spellings = tuple(f"{s}/{angle}" for s in _SECOND_WORDS.split() for angle in sixty)
    return Unit("s/60°", "sixty_degrees/second", spellings, inverse=True)


_ROTATIONS = (
    _unit("rpm", "turn/minute", "rpms r/min rev/min min1 1/min /min upm"),
    _per_time("rev", "min", "turn/minute", _TURN_WORDS, _MINUTE_WORDS),
    _unit("rps", "turn/second"),
    _per_time("rev", "s", "turn/second", _TURN_WORDS, _SECOND_WORDS),
    _unit("rph", "turn/hour"),
    _per_time("rev", "h", "turn/hour", _TURN_WORDS, _HOUR_WORDS),
    _per_time("rev", "day", "turn/day", _TURN_WORDS, _DAY_WORDS),
    _per_time("rad", "s", "radian/second", "rad rads radian radians", _SECOND_WORDS),
    _per_time("°", "s", "degree/second", "° deg degs degree degrees", _SECOND_WORDS),
    _seconds_for_60_degrees(),
)

_SPEEDS = tuple(
    _per_time(length, time, f"{_LENGTH_DEFINITIONS[length]}/{name}", words, times)
    for length, words in _LENGTH_SPELLINGS.items()
    for time, name, times in (("s", "second", _SECOND_WORDS), ("min", "minute", _MINUTE_WORDS))
)

_POWERS = (
    _unit("W", "watt", "watt watts ws"),
    _unit("mW", "milliwatt", "milliwatt milliwatts"),
    _unit("kW", "kilowatt", "kilowatt kilowatts"),
    _unit("hp", "horsepower", "horsepower"),
)

_VOLTAGES = (
    _unit("V", "volt", "volt volts vdc vac dcv acv v~ v= v⎓ vd vdcs"),
    _unit("mV", "millivolt", "millivolt millivolts"),
    _unit("kV", "kilovolt", "kilovolt kilovolts"),
)

_CURRENTS = (
    _unit("A", "ampere", "amp amps ampere amperes"),
    _unit("mA", "milliampere", "milliamp milliamps milliampere milliamperes"),
)

_TIMES = (
    _unit("s", "second", "sec secs second seconds"),
    _unit("ms", "millisecond", "msec millisecond milliseconds"),
    _unit("min", "minute", "mins minute minutes m"),
    _unit("h", "hour", "hr hrs hour hours"),
    _unit("d", "day", "day days"),
    _unit("week", "week", "weeks wk wks"),
)

_TEMPERATURES = (
    _unit("°C", "degC", "c degc degreec degreesc celsius degreescelsius centigrade degcelsius"),
    _unit("°F", "degF", "f degf degreef degreesf fahrenheit degreesfahrenheit degfahrenheit"),
    _unit("K", "kelvin", "kelvin kelvins"),
)

_FREQUENCIES = (
    _unit("Hz", "hertz", "hertz hzs cps cycles/s cycle/s"),
    _unit("kHz", "kilohertz", "kilohertz"),
)

_STIFFNESSES = tuple(
    Unit(
        f"{force}/{length}",
        f"{_FORCE_DEFINITIONS.get(force, force)}/{_LENGTH_DEFINITIONS[length]}",
        tuple(_pairs((force, length), "/")),
    )
    for force, length in (
        ("N", "mm"),
        ("N", "m"),
        ("N", "cm"),
        ("kgf", "mm"),
        ("kgf", "cm"),
        ("kgf", "m"),
        ("gf", "mm"),
        ("gf", "cm"),
        ("lbf", "in"),
        ("lbf", "ft"),
        ("ozf", "in"),
    )
)

_COUNTS = (
    _unit(
        "",
        "1",
        "x egg eggs turn turns time times tray trays row rows lane lanes shelf shelves bar bars "
        "tooth teeth step steps pc pcs piece pieces off cycle cycles",
    ),
)

_RATIOS = (
    _unit("", "1", "x times"),
    _unit("%", "0.01", "percent percents pct"),
)

UNITS: Mapping[str, tuple[Unit, ...]] = MappingProxyType(
    {
        "length": _LENGTHS,
        "mass": _MASSES,
        "angle": _ANGLES,
        "torque": tuple(_torques()),
        "force": _FORCES,
        "rotation": _ROTATIONS,
        "speed": _SPEEDS,
        "power": _POWERS,
        "voltage": _VOLTAGES,
        "current": _CURRENTS,
        "time": _TIMES,
        "temperature": _TEMPERATURES,
        "frequency": _FREQUENCIES,
        "stiffness": _STIFFNESSES,
        "count": _COUNTS,
        "ratio": _RATIOS,
    }
)

# Offered where a number stands alone, the likeliest first.
USUAL_UNITS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "length": ("mm", "cm", "in"),
        "mass": ("g", "kg", "oz", "lb"),
        "angle": ("deg", "rad"),
        "torque": ("kgf·cm", "N·m", "ozf·in", "lbf·in"),
        "force": ("N", "kgf", "lbf", "ozf"),
        "rotation": ("rpm", "s per turn"),
        "speed": ("mm/s", "in/s"),
        "power": ("W",),
        "voltage": ("V",),
        "current": ("A", "mA"),
        "time": ("s", "min", "h"),
        "temperature": ("C", "F"),
        "frequency": ("Hz",),
        "stiffness": ("N/mm", "N/m", "lbf/in"),
        "count": ("",),
        "ratio": ("", "%"),
    }
)


def _by_spelling(units: Iterable[Unit]) -> Mapping[str, Unit]:
    table: dict[str, Unit] = {}
    for unit in units:
        for spelling in unit.spellings:
            table.setdefault(spelling, unit)
    return MappingProxyType(table)


SPELLINGS: Mapping[str, Mapping[str, Unit]] = MappingProxyType(
    {kind: _by_spelling(units) for kind, units in UNITS.items()}
)

# With a capital M these would be a million times what is meant, so the reader asks.
MILLI_OR_MEGA = frozenset({"mn", "mnm", "mncm", "mw", "mv", "ma", "mhz"})
