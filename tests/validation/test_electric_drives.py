"""Short published examples on motors, one book each.

J. B. Gupta, Electric Drives, example 1-3; C. I. Hubert, Electric Machines, examples 4.1 and
4.2 (both read in the FOSSEE textbook companion); Handbook of Electric Power Calculations,
shaded-pole example (inputs read on a trade portal); the pole and speed table of
engineeringtoolbox.com, page 1448, and typical full-load speeds, read.
"""

import numpy as np
import pytest

from turnercalc.mechanics.ac_motor import (
    efficiency,
    slip,
    speed_at_slip,
    speed_ratio_of_frequency,
    synchronous_speed,
)
from turnercalc.mechanics.gearing import torque_before_stage

RPM = 2 * np.pi / 60


def test_gupta_1_3_power_through_a_gear() -> None:
    # 50 N m at the load, ratio 10, efficiency 0.9, motor at 1400 rpm: 815 W
    torque = torque_before_stage(50.0, 10.0, 0.9, np.nan)
    assert torque * 1400 * RPM == pytest.approx(815, abs=0.6)


def test_hubert_4_1_synchronous_speed() -> None:
    # 6 poles on 51 Hz: 1020 rpm
    assert synchronous_speed(6, 51) / RPM == pytest.approx(1020, rel=1e-12)


def test_hubert_4_2_slip() -> None:
    # 6 poles, 60 Hz, 1100 rpm: slip 0.0833
    assert slip(synchronous_speed(6, 60), 1100 * RPM) == pytest.approx(0.0833, abs=0.00006)


@pytest.mark.parametrize(
    ("poles", "rpm_50", "rpm_60"),
    # Table of synchronous speeds. Its 24-pole row prints 240 rpm for 50 Hz, a slip of the
    # table (6000/24 = 250), so that figure is not used.
    [
        (2, 3000, 3600),
        (4, 1500, 1800),
        (6, 1000, 1200),
        (8, 750, 900),
        (10, 600, 720),
        (12, 500, 600),
        (16, 375, 450),
        (24, None, 300),
    ],
)
def test_table_of_synchronous_speeds(poles: int, rpm_50: float | None, rpm_60: float) -> None:
    assert synchronous_speed(poles, 60) / RPM == pytest.approx(rpm_60, rel=1e-12)
    if rpm_50 is not None:
        assert synchronous_speed(poles, 50) / RPM == pytest.approx(rpm_50, rel=1e-12)


@pytest.mark.parametrize(
    ("poles", "frequency", "rpm", "percent"),
    # typical full-load speeds; their slips are the arithmetic of the table's own columns
    [(4, 50, 1450, 3.33), (4, 60, 1770, 1.67), (6, 50, 960, 4.0), (16, 60, 430, 4.44)],
)
def test_typical_full_load_speeds(poles: int, frequency: float, rpm: float, percent: float) -> None:
    field = synchronous_speed(poles, frequency)
    assert 100 * slip(field, rpm * RPM) == pytest.approx(percent, abs=0.01)
    assert speed_at_slip(field, percent / 100) / RPM == pytest.approx(rpm, rel=2e-4)


def test_sixty_hertz_motor_on_fifty() -> None:
    # definition: synchronous speed is in proportion to the frequency, 5/6 and 1.2 the other way
    assert speed_ratio_of_frequency(50, 60) == pytest.approx(5 / 6, rel=1e-15)
    assert speed_ratio_of_frequency(60, 50) == pytest.approx(1.2, rel=1e-15)


def test_shaded_pole_efficiency() -> None:
    # 2.5 thousandths of a horsepower (746 W) out of 12 W: 15.5 %
    assert efficiency(2.5e-3 * 746, 12.0) == pytest.approx(0.155, abs=0.0006)
