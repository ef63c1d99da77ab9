"""Shigley's Mechanical Engineering Design: power screws, worm gears, gear trains, columns.

All from memory: example 8-1, Table 13-6, the worm example beside it, examples 4-16, 4-19, 13-3
and 13-6.
Inputs and printed results agree with each other when recomputed, which is why they are used.
"""

import numpy as np
import pytest

from turnercalc.mechanics.beams import round_second_moment
from turnercalc.mechanics.buckling import (
    buckling_load,
    euler_load,
    johnson_load,
    radius_of_gyration,
    transition_slenderness,
)
from turnercalc.mechanics.gearing import epicyclic_speeds, train_ratio
from turnercalc.mechanics.screws import (
    collar_torque,
    screw_efficiency,
    screw_holds,
    screw_lower_torque,
    screw_raise_torque,
)
from turnercalc.mechanics.worm import (
    wheel_driving_efficiency,
    worm_driving_efficiency,
    worm_holds,
    worm_lead_angle,
)

# Example 8-1: square thread, 32 mm major diameter, pitch 4 mm, double start, f = fc = 0.08,
# collar 40 mm, 6.4 kN. Mean diameter 30 mm, lead 8 mm.
SCREW = (6400.0, 0.030, 0.008, 0.08)
COLLAR = collar_torque(6400.0, 0.040, 0.08)


def test_example_8_1_raising() -> None:
    assert screw_raise_torque(*SCREW) + COLLAR == pytest.approx(26.18, abs=0.006)


def test_example_8_1_lowering() -> None:
    assert screw_lower_torque(*SCREW) + COLLAR == pytest.approx(9.77, abs=0.006)


def test_example_8_1_efficiency() -> None:
    torque = screw_raise_torque(*SCREW) + COLLAR
    assert screw_efficiency(6400.0, 0.008, torque) == pytest.approx(0.311, abs=0.0006)


def test_example_8_1_without_collar_overhauls() -> None:
    # Not printed: without its collar the screw would run down by itself. The figure is from
    # the unrolled thread, a wedge of lead over circumference: F tan(friction angle - lead
    # angle) d/2 = -0.466 N m.
    lead_angle = np.arctan(0.008 / (np.pi * 0.030))
    wedge = 6400.0 * np.tan(np.arctan(0.08) - lead_angle) * 0.015
    assert screw_lower_torque(*SCREW) == pytest.approx(wedge, rel=1e-12)
    assert screw_lower_torque(*SCREW) == pytest.approx(-0.4656, abs=0.0006)
    assert not screw_holds(0.030, 0.008, 0.08)


@pytest.mark.parametrize(
    ("lead_deg", "percent"),
    # Table 13-6: efficiency of worm gearsets for f = 0.05, normal pressure angle 14.5 degrees
    [
        (1.0, 25.2),
        (2.5, 45.7),
        (5.0, 62.6),
        (7.5, 71.3),
        (10.0, 76.6),
        (15.0, 82.7),
        (20.0, 85.9),
        (30.0, 89.1),
    ],
)
def test_table_13_6(lead_deg: float, percent: float) -> None:
    efficiency = worm_driving_efficiency(np.radians(lead_deg), 0.05, np.radians(14.5))
    assert 100 * efficiency == pytest.approx(percent, abs=0.06)


def test_worm_example() -> None:
    # 2 starts on a 2 in worm, lead 1.047 in (axial pitch pi/6): lead angle 9.46 degrees; with
    # f = 0.03 the efficiency is 0.839. The normal pressure angle of the example is 14.5 degrees.
    lead = worm_lead_angle(2, np.pi / 6, 2.0)
    assert np.degrees(lead) == pytest.approx(9.46, abs=0.006)
    assert worm_driving_efficiency(lead, 0.03, np.radians(14.5)) == pytest.approx(0.839, abs=6e-4)


@pytest.mark.parametrize("friction", [0.02, 0.05, 0.1, 0.4])
def test_worm_holds_where_its_wheel_cannot_drive(friction: float) -> None:
    # Rule printed with the table: self-locking where f >= cos(pn) tan(lead).
    lead = np.radians(np.linspace(0.5, 45, 90))
    back = wheel_driving_efficiency(lead, friction, np.radians(14.5))
    np.testing.assert_array_equal(worm_holds(lead, friction, np.radians(14.5)), back <= 0)


# Example 4-16: round column 1.5 m between pins, 22 kN with a factor of 4, E = 207 GPa,
# yield 500 MPa: diameter 37.48 mm (Euler). Example 4-19: the same with 375 mm: 19.02 mm by
# Johnson. Printed to four figures, which as the fourth power of a diameter is 1 part in 1000.
def test_example_4_16_slender_column() -> None:
    second = round_second_moment(0.03748)
    area = np.pi * 0.03748**2 / 4
    assert euler_load(207e9, second, 1.5) == pytest.approx(88e3, rel=1e-3)
    load = buckling_load(207e9, second, area, 1.5, 500e6)
    assert load == pytest.approx(88e3, rel=1e-3)


def test_example_4_19_stout_column() -> None:
    second = round_second_moment(0.01902)
    area = np.pi * 0.01902**2 / 4
    assert johnson_load(207e9, second, area, 0.375, 500e6) == pytest.approx(88e3, rel=1e-3)
    load = buckling_load(207e9, second, area, 0.375, 500e6)
    assert load == pytest.approx(88e3, rel=1e-3)


def test_example_4_19_transition() -> None:
    # (l/k)1 = 90.4, and the stout column is at 78.9
    assert transition_slenderness(207e9, 500e6) == pytest.approx(90.4, abs=0.06)
    area = np.pi * 0.01902**2 / 4
    slenderness = 0.375 / radius_of_gyration(round_second_moment(0.01902), area)
    assert slenderness == pytest.approx(78.9, abs=0.06)


def test_example_13_3_compound_train() -> None:
    # 30 to 1 in two equal stages of 16 teeth: 88 teeth each, 30.25 in fact
    assert train_ratio([16, 16], [88, 88]) == pytest.approx(30.25)


def test_example_13_6_planetary_train() -> None:
    # sun 20, planet 30, ring 80 held; the sun turns at -100 rpm: arm -20, planet +33.3 rpm
    sun, planet = epicyclic_speeds(-20.0, 0.0, 20, 80)
    assert sun == pytest.approx(-100.0)
    assert planet == pytest.approx(33.3, abs=0.06)
