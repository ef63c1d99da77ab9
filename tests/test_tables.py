"""The tables and their reader: every row says where it comes from, every slip is named."""

import math

import pytest

from turnercalc.errors import TableError, UnknownNameError
from turnercalc.findings import Answer
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.tables import (
    HOW,
    default,
    defaults,
    friction_pair,
    limit,
    material,
    runner_pair,
    stage_losses,
    stock_teeth,
    table,
    table_names,
)
from turnercalc.tables._columns import SCHEMAS, UNITS, unit_of
from turnercalc.tables._reader import parse_table

EVERY_TABLE = pytest.mark.parametrize("name", table_names())


@EVERY_TABLE
def test_every_row_says_where_it_comes_from(name):
    for row in table(name).rows:
        assert row.source, row
        assert row.how in HOW, row


@EVERY_TABLE
def test_a_source_that_is_called_common_practice_does_not_claim_to_be_read(name):
    for row in table(name).rows:
        if row.how == "common practice, no source":
            assert "doi" not in row.source.lower()


@EVERY_TABLE
def test_each_name_and_alias_finds_its_own_row(name):
    rows = table(name)
    for row in rows.rows:
        aliases = row.names() if "aliases" in row else ()
        for word in (row.text(rows.key), *aliases):
            assert rows.row(word) is row
            assert rows.row(f"  {word.upper()} ") is row
            assert word in rows


def test_a_table_is_read_once():
    assert table("species") is table("species")


def test_rows_cannot_be_changed():
    row = table("species").row("goose")
    with pytest.raises(TypeError):
        row.cells["mass_g"] = 1.0


def test_quantities_come_in_si_by_their_name():
    goose = table("species").row("goose")
    assert goose.number("mass_g") == 150
    assert goose.si("mass") == pytest.approx(0.150)
    assert goose.si("length") == pytest.approx(0.084)
    assert goose.si("tilt") == pytest.approx(math.pi / 4)
    assert goose.si("incubation") == 30 * 86400
    assert table("species").units["mass_min_g"] == "g"
    assert table("species").units["turns_per_day"] == ""


def test_a_blank_stays_none_and_is_refused_where_a_number_is_needed():
    chicken = table("species").row("chicken")
    assert chicken.maybe("water_loss") is None
    with pytest.raises(TableError, match=r"species\.csv, line \d+, column water_loss: is blank"):
        chicken.number("water_loss")


def test_a_row_tells_which_of_its_columns_are_remembered():
    goose = table("species").row("goose")
    assert goose.how == "read"
    assert goose.how_of("mass_g") == "read"
    assert goose.how_of("length_mm") == "from memory"


@pytest.mark.parametrize(
    ("column", "unit"),
    [
        ("mass_g", "g"),
        ("mass_min_g", "g"),
        ("length_mm", "mm"),
        ("density_kg_per_m3", "kg_per_m3"),  # not m3, and not per anything else
        ("working_pull_N_per_mm", "N_per_mm"),  # not mm
        ("no_load_drag_Nm", "Nm"),  # not m
        ("travel_speed_low_mm_per_s", "mm_per_s"),  # not s
        ("low", ""),
        ("turns_per_day", ""),
    ],
)
def test_the_unit_is_the_end_of_a_column_head(column, unit):
    assert unit_of(column) == unit


def test_units_against_their_definitions():
    assert UNITS["g0"] == STANDARD_GRAVITY
    assert UNITS["deg"] * 180 == pytest.approx(math.pi)
    assert UNITS["rpm"] * 60 == pytest.approx(2 * math.pi)
    # 16 avoirdupois ounces are one pound of 0.45359237 kg (1959 agreement)
    assert UNITS["oz"] * 16 == pytest.approx(0.45359237, rel=1e-12)


# --- a damaged table ---------------------------------------------------------------------------

HEADS = "name,system,label,minimum_per_dozen_oz,minimum_g,source,how"
GOOD = f"{HEADS}\nEU L,EU,L,,63,a book,read\n"


def read(text, name="weight_classes"):
    return parse_table(name, text, SCHEMAS[name])


