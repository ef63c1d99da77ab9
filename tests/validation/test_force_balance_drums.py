"""Drums with friction against balances of forces that know nothing of the package.

* On an axle, by crank and link: Newton-Euler per body with journal friction, `force_balance.py`,
  solved by scipy. A drum is to it a part on one pivot, with a mass on every filled shelf.
* On rollers: the equations of a drum on two contacts, written out below (Beer and Johnston,
  Vector Mechanics for Engineers: Statics, chapters 4 and 8, from memory).

Wanted: within 3 %; where both count the same forces they agree to the last digits.
"""

from __future__ import annotations

from math import cos, pi, radians, sin

import numpy as np
import pytest

from turnercalc.cycle import turn_cycle
from turnercalc.drives.crank_link import CrankLink
from turnercalc.drives.shaft import TurningShaft
from turnercalc.joints import JointFriction
from turnercalc.tables import Range3
from turnercalc.turners.base import LoadCase
from turnercalc.turners.rotating_drum import RotatingDrum
from turnercalc.turners.support_rollers import SupportRollers, climbing_force, gripping_force

from .force_balance import balance
from .rack_numbers import CrankLink as CrankNumbers
from .rack_numbers import Journal, PointMass, Rack, RackFriction, Tray

GRAVITY = 9.80665  # [m/s2], standard gravity (CGPM 1901)
FILLINGS = ((6, 6, 0, 0, 0), (6, 6, 6, 6, 6), (0, 0, 4, 6, 2), (0, 0, 0, 0, 0))
EGG, RADIUS, EMPTY = 0.062, 0.120, 1.7


def load(cells: tuple[int, ...]) -> LoadCase:
    return LoadCase("filled", "filled", "filled", True, np.array(cells))


def constant(mu: float) -> JointFriction:
    return JointFriction(mu, mu, mu, mu)


@pytest.mark.parametrize("filling", FILLINGS)
@pytest.mark.parametrize("direction", [1, -1])
def test_axle_and_both_pins_of_a_crank_drum(filling: tuple[int, ...], direction: int) -> None:
    axle, pin = Journal(0.005, 0.3), Journal(0.003, 0.25)
    # Shelf 1 stands straight up, the others follow anticlockwise, 72 degrees apart.
    masses = tuple(
        PointMass(
            EGG * n, RADIUS * cos(pi / 2 + 2 * pi * i / 5), RADIUS * sin(pi / 2 + 2 * pi * i / 5)
        )
        for i, n in enumerate(filling)
        if n
    )
    numbers = Rack(
        trays=(Tray((*masses, PointMass(EMPTY, 0.0, 0.0))),),
        pitch=0.1,
        arm_length=0.08,
        arm_angle=0.0,
        crank=CrankNumbers(0.055, 0.055, -0.16, 0.17, +1, 0.07),
    )
    angles = np.linspace(0.0, 2 * pi, 73)[:-1]
    forces = balance(numbers, RackFriction(axle, pin, pin, axle), angles, direction)
    drum = RotatingDrum(
        5,
        6,
        RADIUS,
        EGG,
        drum_mass=EMPTY,
        axle_diameter=2 * axle.radius,
        friction=constant(axle.coefficient),
        arm_length=0.08,
        wanted=(-0.8, 0.8),
    )
    drive = CrankLink(
        0.055,
        0.17,
        0.055,
        -0.16,
        branch=1.0,
        link_mass=0.07,
        pin_diameter=2 * pin.radius,
        friction=constant(pin.coefficient),
    )
    ours = turn_cycle(drum, drive, [load(filling)], levels=("middle",), positions=angles)
    which = (1, -1).index(direction)
    peak = np.abs(forces.torque).max()
    assert not ours.jams.any()
    assert ours.shaft_torque[0, 0, which] == pytest.approx(forces.torque, abs=1e-7 * peak)
    assert ours.lost[0, 0, which] == pytest.approx(forces.loss, abs=1e-7 * peak)
    half = 0.5 * forces.pivot_force[:, 0]
    assert ours.pin_forces["axle bearings"][0, 0, which] == pytest.approx(half, abs=1e-6)


