"""Every listing of the corpus is read as a person reads it.

The listings and their expected readings stand in tests/data/listings, written by hand. The
factors below are of their own making, so that a slip in `units` shows.
"""

import math
import tomllib
from pathlib import Path

import pytest

from turnercalc.motors import MotorRow, read_motors
from turnercalc.motors.motor import SPEEDS, TORQUES

LISTINGS = Path(__file__).parents[1] / "data" / "listings"
G0 = 9.80665  # m/s2, exact by definition (3rd CGPM, 1901)
LB = 0.45359237  # kg, exact (NIST SP 811, appendix B.8)
NEWTON_METRES = {
    "N·m": 1.0,
    "kgf·cm": G0 / 100.0,
    "gf·cm": G0 / 100_000.0,
}
NEWTONS = {"N": 1.0, "kgf": G0, "lbf": LB * G0}
# The nine spellings of 1.5 N·m are rounded to a thousandth.
ROUNDING = 1e-3


def corpus():
    for file in sorted(LISTINGS.glob("*.toml")):
        for listing in tomllib.loads(file.read_text(encoding="utf-8"))["listing"]:
            yield pytest.param(listing, id=f"{file.stem}: {listing['name']}")


def expected_motors(listing):
    return listing["motors"] if "motors" in listing else [listing["each"]] * listing["count"]


def si(text):
    amount, unit = text.split(" ", 1)
    value = float(amount)
    if unit == "rpm":
        return value * 2.0 * math.pi / 60.0
    if unit == "s/60°":
        return math.pi / 3.0 / value
    return value * {**NEWTON_METRES, **NEWTONS}[unit]


def near(value):
    return pytest.approx(value, rel=ROUNDING)


def volts_of(row: MotorRow):
    shown = []
    for v in row.motor.volts:
        span = f"{v.low:g}" if v.low == v.high else f"{v.low:g}-{v.high:g}"
        shown.append(f"{span} {v.current}".strip())
    return shown


def rating(row: MotorRow, field, *, volts=None, hertz=None):
    return next(
        r.value
        for r in row.motor.ratings
        if r.field == field and r.volts == volts and r.hertz == hertz
    )


def check_figures(row: MotorRow, expected):
    """Compare the torques and speeds; one that is not expected must not be there."""
    motor = row.motor
    for field in (*TORQUES, *SPEEDS, "force"):
        if field in SPEEDS and "any_speed" in expected:
            continue
        wanted = expected.get(field)
        found = getattr(motor, field)
        assert (found is None) == (wanted is None), f"{field}: {found}, expected {wanted}"
        if wanted is not None:
            assert found == near(si(wanted)), field
    if "any_speed" in expected:
        assert motor.any_speed == near(si(expected["any_speed"]))
    for key, hertz in (("at_50Hz", 50.0), ("at_60Hz", 60.0)):
        if key in expected:
            assert rating(row, "unnamed_speed", hertz=hertz) == near(si(expected[key]))
    for key, volts in (("at_6V", 6.0), ("at_24V", 24.0)):
        for field, wanted in expected.get(key, {}).items():
            assert rating(row, field, volts=volts) == near(si(wanted))


def check_words(row: MotorRow, expected):
    motor = row.motor
    assert volts_of(row) == expected.get("volts", volts_of(row))
    assert list(motor.frequencies) == expected.get("hertz", [])
    if "class" in expected:
        assert (motor.motor_class or "") == expected["class"]
    if "class_from" in expected:
        assert motor.class_from == expected["class_from"]
    if "could_be" in expected:
        assert list(motor.candidates) == expected["could_be"]
    direction = motor.start_direction
    assert (str(direction) if direction else None) == expected.get("direction")
    assert motor.holds_when_off == expected.get("holds", motor.holds_when_off)
    assert motor.protection == expected.get("protection")
    assert motor.insulation == expected.get("insulation")
    duty = motor.duty
    assert (duty.kind if duty else None) == expected.get("duty")
    if "run_time" in expected:
        assert duty.run_time == near(expected["run_time"])
    if "share" in expected:
        assert duty.share == near(expected["share"])


@pytest.mark.parametrize("listing", list(corpus()))
def test_listing(listing):
    file = read_motors(listing["text"])
    wanted = expected_motors(listing)
    assert len(file.rows) == len(wanted)
    for row, expected in zip(file.rows, wanted, strict=True):
        assert row.used is expected.get("used", True), row.refused
        assert row.motor.id == expected.get("id", row.motor.id)
        assert row.line == expected.get("line", row.line)
        check_figures(row, expected)
        check_words(row, expected)
        for field in (
            "input_power",
            "output_power",
            "rated_current",
            "stall_current",
            "price",
            "mass",
            "stroke",
            "travel_speed",
            "ambient_most",
            "side_load",
        ):
            wanted_value = expected.get(field)
            assert getattr(row.motor, field) == (
                None if wanted_value is None else near(wanted_value)
            )
        assert expected.get("refused", "") in row.refused
        if "says" in expected:
            assert any(expected["says"] in reading.note for reading in row.readings)
        if "possible" in expected:
            told = [f"{p.torque_is} and {p.speed_is}, {p.output_power:.3g} W" for p in row.possible]
            assert told == expected["possible"]


def test_corpus_is_large_enough():
    assert len(list(corpus())) >= 60
