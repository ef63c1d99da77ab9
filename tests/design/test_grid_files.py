"""Design files of a sliding grid: what is read, taken for granted and refused, in one sentence."""

from __future__ import annotations

import re

import pytest

from tests.grid_design import DRIVES, ROD, TRAY, YOKE, design, text_with
from turnercalc.building import build
from turnercalc.design import complaint_text, read_design
from turnercalc.design.starter import starter_text
from turnercalc.errors import Complaint, DesignError
from turnercalc.turners.sliding_grid import SlidingGrid


def refused(settings: dict[str, str | None], drop: str = "") -> tuple[Complaint, ...]:
    """Return what is complained of, with a line of the starter left out."""
    text, said = text_with(settings)
    if drop:
        text = re.sub(rf"(?m)^{re.escape(drop)} *=.*\n", "", text)
    with pytest.raises(DesignError) as caught:
        read_design(text, said)
    assert complaint_text(caught.value)
    return caught.value.complaints


def built(**settings: str) -> SlidingGrid:
    turner = build(design(**settings)).turner
    assert isinstance(turner, SlidingGrid)
    return turner


# --- what is read ---


def test_the_starter_reaches_the_grid_in_si() -> None:
    grid = built()
    assert (grid.cells, grid.eggs_per_cell) == (6, 5)
    assert grid.pitch == pytest.approx(0.054)
    assert grid.room == pytest.approx(0.048)
    assert grid.egg_radius == pytest.approx(0.02175)
    assert grid.egg_mass == pytest.approx(0.7 / 12)
    assert grid.grid_mass == pytest.approx(0.65)
    assert grid.pin_across == pytest.approx(0.165)
    assert grid.origin_height == pytest.approx(0.140)
    assert (grid.largest_radius, grid.smallest_radius) == pytest.approx((0.02275, 0.0205))
    assert len(grid.egg_places()) == 6
    assert grid.egg_places().mean() == pytest.approx(-0.165)


@pytest.mark.parametrize("drive", DRIVES)
def test_each_drive_is_measured_from_the_pin(drive: str) -> None:
    text, said = text_with(DRIVES[drive])
    found = read_design(text, said)
    assert build(found).turner.path().turning == 0.0
    for field in ("crank.across", "actuator.eye_across"):
        if field in found.origin:
            assert found.origin[field].text.endswith("of the pin")


def test_places_measured_from_something_else_are_refused() -> None:
    (complaint,) = refused({"crank.across": "110 mm right of pivot"})
    assert "measured from the pin" in complaint.message
    assert complaint.accepted[0] == "110 mm right of the pin"


def test_wheels_roll_on_their_axles() -> None:
    wheels = built(
        guides__bearing="steel in nylon",
        guides__wheel_diameter="20 mm",
        guides__axle_diameter="4 mm",
    )
    # mu d/D + 2 f/D with f = 0.5 mm: 0.30 x 0.2 + 0.05
    assert wheels.guide_friction.middle == pytest.approx(0.30 * 0.2 + 0.05)
    assert wheels.guide_friction.starting > wheels.guide_friction.high


def test_a_mesh_is_climbed_only_across_the_slide() -> None:
    assert built().mesh is None
    mesh = built(floor__mesh_pitch="12.7 mm").mesh
    assert mesh is not None
    assert (mesh.pitch, mesh.wire) == pytest.approx((0.0127, 0.001))
    along = {"floor__mesh_pitch": "12.7 mm", "floor__mesh": "wires along the slide on top"}
    assert built(**along).mesh is None


def test_a_floor_that_slides_at_an_angle_has_its_tangent() -> None:
    friction = built(floor__friction="slides at 20 deg").floor_friction
    assert friction.middle == pytest.approx(0.36397, abs=1e-5)  # tan 20 degrees


