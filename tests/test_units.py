"""Text to SI and back. Factors from outside are checked in validation/test_units_sources.py."""

import math
import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.guard import comes_to_an_end
from turnercalc.errors import UnitError
from turnercalc.units import (
    KINDS,
    convert,
    in_unit,
    inch_fraction,
    likely_units,
    mains_pair,
    parse,
    parse_range,
    read,
    show,
)

INCH = 0.0254
POUND = 0.45359237
KGF_CM = 0.0980665
OZF_IN = POUND / 16 * 9.80665 * INCH
RPM = math.pi / 30


@pytest.fixture(scope="module", autouse=True)
def _units_loaded():
    parse("1 mm", "length")  # the first quantity loads the registry; not part of any timing


# --- what is read -----------------------------------------------------------------------------

READ = {
    "length": {
        '18 1/2"': 18.5 * INCH,
        "18-1/2in": 18.5 * INCH,
        "18 - 1/2 in": 18.5 * INCH,
        "18½ in": 18.5 * INCH,
        "18 1/2 inches": 18.5 * INCH,
        "½ in": 0.5 * INCH,
        "1'6\"": 18 * INCH,
        "1' 6''": 18 * INCH,
        "1′ 6″": 18 * INCH,
        "1’ 6”": 18 * INCH,
        "1'-6 1/2\"": 18.5 * INCH,
        "1 ft 6 in": 18 * INCH,
        "1 ft. 6 in.": 18 * INCH,
        "1 foot and 6 inches": 18 * INCH,
        "46in": 46 * INCH,
        "46 IN": 46 * INCH,
        "0.5 m": 0.5,
        ".5 m": 0.5,
        "0,5 m": 0.5,
        "1 m 20 cm": 1.2,
        "-16 mm": -0.016,
        "−16 mm": -0.016,
        "+16 mm": 0.016,
        "１６ ｍｍ": 0.016,
        "١٦ mm": 0.016,
        "16\u00a0mm": 0.016,
        "16\u200bmm": 0.016,
        "㎝".join(["5", ""]): 0.05,
        "1.500,5 mm": 1.5005,
        "1,500.5 mm": 1.5005,
        "1,500,000 mm": 1500.0,
        "1 500 mm": 1.5,
        "0,500 m": 0.5,
        "1.5e2 mm": 0.15,
        "about 46 mm": 0.046,
        "470 mm (18-1/2 in)": 0.47,
    },
    "mass": {
        "2 lb 4 oz": 2.25 * POUND,
        "2 lb, 4 oz": 2.25 * POUND,
        "2 lbs 4 ozs": 2.25 * POUND,
        "0,62 kg": 0.62,
        "583 g": 0.583,
        "24 oz per dozen": 2 * POUND / 16,
        "24 oz/doz": 2 * POUND / 16,
        "1 lb 8 oz per dozen": 2 * POUND / 16,
        "1.5 lb per dozen": 2 * POUND / 16,
    },
    "angle": {
        "45 deg": math.pi / 4,
        "45°": math.pi / 4,
        "45º": math.pi / 4,
        "45 degrees": math.pi / 4,
        "4 in in 12 in": math.atan2(4, 12),
        "4 in over 12 in": math.atan2(4, 12),
        "100 mm / 1 ft": math.atan2(100, 304.8),
        "1/4 turn": math.pi / 2,
        "0.5 rad": 0.5,
    },
    "force": {
        "12 N": 12.0,
        "1 kgf": 9.80665,
        "1 kg-force": 9.80665,
        "0.3 lbf": 0.3 * POUND * 9.80665,
        "16 ozf": POUND * 9.80665,
        "500 gf": 4.903325,
    },
    "rotation": {
        "5 rpm": 5 * RPM,
        "5 RPM": 5 * RPM,
        "5 r/min": 5 * RPM,
        "5 r.p.m.": 5 * RPM,
        "5 rev/min": 5 * RPM,
        "5 revolutions per minute": 5 * RPM,
        "5 min⁻¹": 5 * RPM,
        "0.5r/min": 0.5 * RPM,
        "1/2 rpm": 0.5 * RPM,
        "20 s per turn": 3 * RPM,
        "20 s/rev": 3 * RPM,
        "1 min 20 s per turn": 0.75 * RPM,
        "0.16 s/60°": 62.5 * RPM,
        "0.16 sec/60deg": 62.5 * RPM,
        "0.16 s per 60°": 62.5 * RPM,
        "1 rev in 4 h": RPM / 240,
        "one turn every 4 hours": RPM / 240,
        "10 turns in 50 s": 12 * RPM,
        "360 °/s": 60 * RPM,
        "6 rev/h": 0.1 * RPM,
    },
    "speed": {"10 mm/s": 0.01, "1 in/s": INCH, "0.6 m/min": 0.01, "1 inch per second": INCH},
    "power": {"14 W": 14.0, "14w": 14.0, "0.5 kW": 500.0, "12 V x 0.5 A": 6.0},
    "voltage": {"12 V": 12.0, "12VDC": 12.0, "230 V AC": 230.0, "230 V~": 230.0},
    "current": {"500 mA": 0.5, "1,2 A": 1.2, "2 amps": 2.0},
    "time": {
        "10 s": 10.0,
        "60 min": 3600.0,
        "4 h": 14400.0,
        "1 h 30 min": 5400.0,
        "18 days": 18 * 86400.0,
        "500 ms": 0.5,
        "00:00:10": 10.0,
        "01:30:00": 5400.0,
    },
    "temperature": {
        "37.5 C": 37.5,
        "37.5 °C": 37.5,
        "37,5℃": 37.5,
        "37.5 degrees Celsius": 37.5,
        "99.5 F": 37.5,
        "99.5 degF": 37.5,
        "-40 F": -40.0,
        "310.65 K": 37.5,
    },
    "frequency": {"50 Hz": 50.0, "60hz": 60.0, "1 kHz": 1000.0},
    "stiffness": {"1 N/mm": 1000.0, "200 N/m": 200.0, "1 lbf/in": POUND * 9.80665 / INCH},
    "count": {"24": 24.0, "24 eggs": 24.0, "24×": 24.0, "1500": 1500.0},
    "ratio": {"0.3": 0.3, "30 %": 0.3, "50:1": 50.0, "1/2": 0.5, "2 to 1": 2.0},
}


