"""What a builder is told: the line, the field, what was read, what is wrong, what would do."""

from __future__ import annotations

import re
from collections.abc import Mapping

import pytest

from tests.design.test_reading import RACK, with_value, without
from turnercalc.design import complaint_text, read_design
from turnercalc.design.why import WHY
from turnercalc.errors import Complaint, DesignError


def refused(text: str, settings: Mapping[str, object] | None = None) -> DesignError:
    with pytest.raises(DesignError) as caught:
        read_design(text, settings or {})
    return caught.value


def only(text: str, settings: Mapping[str, object] | None = None) -> Complaint:
    (complaint,) = refused(text, settings).complaints
    return complaint


def line_of(text: str, start: str) -> int:
    lines = text.splitlines()
    return next(at for at, line in enumerate(lines, start=1) if line.startswith(start))


# --- the file with three errors ---------------------------------------------------------------


@pytest.fixture
def three_errors() -> str:
    text = RACK.replace('tilt          = "45 deg each side"', 'tilt = "45 deg"')
    text = text.replace('radius = "56.5 mm"', "radius = 50")
    return text.replace('length       = "160 mm"', 'lenght = "160 mm"')


def test_all_problems_come_in_one_pass_with_their_lines(three_errors: str) -> None:
    error = refused(three_errors)
    assert [(c.line, c.field) for c in error.complaints] == [
        (line_of(three_errors, "tilt"), "turning.tilt"),
        (line_of(three_errors, "radius"), "crank.radius"),
        (line_of(three_errors, "lenght"), "link.lenght"),
    ]
    assert [c.read for c in error.complaints] == [
        'tilt = "45 deg"',
        "radius = 50",
        'lenght = "160 mm"',
    ]
    assert str(error).startswith("Nothing was calculated: 3 lines")


def test_the_page_of_complaints_can_be_acted_on(three_errors: str) -> None:
    page = complaint_text(refused(three_errors))
    assert max(len(line) for line in page.splitlines()) <= 80
    number = line_of(three_errors, "tilt")
    assert f'  line {number}   tilt = "45 deg"\n' in page
    assert 'Write   tilt = "45 deg each side"   or   tilt = "45 deg in all"' in page
    assert '[link] has no "lenght". Nearest: length.' in page
    understood = re.search(r"The other (\d+) lines were understood\.", page)
    assert understood
    settings = [line for line in three_errors.splitlines() if re.match(r"\w[\w ]*=", line)]
    assert int(understood.group(1)) == len(settings) - 3


def test_what_the_page_offers_is_accepted(three_errors: str) -> None:
    for complaint in refused(three_errors).complaints:
        for text in complaint.accepted:
            wrong = {
                (c.field, c.read) for c in refused(three_errors, {complaint.field: text}).complaints
            }
            assert complaint.field not in {field for field, _ in wrong}, text


def test_a_file_name_stands_in_the_headline(tmp_path: object) -> None:
    from pathlib import Path

    path = Path(str(tmp_path)) / "my-rack.toml"
    path.write_text(without("motor.stands"), encoding="utf-8")
    with pytest.raises(DesignError, match=r"1 thing of my-rack\.toml needs you"):
        read_design(path)


# --- names ------------------------------------------------------------------------------------


def test_a_misspelt_name_suppresses_what_would_follow_from_it() -> None:
    complaint = only(RACK.replace("length       =", "lenght       ="))
    assert complaint.message == '[link] has no "lenght". Nearest: length.'


def test_a_misspelt_name_is_judged_under_the_name_that_was_meant() -> None:
    error = refused(RACK.replace('length       = "160 mm"', "lenght = 160"))
    assert [c.field for c in error.complaints] == ["link.lenght", "link.length"]
    assert "160 what?" in error.complaints[1].message


def test_a_misspelt_section_is_one_complaint() -> None:
    complaint = only(RACK.replace("[crank]", "[crnak]"))
    assert complaint.line == line_of(RACK, "[crank]")
    assert "Nearest: [crank]" in complaint.message


def test_words_builders_use_lead_to_ours() -> None:
    assert "Nearest: [link]" in only(RACK.replace("[link]", "[rod]")).message
    assert "Nearest: turner" in only(RACK.replace("turner     =", "mechanism =")).message


