"""Beer and Johnston, Mechanics of Materials, and Hibbeler, Mechanics of Materials.

All from memory: examples on torsion of shafts and on columns. Inputs and printed results agree
with each other when recomputed, which is why they are used.
"""

import numpy as np
import pytest

from turnercalc.mechanics.beams import rectangle_second_moment
from turnercalc.mechanics.buckling import euler_load
from turnercalc.mechanics.torsion import round_polar_moment, shaft_twist, torsion_stress

MM = 1e-3


def test_beer_johnston_3_01_hollow_shaft() -> None:
    # 60 mm outside, 40 mm bore, 120 MPa: 4.08 kN m, and 80 MPa at the bore
    torque = 120e6 / torsion_stress(1.0, 60 * MM, 40 * MM)
    assert torque == pytest.approx(4.08e3, abs=6.0)
    at_bore = torque * 20 * MM / round_polar_moment(60 * MM, 40 * MM)
    assert at_bore == pytest.approx(80e6, rel=1e-9)


def test_beer_johnston_3_02_twist_of_the_hollow_shaft() -> None:
    # 1.5 m long, G = 77 GPa: 2 degrees take 1.829 kN m
    per_torque = shaft_twist(1.0, 1.5, 77e9, 60 * MM, 40 * MM)
    assert np.radians(2.0) / per_torque == pytest.approx(1.829e3, abs=2.0)


@pytest.mark.parametrize(("load", "side"), [(100e3, 98.3), (200e3, 116.95)])
def test_beer_johnston_10_01_wooden_column(load: float, side: float) -> None:
    # 2 m between pins, E = 13 GPa, factor 2.5: square of 98.3 mm for 100 kN, 116.95 for 200
    second = rectangle_second_moment(side * MM, side * MM)
    assert euler_load(13e9, second, 2.0) == pytest.approx(2.5 * load, rel=2e-3)


def test_hibbeler_5_solid_drive_shaft() -> None:
    # 5 hp at 175 rpm: 150.1 lb ft; 14.5 ksi allow a diameter of 0.858 in
    torque = 5 * 550 / (175 * 2 * np.pi / 60)
    assert torque == pytest.approx(150.1, abs=0.06)
    assert torsion_stress(torque * 12, 0.858) == pytest.approx(14.5e3, rel=3e-3)


def test_hibbeler_13_1_steel_column() -> None:
    # W200 x 46, 4 m between pins, E = 200 GPa, 15.3e6 mm4, 5890 mm2: 1887.6 kN, 320.5 MPa
    load = euler_load(200e9, 15.3e-6, 4.0)
    assert load == pytest.approx(1887.6e3, abs=60.0)
    assert load / 5890e-6 == pytest.approx(320.5e6, abs=6e4)
