"""Simulated builds with one planted error: the error is among the answers, every time."""

import math
import random
from functools import cache
from pathlib import Path

import pytest

from turnercalc.advice.diagnose import Diagnosis, Measured, diagnose, gather, read_ends, read_log
from turnercalc.advice.diagnose.ends import Curve, curves
from turnercalc.building import build
from turnercalc.design import read_design
from turnercalc.errors import UnitError
from turnercalc.handover import diagnosis_page
from turnercalc.handover.display import Style
from turnercalc.motors import read_motors
from turnercalc.sizing import Sizing, size
from turnercalc.swing import ends, lengths

EXAMPLES = Path(__file__).parents[2] / "examples"
RACK = EXAMPLES / "larder-rack.toml"

# What each length of the rack is in the file, for building it wrong on purpose.
BUILT = {
    "crank.radius": "{:.4f} mm",
    "link.length": "{:.4f} mm",
    "arm.length": "{:.4f} mm",
    "crank.across": "{:.4f} mm right of pivot",
    "crank.height": "{:.4f} mm below pivot",
}


@cache
def rack() -> Sizing:
    return size(read_design(RACK), read_motors(EXAMPLES / "motors.csv"))


@cache
def rack_curves() -> tuple[Curve, ...]:
    return curves(rack())


@cache
def built_wrong(field: str, tenths: int) -> tuple[float, float] | None:
    """Return both ends of the rack with one length so many tenths of a millimetre off [rad]."""
    meant = 1e3 * abs(lengths(rack().turner, rack().drive)[field])
    # Further down is a larger number below the pivot, and a smaller coordinate.
    sign = -1.0 if field == "crank.height" else 1.0
    text = BUILT[field].format(meant + sign * 0.1 * tenths)
    built = build(read_design(RACK, {field: text}))
    found = ends(built.turner, built.drive)
    return None if math.isnan(found.total) else (found.high, -found.low)


def told(diagnosis: Diagnosis) -> set[str]:
    return {one.id for one in diagnosis.explanations}


def read_off(angle: float, rng: random.Random) -> float:
    """Return what a phone shows: to half a degree, and up to 0.3 degrees off."""
    shown = math.degrees(angle) + rng.uniform(-0.3, 0.3)
    return math.radians(round(2.0 * shown) / 2.0)


def test_two_hundred_builds_with_one_length_wrong() -> None:
    rng = random.Random(20)
    seen = 0
    while seen < 200:
        field = rng.choice(sorted(BUILT))
        tenths = rng.choice([-1, 1]) * rng.randint(15, 100)
        both = built_wrong(field, tenths)
        if both is None:
            continue
        measured = Measured(high=read_off(both[0], rng), low=read_off(both[1], rng))
        found = diagnose(rack(), measured, rack_curves())
        if "ends" in found.right:
            continue  # too small to be seen with a phone
        seen += 1
        assert field in told(found), (field, tenths)
        one = next(e for e in found.explanations if e.id == field)
        assert one.least - 1e-4 <= 1e-4 * tenths <= one.most + 1e-4, (field, tenths)


@pytest.mark.parametrize("lean", [-12.0, -5.0, -2.5, 2.5, 4.0, 9.0])
def test_a_box_out_of_level(lean: float) -> None:
    meant, off = rack().ends, math.radians(lean)
    found = diagnose(
        rack(), Measured(high=meant.high + off, low=off * -1.0 - meant.low), rack_curves()
    )
    one = next(e for e in found.explanations if e.id.startswith("level"))
    assert one.error == pytest.approx(off, abs=math.radians(1.0))


@pytest.mark.parametrize("hours", [12.0, 24.0, 48.0, 100.0])
@pytest.mark.parametrize(
    ("cause", "share"),
    [("half", 0.5), ("double", 2.0), ("interval", 0.8), ("interval", 1.25), ("missed", 0.7)],
)
def test_counts(hours: float, cause: str, share: float) -> None:
    turns = round(share * hours)  # once an hour is meant
    found = diagnose(rack(), Measured(turns=turns, hours=hours))
    assert f"count.{cause}" in told(found)


