"""What can come out otherwise than meant: one line for each thing, with how far and why.

Four kinds, by how they are drawn:

length   lengths that decide the ends: exact arrays, a value for every build
play     loose fit of the drive's pins: taken up anew at each end of every build
egg      the breadth of the egg that is looked at, where that decides how far it turns
other    masses, places, friction, half-known numbers: a value for every block of builds
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from pydantic_core import PydanticCustomError

from turnercalc import units
from turnercalc.advice.ranges import info_of
from turnercalc.building import Built
from turnercalc.design import Design
from turnercalc.errors import UnitError, UnknownNameError
from turnercalc.swing import lengths
from turnercalc.tables import Range3, table

Array = NDArray[np.float64]

#: What is told as a spread covers 95 of 100: two standard deviations of a bell curve.
SPREAD = 1.959964
#: Stand in the place of a field path for the masses of single eggs, and for the size of one.
EGGS, EGG_SIZE = "eggs", "egg size"
#: Of these nothing is drawn unless it is half known: where the motor stands, what the eggs are.
_LET_BE = ("eggs.", "box.", "motor.", "loads.", "turning.")
#: A range of the eggs that is drawn all the same: which of them is heavy on one side, and how far.
_OF_THE_EGGS = ("eggs.off_centre",)
_PLACES = ("height from", "across from")


@dataclass(frozen=True)
class Source:
    """One thing that can come out otherwise than meant.

    Attributes
    ----------
    field : str
        Field path, with a word behind it for a part of one; ``eggs`` for the masses of single
        eggs, ``egg size`` for the breadth of the one that is looked at.
    kind : str
        ``length``, ``play``, ``egg`` or ``other``.
    shape : str
        ``bell`` or ``even``.
    middle, spread : float
        The value meant, and how far it comes out: for a bell 95 of 100 builds lie within, for
        even chances all do [SI].
    why : str
        Where the spread comes from.
    quantity : str
        Kind of `turnercalc.units` of middle and spread; empty where it is none.
    marked : bool
        Whether it is an error of marking, which more care makes less.
    half_known : bool
        Whether the builder says so.
    of : str
        Field path, where `field` is not one.
    part : str
        Attribute of the field's value that is drawn; empty for the value itself.
    unit : str
        What is counted, where `quantity` is empty.
    """

    field: str
    kind: str
    shape: str
    middle: float
    spread: float
    why: str
    quantity: str = ""
    marked: bool = False
    half_known: bool = False
    of: str = ""
    part: str = ""
    unit: str = ""

    @property
    def path(self) -> str:
        """Path of the field that is drawn."""
        return self.of or self.field

    @property
    def deviation(self) -> float:
        """Standard deviation [SI]."""
        return self.spread / SPREAD if self.shape == "bell" else self.spread / np.sqrt(3.0)

    def draw(self, unit: Array) -> Array:
        """Return values for numbers drawn evenly between 0 and 1."""
        if self.shape == "even":
            return np.asarray(self.middle + self.spread * (2.0 * unit - 1.0))
        return np.asarray(self.middle + self.deviation * normal(unit))

    def scaled(self, by: float) -> Source:
        """Return the same with another spread."""
        return replace(self, spread=self.spread * by)


_A = (
    -3.969683028665376e01,
    2.209460984245205e02,
    -2.759285104469687e02,
    1.383577518672690e02,
    -3.066479806614716e01,
    2.506628277459239e00,
)
_B = (
    -5.447609879822406e01,
    1.615858368580409e02,
    -1.556989798598866e02,
    6.680131188771972e01,
    -1.328068155288572e01,
    1.0,
)
_C = (
    -7.784894002430293e-03,
    -3.223964580411365e-01,
    -2.400758277161838e00,
    -2.549732539343734e00,
    4.374664141464968e00,
    2.938163982698783e00,
)
_D = (
    7.784695709041462e-03,
    3.224671290700398e-01,
    2.445134137142996e00,
    3.754408661907416e00,
    1.0,
)


def normal(unit: Array) -> Array:
    """Return standard normal numbers from even ones between 0 and 1.

    P. J. Acklam's rational approximation, relative error below 1.2e-9 (from memory; the tests
    compare it with scipy).
    """
    p = np.clip(np.asarray(unit, float), 1e-16, 1.0 - 1e-16)
    middle = p - 0.5
    r = middle * middle
    inner = middle * np.polyval(_A, r) / np.polyval(_B, r)
    tail = np.sqrt(-2.0 * np.log(np.minimum(p, 1.0 - p)))
    outer = -np.sign(middle) * np.polyval(_C, tail) / np.polyval(_D, tail)
    return np.asarray(np.where(np.minimum(p, 1.0 - p) < 0.02425, outer, inner))


def spread_of(name: str) -> tuple[float, str]:
    """Return a usual spread [SI, or a share] and why."""
    row = table("build_errors").row(name)
    kind = "ratio" if "%" in row.text("text") else "length"
    if kind == "ratio":
        return 0.01 * float(row.text("text").replace("%", "")), row.text("reason")
    return units.parse(row.text("text"), kind), row.text("reason")


def half_known_of(
    design: Design, told: Mapping[str, tuple[float, float]]
) -> dict[str, tuple[float, float]]:
    """Return lowest and highest of every half-known number: of the file, and told besides."""
    found = {path: (known.low, known.high) for path, known in design.half_known.items()}
    return {**found, **told}


def sources(
    design: Design,
    built: Built,
    half_known: Mapping[str, tuple[float, float]],
    marking: float | None = None,
) -> tuple[Source, ...]:
    """Return everything that can come out otherwise, half-known numbers in place of the usual.

    Parameters
    ----------
    design, built
        As meant.
    half_known : mapping
        Field path -> lowest and highest value it may have [SI], every value as likely.
    marking : float, optional
        Error of every marked length, 95 of 100 within it [m]; the usual one by default.
    """
    found = {source.field: source for source in _usual(design, built, marking)}
    deciding = lengths(built.turner, built.drive)
    for path, (low, high) in half_known.items():
        if path not in design.values():
            info_of(design, path)  # names the nearest
        kind = "length" if path in deciding else "other"
        middle, spread = 0.5 * (low + high), 0.5 * (high - low)
        found[path] = Source(
            path,
            kind,
            "even",
            middle,
            spread,
            "half known, as you say",
            _quantity(design, path) or "",
            half_known=True,
        )
    return tuple(found.values())


def _usual(design: Design, built: Built, marking: float | None) -> Iterator[Source]:
    usual, why = spread_of("marking")
    usual = usual if marking is None else marking
    deciding = lengths(built.turner, built.drive)
    for path, value in deciding.items():
        if _quantity(design, path) == "length":
            yield Source(path, "length", "bell", value, usual, why, "length", marked=True)
    if built.drive.play and built.drive.play_like in deciding:
        half = 0.5 * built.drive.play
        where = "its pins lie anywhere in their play at either end"
        yield Source(built.drive.play_field, "play", "even", 0.0, half, where, "length")
    given = {path for path, origin in design.origin.items() if origin.how in ("given", "set")}
    for path, value in design.values().items():
        if path in deciding or (path.startswith(_LET_BE) and path not in _OF_THE_EGGS):
            continue
        if isinstance(value, Range3):
            quantity = _quantity(design, path)
            half = 0.5 * (value.high - value.low)
            if quantity in ("ratio", "length") and half > 0.0:
                why = "anywhere in its range"
                yield Source(path, "other", "even", value.low + half, half, why, quantity)
        elif isinstance(value, float) and path in given | set(design.origin):
            yield from _measured(design, path, value, usual, given=path in given)
    yield from _made(design, built, usual)
    eggs = built.ingredients.lot
    spread = 0.5 * (eggs.largest.mass - eggs.smallest.mass) / eggs.typical.mass
    yield Source(EGGS, "other", "bell", 1.0, spread, "single eggs, smallest to largest")
    if hasattr(built.turner, "egg_turn_of"):
        half = 0.5 * (eggs.largest.breadth - eggs.smallest.breadth)
        why = "one egg is looked at in every build, smallest to largest"
        yield Source(EGG_SIZE, "egg", "bell", eggs.typical.breadth, half, why, "length")


def _made(design: Design, built: Built, marking: float) -> Iterator[Source]:
    """Yield what the turner names as made or measured, beside the lengths of its path."""
    values = design.values()
    for one in getattr(built.turner, "measured", ()):
        value = values.get(one.field)
        if value is None:
            continue
        middle = float(getattr(value, one.part) if one.part else value)
        spread, why = spread_of(one.error)
        marked = one.error == "marking"
        yield Source(
            f"{one.field} {one.word}".strip(),
            "other",
            "bell",
            middle,
            one.per * (marking if marked else spread),
            why,
            "" if one.unit else "mass" if one.error == "weighed" else "length",
            marked=marked,
            of=one.field,
            part=one.part,
            unit=one.unit,
        )


def _measured(
    design: Design, path: str, value: float, marking: float, *, given: bool
) -> Iterator[Source]:
    """Yield the error of a place that was measured, or of a weight."""
    info = info_of(design, path)
    if info.phrase.quantity == "mass" and value > 0.0:
        share, why = spread_of("weighed" if given else "weight_guessed")
        yield Source(path, "other", "bell", value, share * value, why, "mass")
    elif info.kind.startswith(_PLACES) and given:
        why = spread_of("marking")[1]
        yield Source(path, "other", "bell", value, marking, why, "length", marked=True)


def _quantity(design: Design, path: str) -> str | None:
    try:
        return info_of(design, path).phrase.quantity
    except UnknownNameError:
        return None


def read_half_known(design: Design, text: str) -> tuple[str, tuple[float, float]]:
    """Read ``FIELD=35 mm +/- 5 mm`` or ``FIELD=30..40 mm``: field path, and low and high [SI].

    Raises
    ------
    UnitError, UnknownNameError
        With what would be accepted.
    """
    path, equals, rest = (part.strip() for part in text.partition("="))
    info = info_of(design, path)
    if not equals or info.phrase.quantity is None:
        raise UnitError(
            f'{text!r} says no number. Write it like   crank.radius="35 mm +/- 5 mm"', text=text
        )
    said = rest.strip("\"'")
    try:
        known = info.phrase.half_known(said)
    except PydanticCustomError as error:
        context = error.context or {}
        message = str(context.get("message", error.message()))
        raise UnitError(message, text=text, choices=tuple(context.get("accepted", ()))) from None
    if known is not None:
        return path, (known.low, known.high)
    low, high = units.parse_range(said, info.phrase.quantity)
    if not (info.phrase.fits(low) and info.phrase.fits(high)):
        raise UnitError(f"{path} cannot be {said}: part of that is outside what it may be.")
    return path, (low, high)
