"""R. L. Norton, Design of Machinery (6th edition), worked examples and Table P4-1.

Status of the figures: lengths, offsets, input speeds and accelerations were read in public
scripts that re-run the examples; results are from memory and were recomputed. Norton's frame
has the crank centre at the origin and the rocker's pivot at (d, 0); ours has the arm's pivot
at the origin, so that the crank centre stands at (-d, 0). Angles are the same in both: theta2
crank, theta3 link from crank pin to arm pin, theta4 arm. His "open" linkage has the arm pin
above the ground line, which is our branch -1 (clockwise of the line from pivot to crank pin).
"""

import numpy as np
import pytest

from turnercalc.mechanics.four_bar import Loop, close_loop
from turnercalc.mechanics.slider_crank import close_slider, crank_angles_at
from turnercalc.mechanics.synthesis import inline_crank_rocker

OPEN, CROSSED = -1.0, 1.0


def four_bar(a: float, b: float, c: float, d: float, theta2_deg: float, branch: float) -> Loop:
    return close_loop(a, b, c, -d, 0.0, np.radians(theta2_deg), branch)


def theta3_deg(loop: Loop) -> float:
    return float(np.degrees(np.arctan2(loop.link_y, loop.link_x)))


def theta3_rate(a: float, theta2_deg: float, loop: Loop, c: float) -> tuple[float, float]:
    """Speed and acceleration of the link per unit crank speed, from the pins' own motion."""
    t2, t4 = np.radians(theta2_deg), loop.arm_angle
    u, v = loop.link_x, loop.link_y
    du = -c * np.sin(t4) * loop.arm_rate + a * np.sin(t2)
    dv = c * np.cos(t4) * loop.arm_rate - a * np.cos(t2)
    ddu = -c * np.cos(t4) * loop.arm_rate**2 - c * np.sin(t4) * loop.arm_second + a * np.cos(t2)
    ddv = -c * np.sin(t4) * loop.arm_rate**2 + c * np.cos(t4) * loop.arm_second + a * np.sin(t2)
    length2 = u * u + v * v
    return float((u * dv - v * du) / length2), float((u * ddv - v * ddu) / length2)


def turned(angle_deg: float, expected_deg: float) -> float:
    """Difference of two angles, whole turns left out."""
    return (angle_deg - expected_deg + 180.0) % 360.0 - 180.0


# (a, b, c, d, theta2), branch, theta3, theta4, tolerance: half a unit of the printed digit.
POSITIONS = [
    # Example 4-1, page 194: results to the hundredth
    ((40, 120, 80, 100, 40), OPEN, 20.30, 57.33, 0.006),
    ((40, 120, 80, 100, 40), CROSSED, -60.98, -98.01, 0.006),
    # Table P4-1 row a: printed to the tenth
    ((2, 7, 9, 6, 30), OPEN, 88.8, 117.3, 0.06),
    ((2, 7, 9, 6, 30), CROSSED, -115.2, -143.6, 0.07),
    # Table P4-1 row c, a linkage with a short ground: the same two branches
    ((10, 6, 8, 3, 45), OPEN, -53.1, 16.5, 0.06),
]


@pytest.mark.parametrize(("lengths", "branch", "theta3", "theta4", "tolerance"), POSITIONS)
def test_position(
    lengths: tuple[float, ...], branch: float, theta3: float, theta4: float, tolerance: float
) -> None:
    loop = four_bar(*lengths, branch)
    assert turned(theta3_deg(loop), theta3) == pytest.approx(0.0, abs=tolerance)
    assert turned(np.degrees(loop.arm_angle), theta4) == pytest.approx(0.0, abs=tolerance)


def test_example_6_7_speeds() -> None:
    # Example 6-7, page 323: linkage of example 4-1, omega2 = 25 rad/s, open.
    loop = four_bar(40, 120, 80, 100, 40, OPEN)
    link_rate, _ = theta3_rate(40, 40, loop, 80)
    assert 25 * link_rate == pytest.approx(-4.121, abs=0.0006)
    assert 25 * loop.arm_rate == pytest.approx(6.998, abs=0.0006)


def test_example_7_2_accelerations() -> None:
    # Example 7-2, page 368: the same with alpha2 = 15 rad/s². q'' w² + q' alpha.
    loop = four_bar(40, 120, 80, 100, 40, OPEN)
    link_rate, link_second = theta3_rate(40, 40, loop, 80)
    assert link_second * 25**2 + link_rate * 15 == pytest.approx(296.089, abs=0.0006)
    assert loop.arm_second * 25**2 + loop.arm_rate * 15 == pytest.approx(470.134, abs=0.0006)


