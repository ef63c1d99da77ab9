"""What is refused in a field, with which question."""

import math
import re

import pytest
from pydantic_core import PydanticCustomError

from turnercalc.fields import (
    PHRASES,
    positive_length,
)

REFUSED = [
    ("length", "50", "50 what?", ("50 mm", "50 cm", "50 in")),
    ("length", 50, "50 what?", ("50 mm", "50 cm", "50 in")),
    ("length", "-3 mm", "more than 0 mm", ("50 mm",)),
    ("length", "0 mm", "more than 0 mm", ("50 mm",)),
    ("length", "30 m", "at most 20 m", ("30 mm", "30 cm", "30 in")),
    ("length", True, "cannot be read", ("50 mm",)),
    ("length", [1], "cannot be read", ("50 mm",)),
    ("length", math.nan, "cannot be read", ("50 mm",)),
    ("length", "5" * 5000, "too long", ("50 mm",)),
    ("mass", "-3 g", "at least 0 g", ("680 g",)),
    ("mass", "1,500 g", "two ways", ("1.5 g", "1500 g")),
    ("force", "12 kg", "is a mass", ("12 kgf",)),
    ("temperature", "37.5", "37.5 what?", ("37.5 C", "37.5 F")),
    ("count", 0, "at least 1", ("6",)),
    ("count", "0 eggs", "at least 1", ("6",)),
    ("count", -2, "at least 1", ("6",)),
    ("count", 2.5, "whole number", ("2",)),
    ("ratio", 0, "more than 0", ("2.0",)),
    ("share", 1.2, "at most 1", ("0.9",)),
    (
        "tilt each side",
        "45 deg",
        "Is that 45 degrees to each side of level, or 45 in all?",
        ("45 deg each side", "45 deg in all"),
    ),
    ("tilt each side", 45, "or 45 in all?", ("45 deg each side", "45 deg in all")),
    ("tilt each side", "45 deg left, 40 deg right", "same to both", ("45 deg each side",)),
    ("length", "{accepted} 5", "(accepted) 5", ("50 mm", "50 cm", "50 in")),
    ("tilt each side", "95 deg each side", "at most 89 deg", ("45 deg each side",)),
    ("tilt each side", "0 deg each side", "more than 0 deg", ("45 deg each side",)),
    ("tilt each side", "-5 deg each side", "more than 0 deg", ("45 deg each side",)),
    (
        "height from pivot",
        "16 mm",
        "On which side of the pivot?",
        ("16 mm above pivot", "16 mm below pivot"),
    ),
    (
        "height from pivot",
        "-16 mm",
        "On which side of the pivot?",
        ("16 mm below pivot", "16 mm above pivot"),
    ),
    (
        "height from pivot",
        "-16 mm below pivot",
        "leave out the minus",
        ("16 mm above pivot", "16 mm below pivot"),
    ),
    (
        "height from pivot",
        "16 mm above the box floor",
        "measured from the pivot",
        ("16 mm above pivot", "16 mm below pivot"),
    ),
    (
        "height from pivot",
        "16 below pivot",
        "16 what?",
        ("16 mm below pivot", "16 cm below pivot", "16 in below pivot"),
    ),
    ("height from pivot", "30 m below pivot", "at most 10 m", ("16 mm below pivot",)),
    (
        "across from pivot",
        "49.5 mm",
        "On which side",
        ("49.5 mm right of pivot", "49.5 mm left of pivot"),
    ),
    (
        "height above floor",
        "300 mm above pivot",
        "from the box floor",
        ("300 mm above the box floor",),
    ),
    ("egg mass", "0 eggs = 5 g", "at least one", ("10 eggs = 583 g",)),
    ("egg mass", "10 eggs = 583", "583 what?", ("10 eggs = 583 g", "10 eggs = 583 oz")),
    ("egg mass", "20 eggs = 9", "9 what?", ("20 eggs = 9 kg", "20 eggs = 9 oz", "20 eggs = 9 lb")),
    ("tilt each side", "45 each side", "45 what?", ("45 deg each side",)),
    ("egg mass", "-3 g", "at least 0.5 g", ("10 eggs = 583 g",)),
    ("egg mass", "10 eggs = 583 kg", "at most 2.5 kg", ("10 eggs = 583 g",)),
    (
        "egg size",
        "57.5 x 43.5",
        "in what unit?",
        ("57.5 x 43.5 mm",),
    ),
    ("egg size", "57.5 mm", "two sizes", ("57.5 x 43.5 mm",)),
    ("egg size", "575 x 435 mm", "no egg", ("57.5 x 43.5 mm",)),
    ("friction", "0.45 to 0.15", "backwards", ("0.15 to 0.45",)),
    ("friction", "0.45 / 0.3 / 0.15", "low to high", ("0.15 to 0.45",)),
    ("friction", -0.1, "at least 0", ("0.15 to 0.45",)),
    ("friction", ">=0.1", "no upper end", ("0.15 to 0.45",)),
    ("friction", "slides at 80 deg", "between 0 and 65", ("slides at 17 deg",)),
    ("supply", "230 V", "of which frequency?", ("230 V 50 Hz", "230 V 60 Hz", "230 V DC")),
    (
        "supply",
        "220-240 V 50/60 Hz",
        "one frequency",
        ("220-240 V 50 Hz", "220-240 V 60 Hz"),
    ),
    ("supply", "mains", "how many volts?", ("12 V", "230 V 50 Hz", "120 V 60 Hz")),
    ("supply", "12", "12 what?", ("12 V",)),
    ("heavy side", "heavy", "let the empty drum swing", None),
    ("turns per day", "often", "how many turns", ("24", "every 60 min")),
    ("turns per day", 0, "more than 0", ("24",)),
    ("turns per day", "every 0 min", "more than nothing", ("every 60 min",)),
    ("yes or no", "maybe", "yes or no?", ("yes", "no")),
    ("name", " ", "Nothing", None),
]