def test_a_section_that_is_nothing_like_any_lists_those_that_there_are() -> None:
    error = refused(RACK + '[wheels]\ncolour = "red"\n')
    assert len(error.complaints) == 1
    assert "[crank]" in error.complaints[0].message


def test_a_field_in_the_wrong_section_is_sent_home() -> None:
    complaint = only(RACK.replace("[link]", '[link]\negg_floor = "1 mm above pivot"', 1))
    assert "[trays] has" in complaint.message
    complaint = only('stopped_by = "timer"\n' + RACK)
    assert complaint.message == '"stopped_by" belongs in [motor].'


def test_a_name_above_the_sections_that_comes_near_is_taken_for_it() -> None:
    complaint = only(RACK.replace("drawn_from", "drawn_form"))
    assert "Nearest: drawn_from" in complaint.message


def test_a_field_nobody_knows_lists_the_section() -> None:
    complaint = only(RACK.replace("[arm]", '[arm]\nzzz = "1"', 1))
    assert "It has: length, points" in complaint.message


@pytest.mark.parametrize("key", ["Egg Floor", "egg-floor", "EGG_FLOOR", "eggfloor"])
def test_case_spaces_and_hyphens_are_no_mistake(key: str) -> None:
    assert read_design(RACK.replace("egg_floor    =", f"{key} =")) == read_design(RACK)


# --- twice ------------------------------------------------------------------------------------


def test_a_field_given_twice_names_both_lines() -> None:
    text = RACK.replace("[arm]", '[arm]\nlength = "70 mm"', 1)
    complaint = only(text)
    first = line_of(text, 'length = "70 mm"')
    assert complaint.line == first + 1
    assert f"stands already in line {first}" in complaint.message


def test_the_same_value_twice_is_only_noted() -> None:
    text = RACK.replace("[arm]", '[arm]\nlength = "80 mm"', 1)
    (note,) = read_design(text).notes
    assert note.text == "arm.length stands here twice."


def test_a_section_may_be_opened_twice_but_a_field_may_not_change() -> None:
    again = RACK + '\n[crank]\nturns = "clockwise"\n'
    assert read_design(again).value("crank.turns") == "clockwise"
    complaint = only(RACK + '\n[crank]\nradius = "60 mm"\n')
    assert f"line {line_of(RACK, 'radius')}" in complaint.message


# --- never silent -----------------------------------------------------------------------------

NEVER_SILENT = [
    "drawn_from",
    "turner",
    "drive",
    "eggs.kind",
    "eggs.lie",
    "eggs.held_by",
    "eggs.cell_room",
    "trays.count",
    "trays.rows",
    "trays.eggs_per_row",
    "trays.row_spacing",
    "trays.egg_floor",
    "crank.radius",
    "crank.runs",
    "crank.across",
    "crank.height",
    "link.length",
    "arm.length",
    "arm.points",
    "motor.supply",
    "motor.stands",
    "motor.stopped_by",
]


@pytest.mark.parametrize("path", NEVER_SILENT)
def test_what_is_never_filled_in_silently_is_asked_for_with_the_reason(path: str) -> None:
    complaint = only(without(path))
    assert complaint.field == path
    assert complaint.line is None
    assert complaint.accepted, "an example of what would do"
    if path != "eggs.cell_room":  # asked for because of cells, and says so
        assert WHY[path] in complaint.message


def test_a_missing_line_says_where_it_belongs() -> None:
    complaint = only(without("crank.radius"))
    assert f"It belongs in [crank], line {line_of(without('crank.radius'), '[crank]')}." in (
        complaint.message
    )


def test_a_missing_section_lists_what_it_has_to_say() -> None:
    text = re.sub(r"\[crank\].*?(?=\[link\])", "", RACK, flags=re.DOTALL)
    complaint = only(text)
    assert complaint.read == "[crank]"
    for name in ("radius", "runs", "across", "height"):
        assert f"\n{name}: " in complaint.message


def test_a_required_field_cannot_be_called_unknown() -> None:
    complaint = only(with_value("crank.radius", '"unknown"'))
    assert complaint.line == line_of(RACK, "radius")
    assert WHY["crank.radius"] in complaint.message