def test_the_undamaged_sample_is_read():
    assert read(f"# a remark\n\n{GOOD}").row("EU L").si("minimum") == pytest.approx(0.063)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("minimum_g,", "minimum_kg,", "line 1, column minimum_g: the head reads minimum_kg"),
        (",how", "", "line 1, column how: the head reads nothing"),
        (",how\n", ",how,extra\n", "line 1, column extra: nothing is known"),
        (",63,", ",sixty,", "line 2, column minimum_g: 'sixty' is no number"),
        (",63,", ",nan,", "line 2, column minimum_g: nan is outside"),
        (",63,", ",6300,", "line 2, column minimum_g: 6300 is outside 0 to 200"),
        (",63,", ",63,,", "line 2: 8 cells where the heads name 7"),
        ("a book,read", "a book", "line 2: 6 cells where the heads name 7"),
        ("a book", "", "line 2, column source: is blank"),
        (",read", ",guessed", "line 2, column how: 'guessed' is none of read, from memory"),
        ("EU L,EU,", "EU L,UK,", "line 2, column system: 'UK' is none of US, EU"),
        ("a book", '"a book', "line 2: "),
        ("EU L,EU,L,,63,a book,read\n", "", "has column heads but no rows"),
        (GOOD, "", "is empty"),
        (
            "read\n",
            "read\nEU-L,EU,L,,63,a book,read\n",
            "line 3, column name: EU-L stands already in line 2",
        ),
    ],
)
def test_damage_is_named_by_file_line_and_column(old, new, says):
    assert old in GOOD
    with pytest.raises(TableError) as caught:
        read(GOOD.replace(old, new, 1))
    message = str(caught.value)
    assert message.startswith("weight_classes.csv")
    assert says in message


STAGE_HEADS = ",".join(SCHEMAS["stage_efficiency"].columns)
STAGE = f"{STAGE_HEADS}\nspur,,0.85,0.92,0.97,,load proportional,,open,a book,read,\n"


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("0.92,0.97", "0.97,0.92", "column high: 0.92 is less than the 0.97 of middle"),
        (",read,\n", ",read,read: medium\n", "column except: there is no column medium"),
        (",read,\n", ",read,heard: low\n", "column except: 'heard' is none of"),
    ],
)
def test_ranges_must_rise_and_exceptions_must_name_columns(old, new, says):
    assert read(STAGE, "stage_efficiency").row("spur").number("middle") == 0.92
    with pytest.raises(TableError, match=r"^stage_efficiency\.csv, line 2") as caught:
        read(STAGE.replace(old, new, 1), "stage_efficiency")
    assert says in str(caught.value)


def test_a_gram_written_as_a_kilogram_is_refused():
    heads = ",".join(SCHEMAS["species"].columns)
    line = "hen,,Gallus,0.06,50,70,57.5,43.5,21,18,3,24,45,40,37.8,,,a book,read,"  # 0.06 for 60
    with pytest.raises(TableError, match=r"column mass_g: 0\.06 is outside 2 to 3000"):
        read(f"{heads}\n{line}\n", "species")


def test_unknown_names_offer_the_nearest():
    with pytest.raises(UnknownNameError, match=r'no "gose". Nearest: goose\.'):
        table("species").row("gose")
    with pytest.raises(UnknownNameError, match='There is no table "birds"'):
        table("birds")
    with pytest.raises(UnknownNameError, match="Nearest: steel in nylon"):
        friction_pair("steel in nylonn")


# --- limits ------------------------------------------------------------------------------------


def test_fine_never_lies_beyond_no():
    for row in table("limits").rows:
        one = limit(row.text("id"))
        if one.fine is not None and one.no is not None:
            ahead = one.fine - one.no if one.sense == "at least" else one.no - one.fine
            assert ahead >= 0, one.id
        assert one.reason
        assert one.unit in UNITS


