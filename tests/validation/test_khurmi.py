"""R. S. Khurmi and J. K. Gupta, Theory of Machines, worked examples of chapters 5, 10 and 13.

Read in the FOSSEE (IIT Bombay) textbook companion and recomputed; where the companion does
not reproduce its own book (lever of 5.1 beyond the ratio) its figure is not used.
"""

import numpy as np
import pytest

from turnercalc.mechanics.friction import rolling_bearing_torque, thrust_torque_even_pressure
from turnercalc.mechanics.gearing import epicyclic_speeds, train_ratio
from turnercalc.mechanics.slotted_lever import (
    lever_stroke,
    lever_swing,
    lever_time_ratio,
    whitworth_time_ratio,
)

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
