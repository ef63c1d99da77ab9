"""T. H. Wentzell, Machine Design, examples 13.4, 18.1, 18.2 and 18.3 (inch units).

Read in the FOSSEE textbook companion and recomputed; its example 17.5 does not reproduce and
is not used. The formulas hold in any consistent units, so inches and pounds stand as printed.
"""

import numpy as np
import pytest

from turnercalc.mechanics.screws import (
    screw_efficiency,
    screw_holds,
    screw_lead_angle,
    screw_raise_torque,
    screw_thread_efficiency,
)
from turnercalc.mechanics.worm import worm_lead_angle

ACME = np.radians(14.5)


def test_example_18_1_square_screw() -> None:
    # 5800 lb on two screws, lead 1/3 in, pitch diameter 1.354 in, f = 0.15: 453.7 lb in each
    torque = screw_raise_torque(5800 / 2, 1.354, 1 / 3, 0.15)
    assert torque == pytest.approx(453.7, abs=0.06)


def test_example_18_2_lead_angle_and_efficiency() -> None:
    # lead angle 4.48 degrees, efficiency 0.339, self-locking
    assert np.degrees(screw_lead_angle(1.354, 1 / 3)) == pytest.approx(4.48, abs=0.006)
    assert screw_thread_efficiency(1.354, 1 / 3, 0.15) == pytest.approx(0.339, abs=0.0006)
    torque = screw_raise_torque(2900.0, 1.354, 1 / 3, 0.15)
    assert screw_efficiency(2900.0, 1 / 3, torque) == pytest.approx(0.339, abs=0.0006)
    assert screw_holds(1.354, 1 / 3, 0.15)


def test_example_18_3_acme_screw() -> None:
    # lead 1/4 in, pitch diameter 1.375 in, Acme: 428.1 lb in
    torque = screw_raise_torque(5800 / 2, 1.375, 1 / 4, 0.15, ACME)
    assert torque == pytest.approx(428.1, abs=0.06)


def test_example_13_4_worm_lead_angle() -> None:
    # one start, axial pitch pi/6 in on a 2 in worm: 4.76 degrees
    assert np.degrees(worm_lead_angle(1, np.pi / 6, 2.0)) == pytest.approx(4.76, abs=0.006)
