"""What builders write in a field, read into SI."""

import dataclasses
import datetime
import math

import pytest
from pydantic_core import PydanticCustomError

from turnercalc.fields import (
    PHRASES,
    HeavySide,
    Supply,
)

from .examples import DEG, INCH, LIE, OUNCE

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
