"""Values written back as builders would; any text is read or explained."""

import dataclasses

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic_core import PydanticCustomError

from turnercalc.errors import UnknownNameError
from turnercalc.fields import (
    PHRASES,
    HeavySide,
    Range3,
    Size,
    Supply,
    to_text,
)

from .examples import DEG, INCH

_ROUND_TRIPS = {
    "length": st.floats(1e-3, 15),
    "mass": st.floats(1e-3, 900),
    "angle": st.floats(-6, 6),
    "temperature": st.floats(-30, 140),
    "force": st.floats(1e-2, 1e4),
    "torque": st.floats(1e-3, 1e3),
    "duration": st.floats(0.1, 3e7),
    "stiffness": st.floats(1, 1e6),
    "rotation": st.floats(1e-3, 100),
    "height from pivot": st.floats(-9, 9),
    "across from pivot": st.floats(-9, 9),
    "height above floor": st.floats(1e-3, 9),
    "height from bars": st.floats(-9, 9),
    "height from axle": st.floats(-9, 9),
    "height from contact": st.floats(-9, 9),
    "across from contact": st.floats(-9, 9),
    "height from pin": st.floats(-9, 9),
    "across from pin": st.floats(-9, 9),
    "tilt each side": st.floats(0.01, 1.5),
    "swing each side": st.floats(0.01, 3.1),
    "egg mass": st.floats(1e-3, 2.4),
    "turns per day": st.floats(0.1, 1999),
}


@given(st.data(), st.sampled_from(sorted(_ROUND_TRIPS)), st.sampled_from(["metric", "us"]))
def test_reading_undoes_writing(data, kind, system):
    value = data.draw(_ROUND_TRIPS[kind])
    text = to_text(value, kind, system)
    assert PHRASES[kind].read(text) == pytest.approx(value, rel=1e-4, abs=1e-6)


@given(st.floats(0.01, 0.2), st.floats(0.3, 1.0), st.sampled_from(["metric", "us"]))
def test_reading_undoes_writing_sizes(length, shape, system):
    size = Size(length, max(length * shape, 0.006))
    again = PHRASES["egg size"].read(to_text(size, "egg size", system))
    assert dataclasses.astuple(again) == pytest.approx(dataclasses.astuple(size), rel=1e-4)


@given(st.lists(st.floats(0.001, 0.9), min_size=3, max_size=3).map(sorted))
def test_reading_undoes_writing_ranges(ends):
    for kind in ("friction", "efficiency", "length range"):
        again = PHRASES[kind].read(to_text(Range3(*ends), kind))
        assert dataclasses.astuple(again) == pytest.approx(tuple(ends), rel=1e-4)


@pytest.mark.parametrize(
    ("kind", "value"),
    [
        ("supply", Supply((12.0,), (230.0,), 50.0)),
        ("supply", Supply((12.0, 24.0), (), None, battery=True)),
        ("supply", Supply((), (24.0,), None)),
        ("supply", Supply((), (110.0, 120.0), 60.0)),
        ("heavy side", HeavySide(0.0, 0.0, 1)),
        ("heavy side", HeavySide(0.085, 0.05, 3)),
        ("heavy side", HeavySide(0.085, 0.05, 2.5)),
        ("yes or no", True),
        ("yes or no", False),
        ("count", 7),
        ("name", "Oak Lane"),
    ],
)
def test_reading_undoes_writing_of_things(kind, value):
    assert PHRASES[kind].read(to_text(value, kind)) == value


def test_writes_words_with_the_side():
    assert to_text(-0.016, "height from pivot") == "16 mm below pivot"
    assert to_text(0.0495, "across from pivot") == "49.5 mm right of pivot"
    assert to_text(5.75 * INCH, "height above floor", "us") == "5-3/4 in above the box floor"
    assert to_text(45 * DEG, "tilt each side") == "45 deg each side"
    assert to_text(0.0583, "egg mass") == "58.3 g each"
    assert to_text(Range3(0.15, 0.3, 0.45), "friction") == "0.15 to 0.45"
    assert to_text(37.5, "temperature", "us") == "99.5 F"
    with pytest.raises(UnknownNameError, match="no field type"):
        to_text(1.0, "lenght")


@pytest.mark.parametrize("kind", sorted(PHRASES))
def test_every_example_is_accepted_and_explained(kind):
    phrase = PHRASES[kind]
    phrase.read(phrase.example)
    assert phrase.help.endswith(".")
    assert phrase.fitting_example() == phrase.example


WRITTEN = (
    "1 45 583 1,500 1/2 {accepted} - / : x % ° = , in mm kg oz g V Hz deg eggs dozen each side all "
    "below above left right of pivot floor axle to and toward shelf balanced every day"
)
_PIECES = st.lists(st.sampled_from(WRITTEN.split(" ")), max_size=9)
_TEXTS = st.one_of(st.text(max_size=60), _PIECES.map("".join), _PIECES.map(" ".join))


@given(_TEXTS, st.sampled_from(sorted(PHRASES)))
@settings(max_examples=400)
def test_any_text_is_read_or_explained(text, kind):
    phrase = PHRASES[kind]
    try:
        phrase.read(text)
    except PydanticCustomError as error:
        caught = error
    else:
        return
    assert caught.type == "needs_builder"
    for accepted in caught.context["accepted"]:
        phrase.read(accepted)
