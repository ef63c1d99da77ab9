"""Half-known numbers in a design file: read, bounded, told, written back."""

import math
from pathlib import Path

import pytest
from pydantic_core import PydanticCustomError

from turnercalc.advice.ranges import read_range
from turnercalc.design import read_design
from turnercalc.design.writer import write_design
from turnercalc.errors import DesignError, UnitError
from turnercalc.fields import PHRASES, Range3
from turnercalc.handover.record.judgement import unknown_records
from turnercalc.handover.screen.granted import gap_texts
from turnercalc.sizing import size

EXAMPLES = Path(__file__).parents[2] / "examples"
LARDER = (EXAMPLES / "larder-rack.toml").read_text(encoding="utf-8")
HALF = {
    "crank.across": "56 mm +/- 5 mm right of pivot",
    "trays.empty_weight": "1.5 lb ± 10 %",
    "link.length": "8 3/4 in +- 1/8 in",
    "box.temperature": "99.5 F +/- 0.9 F",
    "turning.tilt": "90 deg in all +/- 4 deg",
    "eggs.weighed": "10 eggs = 600 g +/- 30 g",
}
MM = 1e-3
INCH = 25.4 * MM
OUNCE = 0.028349523125  # kg, exact by the international avoirdupois pound

READ = [
    # field type, text, middle and spread in SI, by hand
    ("length", "35 mm +/- 5 mm", 35 * MM, 5 * MM),
    ("length", "35mm±5", 35 * MM, 5 * MM),
    ("length", "35 +- 5 mm", 35 * MM, 5 * MM),
    ("length", "35 mm ± 10 %", 35 * MM, 3.5 * MM),
    ("length", "35 mm plus or minus 1/8 in", 35 * MM, INCH / 8),
    ("length", "5 ft 3 in +/- 1/2 in", 63 * INCH, INCH / 2),
    ("length", '1 3/8" ± 1/8"', 1.375 * INCH, INCH / 8),
    ("height from pivot", "16 mm +/- 2 mm below pivot", -16 * MM, 2 * MM),
    ("height from pivot", "16 mm below pivot +/- 2", -16 * MM, 2 * MM),
    ("height from pivot", "16 +/- 2 mm below pivot", -16 * MM, 2 * MM),
    ("height from pivot", "2 mm above pivot +/- 5 mm", 2 * MM, 5 * MM),
    ("height above floor", "300 mm ± 1 cm above the box floor", 0.3, 0.01),
    ("tilt each side", "45 deg +/- 2 deg each side", math.radians(45), math.radians(2)),
    ("tilt each side", "90 deg in all +/- 4 deg", math.radians(45), math.radians(2)),
    ("temperature", "37.5 C +/- 0.5 C", 37.5, 0.5),
    ("temperature", "99.5 F +/- 0.9 F", 37.5, 0.5),
    ("mass", "60 g +/- 10 %", 0.060, 0.006),
    ("mass", "1 lb 8 oz +/- 1 oz", 24 * OUNCE, OUNCE),
    ("egg mass", "10 eggs = 583 g +/- 10 g", 0.0583, 0.001),
    ("egg mass", "24 oz per dozen +/- 1 oz", 2 * OUNCE, OUNCE / 12),
    ("ratio", "2.0 +/- 0.2", 2.0, 0.2),
]


@pytest.mark.parametrize(("kind", "text", "middle", "spread"), READ)
def test_middle_and_spread(kind: str, text: str, middle: float, spread: float) -> None:
    phrase = PHRASES[kind]
    known = phrase.half_known(text)
    assert known is not None
    assert known.middle == pytest.approx(middle, rel=1e-9)
    assert known.spread == pytest.approx(spread, rel=1e-9)
    assert phrase.read(text) == known.middle


@pytest.mark.parametrize(
    ("kind", "text", "told", "accepted"),
    [
        ("length", "35 mm +/- 40 mm", r"could be -5 mm, and it has to be more than 0 mm", "35 mm"),
        ("mass", "60 g ± 150 %", r"could be -30 g, and it has to be at least 0 g", "60 g"),
        ("length", "35 +/- 5", "35 what", "35 mm +/- 5"),
        ("length", "35 kg +/- 5 kg", "35 kg is a mass", "+/- 5 %"),
        ("length", "35 mm +/- 5 kg", "5 kg is a mass", "+/- 5 %"),
        ("length", "35 mm +/- -5 mm", "how far is it off", "+/- 5 %"),
        ("length", "35 mm +/-", "how far is it off", "+/- 5 %"),
        ("length", "30 m +/- 1 mm", "cannot be right here", "30 mm"),
        ("height from pivot", "16 mm +/- 2 mm", "On which side", "16 mm below pivot +/- 2 mm"),
        ("count", "6 +/- 1", "known exactly", "6"),
    ],
)
def test_nonsense_is_answered(kind: str, text: str, told: str, accepted: str) -> None:
    phrase = PHRASES[kind]
    with pytest.raises(PydanticCustomError, match=told) as caught:
        phrase.read(text)
    offered = (caught.value.context or {})["accepted"]
    assert any(accepted in one for one in offered)
    for one in offered:
        phrase.read(one)


