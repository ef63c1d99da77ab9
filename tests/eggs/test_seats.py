"""How a lot of eggs sits in what holds them."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.eggs.lot import make_lot
from turnercalc.eggs.poses import lying, standing_in_cell
from turnercalc.eggs.seats import (
    ACROSS,
    ALONG,
    BIG_END_UP,
    CELLS,
    CUPS,
    FITTING,
    HOLES,
    NET,
    TROUGHS,
    Seat,
    seat,
)
from turnercalc.eggs.species import all_species, species
from turnercalc.errors import DesignError
from turnercalc.tables import Range3

from .strategies import FEW

LOT = make_lot(
    species("chicken"), weighed=0.0583, typical=(0.0575, 0.0435), largest=(0.061, 0.0458)
)
CELL = Seat(BIG_END_UP, CELLS, room=0.046, wall=0.025)
DEG = math.pi / 180


# --- heights -----------------------------------------------------------------------------------


def test_big_end_up_the_centre_is_nearer_the_big_end():
    """L - 0.486 L above the tip: 29.55 mm for a hen's egg of 57.5 mm (integration elsewhere)."""
    assert 1e3 * seat(LOT, CELL).centre_height == pytest.approx(57.5 * (1 - 0.4861), abs=0.01)


def test_a_hole_lowers_the_centre_by_what_comes_through():
    floor = seat(LOT, CELL)
    hole = seat(LOT, Seat(BIG_END_UP, HOLES, hole=0.035))
    x = hole.lot.typical.length / 2 - (floor.centre_height - hole.centre_height)
    # At the rim the ovoid is as wide as the hole: Hügelschäffer's formula written out
    L, B, w = 57.5, 43.5, 2.0
    at = 1e3 * x
    assert B * math.sqrt((L**2 - 4 * at**2) / (L**2 + 8 * w * at + 4 * w**2)) == pytest.approx(35)
    assert 1e3 * (floor.centre_height - hole.centre_height) == pytest.approx(13.0, abs=0.1)
    assert hole.top + hole.below == pytest.approx(LOT.largest.length)
    assert hole.below > 0
    assert hole.notes == ()


@pytest.mark.parametrize("lie", [ALONG, ACROSS])
def test_on_its_side_the_centre_is_half_a_breadth_up(lie):
    held = seat(LOT, Seat(lie, CELLS, room=0.065, wall=0.02))
    assert held.centre_height == pytest.approx(LOT.typical.breadth / 2, rel=3e-3)
    assert held.top == LOT.largest.breadth


def test_a_v_trough_by_hand():
    """90 degrees between the faces: the egg's middle is R sqrt(2) above the bottom."""
    held = seat(LOT, Seat(ALONG, TROUGHS, trough_angle=90 * DEG))
    R = LOT.typical.breadth / 2
    assert held.centre_height == pytest.approx(R * math.sqrt(2))
    assert held.leaves_tilt == pytest.approx(45 * DEG)
    steep = seat(LOT, Seat(ALONG, TROUGHS, trough_angle=60 * DEG))
    assert steep.centre_height == pytest.approx(2 * R)
    assert steep.leaves_tilt == pytest.approx(60 * DEG)


def test_a_v_trough_that_ends_below_the_egg_holds_it_by_its_edges():
    """Edges 5 mm up at 90 degrees are 5 mm aside: the smallest egg tips at asin(5/R)."""
    held = seat(LOT, Seat(ALONG, TROUGHS, trough_angle=90 * DEG, wall=0.005))
    R = LOT.smallest.breadth / 2
    assert math.sin(held.leaves_tilt) == pytest.approx(0.005 / R)


def test_a_round_trough_lets_the_egg_roll_to_its_lowest_place():
    radius_there = 0.030
    held = seat(LOT, Seat(ALONG, TROUGHS, trough_radius=radius_there, wall=0.015))
    across, height = held.centre(30 * DEG)
    arm = radius_there - LOT.typical.breadth / 2
    assert across == pytest.approx(-arm / 2)
    assert height == pytest.approx(radius_there - arm * math.cos(30 * DEG))
    # The edge is 15 mm up an arc of 30 mm: 60 degrees from its bottom.
    assert held.leaves_tilt == pytest.approx(60 * DEG)


# --- leaning and crossing over -------------------------------------------------------------------


def test_loose_eggs_are_on_the_low_side_at_the_ends():
    held = seat(LOT, CELL)
    across, height = held.centre(np.array([45, -45]) * DEG, np.array([1, -1]))
    assert across == pytest.approx([-held.shift, held.shift])
    assert height == pytest.approx([held.leaned.height] * 2)
    assert held.shift > 0


