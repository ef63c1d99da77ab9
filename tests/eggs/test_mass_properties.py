"""Properties of volume, centre and inertia."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.eggs.mass_properties import mass_properties, ovoid_volume
from turnercalc.eggs.shape import quarter_diameter

from .strategies import MANY, eggs, eggs_with_quarter


@MANY
@given(eggs_with_quarter())
def test_an_egg_weighs_something_and_less_than_its_box(egg):
    length, breadth, _, _ = egg
    solid = mass_properties(*egg)
    assert 0 < solid.volume < np.pi / 4 * length * breadth**2
    assert solid.surface**3 >= 36 * np.pi * solid.volume**2  # the sphere has the least


@MANY
@given(eggs_with_quarter())
def test_the_centre_lies_between_the_tips_on_the_blunt_side(egg):
    length, _, w, _ = egg
    centre = mass_properties(*egg).centre
    assert -length / 4 < centre <= 1e-9 * length
    assert centre >= -length / 4
    if w > 1e-3 * length:
        assert centre < 0


@MANY
@given(eggs())
def test_closed_form_and_quadrature_agree(egg):
    assert ovoid_volume(*egg) == pytest.approx(mass_properties(*egg).volume, rel=1e-9)


@pytest.mark.parametrize("share", [0.0, 1e-12, 1e-6, 0.0099, 0.0101, 0.05, 0.2])
def test_closed_form_holds_where_it_would_cancel(share):
    # w = 0 is the spheroid, pi/6 L B^2; either side of the change to the series too
    assert ovoid_volume(1.0, 0.7, share) == pytest.approx(
        mass_properties(1.0, 0.7, share).volume, rel=1e-9
    )


@MANY
@given(eggs())
def test_the_ovoids_own_quarter_diameter_changes_nothing(egg):
    own, plain = mass_properties(*egg, quarter_diameter(*egg)), mass_properties(*egg)
    for name in ("volume", "surface", "gyration_long", "gyration_cross"):
        assert getattr(own, name) == pytest.approx(getattr(plain, name), rel=1e-9)


@MANY
@given(eggs_with_quarter(), st.floats(0.1, 10))
def test_scaling(egg, scale):
    small, large = mass_properties(*egg), mass_properties(*(scale * a for a in egg))
    assert large.volume == pytest.approx(scale**3 * small.volume, rel=1e-9)
    assert large.surface == pytest.approx(scale**2 * small.surface, rel=1e-9)
    assert large.centre == pytest.approx(scale * small.centre, rel=1e-9, abs=1e-12)
    assert large.gyration_cross == pytest.approx(scale * small.gyration_cross, rel=1e-9)


@MANY
@given(eggs_with_quarter())
def test_an_egg_is_harder_to_tumble_than_to_roll(egg):
    solid = mass_properties(*egg)
    assert solid.gyration_cross > solid.gyration_long > 0


def test_arrays_and_single_eggs_agree():
    lengths, breadths, ws = np.array([57.5, 66.6]), np.array([43.5, 46.8]), np.array([2.0, 2.8])
    together = mass_properties(lengths, breadths, ws)
    assert together.volume.shape == (2,)
    for i in range(2):
        alone = mass_properties(lengths[i], breadths[i], ws[i])
        assert together.volume[i] == alone.volume
        assert together.centre[i] == alone.centre
