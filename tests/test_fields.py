"""Phrases of design files: read, refused with a question, written back."""

import dataclasses
import datetime
import math
from typing import Annotated

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError
from pydantic_core import PydanticCustomError

from turnercalc.errors import UnitError, UnknownNameError
from turnercalc.fields import (
    PHRASES,
    AcrossFromPivot,
    Choice,
    Count,
    DrumBalance,
    EggMass,
    EggSize,
    Friction,
    HeavySide,
    HeightFromPivot,
    Length,
    Range3,
    Section,
    Size,
    Supply,
    SupplyWords,
    TiltEachSide,
    count,
    field_info,
    field_infos,
    is_blank,
    positive_length,
    to_text,
)

INCH = 0.0254
OUNCE = 0.45359237 / 16
DEG = math.pi / 180

# --- what builders write --------------------------------------------------------------------------

READ = [
    ("length", "420 mm", 0.42),
    ("length", "11-1/2 in", 11.5 * INCH),
    ("length", "5/16 in", 5 / 16 * INCH),
    ("length", "1 ft 6 in", 18 * INCH),
    ("gap", "0 mm", 0.0),
    ("mass", "680 g", 0.68),
    ("mass", "2 lb 4 oz", 36 * OUNCE),
    ("temperature", "37.5 C", 37.5),
    ("temperature", "99.5 F", 37.5),
    ("force", "0.3 lbf", 4.8 * OUNCE * 9.80665),
    ("angle", "180 deg", math.pi),
    ("torque", "1 kg @ 300 mm", 9.80665 * 0.3),
    ("power", "12 V x 0.5 A", 6.0),
    ("duration", "60 min", 3600.0),
    ("duration", datetime.time(0, 10), 600.0),
    ("count", 24, 24),
    ("count", "24", 24),
    ("count or none", 0, 0),
    ("ratio", 2.0, 2.0),
    ("ratio", "2,0", 2.0),
    ("share", "90 %", 0.9),
    ("height from pivot", "16 mm below pivot", -0.016),
    ("height from pivot", "4 mm below the pivot", -0.004),
    ("height from pivot", "5/8 in above the lowest pivot", 5 / 8 * INCH),
    ("height from pivot", "16 mm under the pivots", -0.016),
    ("height from pivot", "16 mm below", -0.016),
    ("height from pivot", "level with the pivot", 0.0),
    ("height from pivot", "at pivot height", 0.0),
    ("height from pivot", "0 mm", 0.0),
    ("across from pivot", "49.5 mm right of pivot", 0.0495),
    ("across from pivot", "49.5 mm to the left of the lowest pivot", -0.0495),
    ("across from pivot", "in line with pivot", 0.0),
    ("height above floor", "300 mm above the box floor", 0.3),
    ("height above floor", "5-3/4 in above the box floor", 5.75 * INCH),
    ("height above floor", "5 in above floor", 5 * INCH),
    ("height above floor", "300 mm", 0.3),
    ("height from bars", "18 mm below the bar middles", -0.018),
    ("height from bars", "18 mm below the middle of the bars", -0.018),
    ("tilt each side", "45 deg each side", 45 * DEG),
    ("tilt each side", "90 deg in all", 45 * DEG),
    ("tilt each side", "45° to each side", 45 * DEG),
    ("tilt each side", "90 degrees total", 45 * DEG),
    ("tilt each side", "±45°", 45 * DEG),
    ("tilt each side", "+/-45 deg", 45 * DEG),
    ("tilt each side", "4 in in 12 in each side", math.atan2(4, 12)),
    ("swing each side", "90 deg each side", 90 * DEG),
    ("egg mass", "10 eggs = 583 g", 0.0583),
    ("egg mass", "20 eggs = 9 oz", 9 / 20 * OUNCE),
    ("egg mass", "8 eggs = 1.24 kg", 0.155),
    ("egg mass", "10 eggs weigh 583 g", 0.0583),
    ("egg mass", "583 g for 10 eggs", 0.0583),
    ("egg mass", "24 oz per dozen", 2 * OUNCE),
    ("egg mass", "a dozen eggs = 24 oz", 2 * OUNCE),
    ("egg mass", "58.3 g each", 0.0583),
    ("egg mass", "58.3 g", 0.0583),
    ("turns per day", 24, 24.0),
    ("turns per day", "24 a day", 24.0),
    ("turns per day", "24×/day", 24.0),
    ("turns per day", "every 60 min", 24.0),
    ("turns per day", "every hour", 24.0),
    ("turns per day", "h 1", 24.0),
    ("turns per day", "every 90 min", 16.0),
    ("yes or no", True, True),
    ("yes or no", "No", False),
]


@pytest.mark.parametrize(("kind", "given", "value"), READ)
def test_reads(kind, given, value):
    assert PHRASES[kind].read(given) == pytest.approx(value, rel=1e-12)


def test_a_name_is_kept_as_it_is():
    assert PHRASES["name"].read("  Marsh  End ") == "Marsh End"


