"""Ranges, and labels for two mains."""

import math

import pytest

from turnercalc.errors import UnitError
from turnercalc.units import (
    mains_pair,
    parse_range,
)

from .factors import INCH, KGF_CM, RPM

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


def test_mains_pair():
    assert mains_pair("5/6 rpm", "rotation") == pytest.approx((5 * RPM, 6 * RPM))
    assert mains_pair("2,5/3 r/min", "rotation") == pytest.approx((2.5 * RPM, 3 * RPM))
    assert mains_pair("3/2.5 W", "power") == pytest.approx((3.0, 2.5))
    assert mains_pair("1/2 rpm", "rotation") is None
    assert mains_pair("5 rpm", "rotation") is None
    assert mains_pair("5/6 mm", "rotation") is None