def test_loose_eggs_stay_where_they_came_from_until_past_level():
    held = seat(LOT, CELL)
    past = held.slip_angle * 1.01
    # Coming up from the right-hand end they are still on the right at level.
    tilts = np.array([-45 * DEG, 0.0, held.slip_angle * 0.99, past])
    assert np.sign(held.centre(tilts, 1)[0]).tolist() == [1, 1, 1, -1]
    assert np.sign(held.centre(-tilts, -1)[0]).tolist() == [-1, -1, -1, 1]
    assert 0 < held.slip_angle < 5 * DEG


def test_set_to_a_tilt_from_level_they_go_over_only_beyond_the_slip_angle():
    held = seat(LOT, CELL)
    tilts = np.array([-1.01, -0.5, 0, 0.5, 1.01]) * held.slip_angle
    assert np.sign(held.centre(tilts)[0]).tolist() == [1, 0, 0, 0, -1]


def test_a_swing_that_is_too_small_shifts_nothing():
    held = seat(LOT, Seat(ACROSS, CELLS, room=0.065, wall=0.02))
    tilts = np.array([-10, 0, 10]) * DEG
    across, height = held.centre(tilts, 1, swing=10 * DEG)
    assert across.tolist() == [0, 0, 0]
    assert height == pytest.approx([held.centre_height] * 3)
    assert np.any(held.centre(np.array([-40, 40]) * DEG, 1, swing=40 * DEG)[0] != 0)


@FEW
@given(st.floats(-1.2, 1.2), st.sampled_from([-1, 0, 1]))
def test_left_and_right_are_mirror_images(tilt, sense):
    held = seat(LOT, CELL)
    across, height = held.centre(tilt, sense)
    mirrored, same = held.centre(-tilt, -sense)
    assert mirrored == pytest.approx(-across)
    assert same == pytest.approx(height)
    assert held.lean(-tilt, -sense) == pytest.approx(-held.lean(tilt, sense))


def test_an_egg_leans_farther_than_its_tray():
    held = seat(LOT, CELL)
    assert held.lean(45 * DEG, 1) == pytest.approx(held.leaned.lean)
    assert held.lean(-45 * DEG, -1) == pytest.approx(-held.leaned.lean)
    assert 2 * DEG < held.leaned.lean < 5 * DEG
    assert held.lean_most > held.leaned.lean


def test_shift_and_tilt_go_to_shapes_of_arrays():
    held = seat(LOT, CELL)
    tilt = np.linspace(-0.8, 0.8, 9)
    sense = np.array([[1.0], [-1.0]])
    across, height = held.centre(tilt, sense)
    assert across.shape == height.shape == (2, 9)


@pytest.mark.parametrize(
    "holder",
    [
        Seat(BIG_END_UP, HOLES, hole=0.035),
        Seat(BIG_END_UP, CUPS, wall=0.02),
        Seat(ALONG, CUPS, wall=0.02),
        Seat(ALONG, TROUGHS, trough_angle=80 * DEG),
        Seat(ALONG, NET),
    ],
)
def test_snug_seats_let_nothing_shift(holder):
    held = seat(LOT, holder)
    across, height = held.centre(np.array([-45, 0, 45]) * DEG, 1)
    assert across == pytest.approx([0, 0, 0])
    assert height == pytest.approx([held.centre_height] * 3)
    assert held.lean(45 * DEG, 1) == 0


def test_an_egg_along_the_axis_rolls_to_the_low_wall():
    held = seat(
        LOT, Seat(ALONG, CELLS, room=0.048, wall=0.03, rolling_arm=Range3(5e-4, 1e-3, 2e-3))
    )
    assert held.shift == pytest.approx((0.048 - 0.0435) / 2)
    assert math.tan(held.slip_angle) == pytest.approx(1.0 / 21.75)  # arm over radius


def test_an_egg_across_slides_or_rocks_over_whichever_comes_first():
    slippery, rough = (
        seat(LOT, Seat(ACROSS, CELLS, room=0.065, wall=0.03, friction=Range3(mu, mu, mu)))
        for mu in (0.1, 0.8)
    )
    assert slippery.slip_angle == pytest.approx(math.atan(0.1))
    assert rough.slip_angle < math.atan(0.8)


# --- leaving -------------------------------------------------------------------------------------