@pytest.mark.parametrize("share", [0.6, 0.75, 1.4])
def test_a_supply_that_is_off(share: float) -> None:
    # Both ends of a brushed motor's line go with the voltage (MIT 2.007, "Designing with D.C.
    # motors"); the times here are worked out anew with the listing's speed at that voltage.
    chosen = rack().chosen
    assert chosen is not None
    volts = chosen.electric.volts
    slow = size(
        read_design(RACK),
        read_motors(
            "id; what; speed; torque; torque is; supply\n"
            f"worm 5; worm gearmotor; {5 * share} rpm; {3.2 * share} N.m; rated; 12 V DC\n"
        ),
    )
    time = math.sqrt(slow.timing.shortest_move * slow.timing.longest_move)
    found = diagnose(rack(), Measured(move_time=time))
    one = next(e for e in found.explanations if e.id == "time.voltage")
    assert one.error == pytest.approx(share * volts, rel=0.08)
    assert "time.speed" in told(found)


def test_a_rod_that_is_slow_is_told_in_the_speed_of_a_rod() -> None:
    found = size(
        read_design(EXAMPLES / "beach-cooler-cradle.toml"), read_motors(EXAMPLES / "actuators.csv")
    )
    assert found.chosen is not None
    assert found.chosen.longest_move is not None
    slow = diagnose(found, Measured(move_time=1.5 * found.chosen.longest_move))
    assert "time.travel" in told(slow)
    page = diagnosis_page.page(found, slow, Style())
    assert "mm/s" in page
    assert "rpm" not in page


def test_the_other_mains_frequency() -> None:
    # A synchronous motor turns 60/50 as fast on 60 Hz: n = 120 f/p.
    named = size(read_design(RACK, {"motor.have": "syn 60"}), read_motors(EXAMPLES / "motors.csv"))
    time = named.timing.longest_move / 1.2
    found = diagnose(named, Measured(move_time=time))
    assert "time.frequency" in told(found)


def test_as_drawn_nothing_is_off() -> None:
    meant, timing = rack().ends, rack().timing
    found = diagnose(
        rack(),
        Measured(
            high=meant.high, low=-meant.low, move_time=timing.longest_move, turns=48, hours=48
        ),
    )
    assert found.off == ()
    assert set(found.right) == {"ends", "time", "count"}
    assert not found.unexplained
    assert found.adjustment is None


def test_what_nothing_single_explains_is_said() -> None:
    # Both ends far too far: no length within a hand's error does that.
    found = diagnose(rack(), Measured(high=math.radians(80.0), low=math.radians(15.0)))
    level_only = {e.id for e in found.explanations} <= {"level.box.leans"}
    assert level_only
    found = diagnose(
        rack(), Measured(high=math.radians(20.0), low=math.radians(85.0), turns=5, hours=48)
    )
    assert found.unexplained
    assert found.partly


def test_what_to_adjust_first_brings_the_ends_back() -> None:
    # Built with the link 4 mm too long: its thread takes them out again.
    both = built_wrong("link.length", 40)
    assert both is not None
    found = diagnose(rack(), Measured(high=both[0], low=both[1]), rack_curves())
    assert found.adjustment is not None
    assert found.adjustment.field == "link.length"
    assert found.adjustment.by == pytest.approx(-4e-3, abs=0.4e-3)
    assert math.degrees(abs(found.adjustment.high - found.adjustment.low)) < 1.5


@pytest.mark.parametrize(
    ("text", "high", "low"),
    [
        ("50 deg left, 40 deg right", 50.0, 40.0),
        ("40.5° right side down; 50° left side down", 50.0, 40.5),
        ("38 degrees to the right", None, 38.0),
    ],
)
def test_ends_as_people_write_them(text: str, high: float | None, low: float | None) -> None:
    found = read_ends(text)
    for value, wanted in zip(found, (high, low, None), strict=True):
        assert (None if value is None else math.degrees(value)) == (
            None if wanted is None else pytest.approx(wanted)
        )


@pytest.mark.parametrize("text", ["50 and 40", "50 deg left, 40 deg left", "left 50", ""])
def test_ends_that_say_too_little_are_refused_with_what_would_do(text: str) -> None:
    with pytest.raises(UnitError) as caught:
        read_ends(text)
    assert caught.value.choices


def test_a_run_log() -> None:
    found = read_log(
        "hours, count, left, right, seconds, current\n1,1,44,45,6.1,\n47,46,46,45,6.3,1.1\n"
    )
    assert math.degrees(found.high) == pytest.approx(45.0)
    assert found.move_time == pytest.approx(6.2)
    assert (found.turns, found.hours) == (46.0, pytest.approx(47.0))
    assert found.current == pytest.approx(1.1)


def test_which_columns_of_a_log_were_read_is_said() -> None:
    text = "hours,left,right,seconds,mood,remarks\n6,44,45,,fine,count due 6\n"
    found = read_log(text)
    assert found.read == ("hours", "left", "right")  # nothing stands under seconds
    assert found.passed_over == ("mood",)
    sizing = rack()
    page = diagnosis_page.page(sizing, diagnose(sizing, gather(sizing, log=text)), Style())
    assert "Read in the log: hours, left, right. Not read: mood." in page


