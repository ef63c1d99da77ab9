"""Text to SI: what is read, and how. Factors from outside: validation/test_units_sources.py."""

import math

import pytest

from turnercalc.units import (
    parse,
    read,
)

from .factors import INCH, KGF_CM, NINE, OZF_IN, POUND, RPM

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
