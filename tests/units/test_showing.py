"""SI to text, and back again."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.units import (
    in_unit,
    inch_fraction,
    parse,
    show,
)

from .factors import NINE, POUND, RPM


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
