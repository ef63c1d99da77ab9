"""The walls of a box: how much of them there is, and how much heat they let through."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from turnercalc import units
from turnercalc.errors import UnitError, UnknownNameError
from turnercalc.fields.phrases import Phrase, parse_part
from turnercalc.tables import table

_FOOT = 0.3048  # m, exact
_AREAS = {
    "m2": 1.0,
    "sqm": 1.0,
    "cm2": 1e-4,
    "sqcm": 1e-4,
    "ft2": _FOOT**2,
    "sqft": _FOOT**2,
    "in2": (_FOOT / 12.0) ** 2,
    "sqin": (_FOOT / 12.0) ** 2,
}
_AREA = re.compile(r"(?P<number>[\d.,]+) ?(?P<unit>[a-z².^ ]+2?)", re.I)
_LAYER = re.compile(
    r"(?P<size>[\d.,/ ]+(?:mm|cm|m|in|inch|inches|\"))\s*(?:of )?(?P<what>.+)", re.I
)
_DIRECT = re.compile(r"(?P<number>[\d.,]+) ?w ?/ ?\(?m(?:2|²|\^2) ?(?:/|·|\.|\*)? ?k\)?", re.I)


def read_area(text: str) -> float:
    """Read ``1.9 m2``, ``20 sq ft`` as an area [m2]."""
    match = _AREA.fullmatch(text.strip())
    unit = "" if match is None else _unit_key(match["unit"])
    if match is None or unit not in _AREAS:
        message = f'"{text}": how many square metres? All six walls together.'
        raise UnitError(message, text=text, choices=("1.9 m2", "20 sq ft"))
    return parse_part(match["number"], "ratio", text) * _AREAS[unit]


def _unit_key(text: str) -> str:
    key = re.sub(r"[\s.^]", "", text.lower()).replace("²", "2")
    for word, short in (("square", "sq"), ("metres", "m"), ("meters", "m"), ("feet", "ft")):
        key = key.replace(word, short)
    return key


def _write_area(value: float, system: str, digits: int) -> str:
    if system == "us":
        return f"{units.plain(value / _FOOT**2, digits)} sq ft"
    return f"{units.plain(value, digits)} m2"


@dataclass(frozen=True)
class AreaPhrase(Phrase):
    """A phrase whose value is an area [m2]."""

    def _numbers(self, value: Any) -> tuple[float, ...]:
        return (float(value),)

    def _bare_number(self, number: float, *, si: bool) -> Any:
        if not si:
            return super()._bare_number(number, si=si)
        self._check(float(number), "")
        return float(number)

    def _shown(self, value: Any) -> str:
        return f"{value:g} m2"


AREA = AreaPhrase(
    kind="area",
    reader=read_area,
    writer=_write_area,
    example="1.9 m2",
    help="All walls, floor and lid together: 1.9 m2 or 20 sq ft.",
    low=0.01,
    high=200.0,
)


@dataclass(frozen=True)
class Wall:
    """What a square metre of wall lets through.

    Attributes
    ----------
    transmittance : float
        [W/(m2·K)]
    text : str
        As the builder said it.
    """

    transmittance: float
    text: str


def read_wall(text: str) -> Wall:
    """Read ``30 mm foam board``, layers joined by ``+``, or ``1.1 W/m2K``."""
    match = _DIRECT.fullmatch(text.strip())
    if match is not None:
        return Wall(parse_part(match["number"], "ratio", text), text)
    from turnercalc.mechanics.thermal import transmittance  # numpy, only where a wall is given

    layers = [_layer(part.strip(), text) for part in re.split(r"\s*\+\s*|\s+and\s+", text)]
    thickness, conductivity = zip(*layers, strict=True)
    return Wall(float(transmittance(thickness, conductivity)), text)


def _layer(part: str, whole: str) -> tuple[float, float]:
    """Return thickness [m] and conductivity [W/(m·K)] of one layer."""
    match = _LAYER.fullmatch(part)
    if match is None:
        message = f'"{whole}": how thick, and of what?'
        raise UnitError(message, text=whole, choices=("30 mm foam board", "1.1 W/m2K"))
    thickness = parse_part(match["size"].strip(), "length", whole)
    try:
        row = table("insulation").row(match["what"].strip())
    except UnknownNameError:
        names = ", ".join(row.text("name") for row in table("insulation").rows)
        message = f'"{match["what"]}" is no wall material known here: {names}.'
        size = match["size"].strip()
        choices = (f"{size} foam board", "1.1 W/m2K")
        raise UnitError(message, text=whole, choices=choices) from None
    return thickness, row.si("conductivity")


def _write_wall(value: Any, system: str, digits: int) -> str:
    del system, digits
    return str(value.text)


@dataclass(frozen=True)
class WallPhrase(Phrase):
    """A phrase whose value is a `Wall`; the bounds hold for its transmittance [W/(m2·K)]."""

    def _numbers(self, value: Any) -> tuple[float, ...]:
        return (value.transmittance,)

    def _from_number(self, number: float) -> Wall:
        return Wall(number, f"{number:g} W/m2K")

    def _shown(self, value: Any) -> str:
        return f"{value:g} W/m2K"


WALL = WallPhrase(
    kind="wall",
    reader=read_wall,
    writer=_write_wall,
    example="30 mm foam board",
    help="What the walls are made of, inside to outside: 6 mm plywood + 30 mm foam board.",
    low=0.05,
    high=10.0,
    instances=(Wall,),
)