@pytest.mark.parametrize(
    ("text", "length", "breadth"),
    [
        ("57.5 x 43.5 mm", 0.0575, 0.0435),
        ("57.5 mm x 43.5 mm", 0.0575, 0.0435),
        ("57.5×43.5mm", 0.0575, 0.0435),
        ("57,5 x 43,5 mm", 0.0575, 0.0435),
        ("57.5 by 43.5 mm", 0.0575, 0.0435),
        ("43.5 x 57.5 mm", 0.0575, 0.0435),
        ("1-7/16 x 1-1/16 in", 23 / 16 * INCH, 17 / 16 * INCH),
        ("57.5 mm long, 43.5 mm wide", 0.0575, 0.0435),
        ("57.5 mm x 136.659 mm round", 0.0575, 0.136659 / math.pi),  # a tape round the middle
    ],
)
def test_reads_egg_sizes(text, length, breadth):
    size = PHRASES["egg size"].read(text)
    assert (size.length, size.breadth) == pytest.approx((length, breadth), rel=1e-12)


@pytest.mark.parametrize(
    ("kind", "given", "low", "middle", "high"),
    [
        ("friction", "0.15 to 0.45", 0.15, 0.3, 0.45),
        ("friction", "0.15-0.45", 0.15, 0.3, 0.45),
        ("friction", "0,15 / 0,25 / 0,45", 0.15, 0.25, 0.45),
        ("friction", "0.15, 0.25, 0.45", 0.15, 0.25, 0.45),
        ("friction", "0.3", 0.3, 0.3, 0.3),
        ("friction", 0.3, 0.3, 0.3, 0.3),
        # on a slope a thing begins to slide where the coefficient is the slope's tangent
        ("friction", "slides at 45 deg", 1.0, 1.0, 1.0),
        ("efficiency", "94 % to 98 %", 0.94, 0.96, 0.98),
        ("length range", "0.5 / 1 / 2 mm", 5e-4, 1e-3, 2e-3),
        ("length range", "0.5/1/2 mm", 5e-4, 1e-3, 2e-3),
        ("length range", "1/16 / 1/8 / 1/4 in", INCH / 16, INCH / 8, INCH / 4),
        ("length range", "0.5 to 1.5 mm", 5e-4, 1e-3, 1.5e-3),
    ],
)
def test_reads_ranges(kind, given, low, middle, high):
    value = PHRASES[kind].read(given)
    assert dataclasses.astuple(value) == pytest.approx((low, middle, high), rel=1e-12)


@pytest.mark.parametrize(
    ("text", "dc", "ac", "frequency", "battery"),
    [
        ("12 V and 230 V 50 Hz", (12.0,), (230.0,), 50.0, False),
        ("12 V and 120 V 60 Hz", (12.0,), (120.0,), 60.0, False),
        ("12 V battery", (12.0,), (), None, True),
        ("12V", (12.0,), (), None, False),
        ("12 VDC", (12.0,), (), None, False),
        ("5 V USB", (5.0,), (), None, False),
        ("12 V or 24 V", (12.0, 24.0), (), None, False),
        ("230 V 50 Hz mains", (), (230.0,), 50.0, False),
        ("220-240 V 50 Hz", (), (220.0, 240.0), 50.0, False),
        ("110/120 V, 60 Hz", (), (110.0, 120.0), 60.0, False),
        ("24 V AC", (), (24.0,), None, False),
        ("230 V AC", (), (230.0,), None, False),
        ("230 V ~ 50Hz", (), (230.0,), 50.0, False),
    ],
)
def test_reads_supplies(text, dc, ac, frequency, battery):
    assert PHRASES["supply"].read(text) == Supply(dc, ac, frequency, battery)


def test_reads_the_heavy_side_of_a_drum():
    read = PHRASES["heavy side"].read
    assert read("balanced") == HeavySide(0.0, 0.0, 1)
    heavy = read("3 oz at 2 in toward shelf 4")
    assert (heavy.mass, heavy.radius, heavy.shelf) == pytest.approx((3 * OUNCE, 2 * INCH, 4))


# --- what is refused, with which question ---------------------------------------------------------

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


# --- words ----------------------------------------------------------------------------------------

LIE = Choice(
    "big end up",
    "on the side, along the axis",
    "on the side, across",
    also={"on the side, along the bars": "on the side, along the axis"},
)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("big end up", "big end up"),
        ("Big-End-Up", "big end up"),
        ("BIG END UP", "big end up"),
        ("on the side along axis", "on the side, along the axis"),
        ("on the side, along the bars", "on the side, along the axis"),
        ("on_the_side, across", "on the side, across"),
    ],
)
def test_choices_are_read_with_tolerance(text, value):
    assert LIE.read(text) == value


def test_a_misspelt_choice_gets_the_nearest():
    with pytest.raises(PydanticCustomError, match='Did you mean "big end up"') as caught:
        LIE.read("big and up")
    assert caught.value.context["accepted"][0] == "big end up"
    with pytest.raises(PydanticCustomError) as caught:
        LIE.read("zzz")
    assert set(caught.value.context["accepted"]) == set(LIE.choices)