@pytest.mark.parametrize(
    ("held", "field", "says"),
    [("round holes", "eggs.hole", "hole"), ("troughs", "eggs.trough_angle", "trough")],
)
def test_another_way_of_holding_asks_for_its_own_size(held: str, field: str, says: str) -> None:
    text = RACK.replace('"cells"', f'"{held}"')
    if held == "troughs":
        text = text.replace('"big end up"', '"on the side, along the axis"')
    complaint = only(text)
    assert complaint.field == field
    assert says in complaint.message.lower()


def test_a_way_of_lying_that_cannot_be_held_so_is_refused() -> None:
    complaint = only(RACK.replace('"cells"', '"troughs"'))
    assert complaint.field == "eggs.held_by"
    assert "cells" in complaint.accepted


def test_mains_without_its_frequency_is_asked_for() -> None:
    complaint = only(with_value("motor.supply", '"230 V"'))
    assert complaint.accepted[:2] == ("230 V 50 Hz", "230 V 60 Hz")
    assert "frequency" in complaint.message


def test_mains_of_two_frequencies_is_asked_for() -> None:
    complaint = only(with_value("motor.supply", '"12 V and 230 V 50/60 Hz"'))
    assert len(complaint.accepted) == 2


# --- values that cannot be ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("path", "typed", "says", "accepted"),
    [
        ("trays.pitch", "140", "140 what? A length needs a unit", "140 mm"),
        ("trays.pitch", "5.5", "5.5 what?", "5.5 in"),
        ("trays.pitch", '"140"', "140 what?", "140 mm"),
        ("trays.pitch", ".5", ".5 what?", ""),
        ("trays.pitch", '"18 1/2"', "18 1/2 what?", "18 1/2 in"),
        ("trays.pitch", '"1,500 mm"', "two ways", ""),
        ("trays.pitch", '"140 g"', "140 g is a mass", ""),
        ("trays.pitch", '"140 furlongs"', "furlongs", "140 mm"),
        ("trays.pitch", '"-140 mm"', "more than 0", ""),
        ("trays.pitch", '"130 to 140 mm"', "one figure is wanted", ""),
        ("trays.pitch", '"1\'6"', "6 what?", "1 ft 6 in"),
        ("trays.pitch", '"a bit"', "no number", ""),
        (
            "trays.pitch",
            '"140 mm or so, I think, but I have to measure it again tomorrow '
            'because the tape was bent and my helper read it upside down in the dark cellar"',
            "too long",
            "",
        ),
        ("trays.pitch", "true", "cannot be read here", ""),
        ("trays.pitch", "[140]", "cannot be read here", ""),
        ("trays.width", '"4570 mm"', "far more than the box has", "457 mm"),
        ("trays.width", '"36 in"', "", ""),
        ("trays.width", '"360 in"', "far more than the box has", "360 mm"),
        ("trays.width", '"18 mm"', "do not fit on a tray 18 mm wide", "18 in"),
        ("trays.egg_floor", '"20 mm"', "On which side of the pivot?", "20 mm below pivot"),
        ("trays.egg_floor", '"-20 mm"', "side", "20 mm below pivot"),
        ("trays.egg_floor", "20", "20 what?", ""),
        ("trays.egg_floor", '"20 mm below the shelf"', "measures from the shelf", ""),
        ("crank.across", '"56 mm"', "On which side of the pivot?", "56 mm right of pivot"),
        ("turning.tilt", "45", "to each side of level, or 45 in all", "45 deg each side"),
        ("turning.tilt", '"45°"', "to each side of level, or 45 in all", ""),
        ("turning.tilt", '"120 deg each side"', "at most", ""),
        ("turning.turns_per_day", '"often"', "how many turns a day", "every 1 h"),
        ("turning.turns_per_day", "0", "at least", ""),
        ("turning.last_day", "18.5", "whole", ""),
        ("trays.count", "3.5", "whole", ""),
        ("trays.count", "0", "at least", ""),
        ("trays.count", '"four"', "no number", ""),
        ("eggs.weighed", '"725"', "725 what?", ""),
        ("eggs.weighed", '"0 eggs = 10 g"', "no eggs weigh nothing", "10 eggs = 583 g"),
        ("eggs.weighed", '"12 eggs = 725 kg"', "at most", ""),
        ("eggs.typical", '"58 mm"', "length and breadth", ""),
        ("eggs.typical", '"58 x 44"', "in what unit", "58 x 44 mm"),
        ("eggs.typical", '"44 x 10 mm"', "times as long as broad", ""),
        ("eggs.largest", '"50 x 40 mm"', "larger than the typical", ""),
        ("eggs.smallest", '"70 x 50 mm"', "smaller than the typical", ""),
        ("eggs.kind", '"chikken"', "Nearest: chicken", "chicken"),
        ("eggs.kind", '"dinosaur"', "Known:", ""),
        ("eggs.lie", '"upside"', "none of the words", "big end up"),
        ("eggs.cell_room", '"46 m"', "at most", "46 mm"),
        ("pivots.bearing", '"steel in nilon"', "Nearest: steel in nylon", ""),
        ("motor.stands", '"in the garage"', "none of the words", "outside the box"),
        ("motor.safety_factor", "0.5", "at least", ""),
        ("box.temperature", "37.6", "37.6 what?", "37.6 C"),
        ("box.temperature", '"37.6 deg"', "Celsius or in Fahrenheit", "37.6 C"),
        ("box.temperature", '"99.5 C"', "at most", ""),
        ("link.weight", '"70 N"', "is a force", ""),
        ("turnercalc", "2", "version 1", ""),
        ("turner", '"tilting tray"', "tilting trays", "tilting trays"),
        ("turner", '"wheel of fortune"', "There are:", "tilting trays"),
        ("drive", '"crank & link"', "crank and link", "crank and link"),
    ],
)
def test_bad_values_are_explained(path: str, typed: str, says: str, accepted: str) -> None:
    text = with_value(path, typed)
    if not says:
        assert read_design(text)
        return
    complaint = only(text)
    assert complaint.field == path
    assert says in complaint.message
    assert accepted == "" or accepted in complaint.accepted
    name = path.rpartition(".")[2]
    assert complaint.line == line_of(text, f"{name} = {typed[:8]}")
    assert complaint.read.startswith(f"{name} = ")
    for offer in complaint.accepted:
        others = refused_or_none(text, {path: offer})
        assert path not in others, f"{offer} is offered and refused"