@pytest.mark.parametrize(
    ("kind", "text", "value"),
    [(kind, text, value) for kind, texts in READ.items() for text, value in texts.items()],
)
def test_reads(kind, text, value):
    assert parse(text, kind) == pytest.approx(value, rel=1e-12, abs=1e-12)


# builders' spellings of one unit each; the joint does not matter, nor does the case
TORQUE_SPELLINGS = {
    KGF_CM: "kg·cm kgf·cm kgcm kgfcm kg-cm kgf-cm Kg.cm KGF.CM kg_cm kg*cm kg×cm kg⋅cm kg•cm Kg-Cm "
    "kp·cm cm-kg",
    KGF_CM / 1000: "g·cm gf·cm gcm g-cm gf.cm G.CM",
    1.0: "N·m Nm N.m N-m NM n.m N*m N∙m Newton-metres newton·meter",
    0.01: "N·cm Ncm N.cm N-cm",
    0.001: "mN·m mNm mN.m mN-m N·mm Nmm",
    OZF_IN: "oz·in oz-in oz.in ozin ozf-in ozf·in OZ-IN in-oz ounce-inch ounce-inches",
    16 * OZF_IN: "lb·in lb-in in-lb in.lb in-lbs lbf·in lbf-in lbs-in inch-pounds LB-IN",
    192 * OZF_IN: "lb·ft lb-ft ft-lb ft.lb ft·lbs lbf·ft foot-pounds pound-feet FT-LB",
}


@pytest.mark.parametrize(
    ("spelling", "factor"),
    [(spelling, f) for f, spellings in TORQUE_SPELLINGS.items() for spelling in spellings.split()],
)
@pytest.mark.parametrize("space", ["", " ", "\u202f"])
def test_torque_spellings(spelling, factor, space):
    assert parse(f"46{space}{spelling}", "torque") == pytest.approx(46 * factor, rel=1e-12)


