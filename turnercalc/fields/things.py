"""Fields that take a whole phrase: eggs on a scale, their size, a drum's heavy side, a supply."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Annotated

from turnercalc import units
from turnercalc.errors import UnitError
from turnercalc.fields.phrases import Phrase, parse_part, write_quantity

# --- eggs on the scale ------------------------------------------------------------------------

_EGGS_FIRST = re.compile(
    r"(?:(\d+)|(a|one)) ?(?:(dozen)(?: eggs?)?|eggs?) ?(?:=|:|weigh(?:s|ed)?|are|is) ?(.+)", re.I
)
_EGGS_LAST = re.compile(
    r"(.+?) (?:for|per|from) (?:(\d+)|(a|one)) ?(?:(dozen)(?: eggs?)?|eggs?)", re.I
)
_EACH = re.compile(r"(.+?) ?(?:each|apiece|per egg|/ ?egg|an egg)", re.I)


def read_egg_mass(text: str) -> float:
    """Read ``10 eggs = 583 g``, ``24 oz per dozen`` or ``58.3 g each``.

    Returns
    -------
    float
        Mass of one egg [kg].
    """
    tidied = " ".join(text.split())
    if match := _EGGS_FIRST.fullmatch(tidied):
        number, dozen, scale = match.group(1), match.group(3), match.group(4)
    elif match := _EGGS_LAST.fullmatch(tidied):
        scale, number, dozen = match.group(1), match.group(2), match.group(4)
    else:
        each = _EACH.fullmatch(tidied)
        return parse_part(each.group(1) if each else tidied, "mass", tidied)
    eggs = int(number or 1) * (12 if dozen else 1)
    if eggs < 1:
        message = f'"{text}": no eggs weigh nothing. Put at least one on the scale.'
        raise UnitError(message, text=text, choices=("10 eggs = 583 g",))
    return parse_part(scale, "mass", tidied) / eggs


EGG_MASS = Phrase(
    kind="egg mass",
    reader=read_egg_mass,
    writer=lambda value, system, digits: f"{write_quantity(value, 'mass', system, digits)} each",
    example="10 eggs = 583 g",
    help="Put some eggs on a scale together: 10 eggs = 583 g.",
    quantity="mass",
    low=0.0005,
    high=2.5,
)

# --- size of an egg ---------------------------------------------------------------------------


@dataclass(frozen=True)
class Size:
    """Length and breadth of an egg.

    Attributes
    ----------
    length : float
        From end to end [m].
    breadth : float
        Greatest diameter [m]; not more than the length.
    """

    length: float
    breadth: float

    def __post_init__(self) -> None:
        if not 0.0 < self.breadth <= self.length:
            message = "An egg is at least as long as it is broad, and neither is nothing."
            raise UnitError(message, choices=("57.5 x 43.5 mm",))


_BY = re.compile(r" ?[x×*] ?(?=[\d.])| by |, ", re.I)
_ROUND = re.compile(r"(.*?) ?(?:round|around|girth|in girth)|girth (.*)", re.I)
_SIZE_WORDS = re.compile(r" ?\b(?:long|wide|broad|length|breadth|width|diameter)\b", re.I)
_SMALLEST_EGG, _LARGEST_EGG = 0.005, 0.25


def read_size(text: str) -> Size:
    """Read ``57.5 x 43.5 mm``, or ``57.5 mm x 137 mm round`` with a tape round the egg.

    The larger figure is the length, in whichever order they stand.
    """
    tidied = " ".join(text.split())
    parts = [part.strip() for part in _BY.split(tidied) if part.strip()]
    if len(parts) != 2:
        message = f'"{text}": two sizes are wanted, length and breadth, such as 57.5 x 43.5 mm.'
        raise UnitError(message, text=text, choices=("57.5 x 43.5 mm",))
    first, second = (_SIZE_WORDS.sub("", part) for part in parts)
    girth = _ROUND.fullmatch(second)
    if girth:
        second = girth.group(1) or girth.group(2)
    low, high = _sharing_unit(first, second, text)
    if girth:
        high /= math.pi
    sizes = (max(low, high), min(low, high))
    if not _could_be_an_egg(*sizes):
        shown = " x ".join(units.show(size, "length", "both") for size in sizes)
        message = f"{shown} is no egg: they are between 5 mm and 250 mm. Is the unit right?"
        raise UnitError(message, text=text, choices=("57.5 x 43.5 mm",))
    return Size(*sizes)


def _could_be_an_egg(length: float, breadth: float) -> bool:
    return breadth >= _SMALLEST_EGG and length <= _LARGEST_EGG


def _sharing_unit(first: str, second: str, text: str) -> tuple[float, float]:
    """Return two lengths [m]; the first may borrow the unit of the second."""
    try:
        last = units.read(second, "length")
    except UnitError as error:
        if not re.fullmatch(r"[\d., /-]+", second):
            raise
        both = [(unit, units.parse(f"{first} {unit}", "length")) for unit in ("mm", "cm", "in")]
        fitting = [unit for unit, size in both if _could_be_an_egg(size, size)]
        choices = tuple(f"{text} {unit}" for unit in fitting or ["mm", "in"])
        message = f'"{text}": in what unit? Write {" or ".join(choices)}.'
        raise UnitError(message, text=text, choices=choices) from error
    try:
        return units.parse(first, "length"), last.value
    except UnitError:
        return units.parse(f"{first} {last.unit}", "length"), last.value


def _write_size(value: Size, system: str, digits: int) -> str:
    length, breadth = (
        write_quantity(size, "length", system, digits) for size in (value.length, value.breadth)
    )
    return f"{length} x {breadth}"


EGG_SIZE = Phrase(
    kind="egg size",
    reader=read_size,
    writer=_write_size,
    example="57.5 x 43.5 mm",
    help="Length and breadth of the egg: 57.5 x 43.5 mm.",
    instances=(Size,),
)

# --- the heavy side of a drum -----------------------------------------------------------------


@dataclass(frozen=True)
class HeavySide:
    """Where an empty drum is out of balance.

    Attributes
    ----------
    mass : float
        Mass that is too much on one side [kg]; zero for a balanced drum.
    radius : float
        How far from the axle it sits [m].
    shelf : float
        Shelf it sits towards, counted from 1; 2.5 is half way between the second and the third.
    """

    mass: float
    radius: float
    shelf: float


_BALANCED = re.compile(r"(?:is )?(?:well |in )?balanced?|none", re.I)
_HEAVY = re.compile(
    r"(.+?) at (.+?),? (?:toward|towards|to|on|near|at|by) shelf (?:no\.? ?|#)?(\d+(?:[.,]5)?)",
    re.I,
)


def read_heavy_side(text: str) -> HeavySide:
    """Read ``balanced``, ``3 oz at 2 in toward shelf 1`` or ``… toward shelf 2.5``."""
    tidied = " ".join(text.split())
    if _BALANCED.fullmatch(tidied):
        return HeavySide(0.0, 0.0, 1.0)
    match = _HEAVY.fullmatch(tidied)
    if match is None:
        choices = ("balanced", "3 oz at 2 in toward shelf 1")
        message = (
            f'"{text}": let the empty drum swing and see which side comes to rest lowest. '
            f'Write "{choices[0]}" if it stays anywhere, or like "{choices[1]}".'
        )
        raise UnitError(message, text=text, choices=choices)
    mass = parse_part(match.group(1), "mass", tidied)
    radius = parse_part(match.group(2), "length", tidied)
    shelf = float(match.group(3).replace(",", "."))
    if mass < 0.0 or radius < 0.0 or shelf < 1:
        message = f'"{text}": mass and distance are not negative, and shelves count from 1.'
        raise UnitError(message, text=text, choices=("3 oz at 2 in toward shelf 1",))
    return HeavySide(mass, radius, shelf)


def _write_heavy_side(value: HeavySide, system: str, digits: int) -> str:
    if value.mass == 0.0 or value.radius == 0.0:
        return "balanced"
    mass = write_quantity(value.mass, "mass", system, digits)
    radius = write_quantity(value.radius, "length", system, digits)
    return f"{mass} at {radius} toward shelf {value.shelf:g}"


HEAVY_SIDE = Phrase(
    kind="heavy side",
    reader=read_heavy_side,
    writer=_write_heavy_side,
    example="balanced",
    help="Let the empty drum swing: balanced, or the low side as 3 oz at 2 in toward shelf 1.",
    instances=(HeavySide,),
)

# --- what there is to run a motor from --------------------------------------------------------


@dataclass(frozen=True)
class Supply:
    """What the builder can run a motor from.

    Attributes
    ----------
    dc_volts, ac_volts : tuple of float
        Voltages at hand [V].
    frequency : float or None
        Of the mains [Hz]; None where it was not said.
    battery : bool
        True where a battery gives the direct current, whose voltage sags.
    """

    dc_volts: tuple[float, ...]
    ac_volts: tuple[float, ...]
    frequency: float | None
    battery: bool = False


_AND = re.compile(r",? and | ?\+ ?| ?; ?|, | or ", re.I)
_COMMA_HZ = re.compile(r", ?(\d+ ?hz)", re.I)
_SUPPLY_WORDS = re.compile(
    r"\b(?:battery|accu|usb|adapter|adaptor|charger|power|supply|wall|brick|car|mains|plug|the|a)\b",
    re.I,
)
_HZ = re.compile(r"(?:@|at)? ?([\d.,/ -]+?) ?hz\b", re.I)
_MAINS_FROM = 90.0  # [V]; below it lies what people call low voltage, nearly always direct current
_DC_ENDS = 60.0  # [V]


def read_supply(text: str) -> Supply:
    """Read ``12 V and 230 V 50 Hz``, ``12 V battery`` or ``120 V 60 Hz``.

    Below 60 V without a word it is direct current; above it has to be said.
    """
    dc: list[float] = []
    ac: list[float] = []
    frequencies: set[float] = set()
    for part in _AND.split(_COMMA_HZ.sub(r" \1", text)):
        volts, frequency, is_ac = _one_supply(part, text)
        (ac if is_ac else dc).extend(volts)
        frequencies |= frequency
    if len(frequencies) > 1:
        raise _which_frequency(text)
    battery = bool(re.search(r"\bbatter|accu\b", text, re.I))
    frequency_or_none = frequencies.pop() if frequencies else None
    return Supply(tuple(dict.fromkeys(dc)), tuple(dict.fromkeys(ac)), frequency_or_none, battery)


def _which_frequency(text: str) -> UnitError:
    stripped = _HZ.sub("", text).strip()
    choices = (f"{stripped} 50 Hz", f"{stripped} 60 Hz")
    message = (
        f'"{text}": your mains has one frequency, and a mains motor runs by it. '
        f'Write "{choices[0]}" or "{choices[1]}".'
    )
    return UnitError(message, text=text, choices=choices)


def _one_supply(part: str, text: str) -> tuple[tuple[float, ...], set[float], bool]:
    frequency: set[float] = set()
    if match := _HZ.search(part):
        if "/" in match.group(1):
            raise _which_frequency(text)
        frequency = {units.parse(f"{match.group(1)} Hz", "frequency")}
        part = part[: match.start()] + part[match.end() :]
    says_dc = bool(re.search(r"\bdc\b|vdc\b|batter|usb|⎓|=", part, re.I))
    says_ac = bool(re.search(r"\bac\b|vac\b|mains|~", part, re.I)) or bool(frequency)
    bare = _SUPPLY_WORDS.sub(" ", re.sub(r"\b[ad]c\b|(?<=v)[ad]c\b|[~=⎓]", " ", part, flags=re.I))
    volts = _volts(" ".join(bare.split()), text)
    if says_dc and says_ac:
        message = f'"{text}" says both AC and DC. Write them apart: 12 V and 230 V 50 Hz.'
        raise UnitError(message, text=text, choices=("12 V and 230 V 50 Hz",))
    if not says_dc and not says_ac:
        if max(volts) >= _DC_ENDS:
            choices = (f"{part.strip()} 50 Hz", f"{part.strip()} 60 Hz", f"{part.strip()} DC")
            message = (
                f'"{text}": is that mains, and of which frequency? '
                f'Write "{choices[0]}" or "{choices[1]}".'
            )
            raise UnitError(message, text=text, choices=choices)
        says_dc = True
    return volts, frequency, says_ac


def _volts(text: str, whole: str) -> tuple[float, ...]:
    if not text:
        message = f'"{whole}": of how many volts? Write it like 12 V and 230 V 50 Hz.'
        raise UnitError(message, text=whole, choices=("12 V", "230 V 50 Hz", "120 V 60 Hz"))
    pair = re.fullmatch(r"([\d.,]+) ?/ ?([\d.,]+) ?v(?:olts?)?", text, re.I)
    if pair:
        low, high = (units.parse(f"{volts} V", "voltage") for volts in pair.groups())
    else:
        low, high = units.parse_range(text, "voltage")
    if not 0.0 < low <= high <= 1000.0:
        message = f'"{whole}" is no supply for a turner. Write it like 12 V and 230 V 50 Hz.'
        raise UnitError(message, text=whole, choices=("12 V", "230 V 50 Hz", "120 V 60 Hz"))
    return (low,) if low == high else (low, high)


def _write_supply(value: Supply, system: str, digits: int) -> str:
    del system
    battery = " battery" if value.battery else ""
    parts = [f"{units.plain(volts, digits)} V{battery or ' DC'}" for volts in value.dc_volts]
    mains = f" {units.plain(value.frequency, digits)} Hz" if value.frequency else " AC"
    parts += [f"{units.plain(volts, digits)} V{mains}" for volts in value.ac_volts]
    return " and ".join(parts)


SUPPLY = Phrase(
    kind="supply",
    reader=read_supply,
    writer=_write_supply,
    example="12 V and 230 V 50 Hz",
    help="What you can run a motor from: 12 V, 12 V battery, 230 V 50 Hz, or several with and.",
    instances=(Supply,),
)

EggMass = Annotated[float, EGG_MASS]
EggSize = Annotated[Size, EGG_SIZE]
DrumBalance = Annotated[HeavySide, HEAVY_SIDE]
SupplyWords = Annotated[Supply, SUPPLY]
