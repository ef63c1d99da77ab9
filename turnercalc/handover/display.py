"""How a page is to look: units, letters, colour. The calculation knows none of it."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass

from turnercalc.handover.letters import ascii_only
from turnercalc.units import in_unit, inch_fraction, parse, plain, show

#: The direction axis of every result, in words.
DIRECTION_WORDS = ("anticlockwise", "clockwise")

# Symbols of a figure in a sentence, longest first, and the kind of each. A bare g is left alone:
# it is grams on one page and multiples of g0 on the next.
_KINDS = {
    "N·m": "torque",
    "mm/s": "speed",
    "N/mm": "stiffness",
    "mm": "length",
    "kg": "mass",
    "°C": "temperature",
    "N": "force",
}
# US listings use two units of each, and figures of one page are compared: the larger one serves
# for all of them.
_US_UNIT = {"torque": "lbf·in", "force": "lbf"}
#: Marks per inch, and what is told in thousandths instead: play, errors, gaps of a hair [m].
TAPES = (16, 32, 64)
THOUSANDTHS_BELOW = 0.125 * 0.0254
_INCH = 0.0254
_TAPE_NEAR = 0.2e-3  # m, half a mark of 1/64 in
_SYMBOLS = "|".join(re.escape(symbol) for symbol in _KINDS)
_NUMBER = r"-?\d+(?:\.\d+)?"
_QUANTITY = re.compile(rf"(?<![\w.\"=-])({_NUMBER}) ({_SYMBOLS})(?![\w·/²])")
_LISTED = re.compile(rf"({_NUMBER} N·m)([^()]*) \(([^(),]* kgf·cm), ([^(),]* ozf·in)\)")
_QUOTED = re.compile(r"""("[^"]*"|'[^']*')""")

Paint = Callable[[str, str], str]


def unpainted(text: str, answer: str) -> str:
    """Return text as it is."""
    del answer
    return text


@dataclass(frozen=True)
class Style:
    """How a page is to look.

    Attributes
    ----------
    system : str
        ``metric``, ``us`` or ``both``.
    plain : bool
        ASCII letters only.
    paint : callable
        (text, answer) -> the text coloured for that answer.
    """

    system: str = "metric"
    plain: bool = False
    paint: Paint = unpainted

    def words(self, text: str) -> str:
        """Return a sentence in the wanted units and letters; what stands in quote marks stays."""
        if self.system != "metric":
            parts = _QUOTED.split(text)
            text = "".join(
                part if index % 2 else _QUANTITY.sub(self._restated, part)
                for index, part in enumerate(parts)
            )
        return self.letters(text)

    def to_buy(self, text: str) -> str:
        """Return a shopping line; it holds its torque in all units of listings already."""
        if self.system != "us":
            return self.letters(text) if "kgf" in text else self.words(text)
        return self.words(_LISTED.sub(r"\1\2 (\4, \3)", text))

    def letters(self, text: str) -> str:
        """Return text in the wanted letters, its units as they are."""
        return ascii_only(text) if self.plain else text

    def show(self, value: float | None, kind: str, digits: int = 3) -> str:
        """Return a quantity [SI] in the wanted units; ``unknown`` where it is not known."""
        if value is None:
            return "unknown"
        if self.system == "us":
            return self.letters(in_us(value, kind, digits))
        return self.letters(show(value, kind, self.system, digits))

    def _restated(self, match: re.Match[str]) -> str:
        number, symbol = match.groups()
        kind = _KINDS[symbol]
        value = float(parse(match.group(), kind))
        digits = max(len(number.lstrip("-0.").replace(".", "")), 3)
        inches = in_us(value, kind, digits, 0.5 * 10.0 ** -len(number.partition(".")[2]) * 1e-3)
        if self.system == "us":
            return inches
        if kind == "length":
            return f"{show(value, kind, 'metric', digits)} ({inches})"
        return show(value, kind, self.system, digits)


def in_us(value: float, kind: str, digits: int = 3, near: float = 0.0) -> str:
    """Return a quantity [SI] in US units, of one kind always in the same one.

    Parameters
    ----------
    value : float
    kind : str
    digits : int
        Figures that count of what is no length.
    near : float
        How far a length may be off as it was told [m].
    """
    if kind in _US_UNIT and math.isfinite(value):
        return in_unit(value, _US_UNIT[kind], kind, digits)
    if kind == "length" and math.isfinite(value):
        return inches(value, near)
    return show(value, kind, "us", digits)


def inches(value: float, near: float = 0.0) -> str:
    """Return a length [m] as a tape shows it, and what no tape shows in thousandths.

    The coarsest marks that come near enough are taken; 1/64 in always does.
    """
    if abs(value) >= THOUSANDTHS_BELOW:
        for parts in TAPES:
            if abs(round(value / _INCH * parts) * _INCH / parts - value) <= max(near, _TAPE_NEAR):
                return inch_fraction(value, parts)
    return f"{plain(round(value / _INCH, 3), 4)} in"


@dataclass(frozen=True)
class Scale:
    """The unit of a whole table column or axis.

    Attributes
    ----------
    symbol : str
    per_si : float
        Figure shown = SI value times this.
    """

    symbol: str
    per_si: float

    def of(self, value: float) -> float:
        """Return the figure shown for an SI value."""
        return value * self.per_si


_METRIC = {
    "angle": Scale("°", 180.0 / math.pi),
    "torque": Scale("N·m", 1.0),
    "force": Scale("N", 1.0),
    "length": Scale("mm", 1e3),
    "rotation": Scale("rpm", 30.0 / math.pi),
    "swing": Scale("°/s", 180.0 / math.pi),
    "speed": Scale("mm/s", 1e3),
    "time": Scale("s", 1.0),
}
# lbf·in and lbf from the pound-force and the inch, both exact by definition.
_POUND_FORCE = 0.45359237 * 9.80665
_US = {
    "torque": Scale("lbf·in", 1.0 / (_POUND_FORCE * 0.0254)),
    "force": Scale("lbf", 1.0 / _POUND_FORCE),
    "length": Scale("in", 1.0 / 0.0254),
    "speed": Scale("in/s", 1.0 / 0.0254),
}


def scale_for(kind: str, system: str = "metric") -> Scale:
    """Return the unit of a table column or axis; tables in both systems are metric."""
    return _US.get(kind, _METRIC[kind]) if system == "us" else _METRIC[kind]


def decimals_for(largest: float, figures: int = 3, most: int = 4) -> int:
    """Return how many decimals show so many figures of the largest value of a column."""
    if not math.isfinite(largest) or largest <= 0.0:
        return 0
    return min(max(figures - 1 - math.floor(math.log10(largest)), 0), most)