def on_two_rollers(
    weight: float, half_angle: float, pull: float, side: float
) -> tuple[float, float]:
    """Return the normal forces of the driven and of the other row [N].

    The driven row stands on the right (`side` +1) or on the left of the lowest point and pulls
    along the rim, anticlockwise; weight, both normal forces and the pull have to balance.
    """
    a = half_angle
    along = np.array([cos(side * a), sin(side * a)])  # the way the rim goes there
    # Both press towards the axle: columns for the driven row and for the other.
    press = np.array([[-sin(side * a), sin(side * a)], [cos(a), cos(a)]])
    driven, other = np.linalg.solve(press, np.array([0.0, weight]) - pull * along)
    return float(driven), float(other)


@pytest.mark.parametrize("half_angle", [25.0, 35.0, 50.0])
@pytest.mark.parametrize("grip", [0.2, 0.5])
def test_a_driven_row_slips_at_its_grip(half_angle: float, grip: float) -> None:
    weight, angle = 70.0, radians(half_angle)
    pull = float(gripping_force(weight, angle, grip, both_driven=False))
    sides = [on_two_rollers(weight, angle, pull, side)[0] for side in (1.0, -1.0)]
    # In the worse direction it is just at its grip, in the other it has some in hand.
    assert min(sides) * grip == pytest.approx(pull, rel=1e-9)
    assert max(sides) * grip >= pull


@pytest.mark.parametrize("half_angle", [20.0, 35.0, 50.0])
def test_a_drum_climbs_out_where_the_other_row_bears_nothing(half_angle: float) -> None:
    weight, angle = 70.0, radians(half_angle)
    pull = float(climbing_force(weight, angle))
    assert on_two_rollers(weight, angle, pull, 1.0)[1] == pytest.approx(0.0, abs=1e-8)
    # The same in other words: the centre of mass stands straight over the driven row.
    rim = 0.18
    assert pull * rim / weight == pytest.approx(rim * sin(angle))


def test_both_rows_driven_share_the_weight() -> None:
    weight, angle, grip = 70.0, radians(35.0), 0.4

    # Across and up, for the right and the left row, each pulling its grip anticlockwise.
    across = [-sin(angle) + grip * cos(angle), sin(angle) + grip * cos(angle)]
    up = [cos(angle) + grip * sin(angle), cos(angle) - grip * sin(angle)]
    right, left = np.linalg.solve([across, up], [0.0, weight])
    expected = grip * (right + left)
    assert float(gripping_force(weight, angle, grip, both_driven=True)) == pytest.approx(expected)


def test_what_rollers_cost_against_contact_by_contact() -> None:
    """Roller by roller: its axle's friction circle, the rolling arm on both bodies, and its pull.

    The pull of the driven row lifts the drum a little or presses it down, by the way it turns;
    the package leaves that out and lies between the two, 1 % from their mean.
    """
    rim, roller, axle, mu, arm, angle = 0.18, 0.02, 0.004, 0.15, 0.5e-3, radians(33.0)
    rollers = SupportRollers(rim, roller, angle, 2 * axle, constant(mu), Range3(arm, arm, arm))
    drum = RotatingDrum(8, 10, 0.15, 0.061, drum_mass=2.9, rollers=rollers, endless=True)
    full = (10,) * 8
    weight = (2.9 + 80 * 0.061) * GRAVITY
    circle = axle * sin(np.arctan(mu))

    def power(pull: float) -> float:
        """Return what both rows lose for a turn of the drum by one radian [J]."""
        normals = on_two_rollers(weight, angle, pull, 1.0)
        return sum(n * (circle * rim / roller + arm * (1.0 + rim / roller)) for n in normals)

    losses = []
    for sense in (1.0, -1.0):
        loss = 0.0
        for _ in range(30):  # the pull makes the losses and the losses the pull
            loss = power(sense * loss / rim)
        losses.append(loss)
    cycle = turn_cycle(drum, TurningShaft(endless=True), [load(full)], levels=("middle",), count=36)
    ours = cycle.shaft_torque[0, 0]
    assert ours == pytest.approx(np.full((2, 36), np.mean(losses)), rel=0.01)
    assert min(losses) < ours.min()
    assert ours.max() < max(losses)
    assert cycle.pin_forces["support rollers"][0, 0, 0, 0] == pytest.approx(
        0.5 * weight / cos(angle)
    )
