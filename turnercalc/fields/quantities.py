"""Fields that hold one plain quantity, or a low, middle and high one."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import Field

from turnercalc import units
from turnercalc.errors import UnitError
from turnercalc.fields.half_known import HalfKnown
from turnercalc.fields.phrases import Phrase, Reader, quantity, write_quantity
from turnercalc.tables import Range3

_DEG = math.pi / 180.0
_RPM = 2.0 * math.pi / 60.0

LENGTH = quantity(
    "length", "50 mm", 0.0, 20.0, open_low=True, help="A length, with its unit: 50 mm or 2 in."
)
GAP = quantity("length", "0.2 mm", 0.0, 1.0, name="gap", help="A gap or play; 0 mm is allowed.")
MASS = quantity("mass", "680 g", 0.0, 1000.0, help="A weight off the scale: 680 g or 1 lb 8 oz.")
ANGLE = quantity("angle", "30 deg", -2 * math.pi, 2 * math.pi, help="An angle: 30 deg.")
TORQUE = quantity("torque", "30 kgf·cm", 0.0, 5000.0, help="A torque: 30 kgf·cm, 2.9 N·m.")
FORCE = quantity("force", "12 N", 0.0, 1e5, help="A force: 12 N, 1.2 kgf, 2.7 lbf.")
ROTATION = quantity(
    "rotation", "6 rpm", 0.0, 20000 * _RPM, open_low=True, help="A turning speed: 6 rpm."
)
SPEED = quantity("speed", "10 mm/s", 0.0, 10.0, open_low=True, help="A travel speed: 10 mm/s.")
POWER = quantity("power", "14 W", 0.0, 5000.0, help="Electrical power: 14 W.")
VOLTAGE = quantity("voltage", "12 V", 0.0, 1000.0, open_low=True, help="A voltage: 12 V.")
CURRENT = quantity("current", "1.2 A", 0.0, 1000.0, help="A current: 1.2 A or 300 mA.")
TEMPERATURE = quantity(
    "temperature", "37.5 C", -40.0, 150.0, help="A temperature: 37.5 C or 99.5 F."
)
DURATION = quantity(
    "time", "60 min", 0.0, 400 * 86400.0, name="duration", help="A time: 10 s, 60 min, 4 h."
)
FREQUENCY = quantity(
    "frequency", "50 Hz", 0.0, 1e6, open_low=True, help="Mains frequency: 50 Hz or 60 Hz."
)
STIFFNESS = quantity(
    "stiffness", "0.5 N/mm", 0.0, 1e7, open_low=True, help="Stiffness of a spring: 0.5 N/mm."
)
COUNT = quantity("count", "6", 1, 100000, help="How many; at least 1.")
COUNT_FROM_ZERO = quantity("count", "6", 0, 100000, name="count or none", help="How many.")
RATIO = quantity("ratio", "2.0", 0.0, 1e6, open_low=True, help="A bare number: 2.0.")
SHARE = quantity("ratio", "0.9", 0.0, 1.0, name="share", help="Between 0 and 1, or in percent.")


def positive_length(low: float = 0.0, high: float = 20.0, **more: Any) -> Phrase:
    """Return a length between two bounds [m]; ``example`` and ``help`` may follow."""
    return LENGTH.narrowed(low, high, open_low=low <= 0.0, **more)


def mass(low: float = 0.0, high: float = 1000.0, **more: Any) -> Phrase:
    """Return a mass between two bounds [kg]."""
    return MASS.narrowed(low, high, **more)


def angle(low_deg: float, high_deg: float, **more: Any) -> Phrase:
    """Return an angle between two bounds [deg]."""
    return ANGLE.narrowed(low_deg * _DEG, high_deg * _DEG, **more)


def temperature(low: float, high: float, **more: Any) -> Phrase:
    """Return a temperature between two bounds [degC]."""
    return TEMPERATURE.narrowed(low, high, **more)


def count(low: int = 1, high: int = 100000, **more: Any) -> Phrase:
    """Return a whole number between two bounds, ends included."""
    return COUNT.narrowed(low, high, **more)


def ratio(low: float = 0.0, high: float = 1e6, **more: Any) -> Phrase:
    """Return a bare number between two bounds, ends included where low is above zero."""
    return RATIO.narrowed(low, high, open_low=low <= 0.0, **more)


_THREE = re.compile(r" / |, | to ")
_THREE_TIGHT = re.compile(r"([\d.,]+)/([\d.,]+)/([\d.,]+ ?[^\d/]*)")


def read_range3(text: str, kind: str) -> Range3:
    """Read ``0.3``, ``0.15 to 0.45`` or ``0.15 / 0.3 / 0.45``.

    Where only the ends are given the middle is half-way between them.
    """
    tight = _THREE_TIGHT.fullmatch(text)
    parts = list(tight.groups()) if tight else [part for part in _THREE.split(text) if part]
    if len(parts) == 3:
        unit = _unit_at_end(parts[-1])
        low, middle, high = (
            units.parse(part if _unit_at_end(part) else f"{part} {unit}", kind) for part in parts
        )
        return Range3(low, middle, high)
    low, high = units.parse_range(text, kind)
    if not math.isfinite(high):
        message = f"{text} has no upper end. Write both, such as 0.15 to 0.45."
        raise UnitError(message, text=text)
    return Range3(low, (low + high) / 2.0, high)


_SLIDES = re.compile(
    r"(?:it )?(?:slides|slips|moves|starts to (?:slide|slip|move)) (?:at )?(.+)", re.I
)


def read_friction(text: str) -> Range3:
    """Read ``0.15 to 0.45``, or a slip angle such as ``slides at 17 deg``.

    A thing on a slope begins to slide where the coefficient is the tangent of the slope.
    """
    match = _SLIDES.fullmatch(text)
    angle_text = match.group(1) if match else text
    if match is None and not re.search(r"°|\bdeg", text, re.I):
        return read_range3(text, "ratio")
    slope = read_range3(angle_text, "angle")
    if not 0.0 <= slope.low <= slope.high <= math.radians(65.0):
        message = f"{text}: a slip angle lies between 0 and 65 degrees."
        raise UnitError(message, text=text, choices=("slides at 17 deg",))
    return Range3(math.tan(slope.low), math.tan(slope.middle), math.tan(slope.high))


def _unit_at_end(part: str) -> str:
    match = re.search(r"[^\d.,\s][^\d]*$", part)
    return match.group() if match else ""


def _write_range3(kind: str, value: Range3, system: str, digits: int) -> str:
    low, middle, high = (
        write_quantity(number, kind, system, digits)
        for number in (value.low, value.middle, value.high)
    )
    if value.low == value.high:
        return low
    if math.isclose(value.middle, (value.low + value.high) / 2.0, rel_tol=1e-9):
        return f"{low} to {high}"
    return f"{low} / {middle} / {high}"


@dataclass(frozen=True)
class RangePhrase(Phrase):
    """A phrase whose value is a `Range3`; the bounds hold for each of its figures."""

    def half_known(self, text: str) -> HalfKnown | None:
        """Return None: a range is read as what it is."""
        del text
        return None

    def _numbers(self, value: Any) -> tuple[float, ...]:
        return value.low, value.middle, value.high

    def _from_number(self, number: float) -> Range3:
        return Range3(number, number, number)

    def _shown(self, value: Any) -> str:
        return write_quantity(value, self.quantity or "ratio", "metric", 3)


def range3(
    kind: str,
    example: str,
    low: float,
    high: float,
    *,
    name: str,
    help: str = "",  # noqa: A002 - the word the command line uses
    open_low: bool = False,
    reader: Reader | None = None,
) -> Phrase:
    """Return the phrase of a low, middle and high figure; parameters as for `quantity`."""
    return RangePhrase(
        kind=name,
        reader=reader or (lambda text: read_range3(text, kind)),
        writer=lambda value, system, digits: _write_range3(kind, value, system, digits),
        example=example,
        help=help,
        quantity=kind,
        low=low,
        high=high,
        open_low=open_low,
        instances=(Range3,),
        bare=kind == "ratio",
    )


FRICTION = range3(
    "ratio",
    "0.15 to 0.45",
    0.0,
    2.0,
    name="friction",
    help="Friction coefficient: one figure, the range it may lie in, or slides at 17 deg.",
    reader=read_friction,
)
EFFICIENCY = range3(
    "ratio",
    "0.94 to 0.98",
    0.0,
    1.0,
    name="efficiency",
    open_low=True,
    help="Share of the work that gets through: 0.9, 90 %, or the range it may lie in.",
)
LENGTH_RANGE = range3(
    "length",
    "0.5 / 1 / 2 mm",
    0.0,
    1.0,
    name="length range",
    help="A length that is only known between bounds: 0.5 to 2 mm, or low / middle / high.",
)

_A_DAY = re.compile(rf"({units.NUMBER}) ?(?:x|×|times|turns)? ?(?:/|a|per|each|every) ?day", re.I)
_EVERY = re.compile(r"(?:1 turn |one turn |turn |once )?(?:every|each|an?|h(?= ?\d)) ?(.+)", re.I)
_DAY = 86400.0


def read_turns_per_day(text: str) -> float:
    """Read ``24``, ``24 a day`` or ``every 60 min`` as turns a day."""
    if match := _A_DAY.fullmatch(text):
        return units.parse(match.group(1), "ratio")
    if match := _EVERY.fullmatch(text):
        span = match.group(1)
        span = f"{span} h" if text.lower().startswith("h ") else span
        seconds = units.parse(span if re.search(r"\d", span) else f"1 {span}", "time")
        if seconds <= 0.0:
            message = f"{text}: the time between two turns has to be more than nothing."
            raise UnitError(message, text=text, choices=("every 60 min",))
        return _DAY / seconds
    if text.lower() == "hourly":
        return 24.0
    try:
        return units.parse(text, "ratio")
    except UnitError:
        message = f'"{text}": how many turns a day? Write 24, or every 60 min.'
        raise UnitError(message, text=text, choices=("24", "every 60 min")) from None


def _write_turns_per_day(value: float, system: str, digits: int) -> str:
    del system
    return units.plain(value, digits)


TURNS_PER_DAY = Phrase(
    kind="turns per day",
    reader=read_turns_per_day,
    writer=_write_turns_per_day,
    example="24",
    help="How often it turns; one turn is one move to the other side: 24, or every 60 min.",
    quantity="ratio",
    low=0.0,
    high=2000.0,
    open_low=True,
    bare=True,
)

Length = Annotated[float, LENGTH]
Gap = Annotated[float, GAP]
Mass = Annotated[float, MASS]
Angle = Annotated[float, ANGLE]
Torque = Annotated[float, TORQUE]
Force = Annotated[float, FORCE]
Rotation = Annotated[float, ROTATION]
Speed = Annotated[float, SPEED]
Power = Annotated[float, POWER]
Voltage = Annotated[float, VOLTAGE]
Current = Annotated[float, CURRENT]
Temperature = Annotated[float, TEMPERATURE]
Duration = Annotated[float, DURATION]
Frequency = Annotated[float, FREQUENCY]
Stiffness = Annotated[float, STIFFNESS]
Count = Annotated[int, COUNT]
CountFromZero = Annotated[int, COUNT_FROM_ZERO]
Ratio = Annotated[float, RATIO]
Share = Annotated[float, SHARE]
Friction = Annotated[Range3, FRICTION]
#: Of what turns or slides on what, as most sections ask for it.
FrictionField = Annotated[
    Friction | None,
    Field(description="Friction coefficient, low to high", examples=["0.15 to 0.45"]),
]
Efficiency = Annotated[Range3, EFFICIENCY]
TurnsPerDay = Annotated[float, TURNS_PER_DAY]
LengthRange = Annotated[Range3, LENGTH_RANGE]