def norton_link_angle_deg(link_angle: float) -> float:
    """Norton measures theta3 at the slider, half a turn from ours at the crank pin."""
    return float(np.degrees(link_angle)) + 180.0


# Example 4-2, page 197: a = 40, b = 120, offset c = -20, theta2 = 60. His offset is the height
# of the slide in the crank's frame, the same as ours.
def test_example_4_2_open() -> None:
    slide = close_slider(40, 120, -20, np.radians(60))
    assert slide.position == pytest.approx(126.84, abs=0.006)
    assert turned(norton_link_angle_deg(slide.link_angle), 152.91) == pytest.approx(0, abs=0.006)


def test_example_4_2_crossed() -> None:
    slide = close_slider(40, 120, -20, np.radians(60), branch=-1)
    assert turned(norton_link_angle_deg(slide.link_angle), 27.09) == pytest.approx(0, abs=0.006)


def test_example_6_8_speeds() -> None:
    # Example 6-8, page 327: the same with omega2 = -30 rad/s; results recomputed with the
    # book's own formulas: theta3 = asin((c - a sin t2)/b) + pi, omega3 = a cos t2/(b cos t3)
    # omega2, d' = -a w2 sin t2 + b w3 sin t3.
    slide = close_slider(40, 120, -20, np.radians(60))
    t2, w2 = np.radians(60), -30.0
    t3 = np.arcsin((-20 - 40 * np.sin(t2)) / 120) + np.pi
    w3 = 40 / 120 * np.cos(t2) / np.cos(t3) * w2
    speed = -40 * w2 * np.sin(t2) + 120 * w3 * np.sin(t3)
    assert w3 == pytest.approx(5.616, abs=0.0006)
    assert speed == pytest.approx(1346.1, abs=0.06)
    assert slide.link_rate * w2 == pytest.approx(w3, rel=1e-12)
    assert slide.rate * w2 == pytest.approx(speed, rel=1e-12)


def test_example_4_3_crank_angles_of_a_slider_position() -> None:
    # Example 4-3, page 200: a = 40, b = 120, c = -20, slider at d = 100.
    first, second = crank_angles_at(40, 120, -20, 100)
    assert np.degrees(first) == pytest.approx(95.798, abs=0.0006)
    assert np.degrees(second) == pytest.approx(-118.418, abs=0.0006)


@pytest.mark.parametrize(
    ("theta2", "theta3", "omega2"),
    # theta3 from example 4-3; crank speed for a slider at 1200 mm/s from example 6-9
    [(95.798, 150.113, -32.023), (-118.418, 187.267, 36.639)],
)
def test_examples_4_3_and_6_9_link_angle_and_crank_speed(
    theta2: float, theta3: float, omega2: float
) -> None:
    # The crank angle is rounded to a thousandth of a degree: 1e-5 of the speed, not less.
    slide = close_slider(40, 120, -20, np.radians(theta2))
    assert turned(norton_link_angle_deg(slide.link_angle), theta3) == pytest.approx(0, abs=0.001)
    assert 1200 / slide.rate == pytest.approx(omega2, abs=0.002)


def test_two_position_design_on_a_chord() -> None:
    # Two-position procedure (section 3.4): arm 80 swinging from 40 to 70 degrees, crank centre
    # on the line through both ends of its pin, 50 from the first. Inputs read, outcome computed:
    # the crank is half the chord, and going round it must swing the arm between the two.
    c = 80.0
    ends = c * np.exp(1j * np.radians([40.0, 70.0]))
    chord = abs(ends[1] - ends[0])
    centre = ends[0] + 50.0 * (ends[1] - ends[0]) / chord
    crank = inline_crank_rocker(c, np.radians(30.0), 50.0 - chord / 2.0)
    assert crank.crank == pytest.approx(20.706, abs=0.0006)
    assert crank.link == pytest.approx(29.294, abs=0.0006)
    assert crank.ground == pytest.approx(82.640, abs=0.0006)
    assert abs(centre) == pytest.approx(crank.ground, rel=1e-12)
    turn = np.linspace(0, 2 * np.pi, 20001)
    loop = close_loop(crank.crank, crank.link, c, centre.real, centre.imag, turn, -1.0)
    arm = np.degrees(loop.arm_angle)
    assert [arm.min(), arm.max()] == pytest.approx([40.0, 70.0], abs=1e-5)
