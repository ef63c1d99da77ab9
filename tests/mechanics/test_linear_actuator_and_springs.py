"""Actuators and springs across a pivot: lengths from coordinates, torque from energy."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from turnercalc.mechanics import linear_actuator as actuator
from turnercalc.mechanics import springs

ARMS = st.tuples(st.floats(0.1, 0.4), st.floats(0.02, 0.09), st.floats(-3.1, 3.1))


@given(ARMS)
def test_length_is_the_distance_of_the_eyes(arms: tuple[float, float, float]) -> None:
    p, q, gamma = arms
    assert actuator.eye_distance(*arms) == pytest.approx(abs(p - q * np.exp(1j * gamma)))


@given(ARMS)
def test_moment_arm_is_the_slope_of_the_length(arms: tuple[float, float, float]) -> None:
    p, q, gamma = arms
    step = 1e-5
    near = gamma + step * np.array([-1, 1])
    slope = np.diff(actuator.eye_distance(p, q, near))[0] / (2 * step)
    bend = np.diff(actuator.actuator_moment_arm(p, q, near))[0] / (2 * step)
    assert actuator.actuator_moment_arm(*arms) == pytest.approx(slope, abs=1e-9)
    assert actuator.actuator_moment_arm_rate(*arms) == pytest.approx(bend, rel=1e-6, abs=1e-8)


@given(ARMS)
def test_moment_arm_is_the_distance_of_the_line_of_push(arms: tuple[float, float, float]) -> None:
    p, q, gamma = arms
    along = q * np.exp(1j * gamma) - p
    from_pivot = (np.conj(p) * along).imag / abs(along)
    assert actuator.actuator_moment_arm(*arms) == pytest.approx(from_pivot, abs=1e-14)


@given(ARMS, st.floats(-30, 30))
def test_virtual_work(arms: tuple[float, float, float], torque: float) -> None:
    p, q, gamma = arms
    travel = np.diff(abs(p - q * np.exp(1j * (gamma + np.array([-1e-5, 1e-5])))))[0]
    assume(abs(travel) > 1e-3 * 2e-5)
    # work in is work out: force x travel of the eyes against torque x turn
    work = actuator.actuator_force(torque, *arms) * travel
    assert work == pytest.approx(torque * 2e-5, rel=1e-6, abs=1e-12)


@given(ARMS)
def test_inverse(arms: tuple[float, float, float]) -> None:
    p, q, gamma = arms
    # with pivot and eyes in line the last digit decides whether the eyes still meet
    assume(1e-5 < abs(gamma) < np.pi - 1e-5)
    back = actuator.angle_at_length(p, q, actuator.eye_distance(*arms))
    assert back == pytest.approx(abs(gamma), abs=1e-6)


@pytest.mark.parametrize(
    ("gamma_deg", "length", "arm"), [(45, 163.19, 52.00), (90, 208.81, 57.47), (135, 246.11, 34.48)]
)
def test_worked_figures(gamma_deg: float, length: float, arm: float) -> None:
    # p = 200, q = 60 mm; computed here from the coordinates of the two eyes
    fixed, moving = 200.0, 60.0 * np.exp(1j * np.radians(gamma_deg))
    assert abs(moving - fixed) == pytest.approx(length, abs=0.006)
    area = abs((np.conj(fixed) * moving).imag)
    assert area / abs(moving - fixed) == pytest.approx(arm, abs=0.006)
    gamma = np.radians(gamma_deg)
    assert actuator.eye_distance(200, 60, gamma) == pytest.approx(length, abs=0.006)
    assert actuator.actuator_moment_arm(200, 60, gamma) == pytest.approx(arm, abs=0.006)


def test_stroke_for_a_quarter_turn() -> None:
    quarter = actuator.actuator_stroke(200, 60, np.radians(45), np.radians(135))
    ends = [abs(60 * np.exp(1j * np.radians(a)) - 200) for a in (45, 135)]
    assert quarter == pytest.approx(ends[1] - ends[0], rel=1e-12)
    assert quarter == pytest.approx(82.93, abs=0.006)


@pytest.mark.parametrize("length", [0.1399, 0.2601])
def test_eyes_that_cannot_meet(length: float) -> None:
    assert np.isnan(actuator.angle_at_length(0.2, 0.06, length))


def test_dead_centre_has_no_force() -> None:
    assert np.isnan(actuator.actuator_force(1.0, 0.2, 0.06, 0.0))


@given(ARMS, st.floats(0.02, 0.3), st.floats(50, 1000), st.floats(0, 5))
def test_spring_torque_is_the_slope_of_its_energy(
    arms: tuple[float, float, float], free: float, stiffness: float, tension: float
) -> None:
    p, q, gamma = arms
    length = actuator.eye_distance(*arms)
    step = 1e-5
    assume(abs(length - free) > 1e-4)  # on the corner where the coils part the slope jumps
    lengths = actuator.eye_distance(p, q, gamma + step * np.array([-1, 1]))
    energy = springs.extension_spring_energy(lengths, free, stiffness, tension)
    torque = springs.extension_spring_torque(p, q, gamma, free, stiffness, tension)
    assert torque == pytest.approx(np.diff(energy)[0] / (2 * step), rel=1e-5, abs=1e-6)


def test_a_slack_spring_does_not_push() -> None:
    assert springs.extension_spring_force(0.09, 0.1, 500, 3.0) == 0.0
    assert springs.extension_spring_energy(0.09, 0.1, 500, 3.0) == 0.0
    assert springs.extension_spring_force(0.11, 0.1, 500, 3.0) == pytest.approx(8.0)


@given(st.floats(-2, 2), st.floats(-1, 1), st.floats(0.1, 5))
def test_torsion_spring(angle: float, free: float, stiffness: float) -> None:
    step = 1e-5
    energy = springs.torsion_spring_energy(angle + step * np.array([-1, 1]), free, stiffness)
    torque = springs.torsion_spring_torque(angle, free, stiffness)
    assert torque == pytest.approx(np.diff(energy)[0] / (2 * step), abs=1e-8)
