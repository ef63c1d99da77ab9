"""Tiles of a template: no join goes through a hole, and the end of a slot is no pin."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.handover import parts_list
from turnercalc.handover.display import Style
from turnercalc.handover.drawings.bundle import sheets_of, templates_of
from turnercalc.handover.drawings.joins import Span, tiles_along
from turnercalc.handover.drawings.marks import Circle, Label, Line
from turnercalc.handover.drawings.sheets import OVERLAP, PAPERS, field

from .plans import plan_of

HAVE = 237.0  # mm, up an A4 sheet


#: A tray on a slotted lever: its arm is longer than a sheet, with a wide slot.
CUPBOARD = "tool-cupboard-rack.toml"


@pytest.mark.parametrize("paper", PAPERS)
def test_every_hole_of_a_long_arm_is_whole_on_one_sheet_and_cut_on_none(paper: str) -> None:
    sheets = [
        s
        for s in sheets_of(plan_of(CUPBOARD), ["templates"], paper=PAPERS[paper])
        if "arm-" in s.id
    ]
    assert len(sheets) == 2
    room, whole = field(PAPERS[paper]), []
    for sheet in sheets:
        holes = [m for m in sheet.marks if m.part == "holes" and not isinstance(m, Label)]
        # A circle that is cut at the edge of the sheet comes as lines.
        assert all(isinstance(mark, Circle) for mark in holes)
        whole += [round(2 * m.radius, 3) for m in holes if isinstance(m, Circle)]
        assert all(room.low <= y <= room.high for m in holes for _, y in m.corners)
    assert sorted(whole) == [8.0, 19.2, 19.2]
    words = " ".join(m.text for s in sheets for m in s.marks if isinstance(m, Label))
    for wanted in ("41 mm", "219 mm", "slot, far end: bore 19.2 mm"):
        assert wanted in words
    joins = [m for s in sheets for m in s.marks if isinstance(m, Line) and m.pen == "centre"]
    assert len([m for m in joins if m.part == "register"]) == 2


def test_an_end_of_a_slot_is_no_pin() -> None:
    page = parts_list.page(plan_of(CUPBOARD), Style())
    assert page.count("slot 19.2 mm wide") == 2
    assert "19.2 mm pin" not in page


@given(
    need=st.floats(HAVE + 1, 900.0),
    places=st.lists(st.tuples(st.floats(0.0, 1.0), st.floats(1.0, 15.0)), max_size=6),
)
def test_a_join_goes_through_no_hole(need: float, places: list[tuple[float, float]]) -> None:
    holes = [Span(at * need - radius, at * need + radius) for at, radius in places]
    found = tiles_along(need, HAVE, OVERLAP, holes, ())
    step = HAVE - OVERLAP
    starts = [n * step - found.before for n in range(found.number)]
    assert starts[0] <= 0.0
    assert starts[-1] + HAVE >= need - 1e-9  # all of it is printed
    joins = [start + OVERLAP / 2 for start in starts[1:]]
    assert not any(one.low < join < one.high for one in holes for join in joins)


def test_what_fits_one_tile_is_on_one() -> None:
    assert tiles_along(HAVE, HAVE, OVERLAP, [Span(0.0, HAVE)], ()) == (1, 0.0)


def test_an_arm_with_a_slot_at_an_angle_is_cut_round_all_its_holes() -> None:
    """The arm points right with the tie bar's pin, its slot down: a plate, not a strip."""
    plan = plan_of(
        CUPBOARD,
        trays__count="2",
        trays__pitch="150 mm",
        box__height="600 mm",
        arm__points="right",
        arm__length="100 mm",
        slot__angle="-90 deg",
    )
    (arm,) = (drawing for drawing in templates_of(plan) if drawing.id == "arm")
    (edge,) = (m for m in arm.marks if isinstance(m, Line) and m.part == "cut")
    holes = [m for m in arm.marks if isinstance(m, Circle) and m.part == "holes"]
    assert len(holes) == 4
    corners = np.array([*edge.points, edge.points[0]])
    along = np.diff(corners, axis=0)
    length = np.hypot(along[:, 0], along[:, 1])
    for hole in holes:
        # Left of every stretch of an edge that goes round anticlockwise, and clear of it.
        way = np.array([hole.x, hole.y]) - corners[:-1]
        inside = (along[:, 0] * way[:, 1] - along[:, 1] * way[:, 0]) / length
        assert inside.min() > hole.radius + 7.0
    (cut,) = (one for one in plan.cuts if one.piece.id == "arm")
    # By hand: 219 mm down and 100 mm right of the pivot; half a slot and 8 mm round both.
    around = 2 * (19.2 / 2 + 8.0)
    assert 1e3 * cut.length == pytest.approx(np.hypot(219, 100) + around, abs=1.0)
    assert 1e3 * cut.width == pytest.approx(219 * 100 / np.hypot(219, 100) + around, abs=1.0)