# --- writing back ---------------------------------------------------------------------------------

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


# --- models ---------------------------------------------------------------------------------------


class Crank(Section):
    radius: Annotated[float, positive_length(0.005, 0.5, help="Shaft middle to pin middle.")]
    across: AcrossFromPivot | None = None
    height: HeightFromPivot | None = None
    teeth: Annotated[int, count(8, 200)] = 12
    lie: Annotated[str, LIE] = "big end up"


class Rack(Section):
    crank: Crank
    tilt: TiltEachSide
    spare: Crank | None = None
    rows: Count = 6


def _messages(data, model=Rack):
    with pytest.raises(ValidationError) as caught:
        model.model_validate(data)
    return {".".join(map(str, e["loc"])): e for e in caught.value.errors()}


def test_a_section_reads_its_phrases():
    rack = Rack.model_validate(
        {"crank": {"radius": "50 mm", "across": "49.5 mm right of pivot"}, "tilt": "90 deg in all"}
    )
    assert rack.crank.radius == pytest.approx(0.05)
    assert rack.crank.across == pytest.approx(0.0495)
    assert rack.crank.height is None
    assert rack.tilt == pytest.approx(45 * DEG)
    with pytest.raises(ValidationError, match="frozen"):
        rack.tilt = 1.0


def test_all_complaints_come_at_once_at_their_fields():
    errors = _messages(
        {
            "crank": {"radius": 50, "across": "4 mm", "teeth": 3, "lenght": "3 mm"},
            "tilt": "45 deg",
        }
    )
    assert set(errors) == {"crank.radius", "crank.across", "crank.teeth", "crank.lenght", "tilt"}
    assert errors["crank.radius"]["ctx"]["accepted"] == ("50 mm", "50 cm")
    assert errors["crank.teeth"]["ctx"]["accepted"] == ("8",)
    assert errors["crank.lenght"]["type"] == "extra_forbidden"


def test_a_blank_field_counts_as_left_out():
    rack = Rack.model_validate(
        {"crank": {"radius": "50 mm", "across": "-", "teeth": "unknown"}, "tilt": "45° each side"}
    )
    assert rack.crank.across is None
    assert rack.crank.teeth == 12
    errors = _messages({"crank": {"radius": "-"}, "tilt": "45° each side"})
    assert errors["crank.radius"]["type"] == "missing"
    assert is_blank("–")
    assert not is_blank(0)


def test_python_callers_may_give_si():
    data = {"crank": {"radius": 0.05, "across": -0.01}, "tilt": 45 * DEG}
    rack = Rack.model_validate(data, context={"si": True})
    assert (rack.crank.radius, rack.crank.across, rack.tilt) == (0.05, -0.01, 45 * DEG)
    with pytest.raises(ValidationError, match="at most"):
        Rack.model_validate({**data, "tilt": 45.0}, context={"si": True})


def test_values_of_the_type_itself_are_taken():
    class Things(Section):
        size: EggSize
        friction: Friction
        supply: SupplyWords
        balance: DrumBalance
        egg: EggMass
        length: Length

    size, supply = Size(0.06, 0.04), Supply((12.0,), (), None)
    things = Things.model_validate(
        {
            "size": size,
            "friction": Range3(0.1, 0.2, 0.3),
            "supply": supply,
            "balance": HeavySide(0.0, 0.0, 1),
            "egg": "58 g",
            "length": "5 cm",
        }
    )
    assert things.size is size
    assert things.supply is supply


def test_small_values_keep_their_order():
    with pytest.raises(UnitError, match="low to high"):
        Range3(0.3, 0.2, 0.4)
    with pytest.raises(UnitError, match="as long as"):
        Size(0.04, 0.05)


# --- what a question mode can ask -----------------------------------------------------------------


def test_field_info():
    info = field_info(Rack, "crank.radius")
    assert (info.name, info.kind, info.required) == ("crank.radius", "length", True)
    assert info.help == "Shaft middle to pin middle."
    assert info.phrase.read(info.example) == pytest.approx(0.05)
    assert field_info(Rack, "crank.across").kind == "across from pivot"
    assert field_info(Rack, "crank.lie").choices == LIE.choices
    assert not field_info(Rack, "rows").required
    assert field_info(Rack, "crank.teeth").example == "8"


def test_field_infos_come_in_file_order():
    names = [info.name for info in field_infos(Rack)]
    crank = ["radius", "across", "height", "teeth", "lie"]
    assert names == [*(f"crank.{n}" for n in crank), "tilt", *(f"spare.{n}" for n in crank), "rows"]
    for info in field_infos(Rack):
        info.phrase.read(info.example)


@pytest.mark.parametrize("name", ["crank.lenght", "nothing", "rows.more", "crank"])
def test_field_info_of_an_unknown_field(name):
    with pytest.raises(UnknownNameError):
        field_info(Rack, name)
