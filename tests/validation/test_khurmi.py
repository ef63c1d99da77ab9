"""R. S. Khurmi and J. K. Gupta, Theory of Machines, worked examples of chapters 5 to 21.

Chapters 5.1, 5.2, 5.4, 10.15, 10.16 and 13: read in the FOSSEE (IIT Bombay) textbook companion
and recomputed; where the companion does not reproduce its own book (lever of 5.1 beyond the
ratio) its figure is not used. All others: inputs and printed results from memory; they agree
with each other when recomputed, which is why they are used.
"""

import numpy as np
import pytest

from turnercalc.mechanics.balance import counterweight_mass, mass_moment
from turnercalc.mechanics.friction import (
    capstan_ratio,
    rolling_bearing_torque,
    thrust_torque_even_pressure,
    thrust_torque_even_wear,
)
from turnercalc.mechanics.gearing import epicyclic_speeds, train_ratio
from turnercalc.mechanics.screws import screw_raise_torque
from turnercalc.mechanics.slider_crank import close_slider
from turnercalc.mechanics.slotted_lever import (
    crank_for_swing,
    lever_stroke,
    lever_swing,
    lever_time_ratio,
    whitworth_time_ratio,
)
from turnercalc.mechanics.teeth import spur_centre_distance, spur_pitch_diameter

RPM = 2 * np.pi / 60


def test_example_5_1_slotted_lever() -> None:
    # Example 5.1: crank 120 mm, centres 300 mm: 23.578 degrees each side, time ratio 1.7(1)
    assert np.degrees(lever_swing(120, 300)) / 2 == pytest.approx(23.578, abs=0.0006)
    assert lever_time_ratio(120, 300) == pytest.approx(1.71, abs=0.001)


def test_example_5_2_slotted_lever() -> None:
    # Example 5.2: crank 120 mm, centres 240 mm, lever 450 mm: time ratio 2, stroke 450 mm
    assert lever_time_ratio(120, 240) == pytest.approx(2.0, rel=1e-12)
    assert lever_stroke(450, 120, 240) == pytest.approx(450.0, rel=1e-12)


def test_example_5_4_whitworth() -> None:
    # Example 5.4: centres 50 mm, crank 75 mm: time ratio 2.735
    assert whitworth_time_ratio(75, 50) == pytest.approx(2.735, abs=0.0006)


def test_example_10_15_journal() -> None:
    # Example 10.15: 2000 N on a 60 mm shaft, 0.03, 1440 rpm: 1.8 N m, 271.4 W. Load, diameter
    # and coefficient from memory; with the torque of the book, mu W r, they give its figures.
    # (The exact friction circle, r sin(atan mu), is 0.05 % below.)
    torque = rolling_bearing_torque(2000.0, 0.060, 0.03)
    assert torque == pytest.approx(1.8, rel=1e-12)
    assert torque * 1440 * RPM == pytest.approx(271.4, abs=0.06)


def test_example_10_16_footstep_bearing() -> None:
    # Example 10.16: flat footstep, 150 mm, 20 kN, 0.05, even pressure, 100 rpm: 523.6 W
    # (inputs from memory)
    torque = thrust_torque_even_pressure(20e3, 0.075, 0.0, 0.05)
    assert torque * 100 * RPM == pytest.approx(523.6, abs=0.06)


def test_example_13_1_gear_train() -> None:
    # Example 13.1: 975 rpm through 20/50, 25/75 and 26/65: 52 rpm
    assert 975 / train_ratio([20, 25, 26], [50, 75, 65]) == pytest.approx(52.0, rel=1e-12)


def test_epicyclic_train_with_fixed_ring() -> None:
    # Chapter 13: ring of 72 teeth held, sun of 32, arm 18 rpm: sun 58.5, planet 46.8 rpm the
    # other way
    sun, planet = epicyclic_speeds(18.0, 0.0, 32, 72)
    assert sun == pytest.approx(58.5, rel=1e-12)
    assert planet == pytest.approx(-46.8, rel=1e-12)


def test_example_5_3_slotted_lever_for_a_time_ratio() -> None:
    # crank 30 mm, working to return stroke 1.7, stroke 120 mm: centres 75.7 mm, lever 151.5 mm
    swing = np.pi * (1.7 - 1.0) / (1.7 + 1.0)
    assert crank_for_swing(75.7, swing) == pytest.approx(30.0, abs=0.03)
    assert lever_time_ratio(30.0, 75.7) == pytest.approx(1.7, abs=2e-3)
    assert lever_stroke(151.5, 30.0, 75.7) == pytest.approx(120.0, abs=0.1)


