"""Conversion factors and weight classes against their published definitions.

A. Thompson and B. N. Taylor, Guide for the Use of the International System of Units (SI),
    NIST Special Publication 811, 2008 edition, appendix B.8 (factors; bold ones are exact).
7 Pa. Code § 87.42, Shell eggs: minimum net weight per dozen of each size class.
The International System of Units (SI), 9th edition, BIPM 2019, table 8 (degree, minute, hour).
"""

import math

import pytest

from turnercalc.units import parse

# NIST SP 811 appendix B.8, "To convert from ... to ... multiply by". Exact there, hence exact here.
EXACT = [
    ("1 in", "length", 2.54e-2),
    ("1 ft", "length", 3.048e-1),
    ("1 yd", "length", 9.144e-1),
    ("1 lb", "mass", 4.5359237e-1),
    ("1 kgf", "force", 9.80665),
    ("1 kgf·m", "torque", 9.80665),
    ("1 kgf·cm", "torque", 9.80665e-2),
    ("1 gf", "force", 9.80665e-3),
    ("1 min", "time", 60.0),
    ("1 h", "time", 3600.0),
    ("1 d", "time", 86400.0),
]


@pytest.mark.parametrize(("text", "kind", "value"), EXACT)
def test_exact_factors_of_sp_811(text, kind, value):
    assert parse(text, kind) == pytest.approx(value, rel=1e-15)


# Same appendix, factors printed to seven figures: half a unit of the last is 5e-7 of the first.
ROUNDED = [
    ("1 oz", "mass", 2.834952e-2),  # ounce (avoirdupois)
    ("1 lbf", "force", 4.448222),
    ("1 ozf", "force", 2.780139e-1),
    ("1 lbf·in", "torque", 1.129848e-1),
    ("1 lbf·ft", "torque", 1.355818),
    ("1 ozf·in", "torque", 7.061552e-3),
    ("1 lbf/in", "stiffness", 1.751268e2),
    ("1 lbf/ft", "stiffness", 1.459390e1),
    ("1 deg", "angle", 1.745329e-2),
    ("1 rpm", "rotation", 1.047198e-1),
    ("1 hp", "power", 7.456999e2),  # horsepower (550 ft·lbf/s)
]


@pytest.mark.parametrize(("text", "kind", "value"), ROUNDED)
def test_printed_factors_of_sp_811(text, kind, value):
    assert parse(text, kind) == pytest.approx(value, rel=5e-7)


# SP 811 appendix B.8: degree Fahrenheit to degree Celsius is (t - 32)/1.8, kelvin to Celsius
# is T - 273.15. Boiling and freezing points as in its section 8.5 are 212 F and 32 F.
@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ("32 F", 0.0),
        ("212 F", 100.0),
        ("-40 F", -40.0),
        ("100 F", (100 - 32) / 1.8),
        ("99.5 F", 37.5),
        ("273.15 K", 0.0),
    ],
)
def test_temperatures_of_sp_811(text, celsius):
    assert parse(text, "temperature") == pytest.approx(celsius, abs=1e-12)


def test_hundred_fahrenheit_as_hatching_guides_print_it():
    # from memory: guides give 100 F as 37.78 C
    assert round(parse("100 F", "temperature"), 2) == 37.78


# 7 Pa. Code § 87.42: minimum net weight per dozen. The grams an egg follow from SP 811's ounce;
# the code prints ounces only.
@pytest.mark.parametrize(
    ("size_class", "ounces_per_dozen", "grams_per_egg"),
    [
        ("jumbo", 30, 70.87),
        ("extra large", 27, 63.79),
        ("large", 24, 56.70),
        ("medium", 21, 49.61),
        ("small", 18, 42.52),
        ("peewee", 15, 35.44),
    ],
)
def test_weight_classes(size_class, ounces_per_dozen, grams_per_egg):
    egg = parse(f"{ounces_per_dozen} oz per dozen", "mass")
    assert 1000 * egg == pytest.approx(grams_per_egg, abs=0.005)


def test_weight_of_a_dozen_in_pounds_and_ounces():
    # a pound is 16 ounces: the large class as it stands on a kitchen scale
    assert parse("1 lb 8 oz per dozen", "mass") == pytest.approx(parse("24 oz per dozen", "mass"))


def test_a_servo_in_seconds_for_sixty_degrees():
    # physics: 0.16 s for a sixth of a turn is 0.96 s a turn, that is 62.5 turns a minute
    assert parse("0.16 s/60°", "rotation") == pytest.approx(2 * math.pi / 0.96)
    assert parse("62.5 rpm", "rotation") == pytest.approx(2 * math.pi / 0.96)


def test_a_slope_is_rise_over_level_run():
    # trigonometry: a roof of 4 in 12 stands at 18.43 degrees (carpenters' tables, from memory)
    assert math.degrees(parse("4 in in 12 in", "angle")) == pytest.approx(18.43, abs=0.005)
