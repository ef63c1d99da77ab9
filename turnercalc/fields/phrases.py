"""How one field of a design file is read, bounded, asked for and written back.

Every field type is ``Annotated[python type, Phrase]``. The phrase carries all that a question
mode, a ``--set`` help or a complaint needs; `turnercalc.fields.field_info` fetches it from a
model. Field types are made by narrowing a phrase::

    pitch: Annotated[float, positive_length(0.02, 1.0, example="130 mm", help="pivot to pivot")]

A value that reaches a model as text is read by the phrase. A bare number has no unit and is
refused, except where the phrase is a count or a ratio, or where the caller says that the numbers
are SI: ``Model.model_validate(data, context={"si": True})``.
"""

from __future__ import annotations

import datetime
import math
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from pydantic import GetCoreSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from turnercalc import units
from turnercalc.errors import UnitError
from turnercalc.fields.half_known import (
    HalfKnown,
    Parts,
    between,
    both_sides,
    says_half_known,
    take_apart,
    told_for,
)

Reader = Callable[[str], Any]
Writer = Callable[[Any, str, int], str]


def needs_builder(message: str, *accepted: str) -> PydanticCustomError:
    """Return the error that reaches the builder as a complaint.

    Parameters
    ----------
    message : str
        What is wrong, in one or two sentences.
    *accepted : str
        Texts that the field would accept.
    """
    # pydantic would fill braces in what was read as if they were its own places to fill
    message = message.replace("{", "(").replace("}", ")")
    return PydanticCustomError(
        "needs_builder", "{message}", {"message": message, "accepted": accepted}
    )


def parse_part(part: str, kind: str, whole: str) -> float:
    """Read the quantity inside a longer phrase, so that what is offered is the whole phrase.

    Parameters
    ----------
    part, kind : str
        As for `turnercalc.units.parse`.
    whole : str
        The phrase that holds the part.
    """
    try:
        return units.parse(part, kind)
    except UnitError as error:
        choices = tuple(whole.replace(part, choice, 1) for choice in error.choices if part)
        raise UnitError(str(error), text=whole, choices=choices) from None