def test_example_10_8_valve_spindle() -> None:
    # 150 mm valve under 2 MN/m2, square thread 50 mm outside and 6 mm pitch, 0.12: 134.2 N m
    force = 2e6 * np.pi * 0.150**2 / 4
    assert screw_raise_torque(force, 0.047, 0.006, 0.12) == pytest.approx(134.2, abs=0.3)


def test_example_10_9_power_screw() -> None:
    # nut against 75 kN at 300 mm/min, square thread 40 mm outside and 6 mm pitch, 0.1: 1.108 kW
    torque = screw_raise_torque(75e3, 0.037, 0.006, 0.1)
    assert torque == pytest.approx(211.5, abs=0.1)
    assert torque * 300 / 6 * RPM == pytest.approx(1108.0, abs=1.0)


def test_example_10_19_thrust_collars_of_a_ship() -> None:
    # 100 kN on collars of 600 and 300 mm, 0.12, 90 rpm: 2800 N m and 26.4 kW with even
    # pressure, 2700 N m and 25.4 kW with even wear
    pressed = thrust_torque_even_pressure(100e3, 0.300, 0.150, 0.12)
    worn = thrust_torque_even_wear(100e3, 0.300, 0.150, 0.12)
    assert [pressed, worn] == pytest.approx([2800.0, 2700.0])
    assert np.array([pressed, worn]) * 90 * RPM == pytest.approx([26.4e3, 25.4e3], abs=60)


def test_flat_belt_on_a_600_mm_pulley() -> None:
    # chapter 11: 200 rpm, 0.25, lap 160 degrees, 2500 N on the tight side: 7.89 kW
    slack = 2500 / capstan_ratio(np.radians(160.0), 0.25)
    assert (2500 - slack) * 0.300 * 200 * RPM == pytest.approx(7890.0, abs=10.0)


def test_crossed_belt() -> None:
    # chapter 11: pulleys of 450 and 200 mm, 1.95 m apart: lap 199.2 degrees; 1 kN, 0.25,
    # 200 rpm on the larger: 419 N on the slack side, 2.74 kW
    lap = np.pi + 2 * np.arcsin((0.225 + 0.100) / 1.95)
    assert np.degrees(lap) == pytest.approx(199.2, abs=0.06)
    slack = 1000 / capstan_ratio(lap, 0.25)
    assert slack == pytest.approx(419.0, abs=1.0)
    assert (1000 - slack) * 0.225 * 200 * RPM == pytest.approx(2740.0, abs=6.0)


def test_example_13_2_spur_gears_for_two_shafts() -> None:
    # shafts 600 mm apart, 360 and 120 rpm, circular pitch 25 mm: 38 and 114 teeth, pitch
    # diameters 302.4 and 907.2 mm, shafts 604.8 mm apart in fact
    module = 0.025 / np.pi
    assert train_ratio(38, 114) == 3.0
    assert 1e3 * spur_pitch_diameter(module, 38) == pytest.approx(302.4, abs=0.1)
    assert 1e3 * spur_pitch_diameter(module, 114) == pytest.approx(907.2, abs=0.1)
    assert 1e3 * spur_centre_distance(module, 38, 114) == pytest.approx(604.8, abs=0.1)


def test_example_15_3_fastest_place_of_a_piston() -> None:
    # crank 300 mm, rod 1 m, 200 rpm: fastest 75 degrees from the dead centre, 6.54 m/s. The
    # book leaves out higher terms of the rod's swing, which are 1 part in 300 here.
    angle = np.radians(np.linspace(0.0, 180.0, 7201))
    speed = np.abs(close_slider(0.3, 1.0, 0.0, angle).rate) * 200 * RPM
    assert np.degrees(angle[speed.argmax()]) == pytest.approx(75.0, abs=0.8)
    assert speed.max() == pytest.approx(6.54, rel=4e-3)


def test_example_21_1_four_masses_in_one_plane() -> None:
    # 200, 300, 240 and 260 kg at 0.2, 0.15, 0.25 and 0.3 m, 45, 75 and 135 degrees between one
    # and the next: 116 kg at 0.2 m and 201.48 degrees balance them
    radius = np.array([0.2, 0.15, 0.25, 0.3])
    place = np.radians([0.0, 45.0, 120.0, 255.0])
    masses = np.array([200.0, 300.0, 240.0, 260.0])
    x, y = mass_moment(masses, radius * np.cos(place), radius * np.sin(place))
    assert counterweight_mass(np.hypot(x, y), 0.2) == pytest.approx(116.0, abs=0.2)
    assert np.degrees(np.arctan2(-y, -x)) % 360 == pytest.approx(201.48, abs=0.2)
