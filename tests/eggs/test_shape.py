"""Properties of the egg's outline."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.eggs.shape import (
    asymmetry,
    outline,
    pear_diameter,
    profile,
    quarter_diameter,
    radius,
)

from .strategies import MANY, eggs, eggs_with_quarter


@MANY
@given(eggs())
def test_the_greatest_breadth_is_where_w_says(egg):
    length, breadth, w = egg
    places = np.linspace(-length / 2, length / 2, 2001)
    out = radius(places, *egg)
    assert radius(-w, *egg) == pytest.approx(breadth / 2, rel=1e-12)
    assert out.max() <= breadth / 2 * (1 + 1e-12)
    assert abs(places[out.argmax()] + w) <= length / 2000 + 1e-12


@MANY
@given(eggs_with_quarter())
def test_the_universal_outline_passes_through_all_three_measured_places(egg):
    length, breadth, w, D = egg
    assert radius(-w, *egg) == pytest.approx(breadth / 2, rel=1e-9)
    assert radius(length / 4, *egg) == pytest.approx(D / 2, rel=1e-9)
    assert radius(np.array([-length / 2, length / 2]), *egg) == pytest.approx([0, 0], abs=1e-9)


@MANY
@given(eggs())
def test_the_ovoids_own_quarter_diameter_gives_the_ovoid_back(egg):
    length, _, _ = egg
    places = np.linspace(-length / 2, length / 2, 51)
    own = quarter_diameter(*egg)
    assert radius(places, *egg, own) == pytest.approx(radius(places, *egg), rel=1e-9, abs=1e-12)
    assert pear_diameter(*egg) < own


@MANY
@given(eggs())
def test_without_asymmetry_it_is_a_spheroid(egg):
    length, breadth, _ = egg
    places = np.linspace(-length / 2, length / 2, 51)
    ellipse = breadth / 2 * np.sqrt(np.maximum(0, 1 - (2 * places / length) ** 2))
    assert radius(places, length, breadth, 0.0) == pytest.approx(ellipse, rel=1e-9, abs=1e-9)


@MANY
@given(eggs_with_quarter(), st.floats(0.1, 10))
def test_a_bigger_egg_of_the_same_shape_is_the_same_drawing(egg, scale):
    places = np.linspace(-0.49, 0.49, 21) * egg[0]
    small = profile(places, *egg)
    large = profile(scale * places, *(scale * a for a in egg))
    assert large.squared == pytest.approx(scale**2 * small.squared, rel=1e-9)
    assert large.slope == pytest.approx(scale * small.slope, rel=1e-9, abs=1e-12 * scale)


def test_one_number_and_an_array_of_it_agree():
    sizes = np.array([[57.5], [66.6]]), np.array([[43.5], [46.8]]), np.array([[2.0], [2.8]])
    places = np.array([-20.0, 0.0, 14.0])
    together = radius(places, *sizes)
    assert together.shape == (2, 3)
    for row, (L, B, w) in enumerate(zip(*(a[:, 0] for a in sizes), strict=True)):
        for column, x in enumerate(places):
            assert together[row, column] == radius(x, L, B, w)


def test_there_is_no_egg_beyond_its_tips():
    assert np.isnan(radius([-0.03, 0.03], 0.0575, 0.0435, 0.002)).all()
    assert np.isnan(radius(np.nan, 0.0575, 0.0435, 0.002))


def test_the_usual_asymmetry_of_a_hens_egg():
    # 1 to 3 mm, from memory; 2 mm is our choice
    assert asymmetry(57.5, 43.5) == pytest.approx(2.0)


def test_outline_runs_from_tip_to_tip():
    x, y = outline(0.0575, 0.0435, 0.002, points=101)
    assert x[0] == pytest.approx(0.02875)
    assert x[-1] == pytest.approx(-0.02875)
    assert (np.diff(x) < 0).all()
    assert y[[0, -1]] == pytest.approx([0, 0], abs=1e-12)
    assert outline([0.05, 0.06], 0.04, 0.001)[0].shape == (2, 361)