def test_a_table_that_is_no_log_is_refused_though_a_column_has_such_a_name() -> None:
    with pytest.raises(UnitError, match="of its 3 columns only current can be meant"):
        read_log("name,volts,current\nworm 5,12,0.7\n")
    with pytest.raises(UnitError, match="--run-log"):
        read_log((EXAMPLES / "motors.csv").read_text(encoding="utf-8"))


@pytest.mark.parametrize("text", ["a,b\n1,2\n", "left,right\nxx,3\n", ""])
def test_a_log_that_cannot_be_read_says_so(text: str) -> None:
    with pytest.raises(UnitError):
        read_log(text)


# -- a part that slides: only how far it goes counts ---------------------------------------------


@cache
def grid() -> Sizing:
    return size(read_design(EXAMPLES / "seed-tray-grid.toml"))


@cache
def grid_curves() -> tuple[Curve, ...]:
    return curves(grid())


@pytest.mark.parametrize(
    ("text", "high", "low", "total"),
    [
        ("22 mm right, 24 mm left", 22.0, 24.0, None),
        ("22 mm far, 24 mm near", 22.0, 24.0, None),
        ("46 mm in all", None, None, 46.0),
        ("4.6 cm from end to end", None, None, 46.0),
    ],
)
def test_ends_of_a_slide(
    text: str, high: float | None, low: float | None, total: float | None
) -> None:
    found = gather(grid(), ends=text)
    for value, wanted in (
        (found.high, high),
        (found.low, low),
        (found.total, total),
    ):
        assert value == (None if wanted is None else pytest.approx(1e-3 * wanted))


def test_where_a_slide_stands_is_its_own_affair() -> None:
    # 44 mm as drawn: 25 and 19 mm of a middle that nobody marked are 44 mm too.
    assert diagnose(grid(), gather(grid(), ends="25 mm right, 19 mm left")).off == ()
    assert diagnose(grid(), gather(grid(), ends="44 mm in all")).right == ("ends",)


@pytest.mark.parametrize("text", ["28 mm right, 22 mm left", "50 mm in all"])
def test_a_slide_that_goes_too_far(text: str) -> None:
    # A crank whose pin drives a slide goes twice its radius (any textbook: the Scotch yoke), so
    # that 6 mm too many are a crank 3 mm too long.
    found = diagnose(grid(), gather(grid(), ends=text), grid_curves())
    one = next(e for e in found.explanations if e.id == "crank.radius")
    assert one.error == pytest.approx(3e-3, abs=0.1e-3)
    assert found.adjustment is not None
    assert found.adjustment.field == "crank.radius"
    assert found.adjustment.by == pytest.approx(-3e-3, abs=0.1e-3)
    assert found.adjustment.total == pytest.approx(44e-3, abs=0.2e-3)
    assert "44.0 mm from end to end" in found.adjustment.text


def test_a_run_log_of_a_slide_is_in_millimetres() -> None:
    found = gather(grid(), log="hours,count,right,left\n1,1,22,23\n")
    assert (found.high, found.low) == (pytest.approx(22e-3), pytest.approx(23e-3))


def test_a_tray_measured_from_end_to_end_is_explained_but_not_set() -> None:
    # Which length keeps both sides alike is not known from their sum.
    found = diagnose(rack(), gather(rack(), ends="82 deg in all"), rack_curves())
    assert "crank.radius" in told(found)
    assert found.adjustment is None


@pytest.mark.parametrize(
    ("stopped_by", "words"),
    [("timer", "It stops 4.6"), ("end switches", "The end switch at the")],
)
def test_an_end_switch_is_blamed_only_where_there_is_one(stopped_by: str, words: str) -> None:
    bars = size(read_design(EXAMPLES / "toy-chest-bars.toml", {"motor.stopped_by": stopped_by}))
    found = diagnose(bars, gather(bars, ends="380 deg in all"))
    assert all(one.text.startswith(words) for one in found.explanations)
    assert found.explanations


def test_ends_without_a_unit_keep_their_sides_in_what_is_offered() -> None:
    with pytest.raises(UnitError) as refused:
        read_ends("36 left, 47 right")
    assert refused.value.choices == ("36 deg left, 47 deg right",)
    high, low, _ = read_ends(refused.value.choices[0])
    assert (high, low) == (pytest.approx(math.radians(36)), pytest.approx(math.radians(47)))
