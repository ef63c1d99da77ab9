"""Open course Planar Mechanics, lessons 2 (position), 3 (velocity) and 6 (force, synthesis).

Figures read in the course's public repository (SiliconWit/planar-mechanics, commit 442958d).
The course gives positions to a tenth of a degree and ratios to three decimals; tolerances are
half a unit of that last digit, or a whole one where it says "about".

Its four-bar has the crank centre at the origin and the rocker's pivot at (d, 0); ours has the
pivot at the origin, so the crank centre stands at (-d, 0). The open linkage is branch -1.
"""

import numpy as np
import pytest

from turnercalc.mechanics.four_bar import close_loop
from turnercalc.mechanics.linear_actuator import actuator_moment_arm
from turnercalc.mechanics.pins import pin_shear_stress
from turnercalc.mechanics.slider_crank import close_slider, slider_limits
from turnercalc.mechanics.slotted_lever import (
    block_distance,
    lever_end_angles,
    lever_rate,
    lever_swing,
    lever_time_ratio,
    slip_rate,
)
from turnercalc.mechanics.synthesis import crank_rocker_limits, least_transmission_angle

A, B, C, D = 40.0, 120.0, 80.0, 100.0


@pytest.mark.parametrize(
    ("theta2", "theta3", "theta4"),
    # lesson 2: open positions of the linkage 40/120/80/100
    [(0, 36.3, 62.7), (30, 22.4, 55.3), (60, 18.4, 64.9), (90, 18.9, 80.3), (120, 22.0, 96.3)],
)
def test_positions(theta2: float, theta3: float, theta4: float) -> None:
    loop = close_loop(A, B, C, -D, 0.0, np.radians(theta2), -1.0)
    link = np.degrees(np.arctan2(loop.link_y, loop.link_x))
    assert link == pytest.approx(theta3, abs=0.06)
    assert np.degrees(loop.arm_angle) == pytest.approx(theta4, abs=0.06)


@pytest.mark.parametrize(
    ("theta2", "link_ratio", "arm_ratio"),
    # lesson 3: omega3/omega2 and omega4/omega2 of the same
    [(30, -0.262, 0.122), (60, -0.040, 0.457), (90, 0.064, 0.539), (120, 0.139, 0.514)],
)
def test_speed_ratios(theta2: float, link_ratio: float, arm_ratio: float) -> None:
    t2 = np.radians(theta2)
    loop = close_loop(A, B, C, -D, 0.0, t2, -1.0)
    assert loop.arm_rate == pytest.approx(arm_ratio, abs=0.0006)
    # the link turns with the difference of its ends' speeds, square to it
    du = -C * np.sin(loop.arm_angle) * loop.arm_rate + A * np.sin(t2)
    dv = C * np.cos(loop.arm_angle) * loop.arm_rate - A * np.cos(t2)
    turning = (loop.link_x * dv - loop.link_y * du) / B**2
    assert turning == pytest.approx(link_ratio, abs=0.0006)


def link_to_arm_deg(theta2: float) -> float:
    """Angle between link and arm at their pin, from the closed loop itself."""
    loop = close_loop(A, B, C, -D, 0.0, np.radians(theta2), -1.0)
    arm = C * np.exp(1j * loop.arm_angle)
    return float(abs(np.degrees(np.angle(arm / (loop.link_x + 1j * loop.link_y)))))


def test_link_to_arm_angle_at_120() -> None:
    # lesson 6: 74.3 degrees at theta2 = 120
    assert link_to_arm_deg(120) == pytest.approx(74.3, abs=0.06)


def test_extreme_link_to_arm_angles() -> None:
    # lesson 6: extremes 26.4 and about 86 degrees, at theta2 = 0 and 180
    assert link_to_arm_deg(0) == pytest.approx(26.4, abs=0.06)
    assert link_to_arm_deg(180) == pytest.approx(86.0, abs=0.5)
    assert np.degrees(least_transmission_angle(A, B, C, D)) == pytest.approx(26.4, abs=0.06)


def test_swing() -> None:
    # lesson 6: swing 73.8 degrees, the arm pin 80 and 160 from the crank centre at its ends
    swing, _ = crank_rocker_limits(A, B, C, D)
    assert np.degrees(swing) == pytest.approx(73.8, abs=0.06)
    turn = np.linspace(0, 2 * np.pi, 40001)
    loop = close_loop(A, B, C, -D, 0.0, turn, -1.0)
    ends = loop.arm_angle[[np.argmin(loop.arm_angle), np.argmax(loop.arm_angle)]]
    away = np.abs(C * np.exp(1j * ends) + D)
    assert sorted(away) == pytest.approx([80.0, 160.0], abs=1e-3)


