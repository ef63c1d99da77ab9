"""Statics of one egg: what must hold for any egg in any seat."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from turnercalc.eggs.mass_properties import mass_properties
from turnercalc.eggs.poses import (
    hanging_depth,
    hole_slip,
    lying,
    rock_limit,
    round_reach,
    standing_in_cell,
    tips_over,
    wedged_lean,
)
from turnercalc.eggs.shape import radius

from .strategies import MANY, eggs

HEN = (57.5e-3, 43.5e-3, 2e-3, None)


# --- lying -------------------------------------------------------------------------------------


@MANY
@given(eggs())
def test_a_lying_egg_dips_toward_its_pointed_end_and_is_no_higher_than_its_radius(egg):
    pose = lying(*egg)
    assert pose.dip >= -1e-9
    assert 0 < pose.height <= egg[1] / 2 * (1 + 1e-9)


def test_a_spheroid_lies_level():
    pose = lying(0.0575, 0.0435, 0.0)
    assert pose.dip == pytest.approx(0, abs=1e-12)
    assert pose.height == pytest.approx(0.02175, rel=1e-12)


def test_rock_limit_of_a_spheroid():
    """Ellipse: the steepest angle of normal and radius has the tangent (a^2 - b^2)/(2 a b)."""
    a, b = 28.75, 21.75
    expected = math.atan((a**2 - b**2) / (2 * a * b))
    assert rock_limit(2 * a, 2 * b, 0.0) == pytest.approx(expected, rel=1e-4)


def test_an_asymmetric_egg_goes_over_sooner():
    assert rock_limit(*HEN) < rock_limit(0.0575, 0.0435, 0.0)


# --- standing in a cell -------------------------------------------------------------------------


@MANY
@given(eggs(), st.floats(0.001, 0.1), st.floats(0.001, 0.1))
def test_more_room_more_lean(egg, play, more):
    length, breadth, w = egg
    tight, wide = (
        standing_in_cell(length, breadth, w, None, breadth * (1 + p), math.inf).pose
        for p in (play, play + more)
    )
    assume(not (np.isnan(tight.lean) or np.isnan(wide.lean)))
    assert 0 < tight.lean < wide.lean
    assert tight.across < wide.across


@MANY
@given(eggs(), st.floats(0.001, 0.1))
def test_the_flank_just_touches_the_wall(egg, play):
    length, breadth, w = egg
    room = breadth * (1 + play)
    stand = standing_in_cell(length, breadth, w, None, room, math.inf)
    assume(not np.isnan(stand.pose.lean))
    assert stand.reach == pytest.approx(room / 2, rel=1e-6)


@MANY
@given(eggs(), st.floats(0.001, 0.1), st.floats(0.2, 5))
def test_lean_does_not_depend_on_size(egg, play, scale):
    length, breadth, w = egg
    room, wall = breadth * (1 + play), 0.45 * length
    small = standing_in_cell(length, breadth, w, None, room, wall).pose
    large = standing_in_cell(
        *(scale * a for a in (length, breadth, w)), None, scale * room, scale * wall
    ).pose
    assert large.lean == pytest.approx(small.lean, rel=1e-6, nan_ok=True)
    assert large.height == pytest.approx(scale * small.height, rel=1e-6, nan_ok=True)


def test_a_low_wall_lets_it_lean_farther():
    tall, low = (standing_in_cell(*HEN, 0.046, wall).pose.lean for wall in (math.inf, 0.020))
    assert low > tall


def test_small_leans_against_a_tall_wall_by_hand():
    """Rolling on the tip by a small lean t carries the flank by t times its height above the
    floor, to first order: play/2 = t h, h the height of the greatest breadth. Independent of the
    tip's own curvature, because the contact is the momentary centre."""
    play = 0.1e-3
    stand = standing_in_cell(*HEN, 0.0435 + play, math.inf)
    flank = 0.0575 / 2 + 2e-3
    assert stand.pose.lean == pytest.approx(play / 2 / flank, rel=0.02)
    centre = 0.0575 / 2 - float(mass_properties(*HEN).centre)
    assert stand.pose.across == pytest.approx(play / 2 * centre / flank, rel=0.02)
    # Radius of curvature of an ovoid's pointed tip: B^2 L / (2 (L + 2w)^2)
    tip = 0.0435**2 * 0.0575 / (2 * (0.0575 + 4e-3) ** 2)
    assert stand.contact == pytest.approx(tip * stand.pose.lean, rel=0.02)


def test_a_pinched_egg_stands_upright():
    stand = standing_in_cell(*HEN, 0.043, math.inf)
    assert stand.pose.lean == 0
    assert stand.pose.across == pytest.approx(0, abs=1e-9)


