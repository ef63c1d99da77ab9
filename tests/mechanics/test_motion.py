"""Motion in time: moves integrated by quadrature, means by sampling, accelerations by motion."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from turnercalc.mechanics import motion

SPEEDS = st.lists(st.floats(0.05, 5.0), min_size=2, max_size=9)


@given(SPEEDS, st.floats(0.1, 6.0))
def test_time_is_the_integral_of_one_over_speed(speeds: list[float], span: float) -> None:
    path = np.linspace(0.3, 0.3 + span, len(speeds))
    exact = sum(quad(lambda x: 1 / np.interp(x, path, speeds), a, b)[0] for a, b in pairwise(path))
    assert motion.time_along(path, speeds) == pytest.approx(exact, rel=1e-7)
    assert motion.time_along(path[::-1], speeds[::-1]) == pytest.approx(exact, rel=1e-7)
    moments = motion.times_along(path, speeds)
    assert moments.shape == path.shape
    assert moments[0] == 0
    assert moments[-1] == pytest.approx(motion.time_along(path, speeds))


def test_a_motor_on_its_line_under_a_rising_load() -> None:
    # w = w0 (1 - x): the angle runs in as 1 - exp(-w0 t); three places are enough to be exact
    path = np.array([0.0, 0.2, 0.7])
    moments = motion.times_along(path, 3.0 * (1 - path))
    np.testing.assert_allclose(1 - np.exp(-3.0 * moments), path, rtol=1e-12)


def test_nearly_steady_speed_keeps_its_digits() -> None:
    assert motion.time_along([0.0, 1.0], [1.0, 1.0]) == 1.0
    assert motion.time_along([0.0, 1.0], [1.0, 1.0 + 1e-13]) == pytest.approx(1.0, rel=1e-12)


def test_a_move_that_stops_never_arrives() -> None:
    assert motion.time_along([0.0, 1.0, 2.0], [1.0, 0.0, 1.0]) == np.inf
    assert motion.time_along([0.0, 1.0], [1.0, -0.2]) == np.inf
    np.testing.assert_array_equal(
        motion.times_along([0.0, 1.0, 2.0], [1.0, 1.0, -1.0]), [0.0, 1.0, np.inf]
    )


def test_unknown_speed_gives_unknown_time() -> None:
    assert np.isnan(motion.time_along([0.0, 1.0, 2.0], [1.0, np.nan, 1.0]))


def test_many_moves_at_once() -> None:
    speeds = np.array([[1.0, 2.0, 3.0], [2.0, 2.0, 2.0]])
    path = [0.0, 1.0, 2.0]
    together = motion.time_along(path, speeds)
    for one, many in zip(speeds, together, strict=True):
        assert motion.time_along(path, one) == many


@given(st.lists(st.tuples(st.floats(-9, 9), st.floats(0.1, 5)), min_size=1, max_size=6))
def test_rms_of_steps_by_sampling(steps: list[tuple[float, float]]) -> None:
    values, lasts = np.array(steps).T
    counts = np.round(lasts * 1000).astype(int)
    sampled = np.sqrt(np.mean(np.repeat(values, counts) ** 2))
    found = motion.rms_of_steps(values, counts / 1000)
    assert found == pytest.approx(sampled, rel=1e-9)


@given(st.lists(st.floats(-9, 9), min_size=2, max_size=6), st.floats(0.5, 3))
def test_rms_of_ramps_by_quadrature(values: list[float], span: float) -> None:
    time = np.linspace(0, span, len(values))
    square = sum(
        quad(lambda t: np.interp(t, time, values) ** 2, a, b)[0] for a, b in pairwise(time)
    )
    assert motion.rms_of_ramps(values, time) == pytest.approx(np.sqrt(square / span), abs=1e-7)


def test_no_time_has_no_mean() -> None:
    assert np.isnan(motion.rms_of_steps([1.0, 2.0], [0.0, 0.0]))


@given(st.floats(-2, 2), st.floats(-3, 3), st.floats(0.05, 0.5))
def test_swinging_point_from_its_path(speed: float, change: float, radius: float) -> None:
    # q = w t + a t²/2; second difference of the point itself
    t = 1e-4 * np.array([-1, 0, 1])
    place = radius * np.exp(1j * (speed * t + change * t**2 / 2))
    acceleration = abs(place[2] - 2 * place[1] + place[0]) / 1e-8
    found = motion.swinging_acceleration(radius, speed, change)
    assert found == pytest.approx(acceleration, abs=1e-5)
    # the same point as one on any path: p = r exp(i q)
    along = motion.moving_pin_acceleration(0.0, radius, -radius, 0.0, speed, change)
    assert along == pytest.approx(found)


def test_driven_coordinate_from_its_own_motion() -> None:
    # q = sin(2 theta), theta = 0.3 + 1.5 t + 0.2 t²
    t = 1e-4 * np.array([-1, 0, 1])
    q = np.sin(2 * (0.3 + 1.5 * t + 0.2 * t**2))
    rate, second = 2 * np.cos(0.6), -4 * np.sin(0.6)
    assert motion.driven_speed(rate, 1.5) == pytest.approx((q[2] - q[0]) / 2e-4, rel=1e-6)
    found = motion.driven_acceleration(rate, second, 1.5, 0.4)
    assert found == pytest.approx((q[2] - 2 * q[1] + q[0]) / 1e-8, rel=1e-5)


def test_share_of_time_beyond() -> None:
    time = [0.0, 1.0, 2.0, 3.0]
    # above 1 for half of the rise, all of the plateau, half of the fall
    assert motion.share_of_time_beyond([0, 2, 2, 0], time, 1.0) == pytest.approx(2 / 3)
    assert motion.share_of_time_beyond([1, 1, 1, 1], time, 1.0) == 0.0
    both = motion.share_of_time_beyond([[0, 2, 2, 0], [0, 2, 2, 0]], time, [1.0, 2.0])
    np.testing.assert_allclose(both, [2 / 3, 0.0])
    sampled = np.sin(np.linspace(0, 2 * np.pi, 3601))
    share = motion.share_of_time_beyond(sampled, np.linspace(0, 1, 3601), 0.5)
    assert share == pytest.approx(1 / 3, abs=1e-6)
