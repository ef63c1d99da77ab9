"""MIT course material: 2.007 "Designing with D.C. motors" and 8.01 problem W13D1-6.

Motor page read; peak powers follow from its two points. Of 8.01 the equations were read and
are solved here as printed.
"""

import numpy as np
import pytest

from turnercalc.mechanics.dc_motor import largest_power, speed_at_torque, torque_at_speed
from turnercalc.mechanics.rolling import nest_slip_torque

RPM = 2 * np.pi / 60


@pytest.mark.parametrize(
    ("stall", "free_rpm", "half_torque", "half_rpm"),
    # gear motor 0.325 N m, 600 rpm: 0.163 N m at 300 rpm; worm gear motor 1.6 N m, 92 rpm:
    # 0.80 N m at 46 rpm
    [(0.325, 600, 0.163, 300), (1.6, 92, 0.80, 46)],
)
def test_half_speed_point(
    stall: float, free_rpm: float, half_torque: float, half_rpm: float
) -> None:
    torque = torque_at_speed(stall, free_rpm * RPM, half_rpm * RPM)
    assert torque == pytest.approx(half_torque, abs=0.0006)


@pytest.mark.parametrize(
    ("stall", "free_rpm", "peak"),
    # with the bare motor, 0.0722 N m and 3750 rpm; watts found by searching the line, not by
    # the formula
    [(0.325, 600, 5.105), (0.0722, 3750, 7.088), (1.6, 92, 3.854)],
)
def test_peak_power(stall: float, free_rpm: float, peak: float) -> None:
    torque = np.linspace(0, stall, 1001)
    searched = np.max(torque * speed_at_torque(stall, free_rpm * RPM, torque))
    assert searched == pytest.approx(peak, abs=0.0006)
    assert largest_power(stall, free_rpm * RPM) == pytest.approx(searched, rel=1e-12)


def test_v_groove() -> None:
    # Cylinder spun in a groove of 45 degree faces, sliding on both:
    # N1 (1 - mu) = N2 (1 + mu), N1 (1 + mu) + N2 (1 - mu) = sqrt(2) m g; torque mu R (N1 + N2).
    # With mu = 0.3: 0.3892 m g R.
    mu = 0.3
    forces = np.linalg.solve([[1 - mu, -(1 + mu)], [1 + mu, 1 - mu]], [0.0, np.sqrt(2)])
    assert mu * forces.sum() == pytest.approx(0.3892, abs=6e-5)
    assert nest_slip_torque(1.0, 1.0, np.pi / 4, mu) == pytest.approx(mu * forces.sum())


def test_v_groove_beyond_its_friction_angle() -> None:
    # mu > tan 45: it climbs one face instead of sliding on both
    assert np.isnan(nest_slip_torque(1.0, 1.0, np.pi / 4, 1.01))
