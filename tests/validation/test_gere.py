"""J. M. Gere, Mechanics of Materials, examples 3.1 and 9.17 (inch units).

Read in the FOSSEE textbook companion and recomputed; the companion's 9.17 mixes kip and psi,
so its figure is used with the unit put right. The allowed torque of 3.1 is from memory.
"""

import numpy as np
import pytest

from turnercalc.mechanics.beams import central_load_sag, uniform_load_sag
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