def refused_or_none(text: str, settings: Mapping[str, object]) -> set[str]:
    try:
        read_design(text, settings)
    except DesignError as error:
        return {complaint.field for complaint in error.complaints}
    return set()


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("pitch = ", "Nothing stands after the equals sign"),
        ('pitch = "1 mm" width = "2 mm"', "Two settings stand on one line"),
        ("pitch = '18 1/2''", "feet or inches"),
        ("pitch 140 mm", "no section, no setting and no comment"),
        ("pitch = [1 2]", "list cannot be read"),
    ],
)
def test_a_line_without_meaning_is_one_complaint_only(line: str, says: str) -> None:
    text = re.sub(r"^pitch .*$", line, RACK, count=1, flags=re.MULTILINE)
    complaint = only(text)
    assert says in complaint.message
    assert complaint.line == line_of(RACK, "pitch")


def test_a_number_without_unit_drops_what_would_not_fit_the_box() -> None:
    complaint = only(with_value("crank.radius", "50"))
    assert "As 50 in it would not fit the box." in complaint.message
    assert "50 mm" in complaint.accepted
    assert "50 in" not in complaint.accepted


def test_a_consequence_is_told_where_somebody_can_work_it_out() -> None:
    def tips(path: str, text: str, values: Mapping[str, Mapping[str, object]]) -> str:
        assert values["arm"]["length"] == pytest.approx(0.08)
        return "the trays would tip 38 degrees each side" if text == "50 mm" else ""

    with pytest.raises(DesignError) as caught:
        read_design(with_value("crank.radius", "50"), consequence=tips)
    (complaint,) = caught.value.complaints
    assert "As 50 mm the trays would tip 38 degrees each side;" in complaint.message


