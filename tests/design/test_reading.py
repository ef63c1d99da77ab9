"""From a sound file to a design: values in SI, where they come from, what is taken for granted."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from turnercalc.design import Design, read_design
from turnercalc.design.starter import starter_text
from turnercalc.errors import DesignError, UnknownNameError

RACK = starter_text("rack")


def without(*fields: str) -> str:
    """Return the rack's file without some of its lines, each named as ``section.field``."""
    kept, section = [], ""
    for line in RACK.splitlines():
        if line.startswith("["):
            section = line.partition("]")[0].strip("[")
        name = line.partition("=")[0].strip()
        if f"{section}.{name}".lstrip(".") not in fields:
            kept.append(line)
    return "\n".join(kept)


def with_value(path: str, value: str) -> str:
    """Return the rack's file with another text right of one equals sign."""
    wanted_section, _, wanted = path.rpartition(".")
    lines, section = [], ""
    for line in RACK.splitlines():
        if line.startswith("["):
            section = line.partition("]")[0].strip("[")
        name = line.partition("=")[0].strip()
        hit = section == wanted_section and name == wanted
        lines.append(f"{name} = {value}" if hit else line)
    text = "\n".join(lines)
    assert text != RACK
    return text


def assumed(design: Design) -> dict[str, str]:
    return {one.field: one.text for one in design.taken_for_granted()}


@pytest.fixture(scope="module")
def rack() -> Design:
    return read_design(RACK)


def test_a_design_holds_si_values(rack: Design) -> None:
    assert rack.turner == "tilting_trays"
    assert rack.drive == "crank_and_link"
    assert rack["crank"].radius == pytest.approx(0.0565)
    assert rack.value("crank.height") == pytest.approx(-0.160)
    assert rack.value("trays.egg_floor") == pytest.approx(-0.020)
    assert rack.value("turning.tilt") == pytest.approx(math.radians(45))
    assert rack.value("eggs.weighed") == pytest.approx(0.725 / 12)
    assert rack.value("motor.supply").frequency == 50
    assert rack.loads[0].name == "half a batch"
    assert rack.value("loads.1.trays")[2] == [0] * 7
    assert rack.gearing == ()


def test_every_value_knows_where_it_comes_from(rack: Design) -> None:
    lines = RACK.splitlines()
    for path, origin in rack.origin.items():
        if origin.how == "given":
            assert origin.line is not None
            assert lines[origin.line - 1].startswith(path.rpartition(".")[2]), path
        else:
            assert origin.how == "taken for granted"
            assert origin.source, path
    assert rack.origin["crank.radius"].text == "56.5 mm"
    assert rack.line("link.length") == rack.origin["link.length"].line


def test_a_path_that_does_not_exist_names_the_nearest(rack: Design) -> None:
    with pytest.raises(UnknownNameError, match=r"Nearest: crank\.radius"):
        rack.value("crank.radious")
    with pytest.raises(UnknownNameError, match="no \\[spring\\]"):
        _ = rack["spring"]
    assert rack.get("spring") is None


# The optional fields of a rack and what is taken without them; the sizes are worked out here
# from the species table: 60 g, 57.5 x 43.5 mm, 50 to 70 g, lengths as the cube root of the mass.
@pytest.mark.parametrize(
    ("left_out", "path", "text"),
    [
        (("box.temperature",), "box.temperature", "37.5 C"),
        ((), "box.leans", "0 deg"),
        (("eggs.weighed",), "eggs.weighed", "60 g each"),
        (("eggs.weighed", "eggs.typical"), "eggs.typical", "57.5 x 43.5 mm"),
        (("turning.tilt",), "turning.tilt", "45 deg each side"),
        (("turning.turns_per_day",), "turning.turns_per_day", "24"),
        (("turning.last_day",), "turning.last_day", "18"),
        ((), "trays.off_centre", "0 mm"),
        (("trays.filled",), "trays.filled", "in any order"),
        (("trays.balance",), "trays.balance", "20 mm below pivot"),
        (("trays.width",), "trays.width", "360 mm"),
        (("trays.underside",), "trays.underside", "26 mm below pivot"),
        ((), "pivots.friction", "0.15 to 0.45"),
        ((), "pivots.play", "0.2 mm"),
        ((), "link.pin_play", "0.2 mm"),
        (("link.weight",), "link.weight", "16 g"),
        (("tie_bar.weight",), "tie_bar.weight", "168 g"),
        ((), "arm.angle", "0 deg"),
        (("motor.safety_factor",), "motor.safety_factor", "2.0"),
        ((), "motor.have", "none"),
        ((), "gearing", "none"),
    ],
)
def test_what_is_left_out_is_taken_for_granted_and_said(
    left_out: tuple[str, ...], path: str, text: str
) -> None:
    design = read_design(without(*left_out))
    assert assumed(design)[path] == text
    assert all(one.source for one in design.taken_for_granted())
    assert all(one.how for one in design.taken_for_granted())
    assert design.origin[path].how == "taken for granted"


