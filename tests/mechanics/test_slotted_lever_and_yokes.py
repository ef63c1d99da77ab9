"""Slotted lever, scotch yoke, eccentric: geometry against coordinates, torque against work."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnercalc.mechanics import slotted_lever as lever
from turnercalc.mechanics import yokes

TURN = np.arange(3600) * 2 * np.pi / 3600
LENGTHS = st.floats(0.02, 0.1).flatmap(
    lambda r: st.tuples(st.just(r), st.floats(1.1, 4.0).map(lambda k: k * r))
)


@given(LENGTHS, st.floats(0, 2 * np.pi))
def test_lever_points_at_the_crank_pin(lengths: tuple[float, float], angle: float) -> None:
    r, d = lengths
    pin = d + r * np.exp(1j * angle)
    found = lever.block_distance(r, d, angle) * np.exp(1j * lever.lever_angle(r, d, angle))
    assert found == pytest.approx(pin, abs=1e-13)


@given(LENGTHS, st.floats(0, 2 * np.pi))
def test_derivatives(lengths: tuple[float, float], angle: float) -> None:
    r, d = lengths
    step = 1e-5
    near = angle + step * np.array([-1, 1])
    angles, rates = lever.lever_angle(r, d, near), lever.lever_rate(r, d, near)
    blocks = lever.block_distance(r, d, near)
    assert lever.lever_rate(r, d, angle) == pytest.approx(
        np.diff(angles)[0] / (2 * step), rel=1e-6, abs=1e-8
    )
    assert lever.lever_second(r, d, angle) == pytest.approx(
        np.diff(rates)[0] / (2 * step), rel=1e-6, abs=1e-7
    )
    assert lever.slip_rate(r, d, angle) == pytest.approx(np.diff(blocks)[0] / (2 * step), abs=1e-9)


@given(LENGTHS)
def test_swing_ends_and_time_ratio_over_a_turn(lengths: tuple[float, float]) -> None:
    r, d = lengths
    angles = lever.lever_angle(r, d, TURN)
    assert np.ptp(angles) == pytest.approx(lever.lever_swing(r, d), rel=1e-4)
    high, low = lever.lever_end_angles(r, d)
    assert lever.lever_angle(r, d, high) == pytest.approx(lever.lever_swing(r, d) / 2)
    assert lever.lever_angle(r, d, low) == pytest.approx(-lever.lever_swing(r, d) / 2)
    assert lever.lever_rate(r, d, high) == pytest.approx(0.0, abs=1e-12)
    slow = np.count_nonzero(lever.lever_rate(r, d, TURN) > 0)
    assert lever.lever_time_ratio(r, d) == pytest.approx(slow / (len(TURN) - slow), rel=0.02)
    assert lever.crank_for_swing(d, lever.lever_swing(r, d)) == pytest.approx(r)


@given(LENGTHS)
def test_fastest_rates_are_the_extremes(lengths: tuple[float, float]) -> None:
    r, d = lengths
    rates = lever.lever_rate(r, d, TURN)
    slow, fast = lever.lever_fastest_rates(r, d)
    assert rates.max() == pytest.approx(slow, rel=1e-12)
    assert -rates.min() == pytest.approx(fast, rel=1e-12)


@given(LENGTHS, st.floats(-20, 20), st.floats(0.01, 3.1))
def test_lever_work(lengths: tuple[float, float], load: float, angle: float) -> None:
    # a steady load torque: what the crank puts in is load x lever angle
    path = np.linspace(0, angle, 2001)
    work = np.trapezoid(load * lever.lever_rate(*lengths, path), path)
    assert work == pytest.approx(load * lever.lever_angle(*lengths, angle), rel=1e-3, abs=1e-6)


@pytest.mark.parametrize(
    ("swing_deg", "ratio", "times"), [(60, 0.5, 2.0), (80, 0.6428, 2.6), (90, 0.7071, 3.0)]
)
def test_ratio_table(swing_deg: float, ratio: float, times: float) -> None:
    # crank over centre distance, and time ratio, for usual swings: the tangent from the lever
    # pivot to the crank circle is square to the crank there
    assert np.degrees(2 * np.arctan2(ratio, np.sqrt(1 - ratio**2))) == pytest.approx(
        swing_deg, abs=0.01
    )
    assert lever.crank_for_swing(1.0, np.radians(swing_deg)) == pytest.approx(ratio, abs=6e-5)
    assert lever.lever_time_ratio(ratio, 1.0) == pytest.approx(times, abs=1e-3)


@pytest.mark.parametrize("crank", [0.3, 0.3001, 0.5])
def test_a_crank_as_long_as_the_centres_goes_round_and_has_no_swing(crank: float) -> None:
    assert np.isnan(lever.lever_swing(crank, 0.3))
    assert np.isnan(lever.lever_end_angles(crank, 0.3)).all()
    assert np.isnan(lever.lever_time_ratio(crank, 0.3))
    assert np.isnan(lever.lever_fastest_rates(crank, 0.3)).all()
    assert np.isnan(lever.lever_stroke(0.5, crank, 0.3))


def test_whitworth_over_a_turn() -> None:
    # 75 round a centre 50 away goes right round; slow half against fast half of the lever
    angles = np.mod(lever.lever_angle(75, 50, TURN), 2 * np.pi)
    slow = np.count_nonzero((angles < np.pi / 2) | (angles > 3 * np.pi / 2))
    assert lever.whitworth_time_ratio(75, 50) == pytest.approx(slow / (3600 - slow), rel=2e-3)
    assert np.isnan(lever.whitworth_time_ratio(50, 75))


def test_a_pin_on_the_pivot_gives_the_lever_no_direction() -> None:
    assert np.isnan(lever.lever_rate(0.0, 0.0, 1.0))
    assert np.isnan(lever.lever_angle(0.0, 0.0, 1.0))


def test_yoke_position_and_derivatives() -> None:
    # r = 20 mm at 60 degrees: 10 mm (definition)
    assert yokes.yoke_position(20, np.radians(60)) == pytest.approx(10, rel=1e-12)
    path = np.linspace(0, 2 * np.pi, 2001)
    rate = np.gradient(yokes.yoke_position(1.0, path), path, edge_order=2)
    second = np.gradient(yokes.yoke_rate(1.0, path), path, edge_order=2)
    np.testing.assert_allclose(yokes.yoke_rate(1.0, path), rate, atol=1e-5)
    np.testing.assert_allclose(yokes.yoke_second(1.0, path), second, atol=1e-5)


def test_eccentric_lift_and_frictionless_work() -> None:
    # e = 10 mm at 120 degrees: 15 mm (definition)
    assert yokes.eccentric_lift(10, np.radians(120)) == pytest.approx(15, rel=1e-12)
    path = np.linspace(0, np.pi, 2001)
    torque = yokes.eccentric_shaft_torque(30.0, 0.01, path, 0.03, 0.0)
    assert np.trapezoid(torque, path) == pytest.approx(30.0 * 0.02, rel=1e-6)


def test_eccentric_friction_is_force_times_sliding() -> None:
    # the cam's face runs past the follower with (distance of the contact above the shaft) x w
    angle, radius, e = 2.0, 0.03, 0.01
    centre = e * np.array([np.sin(angle), -np.cos(angle)])
    contact = centre + np.array([0.0, radius])
    sliding = abs(contact[1])
    extra = yokes.eccentric_shaft_torque(30.0, e, angle, radius, 0.1)
    extra -= yokes.eccentric_shaft_torque(30.0, e, angle, radius, 0.0)
    assert extra == pytest.approx(0.1 * 30.0 * sliding, rel=1e-12)