@FEW
@given(st.floats(0.012, 0.05), st.floats(0.001, 0.01))
def test_a_higher_wall_holds_longer(wall, more):
    low, high = (
        seat(LOT, Seat(BIG_END_UP, CELLS, room=0.046, wall=w)).leaves_tilt
        for w in (wall, wall + more)
    )
    assert low <= high + 1e-9


def test_the_smallest_egg_decides_when_eggs_leave():
    held = seat(LOT, CELL)
    assert LOT.smallest.length < LOT.typical.length
    egg = LOT.smallest
    pose = standing_in_cell(egg.length, egg.breadth, egg.w, None, 0.046, 0.025).pose
    expected = math.atan2(0.023 - float(pose.across), float(pose.height) - 0.025)
    assert held.leaves_tilt == pytest.approx(expected)
    assert 70 * DEG < held.leaves_tilt < 90 * DEG


def test_a_lying_egg_leaves_like_a_wheel_over_a_step():
    held = seat(LOT, Seat(ALONG, CELLS, room=0.048, wall=0.010))
    egg = LOT.smallest
    R = egg.breadth / 2
    rest = float(lying(egg.length, egg.breadth, egg.w).height)
    edge = math.sqrt(R**2 - (R - 0.010) ** 2)
    assert held.leaves_tilt == pytest.approx(math.atan2(edge, rest - 0.010))


def test_a_hole_by_hand():
    """The egg tips about the rim: tan t = half the hole over the centre's height above it."""
    held = seat(LOT, Seat(BIG_END_UP, HOLES, hole=0.035))
    assert held.leaves_tilt < math.atan2(0.0175, 0.8 * held.centre_height)
    assert held.leaves_tilt > 45 * DEG


def test_eggs_in_a_net_stay_in_upside_down():
    assert seat(LOT, Seat(ALONG, NET)).leaves_tilt == math.pi


@pytest.mark.parametrize("one", all_species(), ids=lambda one: one.name)
def test_cells_in_proportion_hold_every_species_at_its_tilt(one):
    """Walls of half the largest egg's height and 5 % of room: nobody falls out at 45 degrees."""
    lot = make_lot(one)
    holder = Seat(BIG_END_UP, CELLS, room=1.05 * lot.largest.breadth, wall=0.5 * lot.largest.length)
    held = seat(lot, holder)
    assert held.leaves_tilt > one.tilt
    assert held.leaned.lean < held.lean_most
    assert held.play == pytest.approx(0.05 * lot.largest.breadth)


# --- what is unknown or wrong --------------------------------------------------------------------


def test_a_cell_without_a_wall_leaves_retention_unknown():
    held = seat(LOT, Seat(BIG_END_UP, CELLS, room=0.046))
    assert held.leaves_tilt is None
    assert [unknown.field for unknown in held.unknowns] == ["eggs.cell_wall"]
    assert held.leaned.lean < seat(LOT, CELL).leaned.lean  # as between tall walls


def test_a_cell_without_a_width_leaves_lean_and_fit_unknown():
    for lie in (BIG_END_UP, ALONG):
        held = seat(LOT, Seat(lie, CELLS, wall=0.025))
        assert held.leaned is None
        assert held.shift is None
        assert held.play is None
        assert "eggs.cell_room" in [unknown.field for unknown in held.unknowns]
        across, _ = held.centre(45 * DEG, 1)
        assert across == 0


def test_other_seats_without_a_depth_leave_retention_unknown():
    for holder, field in (
        (Seat(BIG_END_UP, CUPS), "eggs.cup_depth"),
        (Seat(ALONG, TROUGHS, trough_radius=0.03), "eggs.trough_depth"),
    ):
        held = seat(LOT, holder)
        assert held.leaves_tilt is None
        assert [unknown.field for unknown in held.unknowns] == [field]


def test_a_cell_that_pinches_the_largest_egg_has_no_play():
    assert seat(LOT, Seat(BIG_END_UP, CELLS, room=0.044, wall=0.025)).play < 0


def test_an_egg_that_lies_down_in_its_cell_is_told():
    held = seat(LOT, Seat(BIG_END_UP, CELLS, room=0.2, wall=0.010))
    assert held.leaned is None
    assert held.leaves_tilt == 0
    assert any("typical egg from lying down" in note for note in held.notes)


def test_a_smallest_egg_that_falls_through_is_told():
    held = seat(LOT, Seat(BIG_END_UP, HOLES, hole=0.0425))
    assert held.leaves_tilt == 0
    assert "falls through" in held.notes[0]


