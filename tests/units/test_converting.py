"""One quantity in the units of listings."""

import pytest

from turnercalc.errors import UnitError
from turnercalc.units import (
    convert,
    parse,
)


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
