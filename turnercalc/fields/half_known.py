"""Half-known numbers: ``35 mm +/- 5 mm``, ``60 g ± 10 %``, ``16 mm +/- 2 mm below pivot``."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from turnercalc import units
from turnercalc.errors import UnitError
from turnercalc.units import NUMBER

_SIGN = re.compile(r" ?(?:±|\+ ?/ ?-|\+-|\bplus or minus\b|\bgive or take\b) ?", re.I)
_OPENING = re.compile(r"^(?:±|\+ ?/ ?-|\+-) ?")
_SHARE = re.compile(rf"({NUMBER}) ?%")
_LEADING = re.compile(rf"({NUMBER}) ?(.*)")
_NOT_OF_THE_UNIT = frozenset({"per", "a", "for", "from", "each", "apiece", "an"})


@dataclass(frozen=True)
class HalfKnown:
    """A number that is known only so far; every value in its range is as likely.

    Attributes
    ----------
    middle : float
        What everything is computed with [SI].
    spread : float
        How far it may be off, either way [SI].
    share : bool
        Whether the builder said the spread as a share of the middle.
    """

    middle: float
    spread: float
    share: bool = False

    @property
    def low(self) -> float:
        """The lowest it may be [SI]."""
        return self.middle - self.spread

    @property
    def high(self) -> float:
        """The highest it may be [SI]."""
        return self.middle + self.spread


@dataclass(frozen=True)
class Parts:
    """A half-known number, taken apart.

    Attributes
    ----------
    middle : str
        What is left without the spread, as the field reads it.
    spread : str
        How far it may be off, with its unit or in percent.
    size : float
        The spread [SI], or the share where it is said in percent.
    share : bool
        Whether it is.
    """

    middle: str
    spread: str
    size: float
    share: bool


def says_half_known(text: str) -> bool:
    """Tell whether a text holds a number and then a plus-or-minus."""
    return any(re.search(r"\d", text[: found.start()]) for found in _SIGN.finditer(text))


def both_sides(text: str) -> tuple[str, str]:
    """Return what stands before the plus-or-minus and what behind it."""
    sign = next(one for one in _SIGN.finditer(text) if re.search(r"\d", text[: one.start()]))
    return text[: sign.start()].strip(), text[sign.end() :].strip()


def take_apart(text: str, kind: str) -> Iterator[Parts]:
    """Yield the ways to take a half-known number apart, the longest spread first.

    Parameters
    ----------
    text : str
        Tidied. Words may stand behind the middle or behind the spread; one of the two may
        borrow the unit of the other.
    kind : str
        Kind of `turnercalc.units`.
    """
    head, tail = both_sides(text)
    words = tail.split()
    for count in range(len(words), 0, -1):
        spread, rest = " ".join(words[:count]), " ".join(words[count:])
        share = _SHARE.fullmatch(spread)
        if share is not None:
            size = units.parse(share.group(1), "ratio") / 100.0
            yield Parts(f"{head} {rest}".strip(), spread, size, share=True)
            continue
        found = _LEADING.fullmatch(spread)
        if found is None:
            continue
        unit, lent = found.group(2), unit_of(head, kind)
        whole = spread if unit or not lent else f"{spread} {lent}"
        try:
            size = _difference(whole, kind)
        except UnitError:
            continue
        middle = head if lent or not unit else f"{head} {unit}"
        yield Parts(f"{middle} {rest}".strip(), whole, size, share=False)


def _difference(text: str, kind: str) -> float:
    """Return a quantity as a difference: five degrees more are five, wherever nothing is."""
    if kind != "temperature":
        return units.parse(text, kind)
    unit = _LEADING.fullmatch(text)
    return units.parse(text, kind) - units.parse(f"0 {unit.group(2) if unit else ''}", kind)


def unit_of(text: str, kind: str) -> str:
    """Return the unit of the last number of a text, or empty where it stands bare."""
    inside = quantity_inside(text, kind)
    found = re.search(rf"{NUMBER} ?([^\d]*)$", inside)
    return found.group(1).strip() if found else ""


def quantity_inside(text: str, kind: str) -> str:
    """Return the quantity that a phrase holds: ``583 g`` of ``10 eggs = 583 g``.

    The longest run of words that is one; empty where there is none.
    """
    words, best = _OPENING.sub("", text).split(), ""
    for first, word in enumerate(words):
        if not word[0].isdigit() and word[0] not in ".,":
            continue
        for last in range(first + 1, len(words) + 1):
            run = words[first:last]
            if _NOT_OF_THE_UNIT & {one.lower() for one in run}:
                break
            one = " ".join(run)
            if len(one) > len(best) and _reads(one, kind):
                best = one
    return best


def _reads(text: str, kind: str) -> bool:
    try:
        units.parse(text, kind)
    except UnitError:
        return False
    return True


def told_for(middle: str, value: float, kind: str) -> float:
    """Return how much one unit of the quantity in a phrase is of the field's own value.

    ``10 eggs = 583 g`` tells a tenth of it, ``90 deg in all`` the half; 1 where it cannot be told.
    """
    inside = quantity_inside(middle, kind)
    told = units.parse(inside, kind) if inside else 0.0
    return abs(value / told) if told and value and kind != "temperature" else 1.0


_ENDS = re.compile(
    rf"(?P<low>{NUMBER}) ?(?P<unit>[a-z\"'%°µ]*) ?(?:to|-|\.\.|~) ?"
    rf"(?P<high>{NUMBER}) ?(?P<last>[a-z\"'%°µ]+)(?P<words> .*)?",
    re.I,
)


def between(text: str) -> str:
    """Return a range such as ``1.4 to 1.6 in`` as a half-known number: ``1.5 in +/- 0.1 in``.

    Words behind it stay; empty where the text is no range of two plain numbers.
    """
    match = _ENDS.fullmatch(text.strip())
    if match is None or match["unit"] not in ("", match["last"]):
        return ""
    low, high = (units.read_number(match[end]) for end in ("low", "high"))
    if high <= low:
        return ""
    unit = match["last"]
    middle, spread = (f"{value:.6g} {unit}" for value in (0.5 * (low + high), 0.5 * (high - low)))
    return f"{middle} +/- {spread}{match['words'] or ''}"