def test_what_holds_several_numbers_is_read_as_before() -> None:
    friction = PHRASES["friction"].read("0.3 +/- 0.1")
    assert isinstance(friction, Range3)
    assert (friction.low, friction.middle, friction.high) == pytest.approx((0.2, 0.3, 0.4))
    assert PHRASES["tilt each side"].read("±45 deg") == pytest.approx(math.radians(45))
    with pytest.raises(PydanticCustomError):
        PHRASES["egg size"].read("57 x 43 mm +/- 2 mm")


def test_a_file_computes_with_the_middle_and_keeps_the_rest() -> None:
    design = read_design(LARDER, HALF)
    plain = read_design(LARDER, {path: middle_of(text) for path, text in HALF.items()})
    assert set(design.half_known) == set(HALF)
    assert design.values() == plain.values()
    assert design != plain
    assert plain.half_known == {}


@pytest.mark.parametrize("units", ["as written", "metric", "us"])
def test_what_is_written_reads_back(units: str) -> None:
    design = read_design(LARDER, HALF)
    text = write_design(design, units)
    again = read_design(text)
    assert set(again.half_known) == set(HALF)
    for path, known in design.half_known.items():
        assert again.half_known[path].middle == pytest.approx(known.middle, rel=2e-6)
        assert again.half_known[path].spread == pytest.approx(known.spread, rel=2e-6)
        assert again.half_known[path].share == known.share
    assert write_design(again, units) == text
    if units == "as written":
        assert again == design


def test_a_setting_takes_the_place_of_a_half_known_number() -> None:
    design = read_design(LARDER, HALF)
    assert "link.length" not in design.replace({"link.length": "222 mm"}).half_known
    assert "link.length" not in design.replace({"link.length": 0.222}, si=True).half_known
    assert design.replace({"arm.length": "80 mm"}).half_known.keys() == design.half_known.keys()
    exact = read_design(LARDER, {"link.length": "220 mm +/- 0 mm"})
    assert exact.half_known == {}


def test_it_is_named_among_what_is_not_known() -> None:
    sizing = size(read_design(LARDER, {"crank.across": HALF["crank.across"]}))
    assert any(
        text.startswith("crank.across is known only as 56 mm +/- 5 mm right of pivot")
        for text in gap_texts(sizing)
    )
    assert unknown_records(sizing)[0]["field"] == "crank.across"


def test_a_file_without_quote_marks_and_one_with_nonsense() -> None:
    bare = read_design(LARDER.replace('"56 mm right of pivot"', "56 mm ± 5 mm right of pivot"))
    assert bare.half_known["crank.across"].spread == pytest.approx(0.005)
    with pytest.raises(DesignError) as caught:
        read_design(LARDER, {"link.length": "35 mm +/- 40 mm"})
    (complaint,) = caught.value.complaints
    assert (complaint.field, complaint.accepted) == ("link.length", ("35 mm +/- 5 %",))


def test_a_sweep_asks_for_both_ends() -> None:
    with pytest.raises(UnitError, match="from where to where"):
        read_range(read_design(LARDER), 'crank.radius="35 mm +/- 5 mm"')


def middle_of(text: str) -> str:
    """Return the text without its spread, by hand: what stands from the sign to the unit."""
    return {
        "56 mm +/- 5 mm right of pivot": "56 mm right of pivot",
        "1.5 lb ± 10 %": "1.5 lb",
        "8 3/4 in +- 1/8 in": "8 3/4 in",
        "99.5 F +/- 0.9 F": "99.5 F",
        "90 deg in all +/- 4 deg": "90 deg in all",
        "10 eggs = 600 g +/- 30 g": "10 eggs = 600 g",
    }[text]


def test_a_range_of_lengths_without_a_unit_is_asked_about() -> None:
    bars = EXAMPLES / "toy-chest-bars.toml"
    with pytest.raises(DesignError) as caught:
        read_design(bars, {"eggs.off_centre": "0.9"})
    (complaint,) = caught.value.complaints
    assert complaint.message.startswith("0.9 what?")