def test_time_ratio_and_ends_against_a_count_over_the_turn() -> None:
    # Not printed: computed here by counting crank angles with a rising arm out of 40000, and
    # by looking for the largest and smallest arm angle. Crank 24.147 and 231.318 degrees, arm
    # 54.900 and 128.682 degrees, time ratio 1.3556.
    turn = np.arange(40000) * 2 * np.pi / 40000
    loop = close_loop(A, B, C, -D, 0.0, turn, -1.0)
    rising = np.count_nonzero(loop.arm_rate > 0)
    _, ratio = crank_rocker_limits(A, B, C, D)
    assert rising / (40000 - rising) == pytest.approx(1.3556, abs=2e-4)
    assert ratio == pytest.approx(rising / (40000 - rising), abs=2e-4)
    assert np.degrees(turn[np.argmin(loop.arm_angle)]) == pytest.approx(24.147, abs=0.01)
    assert np.degrees(turn[np.argmax(loop.arm_angle)]) == pytest.approx(231.318, abs=0.01)
    assert np.degrees(loop.arm_angle.min()) == pytest.approx(54.900, abs=0.001)
    assert np.degrees(loop.arm_angle.max()) == pytest.approx(128.682, abs=0.001)


def test_slider_position() -> None:
    # lesson 2: r = 50, l = 150, in line, 60 degrees: rod angle 16.78 degrees, slider at 168.6
    slide = close_slider(50, 150, 0, np.radians(60))
    assert slide.position == pytest.approx(168.6, abs=0.06)
    # the course counts the rod's lean as positive; ours points down towards the slide
    assert -np.degrees(slide.link_angle) == pytest.approx(16.78, abs=0.006)


def test_slider_dead_centres() -> None:
    # lesson 2: dead centres at 200 and 100
    assert slider_limits(50, 150, 0) == (200, 100)


@pytest.mark.parametrize(
    ("theta", "ratio"),
    # lesson 3: slider speed over crank pin speed at l/r = 3
    [(30, 0.646), (60, 1.017), (90, 1.000), (120, 0.715)],
)
def test_slider_speed(theta: float, ratio: float) -> None:
    assert -close_slider(1, 3, 0, np.radians(theta)).rate == pytest.approx(ratio, abs=0.0006)


def test_peak_slider_speed() -> None:
    # lesson 3: peak 1.055 near 73 degrees
    turn = np.radians(np.arange(0, 180, 0.01))
    speed = -close_slider(1, 3, 0, turn).rate
    assert speed.max() == pytest.approx(1.055, abs=0.0006)
    assert np.degrees(turn[np.argmax(speed)]) == pytest.approx(73, abs=0.5)


def test_slotted_lever_half_swing_and_time_ratio() -> None:
    # lesson 2 (also Khurmi 5.1): crank 120, centres 300: 23.578 degrees each side, ratio 1.71
    assert np.degrees(lever_swing(120, 300)) / 2 == pytest.approx(23.578, abs=0.0006)
    assert lever_time_ratio(120, 300) == pytest.approx(1.71, abs=0.006)


def test_slotted_lever_speed_ratio_and_slip() -> None:
    # lesson 3: with the block 205 from the pivot the lever turns at 0.399 of the crank (on the
    # fast swing, so against it) and the block slips at 87.7 mm/s per rad/s (87.8 by drawing).
    # Which crank angle that is, the law of cosines says.
    r, d, block = 120.0, 300.0, 205.0
    t = np.arccos((block**2 - r**2 - d**2) / (2 * r * d))
    assert block_distance(r, d, t) == pytest.approx(block, rel=1e-12)
    assert -lever_rate(r, d, t) == pytest.approx(0.399, abs=0.0006)
    assert -slip_rate(r, d, t) == pytest.approx(87.7, abs=0.15)
    assert t > lever_end_angles(r, d)[0]


@pytest.mark.parametrize(("angle", "force"), [(45, 500.0), (30, 866.0), (10, 2836.0)])
def test_scissor(angle: float, force: float) -> None:
    # lesson 6: a scissor under W = 500 N, its feet pulled together level: W cot(angle); the
    # course prints 2840 for 10 degrees, rounded to three figures. The half bars below the
    # crossing, of length 1, and the floor are a triangle whose third side is the spread of the
    # feet; its angle at the crossing is pi - 2 angle, and the load stands 2 sin(angle) high.
    t = np.radians(angle)
    spread_per_opening = actuator_moment_arm(1.0, 1.0, np.pi - 2 * t)
    height_per_opening = -np.cos(t)
    pull = -500.0 * height_per_opening / spread_per_opening
    assert pull == pytest.approx(force, abs=0.5)


def test_pin_stress() -> None:
    # lesson 6: 800 N on an 8 mm pin in single shear: 15.9 MPa, safety 11.0 on 175 MPa
    stress = pin_shear_stress(800.0, 0.008)
    assert stress / 1e6 == pytest.approx(15.9, abs=0.06)
    assert 175e6 / stress == pytest.approx(11.0, abs=0.06)