@pytest.mark.parametrize(
    "spelling", ["kg cm", "Kg cm", "kgf cm", "KG  CM", "kg x cm".replace(" x", " ×")]
)
def test_torque_spelt_with_spaces(spelling):
    assert parse(f"10 {spelling}", "torque") == pytest.approx(0.980665)


@pytest.mark.parametrize("space", [" ", "\u00a0", "\u2009", "\u202f", "\u2007"])
def test_thousands_by_space(space):
    assert parse(f"15{space}300{space}g·cm", "torque") == pytest.approx(15300 * KGF_CM / 1000)


NINE = [
    "1.5 Nm",
    "15.3 kgf·cm",
    "15.3 kg/cm",
    "212.4 oz-in",
    "13.28 in-lb",
    "1.106 lb·ft",
    "150 N·cm",
    "15 300 g·cm",
    "1,5 N.m",
]


@pytest.mark.parametrize("text", NINE)
def test_nine_spellings_of_one_torque_agree(text):
    assert parse(text, "torque") == pytest.approx(1.5, rel=1e-3)


def test_bottle_test_is_a_torque():
    # a litre of water hung from a level arm of 300 mm: m g r
    assert parse("1 kg @ 300 mm", "torque") == pytest.approx(9.80665 * 0.3)
    assert parse("2 lb 4 oz at 12 in", "torque") == pytest.approx(2.25 * 12 * 16 * OZF_IN)
    assert parse("5 N on a 200 mm arm", "torque") == pytest.approx(1.0)


@pytest.mark.parametrize(
    "text", ["46 kg/cm", "46 KGF/CM", "46 oz/in", "46 lb/ft", "46 N/m", "46 g / cm"]
)
def test_force_over_length_as_torque_is_doubted(text):
    reading = read(text, "torque")
    assert reading.value > 0
    assert len(reading.doubts) == 1
    assert "spring" in reading.doubts[0]


def test_a_clean_torque_is_not_doubted():
    assert read("46 kgf·cm", "torque").doubts == ()


def test_one_message_for_all_spellings_of_kg_over_cm():
    spellings = ["46 kg/cm", "46 Kg/cm", "46 KGF/CM", "46 kgf / cm"]
    assert len({read(text, "torque").doubts for text in spellings}) == 1


# --- what is refused, and with what question ------------------------------------------------------

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


# --- ranges ---------------------------------------------------------------------------------------

RANGES = [
    ("30-60 kg·cm", "torque", 30 * KGF_CM, 60 * KGF_CM),
    ("30–60 kg-cm", "torque", 30 * KGF_CM, 60 * KGF_CM),
    ("30 to 60 mm", "length", 0.03, 0.06),
    ("30..60mm", "length", 0.03, 0.06),
    ("between 30 and 60 mm", "length", 0.03, 0.06),
    ("from 30 to 60 mm", "length", 0.03, 0.06),
    ("30 mm to 2 in", "length", 0.03, 2 * INCH),
    ("30 mm to 60", "length", 0.03, 0.06),
    ("220~240V", "voltage", 220.0, 240.0),
    ("18-1/2in", "length", 18.5 * INCH, 18.5 * INCH),
    ("1/4 - 1/2 in", "length", 0.25 * INCH, 0.5 * INCH),
    ("18-1/2 - 20 in", "length", 18.5 * INCH, 20 * INCH),
    ("1 ft - 6 in", "length", 18 * INCH, 18 * INCH),
    ("-5 to 5 C", "temperature", -5.0, 5.0),
    ("≥4 N·m", "torque", 4.0, math.inf),
    (">=4 N·m", "torque", 4.0, math.inf),
    ("at least 4 N·m", "torque", 4.0, math.inf),
    ("max 70 kg·cm", "torque", 0.0, 70 * KGF_CM),
    ("max. 70 kg·cm", "torque", 0.0, 70 * KGF_CM),
    ("70 kg·cm max", "torque", 0.0, 70 * KGF_CM),
    ("up to 70 N", "force", 0.0, 70.0),
    ("<= 40 C", "temperature", -273.15, 40.0),
    ("35 mm +/- 5 mm", "length", 0.03, 0.04),
    ("5 +/- 1 mm", "length", 0.004, 0.006),
    ("5 mm ± 1", "length", 0.004, 0.006),
    ("37.5 C ± 0.5 C", "temperature", 37.0, 38.0),
    ("99.5 F ± 0.9 F", "temperature", 37.0, 38.0),
    ("6 rpm ±10 %", "rotation", 5.4 * RPM, 6.6 * RPM),
    ("6 ±10% rpm", "rotation", 5.4 * RPM, 6.6 * RPM),
    ("0.15 to 0.45", "ratio", 0.15, 0.45),
    ("5 mm", "length", 0.005, 0.005),
    ("60 min", "time", 3600.0, 3600.0),
]


