"""Slider-crank: the pose closes, derivatives and torque agree with it, nothing is invented."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from turnercalc.mechanics.slider_crank import (
    close_slider,
    crank_angles_at,
    slider_limits,
    slider_shaft_torque,
    slider_stroke,
    slider_time_ratio,
)

TURN = np.arange(3600) * 2 * np.pi / 3600


@st.composite
def sliders(draw: st.DrawFn) -> tuple[float, float, float]:
    """Crank, link and offset of a slider-crank whose crank goes right round, with a margin."""
    crank = draw(st.floats(0.02, 0.08))
    offset = draw(st.floats(-1.0, 1.0)) * crank
    link = (crank + abs(offset)) * draw(st.floats(1.2, 5.0))
    return crank, link, offset


@given(sliders(), st.floats(0, 2 * np.pi), st.sampled_from([1, -1]))
def test_the_link_joins_crank_pin_and_slider(
    lengths: tuple[float, float, float], angle: float, branch: int
) -> None:
    crank, link, offset = lengths
    slide = close_slider(*lengths, angle, branch)
    pin = crank * np.exp(1j * angle)
    end = pin + link * np.exp(1j * slide.link_angle)
    assert end.real == pytest.approx(slide.position, abs=1e-12)
    assert end.imag == pytest.approx(offset, abs=1e-12)
    assert np.sign(slide.position - pin.real) == branch


@given(sliders(), st.floats(0, 2 * np.pi), st.sampled_from([1, -1]))
def test_derivatives_are_those_of_the_position(
    lengths: tuple[float, float, float], angle: float, branch: int
) -> None:
    step = 1e-5
    around = close_slider(*lengths, angle + step * np.array([-1, 0, 1]), branch)
    rate = (around.position[2] - around.position[0]) / (2 * step)
    second = (around.rate[2] - around.rate[0]) / (2 * step)
    turning = (np.unwrap(around.link_angle)[2] - np.unwrap(around.link_angle)[0]) / (2 * step)
    assert around.rate[1] == pytest.approx(rate, rel=1e-6, abs=1e-9)
    assert around.second[1] == pytest.approx(second, rel=1e-5, abs=1e-8)
    assert around.link_rate[1] == pytest.approx(turning, rel=1e-6, abs=1e-8)


@given(sliders())
def test_limits_are_the_extremes_over_a_turn(lengths: tuple[float, float, float]) -> None:
    position = close_slider(*lengths, TURN).position
    far, near = slider_limits(*lengths)
    # the grid misses an extreme by less than half a step: second order in 0.1 degrees
    slack = 2e-6 * (lengths[0] + lengths[1]) + 1e-6 * lengths[0] ** 2 / (lengths[1] - lengths[0])
    assert far == pytest.approx(position.max(), abs=slack)
    assert near == pytest.approx(position.min(), abs=slack)
    assert position.max() <= far + 1e-12
    assert position.min() >= near - 1e-12
    assert slider_stroke(*lengths) == far - near


@given(sliders())
def test_time_ratio_is_a_count_over_the_turn(lengths: tuple[float, float, float]) -> None:
    outwards = np.count_nonzero(close_slider(*lengths, TURN).rate > 0)
    inwards = len(TURN) - outwards
    counted = max(outwards, inwards) / min(outwards, inwards)
    assert slider_time_ratio(*lengths) == pytest.approx(counted, rel=3e-3)


@given(sliders(), st.floats(0, 2 * np.pi))
def test_inverse_finds_the_crank_angle_again(
    lengths: tuple[float, float, float], angle: float
) -> None:
    position, rate, *_ = close_slider(*lengths, angle)
    # at a rest point itself the last digit decides whether the place is still within reach
    assume(abs(rate) > 1e-6 * lengths[0])
    miss = [
        abs(np.exp(1j * found) - np.exp(1j * angle))
        for found in crank_angles_at(*lengths, position)
    ]
    # near one the angle is only as sharp as the root of the position's last digits
    assert min(miss) == pytest.approx(0.0, abs=1e-6)


@given(sliders(), st.floats(-50, 50))
def test_torque_is_force_times_travel_per_angle(
    lengths: tuple[float, float, float], force: float
) -> None:
    # virtual work over half a turn, rest point to rest point: the force times the stroke
    far, near = slider_limits(*lengths)
    start = np.arctan2(lengths[2], far)
    stop = np.arctan2(lengths[2], near) + np.pi
    path = np.linspace(start, stop, 4001)
    torque = slider_shaft_torque(force, close_slider(*lengths, path).rate)
    assert np.trapezoid(torque, path) == pytest.approx(-force * (far - near), rel=1e-5, abs=1e-9)


@pytest.mark.parametrize("missing", [1e-3, 1e-9])
def test_a_link_too_short_is_nan_and_one_longer_closes(missing: float) -> None:
    # crank pin 50 mm up, slide 10 mm below the crank centre: 60 mm to bridge
    short = close_slider(0.05, 0.06 - missing, -0.01, np.pi / 2)
    enough = close_slider(0.05, 0.06 + missing, -0.01, np.pi / 2)
    assert all(np.isnan(value) for value in short)
    assert all(np.isfinite(value) for value in enough)


def test_a_crank_that_cannot_go_round_has_no_limits() -> None:
    assert np.isnan(slider_limits(0.05, 0.055, 0.01)).all()
    assert np.isnan(slider_time_ratio(0.05, 0.055, 0.01))
    assert np.isfinite(slider_limits(0.05, 0.0601, 0.01)).all()
    assert np.isnan(slider_time_ratio(0.05, 0.05, 0.0)), "stands still for half a turn"


def test_a_place_out_of_reach_has_no_crank_angle() -> None:
    assert np.isnan(crank_angles_at(0.05, 0.15, 0.0, 0.201)).all()
    assert np.isfinite(crank_angles_at(0.05, 0.15, 0.0, 0.199)).all()