def test_a_typical_egg_that_falls_through_is_refused():
    with pytest.raises(DesignError, match=r"43\.5 mm broad, falls through a hole of 44\.0 mm"):
        seat(LOT, Seat(BIG_END_UP, HOLES, hole=0.044))


@pytest.mark.parametrize(
    ("arguments", "field"),
    [
        ({"lie": "on its head", "held_by": CELLS}, "eggs.lie"),
        ({"lie": BIG_END_UP, "held_by": "magic"}, "eggs.held_by"),
        ({"lie": BIG_END_UP, "held_by": TROUGHS, "trough_angle": 1.0}, "eggs.held_by"),
        ({"lie": ALONG, "held_by": HOLES, "hole": 0.03}, "eggs.held_by"),
        ({"lie": ACROSS, "held_by": TROUGHS, "trough_angle": 1.0}, "eggs.held_by"),
        ({"lie": BIG_END_UP, "held_by": HOLES}, "eggs.hole"),
        ({"lie": ALONG, "held_by": TROUGHS}, "eggs.trough_angle"),
    ],
)
def test_what_makes_no_seat_is_refused_with_what_would(arguments, field):
    with pytest.raises(DesignError, match="Accepted: ") as caught:
        Seat(**arguments)
    (complaint,) = caught.value.complaints
    assert complaint.field == field
    assert complaint.accepted


def test_a_trough_narrower_than_its_egg_is_refused():
    with pytest.raises(DesignError, match="does not reach the bottom"):
        seat(LOT, Seat(ALONG, TROUGHS, trough_radius=0.02, wall=0.01))


def test_each_way_of_lying_has_something_that_holds_it():
    for lie, holders in FITTING.items():
        for held_by in holders:
            sizes = {"room": 0.065, "wall": 0.02, "hole": 0.035, "trough_angle": 80 * DEG}
            held = seat(LOT, Seat(lie, held_by, **sizes))
            assert held.centre_height > 0
            assert held.unknowns == ()
            assert held.half_extent > 0


# --- outlines ------------------------------------------------------------------------------------


def area_and_centre(u, v):
    cross = u * np.roll(v, -1) - np.roll(u, -1) * v
    area = cross.sum() / 2
    return area, ((u + np.roll(u, -1)) * cross).sum() / (6 * area)


def test_the_outline_of_a_leaning_egg_meets_floor_and_wall():
    held = seat(LOT, CELL)
    for side in (-1, 1):
        u, v = held.section(LOT.typical, side)
        assert v.min() == pytest.approx(0, abs=1e-5)
        under = v <= 0.025
        assert (side * u[under]).max() == pytest.approx(0.023, abs=3e-4)


def test_outlines_left_and_right_are_mirror_images():
    held = seat(LOT, CELL)
    left, right = held.section(LOT.typical, -1), held.section(LOT.typical, 1)
    assert left[0] == pytest.approx(-right[0])
    assert left[1] == pytest.approx(right[1])


def test_an_upright_outline_is_the_egg():
    held = seat(LOT, CELL)
    u, v = held.section(LOT.typical)
    assert v.min() == pytest.approx(0, abs=1e-12)
    assert v.max() == pytest.approx(0.0575)
    assert u.max() - u.min() == pytest.approx(0.0435, rel=1e-3)
    area, middle = area_and_centre(u, v)
    assert abs(area) == pytest.approx(math.pi / 4 * 0.0575 * 0.0435, rel=5e-3)
    assert middle == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize("lie", [ALONG, ACROSS])
def test_a_lying_outline_rests_on_the_floor(lie):
    held = seat(LOT, Seat(lie, CELLS, room=0.065, wall=0.03))
    u, v = held.section(LOT.typical)
    assert v.min() == pytest.approx(0, abs=2e-5)
    assert v.max() == pytest.approx(0.0435, abs=2e-4)
    shifted, _ = held.section(LOT.typical, 1)
    assert shifted.max() == pytest.approx(0.0325, abs=2e-3)
    assert (shifted - u) == pytest.approx((shifted - u)[0])


def test_an_outline_in_a_hole_comes_through_it():
    held = seat(LOT, Seat(BIG_END_UP, HOLES, hole=0.035))
    u, v = held.section(LOT.largest)
    assert v.min() == pytest.approx(-held.below)
    assert v.max() == pytest.approx(held.top)
    at_rim = np.abs(u[np.abs(v) < 5e-4])
    assert at_rim == pytest.approx([0.0175] * len(at_rim), abs=6e-4)
    assert len(at_rim) > 0
