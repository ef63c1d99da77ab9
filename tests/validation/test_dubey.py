"""G. K. Dubey, Fundamentals of Electrical Drives, examples 2.1, 4.2 and 4.3.

Read in the FOSSEE textbook companion and recomputed; the torque and power of 2.1 are from
memory.
"""

import numpy as np
import pytest

from turnercalc.mechanics.gearing import (
    reflected_inertia,
    reflected_mass,
    torque_before_stage,
)
from turnercalc.mechanics.motion import rms_of_ramps, rms_of_steps

MOTOR_SPEED = 1420 * 2 * np.pi / 60


def test_2_1_equivalent_inertia() -> None:
    # 0.2 kg m2, 10 kg m2 geared down 0.1, 1000 kg hoisted at 1.5 m/s, 1420 rpm: printed 0.4
    inertia = 0.2 + reflected_inertia(10.0, 0.1) + reflected_mass(1000.0, 1.5 / MOTOR_SPEED)
    assert inertia == pytest.approx(0.4, abs=0.002)


def test_2_1_torque_and_power() -> None:
    # 10 N m behind the gear (0.9) and the hoist (0.85): 117.53 N m, 17.48 kW
    geared = torque_before_stage(10.0, 10.0, 0.9, np.nan)
    hoisted = torque_before_stage(1000 * 9.81 * 1.5 / MOTOR_SPEED, 1.0, 0.85, np.nan)
    assert geared + hoisted == pytest.approx(117.53, abs=0.01)
    assert (geared + hoisted) * MOTOR_SPEED / 1000 == pytest.approx(17.48, abs=0.006)


def test_4_2_rms_torque() -> None:
    # 25 kN m for 10 s, 83.776 for 5 s, 20 for 15 s, 83.776 for 5 s, then 4 s of rest: 45 975 N m
    rms = rms_of_steps([25e3, 83776, 20e3, 83776, 0], [10, 5, 15, 5, 4])
    assert rms == pytest.approx(45975, abs=1)


def test_4_3_rms_power_with_a_ramp() -> None:
    # 0 rising to 400 kW in 5 min, 500 kW for 5, 400 kW for 4, idle for 2: 367 kW
    power = [0, 400, 500, 500, 400, 400, 0, 0]
    minutes = [0, 5, 5, 10, 10, 14, 14, 16]
    assert rms_of_ramps(power, minutes) == pytest.approx(367, abs=0.5)