@pytest.mark.parametrize(
    ("name", "value", "answer"),
    [
        # Elibol and Brake 2006 (doi 10.1093/ps/85.8.1433): 40 and 45 alike, 35 worse at 24 a day
        ("tilt_each_side", 45, Answer.FINE),
        ("tilt_each_side", 40, Answer.FINE),
        ("tilt_each_side", 35, Answer.MARGINAL),
        ("tilt_each_side", 15, Answer.NO),
        ("tilt_each_side_often", 35, Answer.FINE),  # the same paper, 96 a day
        # Transmission angle of 40 degrees or more: textbooks, from memory
        ("link_to_arm", 41, Answer.FINE),
        ("link_to_arm", 35, Answer.MARGINAL),
        ("link_to_arm", 29, Answer.NO),
        # 0.5 g was the lowest harmful level (Univ. of Lorestan); a tenth is ours
        ("peak_acceleration", 0.05, Answer.FINE),
        ("peak_acceleration", 0.2, Answer.MARGINAL),
        ("peak_acceleration", 0.51, Answer.NO),
        # Half an inch round a solid tray: common practice, no source. It is never a plain no.
        ("air_gap", 12.7, Answer.FINE),
        ("air_gap", 1, Answer.MARGINAL),
        # By hand two or three times a day: common practice, no source
        ("hand_turns_per_day", 3, Answer.FINE),
        ("hand_turns_per_day", 2, Answer.MARGINAL),
        ("hand_turns_per_day", 1, Answer.NO),
        # Poultry Sci. 99 (2020) 4417 (doi 10.1016/j.psj.2020.05.045): best at 24, worst at 3
        ("turns_per_day", 24, Answer.FINE),
        ("turns_per_day", 12, Answer.MARGINAL),
        ("turns_per_day", 2, Answer.NO),
        ("motor_corner", 1.0, Answer.FINE),
        ("motor_corner", 0.99, Answer.NO),
        # Crush gap for a finger, 25 mm: Austrian workers' accident insurance (AUVA)
        ("pinch_gap", 25, Answer.FINE),
        ("pinch_gap", 24, Answer.MARGINAL),
        ("link_to_arm", None, Answer.UNKNOWN),
        ("link_to_arm", math.nan, Answer.UNKNOWN),
    ],
)
def test_answers_of_limits(name, value, answer):
    assert limit(name).answer(value) is answer


def test_a_limit_takes_si_values_into_its_own_unit():
    assert limit("link_to_arm").of_si(math.radians(37)) == pytest.approx(37)
    assert limit("air_gap").of_si(0.0127) == pytest.approx(12.7)
    assert limit("peak_acceleration").of_si(0.05 * STANDARD_GRAVITY) == pytest.approx(0.05)


@pytest.mark.parametrize("name", ["tilt_each_side", "link_to_arm", "tilt_each_side_most"])
def test_the_very_limit_is_fine_after_a_trip_through_radians(name):
    one = limit(name)
    there_and_back = [one.of_si(math.radians(one.fine * (1 + k * 1e-15))) for k in range(-3, 4)]
    assert {one.answer(value) for value in there_and_back} == {Answer.FINE}
    assert one.answer(one.no) is not Answer.NO


def test_half_an_inch_and_room_temperature_are_what_they_say():
    assert limit("air_gap").fine == pytest.approx(25.4 / 2)
    # 65 and 75 F: common practice, no source
    assert limit("room_temperature_low").fine == pytest.approx((65 - 32) / 1.8, abs=0.05)
    assert limit("room_temperature_high").fine == pytest.approx((75 - 32) / 1.8, abs=0.05)


def test_harmonic_turn_of_the_move_time_limit():
    """90 degrees in 2 s at 250 mm: peak tangential acceleration of a cosine profile is 0.05 g."""
    swing, seconds, radius = math.pi / 4, limit("move_time_shortest").fine, 0.25
    peak = radius * swing * (math.pi / seconds) ** 2
    assert peak / STANDARD_GRAVITY == pytest.approx(limit("peak_acceleration").fine, abs=0.001)


# --- defaults ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "field",
    [
        "box.temperature",
        "box.leans",
        "eggs.typical",
        "eggs.largest",
        "eggs.smallest",
        "eggs.weighed",
        "eggs.cell_wall",
        "eggs.off_centre",
        "turning.tilt",
        "turning.turns_per_day",
        "turning.last_day",
        "turning.sense",
        "trays.lowest_pivot",
        "trays.off_centre",
        "trays.filled",
        "trays.balance",
        "trays.width",
        "trays.underside",
        "pivots.friction",
        "pivots.play",
        "link.weight",
        "tie_bar.weight",
        "link.pin_play",
        "link.thickness",
        "link.material",
        "arm.angle",
        "motor.safety_factor",
        "motor.have",
        "loads",
        "bars.wall",
        "bars.weight",
        "bars.under_bars",
        "bars.stop_spacing",
        "bars.driven_bar",
        "bars.belt_pull",
        "bars.rolling_arm",
        "gearing",
        "gearing.efficiency",
        "drum.empty_balance",
        "drum.outside",
        "drum.axle_height",
        "drum.squeeze",
        "drum.bearing_count",
        "counterweight",
    ],
)
def test_every_optional_field_has_its_default_with_a_source(field):
    one = default(field)
    assert one.field == field
    assert one.text
    assert one.source
    assert one.how in HOW