@pytest.mark.parametrize(("text", "kind", "low", "high"), RANGES)
def test_ranges(text, kind, low, high):
    assert parse_range(text, kind) == pytest.approx((low, high), rel=1e-9)


@pytest.mark.parametrize("text", ["60-30 mm", "60 mm to 30 mm"])
def test_a_range_that_runs_backwards_is_refused(text):
    with pytest.raises(UnitError, match="backwards"):
        parse_range(text, "length")


@pytest.mark.parametrize("text", ["30-60", ">=4", "max 70", "5 ± 1"])
def test_a_range_without_unit_is_refused(text):
    with pytest.raises(UnitError, match="what\\?"):
        parse_range(text, "torque")


# --- labels for two mains -------------------------------------------------------------------------


def test_mains_pair():
    assert mains_pair("5/6 rpm", "rotation") == pytest.approx((5 * RPM, 6 * RPM))
    assert mains_pair("2,5/3 r/min", "rotation") == pytest.approx((2.5 * RPM, 3 * RPM))
    assert mains_pair("3/2.5 W", "power") == pytest.approx((3.0, 2.5))
    assert mains_pair("1/2 rpm", "rotation") is None
    assert mains_pair("5 rpm", "rotation") is None
    assert mains_pair("5/6 mm", "rotation") is None


# --- showing --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "kind", "metric", "us", "both"),
    [
        (0.0495, "length", "49.5 mm", "1.95 in", "49.5 mm (1.95 in)"),
        (0.4699, "length", "470 mm", "18-1/2 in", "470 mm (18-1/2 in)"),
        (-0.016, "length", "-16 mm", "-5/8 in", "-16 mm (-5/8 in)"),
        (0.583, "mass", "583 g", "1 lb 4.6 oz", "583 g (1 lb 4.6 oz)"),
        (2.25 * POUND, "mass", "1.02 kg", "2 lb 4 oz", "1.02 kg (2 lb 4 oz)"),
        (0.0583, "mass", "58.3 g", "2.06 oz", "58.3 g (2.06 oz)"),
        (3.9, "torque", "3.9 N·m", "34.5 lbf·in", "3.9 N·m (39.8 kgf·cm, 552 ozf·in)"),
        (0.1, "torque", "0.1 N·m", "14.2 ozf·in", "0.1 N·m (1.02 kgf·cm, 14.2 ozf·in)"),
        (12.0, "force", "12 N", "2.7 lbf", "12 N (2.7 lbf)"),
        (37.5, "temperature", "37.5 °C", "99.5 °F", "37.5 °C (99.5 °F)"),
        (math.radians(45.6), "angle", "45.6°", "45.6°", "45.6°"),
        (6 * RPM, "rotation", "6 rpm", "6 rpm", "6 rpm"),
        (RPM / 240, "rotation", "0.25 rev/h", "0.25 rev/h", "0.25 rev/h"),
        (3600.0, "time", "60 min", "60 min", "60 min"),
        (12.5, "time", "12.5 s", "12.5 s", "12.5 s"),
        (0.05, "current", "50 mA", "50 mA", "50 mA"),
        (24.0, "count", "24", "24", "24"),
    ],
)
def test_shows(value, kind, metric, us, both):
    assert show(value, kind) == metric
    assert show(value, kind, "us") == us
    assert show(value, kind, "both") == both


