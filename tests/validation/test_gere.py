"""J. M. Gere, Mechanics of Materials, examples 3.1, 9.17 and 11.1 (inch units).

Read in the FOSSEE textbook companion and recomputed; the companion's 9.17 mixes kip and psi,
so its figure is used with the unit put right. The allowed torque of 3.1, and 11.1 with the table
of column ends, are from memory.
"""

import numpy as np
import pytest

from turnercalc.mechanics.beams import central_load_sag, uniform_load_sag
from turnercalc.mechanics.buckling import euler_load
from turnercalc.mechanics.torsion import shaft_twist, torsion_stress


def test_3_1_shaft_stress() -> None:
    # 250 lb ft on a 1.5 in bar: 4530 psi (4527 unrounded)
    assert torsion_stress(250 * 12, 1.5) == pytest.approx(4527, abs=1)


def test_3_1_shaft_twist() -> None:
    # over 54 in with G = 11.5e6 psi: 1.62 degrees
    twist = shaft_twist(250 * 12, 54.0, 11.5e6, 1.5)
    assert np.degrees(twist) == pytest.approx(1.62, abs=0.006)


def test_3_1_allowed_torque() -> None:
    # 6000 psi allow 331 lb ft
    assert 6000 / torsion_stress(12.0, 1.5) == pytest.approx(331, abs=0.6)


def test_9_17_sag_under_two_loads() -> None:
    # 5 kip in the middle and 1.5 kip/ft on 96 in, E = 30e6 psi, I = 75 in4: 0.1024 in
    sag = central_load_sag(5000, 96, 30e6, 75) + uniform_load_sag(1500 / 12, 96, 30e6, 75)
    assert sag == pytest.approx(0.1024, abs=0.00006)


def test_11_1_column_held_half_way() -> None:
    # W 8 x 28, 25 ft, E = 29 000 ksi: 276 kip the weak way (21.7 in4), where it is held half
    # way up, and 312 kip the strong way (98.0 in4), where it is not
    length = 25 * 12.0
    assert euler_load(29e3, 21.7, length, 0.5) == pytest.approx(276, abs=0.6)
    assert euler_load(29e3, 98.0, length) == pytest.approx(312, abs=0.6)


@pytest.mark.parametrize(
    ("end_factor", "times"), [(1.0, 1.0), (2.0, 0.25), (0.5, 4.0), (0.699, 2.046)]
)
def test_table_of_column_ends(end_factor: float, times: float) -> None:
    # pinned, free at one end, fixed at both, fixed and pinned
    pinned = euler_load(200e9, 1e-9, 1.0)
    assert euler_load(200e9, 1e-9, 1.0, end_factor) / pinned == pytest.approx(times, rel=1e-3)
