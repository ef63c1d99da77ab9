"""Single published statics examples, one book each.

McLean, Schaum's Engineering Mechanics, 9-21; Tayal, Engineering Mechanics, example 2-17;
T. Bevan, Theory of Machines, example 14.1; V. B. Bhandari, Design of Machine Elements,
example 6.4 (all read in the FOSSEE textbook companion and recomputed); Halliday, crate on a
tilting plane (problem read, answers from memory); Wolfson, Essential University Physics,
chapter 12 no. 48 (read).
"""

import numpy as np
import pytest

from turnercalc.mechanics.balance import two_plane_split
from turnercalc.mechanics.friction import rolling_resistance, slip_angle, tip_angle
from turnercalc.mechanics.rolling import leaning_nest_forces
from turnercalc.mechanics.screws import collar_torque, screw_lower_torque, screw_raise_torque


def test_schaum_9_21_rolling_resistance() -> None:
    # 500 N on a wheel of 760 mm, arm 0.305 mm: 0.40 N
    assert rolling_resistance(500.0, 0.000305, 0.380) == pytest.approx(0.40, abs=0.006)


def test_tayal_2_17_sphere_on_two_planes() -> None:
    # 500 N between planes whose reactions lean 65 and 25 degrees from upright: the nearer
    # upright carries 453.2 N, the other 211.3 N. In our words a nest of 45 degrees leaning 20.
    near, far = leaning_nest_forces(500.0, np.radians(45), np.radians(20))
    assert near == pytest.approx(453.2, abs=0.06)
    assert far == pytest.approx(211.3, abs=0.06)


def test_bevan_14_1_two_planes() -> None:
    # 200 lb at 9 in, balanced in two planes 50 in apart, the nearer 10 in away, at 15 in: 144
    # and 24 lb. The weight overhangs, so the far one pulls the other way.
    near, far = two_plane_split(200 * 9.0, -10.0, 0.0, 50.0)
    assert near / 15.0 == pytest.approx(144.0, rel=1e-12)
    assert far / 15.0 == pytest.approx(-24.0, rel=1e-12)


def test_bhandari_6_4_sluice_gate() -> None:
    # 40 mm, pitch 7 mm (mean 36.5 mm), 7 kN up and 3 kN down, 0.15, collar 0.12 at 30 mm, two
    # arms of 500 mm: 52.41 and 15.63 N on each arm
    up = screw_raise_torque(7e3, 0.0365, 0.007, 0.15) + collar_torque(7e3, 0.060, 0.12)
    down = screw_lower_torque(3e3, 0.0365, 0.007, 0.15) + collar_torque(3e3, 0.060, 0.12)
    assert up / (2 * 0.5) == pytest.approx(52.41, abs=0.006)
    assert down / (2 * 0.5) == pytest.approx(15.63, abs=0.006)


def test_halliday_crate_tips_or_slides() -> None:
    # Cube of 1.2 m, centre of mass 0.3 m above its middle: tips at 33.7 degrees; with 0.60 it
    # slides at 31.0 first, with 0.70 it tips first
    tips = tip_angle(0.6, 0.9)
    assert np.degrees(tips) == pytest.approx(33.7, abs=0.06)
    assert np.degrees(slip_angle(0.60)) == pytest.approx(31.0, abs=0.06)
    assert slip_angle(0.60) < tips < slip_angle(0.70)


def test_wolfson_12_48_block_on_a_board() -> None:
    # 0.63 slides at 32.2 degrees; a block twice as high as wide tips at 26.6
    assert np.degrees(slip_angle(0.63)) == pytest.approx(32.2, abs=0.06)
    assert np.degrees(tip_angle(0.5, 1.0)) == pytest.approx(26.6, abs=0.06)
