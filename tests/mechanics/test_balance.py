"""Balance: sums station by station, two planes by moments, torque as the slope of energy."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.mechanics import balance
from turnercalc.mechanics.constants import STANDARD_GRAVITY


@given(st.integers(2, 40), st.data())
def test_neighbouring_stations_added_one_by_one(stations: int, data: st.DataObject) -> None:
    filled = data.draw(st.integers(0, stations))
    masses = np.where(np.arange(stations) < filled, 0.06, 0.0)
    x, y = balance.station_moment(masses, 0.15)
    run = balance.contiguous_moment(0.06, 0.15, stations, filled)
    assert np.hypot(x, y) == pytest.approx(run, abs=1e-14)
    if filled:
        far = balance.contiguous_eccentricity(0.15, stations, filled)
        assert far == pytest.approx(np.hypot(x, y) / (0.06 * filled), abs=1e-14)


@pytest.mark.parametrize(
    ("stations", "filled", "moment"),
    # in units of m R, added up here as arrows 2 pi/N apart
    [(12, 1, 1.0), (12, 2, 1.932), (12, 3, 2.732), (12, 6, 3.864), (6, 3, 2.0), (12, 12, 0.0)],
)
def test_partly_filled_drum(stations: int, filled: int, moment: float) -> None:
    arrows = np.exp(2j * np.pi * np.arange(filled) / stations)
    assert abs(arrows.sum()) == pytest.approx(moment, abs=6e-4)
    assert balance.contiguous_moment(1.0, 1.0, stations, filled) == pytest.approx(moment, abs=6e-4)


def test_half_full_is_the_worst_and_half_a_rim_the_limit() -> None:
    runs = balance.contiguous_moment(1.0, 1.0, 36, np.arange(37))
    assert np.argmax(runs) == 18
    # half a continuous rim has its centre 2 R/pi from the axis (textbook centroid)
    assert balance.contiguous_eccentricity(1.0, 3600, 1800) == pytest.approx(2 / np.pi, rel=1e-6)


@pytest.mark.parametrize("filled", [-1, 13])
def test_more_or_less_stations_than_there_are(filled: int) -> None:
    assert np.isnan(balance.contiguous_moment(1.0, 1.0, 12, filled))


def test_an_empty_drum_has_no_centre() -> None:
    assert np.isnan(balance.contiguous_eccentricity(0.15, 12, 0))


def test_drum_of_eggs() -> None:
    # 60 g eggs, 150 mm, 12 stations: 0.341 N m half full, 0.241 N m with three; arrows again
    for filled, torque in ((6, 0.341), (3, 0.241)):
        arrows = abs(np.exp(2j * np.pi * np.arange(filled) / 12).sum())
        assert 0.06 * 0.15 * arrows * STANDARD_GRAVITY == pytest.approx(torque, abs=6e-4)
        moment = balance.contiguous_moment(0.06, 0.15, 12, filled)
        assert balance.gravity_torque(moment, 0.0, 0.0) == pytest.approx(torque, abs=6e-4)


@given(st.floats(-1, 1), st.floats(-1, 1), st.floats(-4, 4))
def test_torque_is_the_slope_of_the_potential(x: float, y: float, turned: float) -> None:
    step = 1e-5
    around = turned + step * np.array([-1, 1])
    height = ((x + 1j * y) * np.exp(1j * around)).imag
    slope = STANDARD_GRAVITY * np.diff(height)[0] / (2 * step)
    assert balance.gravity_torque(x, y, turned) == pytest.approx(slope, abs=1e-8)


def test_tray_at_45_degrees() -> None:
    # 12 kg, centre 40 mm from the pivot, 45 degrees: 3.328 N m, weight times level distance
    by_hand = 12 * 9.80665 * 0.040 * np.cos(np.radians(45))
    assert by_hand == pytest.approx(3.328, abs=6e-4)
    x, y = balance.mass_moment([12.0], [0.0], [-0.040])
    assert balance.gravity_torque(x, y, np.radians(45)) == pytest.approx(by_hand)


def test_mass_moment_of_several() -> None:
    x, y = balance.mass_moment([1.0, 2.0, 3.0], [0.1, -0.2, 0.0], [0.0, 0.1, 0.2])
    assert (x, y) == pytest.approx((-0.3, 0.8))


def test_counterweight_cancels() -> None:
    counterweight = balance.counterweight_mass(0.06, 0.2)
    x, _ = balance.mass_moment([0.4, counterweight], [0.15, -0.2], [0.0, 0.0])
    assert x == pytest.approx(0.0, abs=1e-15)


@given(st.floats(-2, 2), st.floats(-1, 1), st.floats(0.1, 1.0))
def test_two_planes_carry_the_moment_and_its_lever(
    moment: float, position: float, spread: float
) -> None:
    first, second = balance.two_plane_split(moment, position, 0.0, spread)
    assert first + second == pytest.approx(moment, abs=1e-9)
    assert second * spread == pytest.approx(moment * position, abs=1e-9)


def test_one_plane_is_no_two_planes() -> None:
    assert np.isnan(balance.two_plane_split(1.0, 0.1, 0.2, 0.2)).all()
