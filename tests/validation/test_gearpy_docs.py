"""Documentation of gearpy, a general drive-train simulation library: examples 4 and 7.

Read in its public repository. Used for the printed numbers only.
"""

import numpy as np
import pytest

from turnercalc.mechanics.dc_motor import (
    current_at_torque,
    line_at_switching_duty,
    speed_at_torque,
    torque_at_speed,
)
from turnercalc.mechanics.gearing import torque_after_stage, train_efficiency
from turnercalc.mechanics.worm import worm_driving_efficiency, worm_holds

RPM = 2 * np.pi / 60


def test_example_4_motor_torque_at_speed() -> None:
    # stall 10 mN m, free speed 15 000 rpm, at 1375.841 rad/s: 1.241126 mN m
    torque = torque_at_speed(10.0, 15000 * RPM, 1375.841)
    assert torque == pytest.approx(1.241126, abs=1e-5)
    assert speed_at_torque(10.0, 15000 * RPM, torque) == pytest.approx(1375.841, rel=1e-12)


def test_example_4_motor_current() -> None:
    # free current 0.2 A, stall current 5 A: 0.79574 A
    assert current_at_torque(1.241126, 10.0, 0.2, 5.0) == pytest.approx(0.79574, abs=6e-6)


def test_example_4_three_stages() -> None:
    # ratios 8, 6 and 5 at 0.9 each: 8.9361, 48.2550, 217.147 mN m
    first = torque_after_stage(1.241126, 8, 0.9)
    second = torque_after_stage(first, 6, 0.9)
    third = torque_after_stage(second, 5, 0.9)
    assert first == pytest.approx(8.9361, abs=6e-5)
    assert second == pytest.approx(48.2550, abs=6e-5)
    assert third == pytest.approx(217.147, abs=6e-4)
    whole = torque_after_stage(1.241126, 8 * 6 * 5, train_efficiency([0.9, 0.9, 0.9]))
    assert third == pytest.approx(whole, rel=1e-12)


def test_example_7_worm() -> None:
    # 0.4 on a 10 degree worm with a 20 degree pressure angle: 0.27092; 2.279935 mN m through a
    # ratio of 50: 30.884 mN m
    efficiency = worm_driving_efficiency(np.radians(10), 0.4, np.radians(20))
    assert efficiency == pytest.approx(0.27092, abs=6e-6)
    assert torque_after_stage(2.279935, 50, efficiency) == pytest.approx(30.884, abs=6e-4)


def test_worm_mating_self_locking() -> None:
    # 0.4 is more than cos 20 tan 10 = 0.1657, so it locks
    assert np.cos(np.radians(20)) * np.tan(np.radians(10)) == pytest.approx(0.1657, abs=6e-5)
    assert worm_holds(np.radians(10), 0.4, np.radians(20))
    assert not worm_holds(np.radians(10), 0.165, np.radians(20))


def test_chopped_supply() -> None:
    # The note on pulse width modulation: with duty D the stall torque is that of the current
    # D Is, less the free current: at D Is = I0 nothing is left, at D = 1 all of it.
    torque, speed = line_at_switching_duty(10.0, 1500.0, [0.04, 0.52, 1.0], 0.2, 5.0)
    np.testing.assert_allclose(torque, [0.0, 5.0, 10.0], atol=1e-12)
    np.testing.assert_allclose(speed, [60.0, 780.0, 1500.0], rtol=1e-12)