def test_sizes_follow_the_weighed_mass_by_its_cube_root() -> None:
    design = read_design(without("eggs.typical", "eggs.largest", "eggs.smallest"))
    scale = (725 / 12 / 60) ** (1 / 3)
    assert design.value("eggs.typical").length == pytest.approx(57.5e-3 * scale, rel=1e-3)
    largest = design.value("eggs.largest")
    assert largest.breadth == pytest.approx(43.5e-3 * (70 / 60) ** (1 / 3), rel=1e-3)
    smallest = design.value("eggs.smallest")
    assert smallest.length == pytest.approx(57.5e-3 * (50 / 60) ** (1 / 3), rel=1e-3)


def test_anything_taken_for_granted_is_one_setting_away(rack: Design) -> None:
    for one in rack.taken_for_granted():
        if one.field == "loads":
            continue
        again = read_design(RACK, {one.field: one.text})
        assert again == rack, one.field


@pytest.mark.parametrize(
    ("path", "says"),
    [
        ("eggs.cell_wall", "stay in"),
        ("trays.lowest_pivot", "head room"),
        ("link.thickness", "buckling"),
        ("link.material", "buckling"),
    ],
)
def test_what_has_no_safe_default_stays_unknown_and_is_named(path: str, says: str) -> None:
    design = read_design(without(path))
    assert design.value(path) is None
    assert says in design.unknown[path]
    assert path not in assumed(design)


@pytest.mark.parametrize("word", ["?", "unknown", "-", "n/a"])
def test_a_builder_may_say_that_something_is_unknown(word: str) -> None:
    design = read_design(with_value("link.thickness", f'"{word}"'))
    assert "link.thickness" in design.unknown


def test_sizes_of_other_ways_to_hold_an_egg_are_not_called_unknown() -> None:
    text = without("eggs.cell_wall", "eggs.cell_room").replace('"cells"', '"foam cups"')
    unknown = read_design(text).unknown
    assert not {"eggs.cell_wall", "eggs.cell_room", "eggs.hole"} & set(unknown)


def test_reptiles_are_read_and_get_no_figures_of_birds() -> None:
    design = read_design(with_value("eggs.kind", '"leopard gecko"'))
    assert design.value("eggs.kind") == "gecko"
    left = read_design(without("turning.tilt").replace('"chicken"', '"gecko"'))
    assert left.value("turning.tilt") is None


def test_gearing_is_read_motor_first() -> None:
    text = RACK + '[[gearing]]\nkind = "chain"\nmotor_teeth = 12\ndriven_teeth = 24\n'
    text += '[[gearing]]\nkind = "toothed belt"\nmotor_diameter = "20 mm"\n'
    text += 'driven_diameter = "60 mm"\nefficiency = "0.9 to 0.96"\n'
    design = read_design(text)
    assert [stage.speed_ratio for stage in design.gearing] == pytest.approx([2.0, 3.0])
    assert design.value("gearing.2.efficiency").low == pytest.approx(0.9)
    assert "gearing.1.efficiency" in assumed(design)
    assert "gearing" not in assumed(design)


# --- sources ----------------------------------------------------------------------------------


def test_paths_bytes_and_texts_are_the_same(tmp_path: Path, rack: Design) -> None:
    path = tmp_path / "my rack=1.toml"
    path.write_text(RACK, encoding="utf-16")
    from_path = read_design(path)
    assert from_path == read_design(str(path)) == read_design(RACK.encode()) == rack
    assert from_path.file == "my rack=1.toml"


def test_a_file_that_is_not_there_is_said_in_words(tmp_path: Path) -> None:
    with pytest.raises(DesignError, match="no such file"):
        read_design(tmp_path / "nothing.toml")
    with pytest.raises(DesignError, match="cannot be opened"):
        read_design(tmp_path)


