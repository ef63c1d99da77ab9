"""How a page is to look: units, letters, colour. The calculation knows none of it."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from turnercalc.handover.letters import ascii_only
from turnercalc.units import in_unit, parse, show

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
# Of these US listings use two units, and figures that stand beside each other are compared.
_COMPARED = ("torque", "force")
_SYMBOLS = "|".join(re.escape(symbol) for symbol in _KINDS)
_NUMBER = r"-?\d+(?:\.\d+)?"
_QUANTITY = re.compile(rf"(?<![\w.\"=-])({_NUMBER}) ({_SYMBOLS})(?![\w·/²])")
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
            units = self._units_of(parts[::2])
            text = "".join(
                part if index % 2 else _QUANTITY.sub(lambda m: self._restated(m, units), part)
                for index, part in enumerate(parts)
            )
        return self.letters(text)

    def _units_of(self, parts: Sequence[str]) -> Mapping[str, str]:
        """Return one unit for every kind of figure that is compared: that of the largest."""
        largest: dict[str, float] = {}
        for match in (match for part in parts for match in _QUANTITY.finditer(part)):
            kind = _KINDS[match.group(2)]
            if kind in _COMPARED and self.system == "us":
                value = abs(float(parse(match.group(), kind)))
                largest[kind] = max(value, largest.get(kind, 0.0))
        return {kind: show(value, kind, "us").split()[-1] for kind, value in largest.items()}

    def letters(self, text: str) -> str:
        """Return text in the wanted letters, its units as they are."""
        return ascii_only(text) if self.plain else text

    def show(self, value: float | None, kind: str, digits: int = 3) -> str:
        """Return a quantity [SI] in the wanted units; ``unknown`` where it is not known."""
        if value is None:
            return "unknown"
        return self.letters(show(value, kind, self.system, digits))

    def _restated(self, match: re.Match[str], units: Mapping[str, str]) -> str:
        number, symbol = match.groups()
        kind = _KINDS[symbol]
        digits = max(len(number.lstrip("-0.").replace(".", "")), 3)
        if kind in units:
            return in_unit(parse(match.group(), kind), units[kind], kind, digits)
        return show(parse(match.group(), kind), kind, self.system, digits)


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