@dataclass(frozen=True)
class Phrase:
    """What a builder may write in one field.

    Attributes
    ----------
    kind : str
        Name of the field type, such as ``height from pivot``; unique among `PHRASES`.
    reader : callable
        From the text to the value; raises `UnitError`.
    writer : callable
        From value, unit system and digits back to a text that the reader takes.
    example : str
        A text that would be accepted.
    help : str
        What is wanted, as a question mode would ask it.
    quantity : str or None
        Kind of `turnercalc.units` where the value is one number in SI.
    low, high : float
        The value lies between them, ends included [SI].
    open_low : bool
        True where ``low`` itself is already too small.
    choices : tuple of str
        The words that are accepted, where there are only so many.
    instances : tuple of type
        A value that already is one of these is taken as it stands.
    bare : bool
        True where a number without a unit is what is wanted.
    whole : bool
        True where it has to be a whole number.
    """

    kind: str
    reader: Reader
    writer: Writer
    example: str
    help: str = ""
    quantity: str | None = None
    low: float = -math.inf
    high: float = math.inf
    open_low: bool = False
    choices: tuple[str, ...] = ()
    instances: tuple[type, ...] = ()
    bare: bool = False
    whole: bool = False

    def narrowed(
        self,
        low: float | None = None,
        high: float | None = None,
        *,
        open_low: bool | None = None,
        example: str | None = None,
        help: str | None = None,  # noqa: A002 - the word the command line uses
    ) -> Phrase:
        """Return this phrase with other bounds [SI], another example or another question."""
        return replace(
            self,
            low=self.low if low is None else low,
            high=self.high if high is None else high,
            open_low=self.open_low if open_low is None else open_low,
            example=self.example if example is None else example,
            help=self.help if help is None else help,
        )

    def read(self, given: object, *, si: bool = False) -> Any:
        """Return the value of what stands in the file.

        Parameters
        ----------
        given : object
            Usually text; also a bare number, or a value of this type.
        si : bool
            True where a bare number is meant in SI.

        Raises
        ------
        PydanticCustomError
            Of type ``needs_builder``, with the accepted texts in its context.
        """
        if self.instances and isinstance(given, self.instances):
            return given
        if isinstance(given, bool) or given is None:
            raise self._unreadable(given)
        if isinstance(given, (int, float)):
            value = self._bare_number(given, si=si)
        elif isinstance(given, datetime.time):
            value = self._text(given.isoformat())
        elif isinstance(given, str):
            value = self._text(given)
        else:
            raise self._unreadable(given)
        return int(value) if self.whole else value

    def write(self, value: Any, system: str = "metric", digits: int = 6) -> str:
        """Return a value as text that `read` takes."""
        return self.writer(value, system, digits)

    def half_known(self, text: str) -> HalfKnown | None:
        """Return a half-known number such as ``35 mm +/- 5 mm``; None where the text is none.

        Both its ends lie within the bounds; the spread may be told in percent of the middle.

        Raises
        ------
        PydanticCustomError
            It is half known, but cannot be read or cannot be so.
        """
        try:
            tidied = units.tidy(text)
        except UnitError:
            return None  # too long for one quantity: the reader says so
        if self.quantity is None or not says_half_known(tidied):
            return None
        if self.whole:
            message = f"{text}: what is counted is known exactly. Write one whole number."
            raise needs_builder(message, both_sides(tidied)[0])
        found = self._taken_apart(tidied)
        if found is None:
            raise self._not_half_known(tidied)
        parts, middle = found
        self._check(middle, parts.middle)
        return self._ends_checked(tidied, middle, parts)

    def _taken_apart(self, text: str) -> tuple[Parts, float] | None:
        """Return a half-known number taken apart, and its middle; None where nothing reads so."""
        for parts in take_apart(text, self.quantity or ""):
            try:
                return parts, float(self.reader(parts.middle))
            except UnitError:
                continue
        return None

    def _not_half_known(self, text: str) -> PydanticCustomError:
        """Return why neither middle nor spread can be read."""
        middle, spread = both_sides(text)
        example = self.fitting_example()
        try:
            self.reader(middle)
            if spread:
                units.parse(spread, self.quantity or "")
        except UnitError as error:
            offered = (f"{choice} +/- {spread}" for choice in error.choices)
            choices = tuple(one for one in offered if self._taken_apart(one) is not None)
            return needs_builder(str(error), *(choices or (f"{example} +/- 5 %",)))
        message = f"{text}: how far is it off? Write it like {example} +/- 5 %."
        return needs_builder(message, f"{example} +/- 5 %")

    def _ends_checked(self, text: str, middle: float, parts: Parts) -> HalfKnown:
        """Return a half-known number whose both ends could be right here."""
        scale = abs(middle) if parts.share else told_for(parts.middle, middle, self.quantity or "")
        found = HalfKnown(middle, scale * parts.size, parts.share)
        for end in (found.low, found.high):
            if self.fits(end):
                continue
            word = "at most" if end > self.high else "more than" if self.open_low else "at least"
            bound = self._shown(self.high if end > self.high else self.low)
            message = (
                f"{text} could be {self._shown(end)}, and it has to be {word} {bound}. "
                "How far can it really be off?"
            )
            narrower = f"{parts.middle} +/- 5 %"
            fits = all(self.fits(middle * share) for share in (0.95, 1.05))
            raise needs_builder(message, narrower if fits else parts.middle)
        return found

    def _text(self, text: str) -> Any:
        known = self.half_known(text)
        if known is not None:
            return known.middle
        try:
            value = self.reader(units.tidy(text))
        except UnitError as error:
            raise (self._range(text) or self._refused(error)) from None
        self._check(value, text)
        return value

    def _range(self, text: str) -> PydanticCustomError | None:
        """Offer the middle of a range, half known, where one figure is wanted."""
        try:
            middle = between(units.tidy(text)) if self.quantity and not self.whole else ""
        except UnitError:
            return None  # too long for one quantity
        if not middle or not self._would_take(middle):
            return None
        return needs_builder(f"{text} is a range, and one figure is wanted here.", middle)

    def _refused(self, error: UnitError) -> PydanticCustomError:
        """Pass on why a text was refused; of several readings only those that could be right."""
        choices = error.choices or (self.fitting_example(),)
        fitting = tuple(choice for choice in choices if self._would_take(choice))
        message = str(error)
        if fitting and len(fitting) < len(error.choices) and " what? " in message:
            asked = " or ".join(fitting)
            message = f"{message.split(' what? ')[0]} what? To be right here: {asked}."
        return needs_builder(message, *(fitting or (self.fitting_example(),)))

    def _would_take(self, text: str) -> bool:
        try:
            value = self._half_known_or_not(text)
        except (UnitError, PydanticCustomError):
            return False
        return all(self.fits(number) for number in self._numbers(value))

    def _half_known_or_not(self, text: str) -> Any:
        known = self.half_known(text)
        return self.reader(text) if known is None else known.middle

    def _numbers(self, value: Any) -> tuple[float, ...]:
        """Return the numbers [SI] for which the bounds hold."""
        return (value,) if self.quantity and isinstance(value, (int, float)) else ()

    def _bare_number(self, number: float, *, si: bool) -> Any:
        if not math.isfinite(number):
            raise self._unreadable(number)
        if not ((si and self.quantity) or self.bare):
            return self._text(f"{number:.15g}")
        if self.whole and number != round(number):
            message = f"{number:g} is not a whole number, and only whole ones count here."
            raise needs_builder(message, f"{round(number)}")
        value = self._from_number(float(number))
        self._check(value, "")
        return value

    def _from_number(self, number: float) -> Any:
        return number

    def _unreadable(self, given: object) -> PydanticCustomError:
        message = f"{given!r} cannot be read here. Write it like {self.example}."
        return needs_builder(message, self.example)

    def _check(self, value: Any, text: str) -> None:
        """Refuse a value outside the bounds; ``text`` is what was read, for a better question."""
        for number in self._numbers(value):
            if number > self.high:
                raise self._out_of_bounds(number, "at most", text)
            if not self.fits(number):
                raise self._out_of_bounds(
                    number, "more than" if self.open_low else "at least", text
                )

    def fits(self, value: float) -> bool:
        """Tell whether a number [SI] lies within the bounds."""
        above = value > self.low if self.open_low else value >= self.low
        return above and value <= self.high

    def fitting_example(self) -> str:
        """Return the example, or where the bounds leave it out, the nearer bound as text."""
        if self.quantity is None or self.instances or self.fits(self.reader(self.example)):
            return self.example
        return self._shown(min(max(self.reader(self.example), self.low), self.high))

    def _out_of_bounds(self, value: float, word: str, text: str) -> PydanticCustomError:
        bound = self.high if word == "at most" else self.low
        if self.low == -self.high:  # a place: the words carry the side
            word, bound = "at most", math.copysign(self.high, value)
        others = self._nearest_fitting(text)
        asked = f"Did you mean {' or '.join(others)}?" if others else ""
        advice = asked or f"Write it like {self.fitting_example()}."
        message = (
            f"{self._shown(value)} cannot be right here: it has to be {word} "
            f"{self._shown(bound)}. {advice}"
        )
        return needs_builder(message, *(others or (self.fitting_example(),)))

    def _shown(self, value: float) -> str:
        return self.write(value, "metric", 3)

    def _nearest_fitting(self, text: str) -> tuple[str, ...]:
        """Return what the builder may have meant: the same number in a unit in which it fits.

        A tray "18 mm" wide is probably 18 in, one "4570 mm" wide 457 mm.
        """
        if self.quantity not in ("length", "mass"):
            return ()
        match = re.fullmatch(r"(\d+(?:\.\d+)?) ?([a-z]+)", text.strip(), re.I)
        if match is None:
            return ()
        number, unit = match.groups()
        likely = units.likely_units(number, self.quantity, self.low, self.high)
        texts = [
            f"{number} {symbol}" for symbol in likely if self._would_take(f"{number} {symbol}")
        ]
        if not texts:
            tenth, tenfold = (float(number) * factor for factor in (0.1, 10.0))
            slipped = (f"{units.plain(amount, 6)} {unit}" for amount in (tenth, tenfold))
            texts = [slip for slip in slipped if self.fits(units.parse(slip, self.quantity))]
        return tuple(texts[:3])

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Let pydantic read the field through this phrase."""
        del source, handler

        def validate(given: object, info: core_schema.ValidationInfo) -> Any:
            context = info.context if isinstance(info.context, dict) else {}
            return self.read(given, si=bool(context.get("si")))

        return core_schema.with_info_plain_validator_function(validate)


def quantity(
    kind: str,
    example: str,
    low: float = 0.0,
    high: float = math.inf,
    *,
    name: str = "",
    help: str = "",  # noqa: A002 - the word the command line uses
    open_low: bool = False,
) -> Phrase:
    """Return the phrase of a plain quantity: a number and a unit.

    Parameters
    ----------
    kind : str
        Kind of `turnercalc.units`.
    example, help, low, high, open_low
        As in `Phrase`.
    name : str
        Name of the field type; that of the kind where it is left out.
    """
    return Phrase(
        kind=name or kind,
        reader=lambda text: units.parse(text, kind),
        writer=lambda value, system, digits: write_quantity(value, kind, system, digits),
        example=example,
        help=help,
        quantity=kind,
        low=low,
        high=high,
        open_low=open_low,
        bare=kind in ("count", "ratio"),
        whole=kind == "count",
    )


def write_quantity(value: float, kind: str, system: str = "metric", digits: int = 6) -> str:
    """Return one quantity as it would be written in a file; in ASCII, easily typed."""
    text = units.show(value, kind, system, digits)
    if kind == "angle":
        text = text.replace("°", " deg")
    return text.replace(" °C", " C").replace(" °F", " F")