def test_with_too_much_room_it_lies_down():
    assert np.isnan(standing_in_cell(*HEN, 0.2, 0.025).pose.lean)
    assert np.isnan(standing_in_cell(*HEN, 0.046, 0.0).pose.lean)
    assert np.isnan(wedged_lean(*HEN, 0.2, 0.025))


def test_wedged_between_tall_walls_like_the_ellipse_of_the_textbook():
    """Width of a tilted ellipse: 2 sqrt(b^2 cos^2 + a^2 sin^2)."""
    a, b, room = 0.02875, 0.02175, 0.046
    expected = math.asin(math.sqrt(((room / 2) ** 2 - b**2) / (a**2 - b**2)))
    found = wedged_lean(2 * a, 2 * b, 0.0, None, room, math.inf)
    assert found == pytest.approx(expected, abs=1e-4)


@MANY
@given(st.floats(0.0436, 0.052), st.floats(0.015, 0.05))
def test_a_slipped_tip_never_means_less_lean(room, wall):
    stuck = standing_in_cell(*HEN, room, wall).pose.lean
    slipped = wedged_lean(*HEN, room, wall)
    assume(not (np.isnan(stuck) or np.isnan(slipped)))
    assert slipped > stuck


def test_rooms_and_walls_may_be_arrays():
    rooms, walls = np.array([0.044, 0.046, 0.050]), np.array([0.02, 0.025, math.inf])
    together = standing_in_cell(*HEN, rooms, walls)
    for i in range(3):
        alone = standing_in_cell(*HEN, rooms[i], walls[i])
        assert together.pose.lean[i] == alone.pose.lean
        assert together.pose.across[i] == alone.pose.across
    assert wedged_lean(*HEN, rooms, walls).shape == (3,)


def test_eggs_may_be_arrays():
    lengths, breadths = np.array([0.0541, 0.0575]), np.array([0.0409, 0.0435])
    together = standing_in_cell(lengths, breadths, 0.002, None, 0.046, 0.025)
    alone = standing_in_cell(0.0541, 0.0409, 0.002, None, 0.046, 0.025)
    assert together.pose.lean[0] == alone.pose.lean
    assert together.pose.lean[0] > together.pose.lean[1]  # the smaller egg has more room


# --- round holes --------------------------------------------------------------------------------


@MANY
@given(eggs(), st.floats(0.3, 0.98))
def test_an_egg_hangs_where_it_is_as_wide_as_its_hole(egg, share):
    length, breadth, w = egg
    x = hanging_depth(length, breadth, w, None, share * breadth)
    assert radius(x, length, breadth, w) == pytest.approx(share * breadth / 2, rel=1e-9)
    assert -w <= x < length / 2


def test_an_egg_falls_through_a_hole_of_its_breadth():
    assert np.isnan(hanging_depth(*HEN, 0.0435))
    assert np.isnan(hole_slip(*HEN, 0.0435, 0.3))


def test_hole_slip_of_a_spheroid_by_hand():
    """Spheroid a 30, b 20 mm in a hole of 32 mm: rim at x = 18, normals meet at 18 (1 - 4/9) = 10.

    rho = hypot(16, 8) = sqrt(320); cos a = 8/rho; N = W rho/8. Friction 0.1 resists with
    0.1 rho^2/8 = 4, gravity turns with 10 sin t.
    """
    slip = hole_slip(0.060, 0.040, 0.0, None, 0.032, 0.1)
    assert math.sin(slip) == pytest.approx(0.4, rel=1e-9)
    # 0.3 resists with 12, more than gravity ever has
    assert hole_slip(0.060, 0.040, 0.0, None, 0.032, 0.3) == pytest.approx(math.pi / 2)


# --- edges --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("reach", "height", "edge", "degrees"),
    [
        (1.0, 1.0, 0.0, 45.0),
        (0.6, 0.9, 0.0, 33.69),  # a crate: Halliday, from memory
        (
            0.5,
            1.0,
            0.0,
            26.57,
        ),  # Wolfson, Essential University Physics ch. 12
        (1.0, 1.0, 1.0, 90.0),
        (1.0, 1.0, 2.0, 135.0),
        (-0.1, 1.0, 0.0, 0.0),
    ],
)
def test_tipping_over_an_edge(reach, height, edge, degrees):
    assert math.degrees(tips_over(reach, height, edge)) == pytest.approx(degrees, abs=0.005)


def test_a_round_body_before_a_step():
    # 3-4-5: radius 5, step 2: the edge is 4 away and 3 below the middle
    assert round_reach(5.0, 2.0) == pytest.approx(4.0)
    assert tips_over(4.0, 5.0, 2.0) == pytest.approx(math.atan(4 / 3))
    assert round_reach(5.0, 9.0) == pytest.approx(5.0)
    assert round_reach(5.0, math.inf) == pytest.approx(5.0)


def test_nothing_known_gives_nothing():
    assert np.isnan(tips_over(np.nan, 1.0, 0.5))
