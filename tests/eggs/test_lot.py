"""The typical, largest and smallest egg of a batch, and what was taken for granted."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.eggs.lot import Egg, make_lot
from turnercalc.eggs.species import all_species, species
from turnercalc.errors import DesignError

from .strategies import MANY

HEN = Egg(0.0575, 0.0435, 0.0583, w=0.002)


def test_an_egg_knows_its_centre_and_inertia():
    assert HEN.centre_from_blunt + HEN.centre_from_pointed == pytest.approx(HEN.length)
    # 0.4861 of the length from the blunt tip: integration in tests/validation
    assert HEN.centre_from_blunt == pytest.approx(0.4861 * HEN.length, rel=1e-4)
    # m B^2/10 and m (L^2 + B^2)/20 within 0.3 %: textbook spheroid
    assert HEN.inertia_long == pytest.approx(0.0583 * 0.0435**2 / 10, rel=3e-3)
    assert HEN.inertia_cross == pytest.approx(0.0583 * (0.0575**2 + 0.0435**2) / 20, rel=3e-3)


def test_a_fresh_egg_is_a_little_heavier_than_water():
    # 1080 to 1090 kg/m3 from memory; the ovoid's volume is 2 to 3 % high
    assert 1000 < HEN.density < 1090


@MANY
@given(st.floats(0.005, 2.0))
def test_scaling_keeps_shape_and_density(mass):
    other = HEN.scaled(mass)
    assert other.density == pytest.approx(HEN.density, rel=1e-9)
    assert other.breadth / other.length == pytest.approx(HEN.breadth / HEN.length)
    assert other.w / other.length == pytest.approx(HEN.w / HEN.length)


def test_nothing_said_is_all_taken_from_the_table():
    lot = make_lot(species("goose"))
    assert (lot.typical.length, lot.typical.breadth) == pytest.approx((0.084, 0.057))
    assert lot.typical.mass == pytest.approx(0.150)
    assert lot.largest.mass == pytest.approx(0.200)
    assert lot.smallest.mass == pytest.approx(0.120)
    assert set(lot.assumed) == {"eggs.weighed", "eggs.typical", "eggs.largest", "eggs.smallest"}
    assert lot.assumed["eggs.typical"] == "species table: goose (from memory)"
    assert lot.assumed["eggs.weighed"] == "species table: goose (read)"


@pytest.mark.parametrize(
    ("name", "breadth", "length"),
    # B (m_max/m)^(1/3), worked out from the table's own typical size and heavy end
    [("chicken", 45.8, 61), ("goose", 62.7, 92), ("turkey", 50.9, 72), ("emu", 95.8, 138)],
)
def test_the_largest_egg_of_a_species(name, breadth, length):
    largest = make_lot(species(name)).largest
    assert 1e3 * largest.breadth == pytest.approx(breadth, abs=0.06)
    assert 1e3 * largest.length == pytest.approx(length, abs=0.6)


def test_what_was_measured_is_kept_and_not_called_assumed():
    lot = make_lot(
        species("chicken"), weighed=0.0583, typical=(0.0575, 0.0435), largest=(0.061, 0.0458)
    )
    assert lot.typical.mass == 0.0583
    assert (lot.largest.length, lot.largest.breadth) == (0.061, 0.0458)
    assert set(lot.assumed) == {"eggs.smallest"}
    # The largest egg is as dense as the typical one, so it weighs with L B^2.
    ratio = (61 * 45.8**2) / (57.5 * 43.5**2)
    assert lot.largest.mass == pytest.approx(0.0583 * ratio)
    assert lot.largest.density == pytest.approx(lot.typical.density, rel=2e-3)
    assert lot.smallest.mass == pytest.approx(0.050)


def test_a_weighed_egg_without_a_size_is_scaled():
    lot = make_lot(species("chicken"), weighed=0.052)
    assert lot.typical.length == pytest.approx(0.0575 * (52 / 60) ** (1 / 3))


def test_eggs_outside_the_usual_range_take_the_range_with_them():
    lot = make_lot(species("chicken"), weighed=0.080)
    assert lot.smallest.mass < lot.typical.mass < lot.largest.mass
    assert lot.largest.mass / lot.typical.mass == pytest.approx(70 / 60)


@MANY
@given(st.sampled_from(all_species()), st.floats(0.3, 3.0))
def test_any_weighed_lot_is_in_order(one, share):
    lot = make_lot(one, weighed=share * one.mass)
    assert lot.smallest.length <= lot.typical.length <= lot.largest.length
    assert lot.smallest.mass <= lot.typical.mass <= lot.largest.mass


def test_hoyts_rule_shows_a_wrong_figure():
    fine = make_lot(species("chicken"), weighed=0.0583, typical=(0.0575, 0.0435))
    assert abs(fine.hoyt_gap) < 0.03
    wrong = make_lot(species("chicken"), weighed=0.0583, typical=(0.0575, 0.0535))
    assert wrong.hoyt_gap > 0.4


@pytest.mark.parametrize(
    ("given_", "field", "says"),
    [
        ({"weighed": 0.0}, "eggs.weighed", "mass must be more than nothing"),
        ({"weighed": -0.06}, "eggs.weighed", "mass must be more than nothing; -0.06 was read"),
        ({"weighed": float("nan")}, "eggs.weighed", "more than nothing"),
        ({"typical": (0.0435, 0.0575)}, "eggs.typical", "Write the length first"),
        ({"typical": (0.2, 0.04)}, "eggs.typical", "5.0 times as long as broad"),
        ({"typical": (0.0, 0.04)}, "eggs.typical", "length must be more than nothing"),
        ({"largest": (0.05, 0.04)}, "eggs.largest", "must be larger than the typical one"),
        ({"largest": (0.04, 0.05)}, "eggs.largest", "Write the length first"),
        ({"smallest": (0.06, 0.045)}, "eggs.smallest", "must be smaller than the typical one"),
    ],
)
def test_what_is_no_egg_is_refused_with_its_field(given_, field, says):
    with pytest.raises(DesignError, match="egg") as caught:
        make_lot(species("chicken"), **given_)
    assert says in str(caught.value)
    assert [complaint.field for complaint in caught.value.complaints] == [field]


def test_an_egg_hollowed_or_pointed_the_wrong_way_is_refused():
    with pytest.raises(DesignError, match="toward the blunt end"):
        Egg(0.0575, 0.0435, 0.06, w=-0.002)
    with pytest.raises(DesignError, match=r"between 31\.1 mm \(pear-shaped\) and the breadth"):
        Egg(0.0575, 0.0435, 0.06, w=0.002, D=0.030)


def test_an_egg_that_is_round_is_still_an_egg():
    assert Egg.of_size(0.05, 0.05, 0.07).w == 0.0