@pytest.mark.parametrize(
    "field",
    [
        "trays.egg_floor",
        "eggs.held_by",
        "eggs.lie",
        "crank.radius",
        "crank.runs",
        "crank.across",
        "motor.stopped_by",
        "motor.stands",
        "turning.motion",
    ],
)
def test_what_must_never_be_filled_in_silently_has_no_default(field):
    assert default(field).kind == "required"


def test_what_stays_unknown_is_called_so():
    for field in ("eggs.cell_wall", "trays.lowest_pivot", "bars.under_bars", "drum.axle_height"):
        assert default(field).kind == "unknown"


def test_safety_factor_is_two_and_said_aloud():
    assert default("motor.safety_factor").kind == "value"
    assert float(default("motor.safety_factor").text) == limit("times_enough").fine == 2.0
    assert default("motor.safety_factor") in defaults()


# --- friction, stages, materials, teeth --------------------------------------------------------


def test_damp_starts_are_never_easier_than_dry_ones():
    for row in table("friction").rows:
        pair = friction_pair(row.text("name"))
        assert pair.damp.high >= pair.dry.high, pair.name
        assert pair.damp_static_high >= pair.static_high, pair.name
        assert pair.static_high >= pair.dry.high, pair.name


@pytest.mark.parametrize(
    ("name", "figure"),
    [
        # Open friction tables (Pressbooks Physics Fundamentals, appendix A, and others)
        ("steel in steel, dry", 0.42),
        ("steel in aluminium", 0.47),
        ("steel in brass, dry", 0.44),
        # preproom.org: cast nylon, dynamic
        ("steel in nylon", 0.32),
        # general reference table: deep groove ball bearing
        ("ball bearing", 0.0015),
    ],
)
def test_published_kinetic_coefficients_lie_in_their_range(name, figure):
    pair = friction_pair(name)
    assert pair.dry.low <= figure <= pair.dry.high


@pytest.mark.parametrize(
    "words",
    [
        "steel in nylon damp",
        "Steel in damp nylon",
        "steel on steel",
        "steel in bronze, oiled",
        "ball bearings",
        "wood on steel dowel",
        "bolt in plywood",
    ],
)
def test_bearings_are_found_as_builders_write_them(words):
    assert friction_pair(words).name


@pytest.mark.parametrize(
    ("name", "arm_mm"),
    [
        # Workshop page on rolling friction (emachineshop.com)
        ("wood on wood", 1.5),
        ("iron on iron", 0.5),
        ("iron on wood", 5.6),
        # A drive builder's handbook, from memory
        ("wood on steel", 1.2),
        ("plastic on steel", 2.0),
        ("rubber on steel", 7.0),
    ],
)
def test_published_arms_of_rolling_resistance_lie_in_their_range(name, arm_mm):
    arm = runner_pair(name).rolling_arm
    assert arm.low <= 1e-3 * arm_mm <= arm.high


@pytest.mark.parametrize(
    ("name", "figure"),
    [
        # Open friction tables: wood on wood 0.25 to 0.5, metal on wood 0.2 to 0.6
        ("plywood on plywood", 0.25),
        ("plywood on plywood", 0.5),
        ("flat bar on wood", 0.2),
        ("flat bar on wood", 0.6),
    ],
)
def test_published_friction_of_runners_lies_in_its_range(name, figure):
    grip = runner_pair(name).grip
    assert grip.low <= figure <= grip.high


def test_rubber_grips_better_than_wood_at_its_worst():
    assert runner_pair("rubber strip on wood").grip.low >= runner_pair("wood on wood").grip.high