def test_the_name_may_be_left_out(tmp_path: Path) -> None:
    path = tmp_path / "fridge.toml"
    path.write_text(without("name"), encoding="utf-8")
    design = read_design(path)
    assert design.name == "fridge"
    assert assumed(design)["name"] == "fridge"


# --- settings ---------------------------------------------------------------------------------


def test_a_setting_goes_the_way_of_the_file(rack: Design) -> None:
    design = read_design(RACK, {"crank.radius": "2 in"})
    assert design.value("crank.radius") == pytest.approx(0.0508)
    assert design.origin["crank.radius"].how == "set"
    assert design == rack.replace({"crank.radius": "50.8 mm"})
    assert design != rack


@pytest.mark.parametrize("path", ["crank.radius", "Crank.Radius", "crank . radius", "CRANK.RADIUS"])
def test_names_of_settings_are_as_tolerant_as_the_file(rack: Design, path: str) -> None:
    assert rack.replace({path: "52 mm"}).value("crank.radius") == pytest.approx(0.052)


def test_numbers_in_si_are_taken_only_when_they_are_said_to_be(rack: Design) -> None:
    changed = rack.replace({"crank.radius": 0.0512, "trays.egg_floor": -0.0175}, si=True)
    assert changed.value("crank.radius") == 0.0512
    assert changed.value("trays.egg_floor") == -0.0175
    assert changed.replace({"link.length": "161 mm"}).value("crank.radius") == 0.0512
    with pytest.raises(DesignError, match="1 thing"):
        rack.replace({"crank.radius": 0.0512})


def test_none_leaves_a_field_out(rack: Design) -> None:
    changed = rack.replace({"link.weight": None})
    assert assumed(changed)["link.weight"] == "16 g"


def test_stages_and_loads_can_be_set_whole_or_one_by_one(rack: Design) -> None:
    chain = [{"kind": "chain", "motor_teeth": 12, "driven_teeth": 24}]
    changed = rack.replace({"gearing": chain})
    assert changed.gearing[0].speed_ratio == pytest.approx(2.0)
    assert changed.replace({"gearing.1.driven_teeth": "36"}).gearing[0].speed_ratio == 3.0
    assert changed.replace({"gearing[1].driven_teeth": "36"}).gearing[0].speed_ratio == 3.0
    assert changed.replace({"gearing.driven_teeth": "36"}).gearing[0].speed_ratio == 3.0
    more = changed.replace({"gearing.2.kind": "chain", "gearing.2.ratio": "1.5"})
    assert [stage.speed_ratio for stage in more.gearing] == pytest.approx([2.0, 1.5])
    assert more.replace({"gearing": "none"}) == rack
    as_text = '[{kind = "chain", motor_teeth = 12, driven_teeth = 24}]'
    assert read_design(RACK, {"gearing": as_text}) == changed
    assert rack.replace({"loads": []}).loads == ()


def test_the_last_setting_counts(rack: Design) -> None:
    twice = rack.replace({"crank.radius": "51 mm"}).replace({"crank.radius": "52 mm"})
    assert twice.value("crank.radius") == pytest.approx(0.052)
    back = rack.replace({"gearing": "none"}).replace(
        {"gearing.1.kind": "chain", "gearing.1.ratio": "2"}
    )
    assert len(back.gearing) == 1


def test_a_section_that_is_not_there_opens_for_a_setting(rack: Design) -> None:
    changed = rack.replace(
        {"counterweight.weight": "400 g", "counterweight.height": "60 mm below pivot"}
    )
    assert changed["counterweight"].weight == pytest.approx(0.4)


def test_turner_and_drawn_from_can_be_set() -> None:
    assert read_design(RACK, {"drawn_from": "the back"}).drawn_from == "the back"
    assert read_design(without("drive"), {"drive": "crank and link"}).drive == "crank_and_link"


def test_dotted_and_one_line_sections_are_understood(rack: Design) -> None:
    text = 'crank.radius = "56.5 mm"\ngearing = [{kind = "chain", ratio = 2}]\n' + without(
        "crank.radius"
    )
    design = read_design(text)
    assert design.value("crank.radius") == rack.value("crank.radius")
    assert design.gearing[0].speed_ratio == 2.0


# --- what builders measure, in the forms they write it ------------------------------------------
# Values on the right are worked out by hand with 25.4 mm, 0.45359237 kg and 28.349523125 g.