def test_what_is_taken_for_granted_is_told_with_its_source() -> None:
    text = re.sub(
        r"(?m)^(length|pin_height|pin_from_left_end|from_left_wall|bar_surface) *=.*\n(?=.*)",
        "",
        starter_text("grid").partition("[link]")[0],
    )
    whole = text + "[link]" + starter_text("grid").partition("[link]")[2]
    found = {a.field: a.text for a in read_design(whole).taken_for_granted()}
    assert found["grid.length"] == "330 mm"  # 6 x 48 + 7 x 6
    assert found["grid.pin_height"] == "19 mm"
    assert found["grid.pin_from_left_end"] == "165 mm"
    assert found["grid.from_left_wall"] == "300 mm"
    assert found["grid.bar_surface"] == "any surface"
    assert found["floor.friction"] == "0.4 / 0.6 / 0.9"
    assert found["guides.friction"] == "0.15 to 0.45"
    assert found["floor.mesh"] == "no mesh"
    assert "turning.tilt" not in found


# --- what is refused ---


@pytest.mark.parametrize(
    ("field", "typed", "words"),
    [
        ("grid.cells", "0", "at least 1"),
        ("grid.eggs_per_cell", "0", "at least 1"),
        ("eggs.weighed", "0 eggs = 700 g", "eggs"),
        ("grid.weight", "-650 g", "at least"),
        ("eggs.weighed", "12 eggs = -700 g", "cannot be right"),
        ("grid.bar_thickness", "0 mm", "more than"),
        ("grid.bar_top", "3 mm", "higher than its bottom"),
        ("grid.length", "700 mm", "cannot slide"),
        ("grid.bars", "square", "none of the words"),
        ("grid.bar_surface", "smoth plastic", "has no"),
        ("floor.surface", "lava", "lava"),
        ("floor.mesh_pitch", "45 mm", "fall through"),
        ("floor.mesh", "wires along the bars on top", "from one wire to the next"),
        ("guides.wheel_diameter", "20 mm", "How thick are the axles"),
        ("turning.egg_turn", "5 deg", "at least"),
        ("turning.egg_turn", "180", "180 what?"),
        ("eggs.lie", "big end up", "none of the words"),
        ("eggs.held_by", "round holes", "none of the words"),
    ],
)
def test_bad_values_are_told_in_a_sentence(field: str, typed: str, words: str) -> None:
    complaints = refused({field: typed})
    assert len(complaints) == 1, [c.message for c in complaints]
    assert words in complaints[0].message
    assert len(complaints[0].message) < 160


@pytest.mark.parametrize(
    ("cells", "words"),
    [
        ("[5, 5]", "The number of cells is 6, and eggs for 2 are given"),
        ("[5, 5, 5, 5, 5, 9]", "A cell holds 0 to 5 eggs"),
        ("[0, 0, 0, 0, 0, 0]", "No eggs at all"),
        ("[5, -1, 0, 0, 0, 0]", "A cell holds 0 to 5 eggs"),
    ],
)
def test_loads_that_do_not_fit_are_told(cells: str, words: str) -> None:
    (complaint,) = refused({"loads.1.cells": cells})
    assert words in complaint.message


def test_a_turning_shaft_is_refused_with_what_moves_a_grid() -> None:
    complaints = refused({"drive": "turning shaft", "link": None, "crank": None})
    (about_drive,) = (c for c in complaints if c.field == "drive")
    assert '"sliding grid" cannot be moved by "turning shaft"' in about_drive.message
    assert "crank and link" in about_drive.accepted


@pytest.mark.parametrize("name", ["cell_room", "egg_turn", "bar_top", "weight", "surface"])
def test_what_decides_is_asked_for(name: str) -> None:
    complaints = refused({}, drop=name)
    assert [c.field.rpartition(".")[2] for c in complaints] == [name]


def test_eggs_broader_than_their_cells_are_built_and_judged() -> None:
    # An answer, not a refusal: the check of the fit says no.
    assert built(eggs__cell_room="42 mm").play == 0.0


def test_the_example_is_read_without_a_note() -> None:
    found = read_design(TRAY.read_text(encoding="utf-8"))
    assert not found.notes
    assert not found.unknown
    assert build(found).turner.load_cases()[0].egg_count == 42


def test_yoke_and_rod_are_not_told_of_links() -> None:
    for settings, section in ((YOKE, "slot"), (ROD, "actuator")):
        text, said = text_with(settings)
        found = read_design(text, said)
        assert found.get(section) is not None
        assert found.get("link") is None