@pytest.mark.parametrize(
    ("value", "kind", "text"),
    [
        (0.0, "rotation", "0 rpm"),
        (0.0, "current", "0 A"),
        (0.0, "length", "0 mm"),
        (-0.0, "mass", "0 g"),
    ],
)
def test_nothing_has_its_usual_unit(value, kind, text):
    assert show(value, kind) == text


def test_what_is_not_finite_is_unknown():
    assert show(math.nan, "torque") == "unknown"
    assert show(math.inf, "time", "both") == "unknown"


def test_digits_before_the_mark_are_never_dropped():
    assert show(1.2345, "length") == "1234 mm"
    assert show(1.2345, "length", digits=6) == "1234.5 mm"


def test_inch_fractions_hide_next_to_nothing():
    # 50 mm is 1.97 in; as 1-15/16 in the crank would be 0.8 mm short
    assert show(0.050, "length", "us") == "1.97 in"
    assert inch_fraction(0.050) == "1-15/16 in"
    assert inch_fraction(0.050, 32) == "1-31/32 in"
    assert inch_fraction(-0.0254) == "-1 in"
    assert inch_fraction(0.0) == "0 in"


def test_in_unit():
    assert in_unit(3.9, "kgf·cm", "torque") == "39.8 kgf·cm"
    assert in_unit(62.5 * RPM, "s/60°", "rotation") == "0.16 s/60°"
    with pytest.raises(ValueError, match="no unit"):
        in_unit(1.0, "kg", "length")


def test_unknown_system_is_the_caller_s_mistake():
    with pytest.raises(ValueError, match="metric, us, both"):
        show(1.0, "length", "imperial")


# sizes of turners and of listings, in SI, with the coarsest step that three digits leave
SIZES = {
    "length": (1e-4, 9.0),
    "mass": (1e-3, 900.0),
    "angle": (1e-2, 6.0),
    "torque": (1e-3, 500.0),
    "force": (1e-2, 5000.0),
    "rotation": (1e-4, 2000.0),
    "speed": (1e-4, 5.0),
    "power": (1e-2, 2000.0),
    "voltage": (0.1, 900.0),
    "current": (1e-3, 90.0),
    "time": (1e-2, 3e7),
    "frequency": (1.0, 1000.0),
    "stiffness": (1.0, 1e6),
    "ratio": (1e-4, 1e4),
}


@given(
    st.data(),
    st.sampled_from(sorted(SIZES)),
    st.sampled_from(["metric", "us", "both"]),
    st.booleans(),
)
def test_parse_undoes_show(data, kind, system, negative):
    low, high = SIZES[kind]
    value = data.draw(st.floats(low, high))
    value = -value if negative else value
    # three digits hide at most half a unit of the third, 0.5 %; inch marks at most 1 %
    assert parse(show(value, kind, system), kind) == pytest.approx(value, rel=0.0101)
    assert parse(show(value, kind, system, digits=12), kind) == pytest.approx(value, rel=1e-5)


@given(st.floats(-40, 150), st.sampled_from(["metric", "us", "both"]))
def test_parse_undoes_show_for_temperatures(value, system):
    assert parse(show(value, "temperature", system), "temperature") == pytest.approx(
        value, abs=0.051
    )


@given(st.integers(-(10**6), 10**6))
def test_parse_undoes_show_for_counts(value):
    assert parse(show(value, "count"), "count") == value


@given(st.floats(1e-3, 1e3), st.sampled_from([text.split(" ")[-1] for text in NINE[:7]]))
def test_reading_is_proportional(number, unit):
    one, several = parse(f"1 {unit}", "torque"), parse(f"{number:.12f} {unit}", "torque")
    assert several == pytest.approx(number * one, rel=1e-8)


# --- any text at all ------------------------------------------------------------------------------

WRITTEN = "1 2.5 1,500 3/4 60 ½ e9 - / : ± % ° · ( ) ' \" in ft kg cm N m s rpm per dozen to max"
_PIECES = st.sampled_from([*WRITTEN.split(" "), " ", "about "])
_TEXTS = st.one_of(st.text(max_size=40), st.lists(_PIECES, max_size=12).map("".join))


def _read_or_explained(function, *arguments):
    try:
        return function(*arguments), None
    except UnitError as error:
        return None, error