@pytest.mark.parametrize(
    ("path", "typed", "value"),
    [
        ("eggs.weighed", '"60 g"', 0.060),
        ("eggs.weighed", '"2.1 oz each"', 2.1 * 0.028349523125),
        ("eggs.weighed", '"24 oz per dozen"', 2 * 0.028349523125),
        ("eggs.weighed", '"a dozen = 1 lb 9 oz"', 25 / 12 * 0.028349523125),
        ("eggs.weighed", '"10 eggs = 0,605 kg"', 0.0605),
        ("trays.empty_weight", '"2 lb 4 oz"', 2.25 * 0.45359237),
        ("trays.empty_weight", '"0,9 kg"', 0.9),
        ("trays.width", "'14 1/4\"'", 14.25 * 0.0254),
        ("trays.width", '"1 ft 3 in"', 15 * 0.0254),
        ("trays.width", "'1' 3\"'", 15 * 0.0254),
        ("trays.width", '"14-1/4in"', 14.25 * 0.0254),
        ("trays.width", '"0.36 m"', 0.36),
        ("trays.width", '"36 cm"', 0.36),
        ("trays.width", '"14½ in"', 14.5 * 0.0254),
        ("trays.pitch", '"5 1/2″"', 5.5 * 0.0254),
        ("trays.egg_floor", '"3/4 in below the pivot"', -0.75 * 0.0254),
        ("trays.lowest_pivot", '"15 in above the floor"', 15 * 0.0254),
        ("crank.across", '"56,5 mm to the right of the pivot"', 0.0565),
        ("turning.tilt", '"90 deg in all"', math.radians(45)),
        ("turning.tilt", '"±45°"', math.radians(45)),
        ("turning.tilt", '"12 in in 12 in each side"', math.radians(45)),
        ("turning.turns_per_day", '"every 1 h"', 24.0),
        ("turning.turns_per_day", '"24 x a day"', 24.0),
        ("turning.turns_per_day", '"h 1"', 24.0),
        ("turning.turns_per_day", '"every 90 min"', 16.0),
        ("turning.last_day", '"day 18"', 18),
        ("box.temperature", '"99.5 F"', 37.5),
        ("motor.safety_factor", "2,5", 2.5),
        ("trays.count", "04", 4),
    ],
)
def test_every_form_a_builder_writes_is_read(path: str, typed: str, value: float) -> None:
    assert read_design(with_value(path, typed)).value(path) == pytest.approx(value, rel=1e-9)


def test_a_tape_round_the_egg_gives_its_breadth() -> None:
    design = read_design(with_value("eggs.typical", '"58 mm x 138 mm round"'))
    assert design.value("eggs.typical").breadth == pytest.approx(0.138 / math.pi)


@pytest.mark.parametrize(
    ("typed", "dc", "ac", "frequency"),
    [
        ('"12 V battery"', (12.0,), (), None),
        ('"12 V and 120 V 60 Hz"', (12.0,), (120.0,), 60.0),
        ('"230 V AC 50Hz"', (), (230.0,), 50.0),
    ],
)
def test_supplies_are_read(
    typed: str, dc: tuple[float, ...], ac: tuple[float, ...], frequency: float | None
) -> None:
    supply = read_design(with_value("motor.supply", typed)).value("motor.supply")
    assert (supply.dc_volts, supply.ac_volts, supply.frequency) == (dc, ac, frequency)


@pytest.mark.parametrize(
    ("typed", "note"),
    [
        ("360 mm", 'Better write width = "360 mm"'),
        ("“360 mm”", "Curly quote marks"),
        ('"14 1/4""', '14 1/4" was read as inches. Between double quote marks write'),
        ("'1' 3\"'", 'write width = "1 ft 3 in"'),
        ('"360 mm', "A quote mark without its partner"),
    ],
)
def test_what_was_overlooked_is_noted_with_the_better_way(typed: str, note: str) -> None:
    text = with_value("trays.width", typed)
    design = read_design(text)
    (said,) = design.notes
    assert note in said.text
    assert said.lines == (text.splitlines().index(f"width = {typed}") + 1,)


def test_one_note_stands_for_all_lines_of_a_kind() -> None:
    text = with_value("trays.width", "360 mm").replace('"140 mm"', "140 mm")
    (note,) = read_design(text).notes
    assert len(note.lines) == 2


def test_a_comma_for_the_decimal_mark_is_noted() -> None:
    (note,) = read_design(with_value("motor.safety_factor", "2,5")).notes
    assert "2.5" in note.text