@pytest.mark.parametrize(("kind", "given", "words", "accepted"), REFUSED)
def test_refuses_and_asks(kind, given, words, accepted):
    with pytest.raises(PydanticCustomError) as caught:
        PHRASES[kind].read(given)
    assert caught.value.type == "needs_builder"
    assert words in caught.value.message()
    if accepted is not None:
        assert caught.value.context["accepted"] == accepted


@pytest.mark.parametrize(("kind", "given", "words", "accepted"), REFUSED)
def test_what_is_offered_is_accepted(kind, given, words, accepted):
    with pytest.raises(PydanticCustomError) as caught:
        PHRASES[kind].read(given)
    for text in caught.value.context["accepted"]:
        PHRASES[kind].read(text)


def test_a_size_in_the_wrong_unit():
    width = positive_length(0.05, 2.0, example="310 mm")
    for text, words, accepted in [
        ("18", "18 cm or 18 in", ("18 cm", "18 in")),
        ("18 mm", "Did you mean 18 cm or 18 in?", ("18 cm", "18 in")),
        ("4570 mm", "Did you mean 457 mm?", ("457 mm",)),
    ]:
        with pytest.raises(PydanticCustomError) as caught:
            width.read(text)
        assert words in caught.value.message()
        assert caught.value.context["accepted"] == accepted


@pytest.mark.parametrize(
    ("text", "offered"),
    [
        ("1.4 to 1.6 in", "1.5 in +/- 0.1 in"),
        ("1.4 in to 1.6 in", "1.5 in +/- 0.1 in"),
        ("30-40 mm", "35 mm +/- 5 mm"),
    ],
)
def test_a_range_is_offered_as_half_known_in_its_own_unit(text: str, offered: str) -> None:
    with pytest.raises(PydanticCustomError) as refused:
        PHRASES["length"].read(text)
    assert offered in str(refused.value.context)
    known = PHRASES["length"].half_known(offered)
    assert known is not None
    factor = 0.0254 if text.endswith("in") else 1e-3
    low, high = (float(one) for one in re.findall(r"[\d.]+", text))
    assert known.low == pytest.approx(low * factor)
    assert known.high == pytest.approx(high * factor)