@given(_TEXTS, st.sampled_from(KINDS))
@settings(max_examples=400)
def test_any_text_is_read_or_explained(text, kind):
    with comes_to_an_end():
        value, error = _read_or_explained(parse, text, kind)
        assert str(error) if value is None else math.isfinite(value)
        for choice in error.choices if error else ():
            assert math.isfinite(parse(choice, kind))
        ends, error = _read_or_explained(parse_range, text, kind)
        assert str(error) if ends is None else -math.inf < ends[0] <= ends[1]
        conversion, error = _read_or_explained(convert, text)
        assert str(error) if conversion is None else conversion.readings


@pytest.mark.parametrize(
    "piece",
    ["1 ", "1/", "1-", "(", "about ", "1 in ", "1,", "1 000", "per ", "1'", "~", "± ", "x ", "a "],
)
def test_awkward_texts_come_to_an_end(piece):
    text = (piece * 120)[:119]
    with comes_to_an_end():
        for kind in KINDS:
            with pytest.raises(UnitError):
                parse(text, kind)
            with pytest.raises(UnitError):
                parse_range(text, kind)


# --- one quantity in the units of listings --------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("46 kg/cm", "torque"),
        ("46 kg cm", "torque"),
        ("46 kg", "mass"),
        ('18 1/2"', "length"),
        ("0.16 s/60°", "rotation"),
        ("1 rev in 4 h", "rotation"),
        ("2 N/mm", "stiffness"),
        ("20 lb/in", "stiffness"),
        ("37.5 C", "temperature"),
        ("60 min", "time"),
        ("5 m", "length"),
        ("14 W", "power"),
        ("12 V", "voltage"),
        ("300 mA", "current"),
        ("50 Hz", "frequency"),
        ("45 deg", "angle"),
        ("4 in in 12 in", "angle"),
        ("30 %", "ratio"),
        ("12 lbf", "force"),
        ("10 mm/s", "speed"),
    ],
)
def test_convert_knows_the_kind(text, kind):
    conversion = convert(text)
    assert conversion.kind == kind
    assert conversion.value == parse(text, kind)
    for reading in conversion.readings:
        assert parse(reading, kind) == pytest.approx(conversion.value, rel=0.02, abs=1e-3)


def test_convert_shows_all_units_of_torque():
    conversion = convert("46 kg/cm")
    assert conversion.readings == (
        "4.511 N·m",
        "451.1 N·cm",
        "4511 mN·m",
        "46 kgf·cm",
        "46000 g·cm",
        "638.8 ozf·in",
        "39.93 lbf·in",
        "3.327 lbf·ft",
    )
    assert "kgf·cm" in conversion.doubts[0]


def test_convert_loses_no_figure_of_a_long_number():
    assert convert("1.500,5 mm").readings[0] == "1500.5 mm"


def test_convert_says_that_a_spring_rate_may_be_a_torque():
    assert "lbf·in" in convert("20 lb/in").doubts[0]
    assert convert("20 N/mm").doubts == ()


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("20", "what?"),
        ("1,500 mm", "two ways"),
        ("xx", "no quantity"),
        ("00:10", "10 min or 10 s"),
        ("5/6 rpm", "50 and 60 Hz"),
        ("2.5/3 W", "50 and 60 Hz"),
    ],
)
def test_convert_asks(text, words):
    with pytest.raises(UnitError, match=words) as caught:
        convert(text)
    assert caught.value.choices


# --- a number in the wrong unit -------------------------------------------------------------------


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


# --- cost -----------------------------------------------------------------------------------------


def test_reading_loads_neither_pint_nor_numpy():
    code = (
        "import sys; from turnercalc.units import parse; parse('12 kgf·cm', 'torque'); "
        "print(sorted(m for m in ('pint', 'numpy', 'pydantic') if m in sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_a_hundred_thousand_cells_are_read():
    units = ("kg.cm", "N·m", "oz-in", "kgf·cm", "g·cm", "mN·m", "lb·in", "kg/cm", "Nm", "KGF.CM")
    cells = [f"{i / 7:.3f} {unit}" for i in range(1, 10001) for unit in units]
    with comes_to_an_end():
        for cell in cells:
            parse(cell, "torque")
