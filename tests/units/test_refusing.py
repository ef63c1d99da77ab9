"""What is refused, and with what question."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.errors import UnitError
from turnercalc.units import (
    KINDS,
    likely_units,
    parse,
)

REFUSED = [
    ("length", "1,500 mm", "two ways", ("1.5 mm", "1500 mm")),
    ("length", "1,500", "two ways", ("1.5 mm", "1500 mm")),
    ("torque", "1,500 g·cm", "two ways", ("1.5 g·cm", "1500 g·cm")),
    ("length", "50", "50 what?", ("50 mm", "50 cm", "50 in")),
    ("torque", "70", "70 what?", ("70 kgf·cm", "70 N·m", "70 ozf·in", "70 lbf·in")),
    ("torque", "70 kg", "kgf·cm", ("70 kgf·cm", "70 N·m")),
    ("torque", "20 lb", "lbf·in", ("20 lbf·in", "20 lbf·ft")),
    ("torque", "3 N", "what arm", ("3 N·m", "3 N·cm")),
    ("torque", "300 MN·m", "million", ("1 mN·m",)),
    ("power", "14 MW", "million", ("1 mW",)),
    ("force", "12 kg", "is a mass", ("12 kgf",)),
    ("force", "3 lb", "is a mass", ("3 lbf",)),
    ("temperature", "37.5", "37.5 what?", ("37.5 C", "37.5 F")),
    ("temperature", "37.5 deg", "Celsius or in Fahrenheit", ("37.5 C", "37.5 F")),
    ("time", "00:10", "could be", ("10 min", "10 s")),
    ("time", "01:30", "could be", ("1 h 30 min", "1 min 30 s")),
    ("rotation", "5/6 rpm", "50 and 60 Hz", ("5 rpm", "6 rpm")),
    ("rotation", "2.5/3 rpm", "50 and 60 Hz", ("2.5 rpm", "3 rpm")),
    ("power", "3/2.5 W", "50 and 60 Hz", ("3 W", "2.5 W")),
    ("length", "5 kg", "is a mass", ("50 mm", "50 cm", "50 in")),
    ("length", "5 milimeter", "Did you mean", ("5 mm",)),
    ("length", "1'6", "inches", ("1 ft 6 in",)),
    ("angle", "1 in 3", "rise over a level run", ("1 in in 3 in",)),
    ("angle", "4 in 12 in", "rise over a level run", ("4 in in 12 in",)),
    ("count", "2.5", "whole number", ("2",)),
    ("count", "1,500", "two ways", ("1500",)),
    ("length", "", "Nothing is written", ("50 mm", "50 cm", "50 in")),
    ("length", "abc", "no number", ("50 mm", "50 cm", "50 in")),
    ("length", "30-60 mm", "is a range", ()),
    ("length", "5 in 3 ft", "no unit", ("5 mm", "5 cm", "5 in")),
    ("length", "1 3/2 in", "mixed number", ()),
    ("length", "5/0 in", "divides by nothing", ()),
    ("length", "1e400 m", "far outside", ()),
    ("length", "1e25 m", "far outside", ()),
    ("length", "1e-25 m", "far outside", ()),
    ("length", "9" * 100 + " m", "far outside", ()),
    ("length", "5 " * 300, "too long", ()),
    ("length", "1.2.3 mm", "not a number", ()),
    ("length", "1,2,3 mm", "not a number", ()),
    ("rotation", "0 s/60°", "endlessly fast", ()),
    ("rotation", "1 turn in 0 s", "more than nothing", ()),
    ("ratio", "1:0", "divides by nothing", ()),
    ("angle", "4 in in 0 in", "more than nothing", ()),
    ("time", "00:75:00", "up to 59", ()),
    ("torque", "1.5 N·m (30 kgf·cm)", "not the same", ("1.5 N·m", "30 kgf·cm")),
]


@pytest.mark.parametrize(("kind", "text", "words", "choices"), REFUSED)
def test_refuses_and_asks(kind, text, words, choices):
    with pytest.raises(UnitError) as caught:
        parse(text, kind)
    assert words in str(caught.value)
    assert caught.value.choices == choices


@pytest.mark.parametrize("text", ["nan mm", "inf mm", "-inf mm", "NaN", "infinity m"])
def test_only_ordinary_numbers_count(text):
    with pytest.raises(UnitError, match="no number"):
        parse(text, "length")


@pytest.mark.parametrize(("kind", "text", "words", "choices"), REFUSED)
def test_every_choice_is_accepted(kind, text, words, choices):
    for choice in choices:
        assert math.isfinite(parse(choice, kind))


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in ("count", "ratio")])
def test_a_bare_number_is_never_guessed(kind):
    with pytest.raises(UnitError, match="what\\?") as caught:
        parse("7", kind)
    for choice in caught.value.choices:
        assert math.isfinite(parse(choice, kind))


def test_an_unknown_kind_is_the_caller_s_mistake():
    with pytest.raises(ValueError, match="no kind"):
        parse("5 mm", "lenght")


def test_likely_units():
    # a tray is 50 mm to 2 m wide: "18" can be centimetres or inches, not millimetres
    assert likely_units("18", "length", 0.05, 2.0) == ("cm", "in")
    assert likely_units("50", "length", 0.01, 0.3) == ("mm",)
    assert likely_units("70", "torque", 0.1, 20.0) == ("N·cm", "kgf·cm", "ozf·in", "lbf·in")
    assert likely_units("37.5", "temperature", 20.0, 45.0) == ("°C",)
    assert likely_units("99.5", "temperature", 20.0, 45.0) == ("°F",)
    assert likely_units("50 mm", "length", 0.0, 1.0) == ()
    assert likely_units("1,500", "length", 0.0, 1.0) == ()
    assert likely_units("0", "rotation", 0.0, 1.0) == ("rpm", "rev/h", "rad/s", "°/s")


@given(st.floats(0.1, 1000), st.sampled_from(["length", "mass", "torque", "force", "rotation"]))
def test_likely_units_are_inside(number, kind):
    low, high = 0.01, 10.0
    text = f"{number:.6g}"
    for unit in likely_units(text, kind, low, high):
        assert low <= parse(f"{text} {unit}", kind) <= high
