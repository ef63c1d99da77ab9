"""Places and angles in words: the side is said, never carried by a sign."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Annotated

from turnercalc import units
from turnercalc.errors import UnitError
from turnercalc.fields.phrases import Phrase, parse_part, write_quantity

_LEVEL = re.compile(
    r"(?:at|level with|in line with|on|straight (?:above|below|over|under)|at the height of) "
    r"(?:the )?(?:\w+ ){0,3}?(\w+)(?: height)?",
    re.I,
)


@dataclass(frozen=True)
class Sides:
    """The two words for the two sides of something.

    Attributes
    ----------
    positive, negative : str
        Our word for each side; also-words stand after them, separated by ``|``.
    reference : str
        Pattern of what the distance is measured from.
    named : str
        Our name for it.
    """

    positive: str
    negative: str
    reference: str
    named: str

    def read(self, text: str) -> float:
        """Return the signed distance [m] of a phrase such as ``16 mm below pivot``."""
        tidied = " ".join(text.split())
        pattern = (
            rf"(.*?),? ?(?:to |on )?(?:the )?(?:({self.positive})|({self.negative}))"
            r"(?: side)?(?: (?:of |from |to )?(.*))?"
        )
        match = re.fullmatch(pattern, tidied, re.I)
        if match is None:
            return self._without_side(tidied)
        distance = parse_part(match.group(1), "length", tidied)
        if distance < 0.0:
            raise self._ask(
                tidied, tidied.lstrip("-− "), "The words give the side: leave out the minus."
            )
        self._check_reference(tidied, match.group(1), match.group(4))
        return distance if match.group(2) else -distance

    def write(self, value: float, system: str, digits: int) -> str:
        """Return a signed distance [m] in words."""
        word = self._word(self.positive) if value >= 0.0 else self._word(self.negative)
        return f"{write_quantity(abs(value), 'length', system, digits)} {word} {self.named}"

    def _word(self, alternatives: str) -> str:
        return alternatives.split("|")[0]

    def _without_side(self, text: str) -> float:
        level = _LEVEL.fullmatch(text)
        if level is not None and re.fullmatch(self.reference, level.group(1), re.I):
            return 0.0
        distance = units.parse(text, "length")
        if distance == 0.0:
            return 0.0
        raise self._ask(
            text,
            text.lstrip("+-− "),
            f"On which side of the {self._plain_name()}?",
            likely_negative=distance < 0.0,
        )

    def _plain_name(self) -> str:
        return self.named.removeprefix("of ").removeprefix("the ")

    def _ask(
        self, text: str, distance: str, question: str, *, likely_negative: bool = False
    ) -> UnitError:
        bare = distance
        for word in f"{self.positive}|{self.negative}".split("|"):
            bare = re.split(rf" {word}\b", bare, maxsplit=1, flags=re.I)[0]
        choices = [
            f"{bare} {self._word(side)} {self.named}" for side in (self.negative, self.positive)
        ]
        if not likely_negative:
            choices.reverse()
        message = f'"{text}": {question} Write "{choices[0]}" or "{choices[1]}".'
        return UnitError(message, text=text, choices=tuple(choices))

    def _check_reference(self, text: str, distance: str, reference: str | None) -> None:
        if not reference:
            return
        words = re.sub(r"^(?:the|its|a|lowest|bottom|first) ", "", reference.strip(), flags=re.I)
        words = re.sub(r"^(?:the|its|a|lowest|bottom|first) ", "", words, flags=re.I)
        if not re.fullmatch(self.reference, words, re.I):
            choices = tuple(
                f"{distance} {self._word(side)} {self.named}"
                for side in (self.positive, self.negative)
            )
            message = (
                f'"{text}" measures from the {words}; here it is measured from the '
                f"{self._plain_name()}."
            )
            raise UnitError(message, text=text, choices=choices)


_UP, _DOWN = "above|over|higher than", "below|under|beneath|lower than"
_PIVOT = r"(?:(?:tray )?pivots?(?: axis| point| line| hole| bolt)?|(?:level )?contact(?: point)?)"
_FROM_PIVOT = Sides(_UP, _DOWN, _PIVOT, "pivot")
_ACROSS_PIVOT = Sides("right", "left", _PIVOT, "of pivot")
_FROM_BARS = Sides(
    _UP,
    _DOWN,
    r"(?:bars?(?:'s)?(?: middles?| cent(?:re|er)s?| axis| axes)?|middles? of (?:the )?bars?)",
    "the bar middles",
)
_FROM_AXLE = Sides(_UP, _DOWN, r"(?:drum )?(?:axle|axis|shaft)(?: middle| cent(?:re|er))?", "axle")
_ACROSS_AXLE = Sides("right", "left", r"(?:drum )?(?:axle|axis|shaft)(?: middle)?", "of axle")
_FROM_ARM_PIN = Sides(_UP, _DOWN, r"arm pins?", "arm pin")
_CONTACT = (
    r"(?:(?:level |floor )?contact(?: point)?|(?:lowest )?point of (?:the )?runners?"
    r"|runners?(?: bottoms?)?)"
)
_FROM_CONTACT = Sides(_UP, _DOWN, _CONTACT, "contact")
_ACROSS_CONTACT = Sides("right", "left", _CONTACT, "of contact")
_PIN = r"(?:grid(?:'s)? |driven |middle of (?:the )?(?:grid )?)?pin(?: middle)?"
_FROM_PIN = Sides(_UP, _DOWN, _PIN, "the pin")
_ACROSS_PIN = Sides("right", "left", _PIN, "of the pin")


def _place(kind: str, sides: Sides, example: str, help_text: str) -> Phrase:
    return Phrase(
        kind=kind,
        reader=sides.read,
        writer=sides.write,
        example=example,
        help=help_text,
        quantity="length",
        low=-10.0,
        high=10.0,
    )


HEIGHT_FROM_PIVOT = _place(
    "height from pivot",
    _FROM_PIVOT,
    "16 mm below pivot",
    "How far above or below the pivot: 16 mm below pivot.",
)
ACROSS_FROM_PIVOT = _place(
    "across from pivot",
    _ACROSS_PIVOT,
    "49.5 mm right of pivot",
    "How far left or right of the (lowest) pivot: 49.5 mm right of pivot.",
)
HEIGHT_FROM_BARS = _place(
    "height from bars",
    _FROM_BARS,
    "18 mm below the bar middles",
    "How far above or below the middles of the bars: 18 mm below the bar middles.",
)
HEIGHT_FROM_AXLE = _place(
    "height from axle", _FROM_AXLE, "40 mm below axle", "How far above or below the axle."
)
ACROSS_FROM_AXLE = _place(
    "across from axle", _ACROSS_AXLE, "60 mm right of axle", "How far left or right of the axle."
)
HEIGHT_FROM_CONTACT = _place(
    "height from contact",
    _FROM_CONTACT,
    "60 mm above contact",
    "How far above the lowest point of the level runners: 60 mm above contact.",
)
ACROSS_FROM_CONTACT = _place(
    "across from contact",
    _ACROSS_CONTACT,
    "150 mm right of contact",
    "How far left or right of the lowest point of the level runners: 150 mm right of contact.",
)
HEIGHT_FROM_PIN = _place(
    "height from pin",
    _FROM_PIN,
    "10 mm below the pin",
    "How far above or below the grid's pin: 10 mm below the pin.",
)
ACROSS_FROM_PIN = _place(
    "across from pin",
    _ACROSS_PIN,
    "200 mm right of the pin",
    "How far left or right of the grid's pin half way through its stroke: 200 mm right of the pin.",
)


@dataclass(frozen=True)
class Origin:
    """What the places of a turner and its drive are measured from.

    Attributes
    ----------
    words : str
        In a question: ``from the turner's lowest pivot``.
    one : str
        What bears it there, as in ``pushes at the pivot``.
    named : str
        Of all equal parts together, as in ``the pivots in the middle of the box``.
    height, across : Phrase
        How a height and a place across are said.
    """

    words: str
    one: str
    named: str
    height: Phrase
    across: Phrase


FROM_PIVOT = Origin(
    "the turner's lowest pivot", "pivot", "the pivots", HEIGHT_FROM_PIVOT, ACROSS_FROM_PIVOT
)
FROM_CONTACT = Origin(
    "the lowest point of the level runners",
    "contact",
    "the level contact",
    HEIGHT_FROM_CONTACT,
    ACROSS_FROM_CONTACT,
)
FROM_PIN = Origin(
    "the grid's pin half way through its stroke",
    "guides",
    "the grid",
    HEIGHT_FROM_PIN,
    ACROSS_FROM_PIN,
)
FROM_AXLE = Origin("the axle's middle", "axle", "the axle", HEIGHT_FROM_AXLE, ACROSS_FROM_AXLE)

_FLOOR = re.compile(
    r"(.*?)(?: (?:above|over|up from|from|off) (?:the )?(?:inside |inner )?"
    r"(?:box |cabinet |cooler )?(?:floor|bottom))?",
    re.I,
)


def _read_above_floor(text: str) -> float:
    tidied = " ".join(text.split())
    match = _FLOOR.fullmatch(tidied)
    distance = match.group(1) if match else tidied
    if re.search(r"\b(?:above|below|over|under|from|off)\b", distance, re.I):
        amount = re.split(r" (?:above|below|over|under|from|off)\b", distance, flags=re.I)[0]
        message = f'"{text}": here the height is measured from the box floor.'
        raise UnitError(message, text=text, choices=(f"{amount} above the box floor",))
    return parse_part(distance, "length", tidied)


HEIGHT_ABOVE_FLOOR = Phrase(
    kind="height above floor",
    reader=_read_above_floor,
    writer=lambda value, system, digits: (
        f"{write_quantity(value, 'length', system, digits)} above the box floor"
    ),
    example="300 mm above the box floor",
    help="How far above the floor inside the box: 300 mm above the box floor.",
    quantity="length",
    low=0.0,
    high=10.0,
)

_EACH_SIDE = re.compile(
    r"(.*?),? ?(?:(?:to |on )?(?:each|either|every) (?:side|way|direction)(?: of level)?"
    r"|(?:on |to )?both sides|both ways)",
    re.I,
)
_IN_ALL = re.compile(
    r"(.*?),? ?(?:in all|in total|total|altogether|all told|overall|end to end|side to side)", re.I
)
_PLUS_MINUS = re.compile(r"(?:±|\+ ?/ ?[-−]|\+[-−]) ?(.*)")


def read_each_side(text: str) -> float:
    """Read ``45 deg each side`` or ``90 deg in all``.

    Returns
    -------
    float
        Angle to each side of level [rad].

    Raises
    ------
    UnitError
        Where the text does not say which of the two it means.
    """
    tidied = " ".join(text.split())
    if match := _EACH_SIDE.fullmatch(tidied):
        return parse_part(_unsigned(match.group(1)), "angle", tidied)
    if match := _PLUS_MINUS.fullmatch(tidied):
        return parse_part(match.group(1), "angle", tidied)
    if match := _IN_ALL.fullmatch(tidied):
        return parse_part(match.group(1), "angle", tidied) / 2.0
    if re.search(r"\bleft\b", tidied, re.I) and re.search(r"\bright\b", tidied, re.I):
        message = f'"{text}": one tilt is wanted, the same to both sides.'
        raise UnitError(message, text=text, choices=("45 deg each side",))
    try:
        angle_deg = math.degrees(units.parse(tidied, "angle"))
    except UnitError as error:
        if not re.fullmatch(r"[\d.,]+", tidied):
            raise
        tidied, angle_deg = f"{tidied} deg", _number_or_raise(tidied, error)
    choices = (f"{tidied} each side", f"{tidied} in all")
    message = (
        f"Is that {angle_deg:.4g} degrees to each side of level, or {angle_deg:.4g} in all? "
        f'Write "{choices[0]}" or "{choices[1]}".'
    )
    raise UnitError(message, text=text, choices=choices)


def _unsigned(text: str) -> str:
    match = _PLUS_MINUS.fullmatch(text)
    return match.group(1) if match else text


def _number_or_raise(text: str, error: UnitError) -> float:
    try:
        return units.parse(text, "ratio")
    except UnitError:
        raise error from None


def _write_each_side(value: float, system: str, digits: int) -> str:
    return f"{write_quantity(value, 'angle', system, digits)} each side"


TILT_EACH_SIDE = Phrase(
    kind="tilt each side",
    reader=read_each_side,
    writer=_write_each_side,
    example="45 deg each side",
    help="How far it tilts to each side of level: 45 deg each side, or 90 deg in all.",
    quantity="angle",
    low=0.0,
    high=math.radians(89.0),
    open_low=True,
)
SWING_EACH_SIDE = Phrase(
    kind="swing each side",
    reader=read_each_side,
    writer=_write_each_side,
    example="90 deg each side",
    help="How far it swings to each side: 90 deg each side, or 180 deg in all.",
    quantity="angle",
    low=0.0,
    high=math.radians(180.0),
    open_low=True,
)

HeightFromPivot = Annotated[float, HEIGHT_FROM_PIVOT]
AcrossFromPivot = Annotated[float, ACROSS_FROM_PIVOT]
HeightFromBars = Annotated[float, HEIGHT_FROM_BARS]
HeightFromAxle = Annotated[float, HEIGHT_FROM_AXLE]
AcrossFromAxle = Annotated[float, ACROSS_FROM_AXLE]
HeightFromContact = Annotated[float, HEIGHT_FROM_CONTACT]
AcrossFromContact = Annotated[float, ACROSS_FROM_CONTACT]
HeightFromPin = Annotated[float, HEIGHT_FROM_PIN]
AcrossFromPin = Annotated[float, ACROSS_FROM_PIN]
HeightAboveFloor = Annotated[float, HEIGHT_ABOVE_FLOOR]
TiltEachSide = Annotated[float, TILT_EACH_SIDE]
SwingEachSide = Annotated[float, SWING_EACH_SIDE]
