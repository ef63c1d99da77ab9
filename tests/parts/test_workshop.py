"""Pieces, holes and cuts, against sums done by hand from the example's file."""

import math
from pathlib import Path

import pytest

from turnercalc.design import read_design
from turnercalc.parts.cutting import KERF, strips
from turnercalc.parts.workshop import made_for
from turnercalc.pieces import Piece
from turnercalc.sizing import size
from turnercalc.swing import ends_with
from turnercalc.units import parse

from ..handover.plans import plan_of

EXAMPLES = Path(__file__).parents[2] / "examples"


def holes(corner: str) -> dict[str, tuple[float, float]]:
    panel = plan_of(corner=corner).panel
    return {hole.name: (1e3 * hole.across, 1e3 * hole.up) for hole in panel.holes}


def test_holes_of_the_wall_from_the_left_corner() -> None:
    """Box 460 wide, pivots in its middle, the lowest 330 up; shaft 56 right of it, 220 down."""
    assert holes("left") == {
        "crank shaft": pytest.approx((286.0, 110.0)),
        "pivot 1": pytest.approx((230.0, 330.0)),
        "pivot 2": pytest.approx((230.0, 470.0)),
        "pivot 3": pytest.approx((230.0, 610.0)),
    }


def test_from_the_right_corner_every_distance_is_the_rest_of_the_width() -> None:
    left, right = holes("left"), holes("right")
    for name, (across, up) in left.items():
        assert right[name] == pytest.approx((460.0 - across, up))


def test_the_shaft_is_measured_and_never_taken_off_paper() -> None:
    panel = plan_of().panel
    assert [hole.name for hole in panel.holes if hole.measured_only] == ["crank shaft"]


@pytest.mark.parametrize("system", ["metric", "us", "both"])
def test_every_length_of_a_plan_is_on_a_mark(system: str) -> None:
    plan = plan_of(system=system, crank__radius="56.3 mm", trays__pitch="139.7 mm")
    lengths = [*plan.marked.lengths.values()]
    lengths += [value for hole in plan.panel.holes for value in (hole.across, hole.up)]
    lengths += [d.length for d in plan.dimensions]
    for value in lengths:
        assert value / plan.marks.step == pytest.approx(round(value / plan.marks.step), abs=1e-6)


def test_the_rounded_design_is_sized_again() -> None:
    plan = plan_of(system="us", crank__radius="57.4 mm", link__length="221.3 mm")
    before, after = plan.marked.before.ends, plan.sizing.ends
    assert "link.length" in plan.marked.changed
    assert plan.sizing.design.value("link.length") == pytest.approx(
        plan.marked.lengths["link.length"]
    )
    assert (after.low, after.high) != (before.low, before.high)
    # A mark of 1/32 in of any of four lengths moves an end by 0.6 to 0.8 degrees.
    assert math.degrees(abs(after.low - before.low)) < 0.4
    assert math.degrees(abs(after.high - before.high)) < 0.4


def test_an_error_as_large_as_allowed_moves_the_worse_end_by_a_degree() -> None:
    """What a phone shows; checked by moving the length itself, not by the slope."""
    plan = plan_of()
    found = plan.sizing
    for one in plan.dimensions:
        if one.field == "crank.across":
            continue  # hardly felt: the slope says nothing that far off
        moved = ends_with(found.turner, found.drive, {one.field: one.allowed})
        worse = max(abs(moved.low - found.ends.low), abs(moved.high - found.ends.high))
        assert math.degrees(worse) == pytest.approx(1.0, rel=0.06)


def test_critical_lengths_are_those_the_readme_tells_to_take_care_of() -> None:
    critical = {one.field for one in plan_of().dimensions if one.critical}
    assert critical == {"crank.radius", "link.length", "crank.height", "arm.length"}


def test_cut_list_and_stock() -> None:
    plan = plan_of()
    sizes = {cut.piece.id: (cut.length, cut.width, cut.piece.count) for cut in plan.cuts}
    # arm: 80 mm between holes and 12 mm (1.5 times the 8 mm pin) round each
    assert sizes["arm"] == (pytest.approx(0.104), pytest.approx(0.024), 3)
    assert sizes["link"] == (pytest.approx(0.240), pytest.approx(0.020), 1)
    assert sizes["tie_bar"] == (pytest.approx(0.300), pytest.approx(0.020), 1)
    arms = next(s for s in plan.strips if s.width == pytest.approx(0.024))
    assert arms.length == pytest.approx(3 * 0.104 + 3 * KERF)
    assert arms.bars == 1


def test_stock_is_cut_longest_first() -> None:
    """Three pieces of 400 mm and one of 300 take two lengths of a metre, not three."""
    from turnercalc.parts.cutting import Cut
    from turnercalc.pieces import Piece

    long, short = (
        Cut(Piece(name, name, count), length, 0.02, None)
        for name, count, length in (("a", 3, 0.4), ("b", 1, 0.3))
    )
    (strip,) = strips([short, long])
    assert strip.bars == 2
    assert strip.length == pytest.approx(1.5 + 4 * KERF)


def test_the_tie_bar_has_the_distances_of_the_pivots() -> None:
    plan = plan_of(trays__pitch="141.5 mm")
    bar = next(piece for piece in plan.made.pieces if piece.id == "tie_bar")
    pivots = sorted(hole.up for hole in plan.panel.holes if hole.name.startswith("pivot"))
    apart = [hole.y - bar.holes[0].y for hole in bar.holes]
    assert apart == pytest.approx([up - pivots[0] for up in pivots])
    assert apart[1] == pytest.approx(parse("141.5 mm", "length"))


def lever() -> Piece:
    """Return the arm of the tool cupboard: slot over a crank of 87 mm, 130 mm below the pivot."""
    found = size(read_design(EXAMPLES / "tool-cupboard-rack.toml"))
    made = made_for(found.turner, found.drive, found.ingredients)
    return next(piece for piece in made.pieces if piece.id == "arm")


def test_a_lever_has_its_slot_and_no_hole_for_a_pin() -> None:
    # The crank pin comes to 130 - 87 and 130 + 87 mm of the pivot (any textbook on the quick
    # return); 2 mm to spare beyond, and a width for the roller of 19 mm.
    arm = lever()
    assert [hole.name for hole in arm.holes] == ["pivot", "slot, near end", "slot, far end"]
    away = [1e3 * math.hypot(hole.x, hole.y) for hole in arm.holes[1:]]
    assert away == pytest.approx([41.0, 219.0], abs=1e-6)
    for hole in arm.holes[1:]:
        assert hole.x == pytest.approx(0.0, abs=1e-12)  # it points down
        assert hole.y < 0.0
        assert hole.diameter is not None
        assert 0.019 < hole.diameter < 0.0195
    assert 2.0 * arm.edge > 0.019 + 0.015
    assert "Saw out the slot" in arm.says