@pytest.mark.parametrize(
    ("kind", "figure"),
    [
        # Chinese mechanical design handbook, table of transmission efficiencies
        ("chain", 0.96),
        ("toothed belt", 0.97),
        ("spur", 0.95),
        ("planetary", 0.95),
        ("worm", 0.42),  # self-locking 0.40 to 0.45
        ("worm, two starts", 0.78),
        ("worm, four starts", 0.86),
        ("v-belt", 0.96),
        ("lead screw", 0.45),
        # Machine Design 21834659: a tenth lost per mesh of a miniature head
        ("spur", 0.90),
    ],
)
def test_published_efficiencies_lie_in_their_range(kind, figure):
    losses = stage_losses(kind)
    assert losses.efficiency.low <= figure <= losses.efficiency.high


def test_worms_and_screws_go_back_by_their_own_formulas():
    for kind in ("worm", "lead screw", "ball screw"):
        assert stage_losses(kind).back_driving == "exact"
        assert stage_losses(kind).lead_angle is not None
    assert stage_losses("timing belt").back_driving == "load proportional"
    assert stage_losses("friction roller").back_driving == "slips"


def test_moduli_lie_in_the_handbook_ranges():
    """Ranges of machine design handbooks, from memory."""
    for name, low, high in (
        ("steel", 200e9, 207e9),
        ("aluminium tube", 69e9, 70e9),
        ("acetal", 2.6e9, 3.1e9),
        ("softwood", 8e9, 10e9),
    ):
        assert low <= material(name).youngs_modulus <= high
    assert material("steel").density == 7850
    assert material("nylon").standing_modulus < material("nylon").youngs_modulus / 2


def test_isotropic_materials_have_a_possible_poisson_ratio():
    for name in ("steel", "stainless steel", "aluminium", "brass", "bronze", "acetal", "pvc"):
        one = material(name)
        poisson = one.youngs_modulus / (2 * one.shear_modulus) - 1
        assert 0.2 < poisson < 0.45, name


def test_stock_teeth_rise_and_hold_the_usual_pairs():
    for kind in ("spur", "chain", "toothed belt"):
        teeth = stock_teeth(kind)
        assert list(teeth) == sorted(set(teeth))
    assert {12, 24, 60} <= set(stock_teeth("spur"))
    assert {16, 20, 48, 60} <= set(stock_teeth("timing belt"))


def test_pitches_against_their_inch_names():
    """MXL is 0.080 in, XL 1/5 in, L 3/8 in; chain numbers count sixteenths (ISO 606)."""
    inch = 25.4
    for name, inches in (("MXL", 0.080), ("XL", 0.2), ("L", 3 / 8), ("ansi 25", 2 / 8)):
        assert table("pitches").row(name).number("pitch_mm") == pytest.approx(inch * inches)
    for name, sixteenths in (("04C", 4), ("06B", 6), ("08B", 8)):
        pitch = table("pitches").row(name).number("pitch_mm")
        assert pitch == pytest.approx(inch * sixteenths / 16)
    assert table("pitches").row("05B").number("pitch_mm") == 8  # the metric exception


def test_belt_pulls_against_the_pounds_per_inch_of_their_source():
    """Handbook of timing belts, section 7: 64, 102, 178 lbf per inch for HTD 3, 5, 8 mm."""
    for name, pounds in (("HTD 3 mm", 64), ("HTD 5 mm", 102), ("HTD 8 mm", 178)):
        pull = table("pitches").row(name).number("working_pull_N_per_mm")
        assert pull == pytest.approx(pounds * 4.4482216 / 25.4, abs=0.02)


def test_motor_classes_cover_the_trade():
    ids = set(table("motor_classes").names())
    assert {
        "synchronous_one_way",
        "synchronous_reversible",
        "shaded_pole",
        "capacitor_run",
        "brushed_spur",
        "brushed_planetary",
        "brushed_worm",
        "wiper",
        "stepper",
        "servo",
        "linear_actuator",
    } <= ids


def test_no_motor_may_be_used_to_its_stall():
    for row in table("motor_classes").rows:
        if row.text("counted_figure") == "stall":
            # continuous load at 10 to 25 % of stall, never above a third (from memory)
            assert row.number("share_that_counts") <= 0.3