@pytest.mark.parametrize(
    ("eggs", "says"),
    [
        ("[[6, 6, 6, 6, 6, 6, 6]]", "The number of trays is 4, and eggs for 1 are given."),
        ("[[6], [6], [6], [6]]", "A tray has 7 rows"),
        (str([[7] * 7] * 4), "A row holds 0 to 6 eggs."),
        (str([[-1] * 7] * 4), "A row holds 0 to 6 eggs."),
        ('"full"', "A list of whole numbers is wanted here."),
        ("[[6.5]]", "A list of whole numbers is wanted here."),
        ("3", "A list of whole numbers is wanted here."),
    ],
)
def test_load_cases_have_to_fit_the_rack(eggs: str, says: str) -> None:
    complaint = only(with_value("loads.trays", eggs))
    assert complaint.field == "loads.1.trays"
    assert complaint.message == says or says in complaint.message


@pytest.mark.parametrize(
    ("stage", "field", "says"),
    [
        ('kind = "chain"', "gearing.1.motor_teeth", "How much slower"),
        ('kind = "chain"\nmotor_teeth = 12', "gearing.1.driven_teeth", "driven teeth is missing"),
        (
            'kind = "chain"\nmotor_teeth = 12\ndriven_teeth = 24\nratio = 2',
            "gearing.1.ratio",
            "more than one way",
        ),
        ('kind = "rubber"\nratio = 2', "gearing.1.kind", "rubber"),
        ("ratio = 2", "gearing.1.kind", "loses its own share"),
    ],
)
def test_a_stage_has_to_say_its_ratio_once(stage: str, field: str, says: str) -> None:
    complaint = only(f"{RACK}[[gearing]]\n{stage}\n")
    assert complaint.field == field
    assert says in complaint.message


# --- settings ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("path", "value", "says"),
    [
        ("trays.fild", "in mirror pairs", "Nearest: trays.filled"),
        ("radius", "50 mm", "Nearest: crank.radius"),
        ("crnak.radius", "50 mm", "Nearest: crank.radius"),
        ("zzz", "1", 'no field "zzz"'),
        ("", "1", "no field"),
        ("crank.radius", "50", "50 what?"),
        ("crank.radius", "", "Nothing stands after the equals sign."),
        ("crank.radius.x.y", "1", "no field"),
        ("crank.1.radius", "50 mm", "stands only once"),
        ("trays.filled", "in pairs", "in mirror pairs"),
        ("gearing.2.kind", "chain", "There is no [gearing] yet"),
        ("loads.9.name", "x", "There is one [loads]"),
        ("gearing", "3", "holds fields with names"),
        ("turner", "", "Nothing stands"),
        ("turner", "wheel", "There are:"),
    ],
)
def test_settings_are_complained_about_like_the_file(path: str, value: str, says: str) -> None:
    complaint = only(RACK, {path: value})
    assert complaint.line is None
    assert says in complaint.message
    page = complaint_text(refused(RACK, {path: value}))
    assert f"  setting   --set {path}=" in page


def test_a_setting_for_one_of_several_has_to_name_it() -> None:
    text = RACK + '[[loads]]\nname = "x"\ntrays = ' + str([[6] * 7] * 4) + "\n"
    assert "loads.1.name to loads.2.name" in only(text, {"loads.name": "y"}).message


def test_what_a_setting_mends_is_not_complained_about() -> None:
    assert read_design(with_value("crank.radius", "50"), {"crank.radius": "50 mm"})
    assert read_design(without("crank.radius"), {"crank.radius": "50 mm"})


def test_file_and_settings_are_complained_about_together() -> None:
    error = refused(with_value("crank.radius", "50"), {"trays.fild": "x", "link.length": "16"})
    assert [c.line is None for c in error.complaints] == [False, True, True]


# --- turner and drive -------------------------------------------------------------------------


def test_an_unknown_turner_does_not_hide_the_other_mistakes() -> None:
    text = with_value("crank.radius", "50").replace('"tilting trays"', '"tumbler"')
    assert {c.field for c in refused(text).complaints} == {"turner", "crank.radius"}


def test_without_any_hint_of_the_turner_its_sections_are_let_be() -> None:
    text = 'turner = "tumbler"\ndrive = "hand"\ndrawn_from = "front"\n[paddle]\nlength = 3\n'
    fields = {c.field for c in refused(text).complaints}
    assert {"turner", "drive", "box", "eggs", "motor"} == fields


def test_nothing_at_all_is_told_what_a_file_needs() -> None:
    page = complaint_text(refused(""))
    for word in ("turner", "drive", "drawn_from", "[box]", "[eggs]", "[motor]"):
        assert f"  missing   {word}\n" in page
