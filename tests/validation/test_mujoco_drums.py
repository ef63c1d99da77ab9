"""Drums against the MuJoCo physics engine.

Authority: MuJoCo (Todorov, Erez and Tassa 2012), used as `mujoco_loops.py` says: exact
positions, inverse dynamics, no time stepping. Wanted: motion to 1e-5 and frictionless shaft
torque to 1e-3 of its peak at every position; both agree far better. Each shelf of eggs is a
point mass there, and the heavy side and the counterweight are masses of their own. On rollers the
engine's own contacts and time stepping stand in (`mujoco_contacts.py`): presses to 2e-3, torque
to 1 %, because its contacts creep.
"""

from __future__ import annotations

from math import pi, radians

import numpy as np
import pytest

from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.drives.base import Drive
from turnercalc.drives.crank_link import CrankLink
from turnercalc.drives.shaft import TurningShaft
from turnercalc.tables import Range3
from turnercalc.turners.base import LoadCase
from turnercalc.turners.rotating_drum import RimWeight, RotatingDrum
from turnercalc.turners.support_rollers import RIGHT, RollerResistance, SupportRollers

from . import turner_numbers
from .mujoco_contacts import CarriedDrum, drum_on_rollers
from .mujoco_turners import turner_cycle
from .test_mujoco_drives import package_drive
from .turner_examples import DRUM, EXAMPLES, SHELF, Example

# Shelves 1 and 2 stand at 90 and 135 degrees, shelves 7 and 8 at 0 and 45: the four of DRUM.
FILLED = (12, 12, 0, 0, 0, 0, 12, 12)
#: Fillings of a lopsided drum of 5 shelves, with and without its counterweight.
FILLINGS = ((4, 4, 0, 0, 0), (4, 0, 4, 1, 0), (0, 0, 0, 0, 0), (3, 3, 3, 3, 3))
HEAVY, COUNTER = RimWeight(0.4, 0.07, 2), RimWeight(0.25, 0.11, 4.5)


def load(cells: tuple[int, ...]) -> LoadCase:
    return LoadCase("filled", "filled", "filled", True, np.array(cells))


def half_full() -> RotatingDrum:
    return RotatingDrum(8, 12, 0.180, SHELF / 12, arm_length=0.150, arm_angle=-pi / 2)


def drive_of(name: str) -> Drive:
    numbers = EXAMPLES[name].drive
    if isinstance(numbers, turner_numbers.Shaft):
        return TurningShaft(endless=True)
    assert isinstance(numbers, turner_numbers.CrankLink)
    return CrankLink(
        numbers.radius,
        numbers.length,
        numbers.shaft_x,
        numbers.shaft_y,
        branch=float(numbers.push_sense),
        link_mass=numbers.link_mass,
    )


@pytest.mark.parametrize("speed", [0.0, 5.0])
@pytest.mark.parametrize("name", ["drum by its shaft", "drum by crank and link"])
def test_half_full_drum(name: str, speed: float) -> None:
    # 5 rad/s is far too fast for eggs, so that inertia has a say.
    positions = EXAMPLES[name].positions(120)
    engine = turner_cycle(DRUM, EXAMPLES[name].drive, positions, speed)
    ours = turn_cycle(
        half_full(), drive_of(name), (load(FILLED),), levels=("none",), positions=positions
    )
    assert np.isfinite(engine.q).all()
    assert ours.motion.coordinate == pytest.approx(engine.q, abs=1e-9)
    assert ours.motion.rate == pytest.approx(engine.dq, abs=1e-8)
    torque = ours.shaft_torque_at(speed)[0, 0]
    limit = 1e-5 * np.abs(engine.force).max()
    assert torque[0] == pytest.approx(engine.force, abs=limit)
    if not speed:  # turning clockwise the motor feels the same torque the other way
        assert torque[1] == pytest.approx(-engine.force, abs=limit)


@pytest.mark.parametrize("filling", FILLINGS)
def test_lopsided_drum_with_a_counterweight(filling: tuple[int, ...]) -> None:
    positions = np.linspace(-pi, pi, 73)
    egg, radius = 0.061, 0.140
    angles = pi / 2 + 2 * pi * np.arange(5) / 5
    masses = [
        turner_numbers.PointMass(egg * n, radius * np.cos(a), radius * np.sin(a))
        for n, a in zip(filling, angles, strict=True)
        if n
    ]
    # Shelf 2 stands at 162 degrees; half way from shelf 4 at 306 to shelf 5 at 18 is 342.
    for weight, degrees in ((HEAVY, 162.0), (COUNTER, 342.0)):
        x, y = (
            weight.radius * np.cos(np.radians(degrees)),
            weight.radius * np.sin(np.radians(degrees)),
        )
        masses.append(turner_numbers.PointMass(weight.mass, x, y))
    engine = turner_cycle(turner_numbers.Swing(tuple(masses)), turner_numbers.Shaft(), positions)
    drum = RotatingDrum(5, 4, radius, egg, heavy_side=HEAVY, counterweight=COUNTER)
    ours: TurnCycle = turn_cycle(
        drum, TurningShaft(), (load(filling),), levels=("none",), positions=positions
    )
    limit = 1e-6 * np.abs(engine.force).max()
    assert ours.shaft_torque[0, 0, 0] == pytest.approx(engine.force, abs=limit)


#: The same drum by a slot that points at the axle, and by a rod, both on the driven pin below.
MORE = {
    "drum by slotted lever": Example(
        DRUM, turner_numbers.SlottedLever(0.060, 0.02, -0.16, 0.0, 0.0, -pi / 2)
    ),
    "drum by actuator": Example(DRUM, turner_numbers.Actuator(-0.24, -0.10, +1), (0.185, 0.285)),
}


@pytest.mark.parametrize("name", MORE)
def test_half_full_drum_by_slot_and_by_rod(name: str) -> None:
    example = MORE[name]
    positions = example.positions(90)
    engine = turner_cycle(DRUM, example.drive, positions)
    drive, ours_at = package_drive(DRUM, example.drive, positions)
    ours = turn_cycle(half_full(), drive, (load(FILLED),), levels=("none",), positions=ours_at)
    assert np.isfinite(engine.q).all()
    assert np.ptp(engine.q) > 0.5
    assert ours.motion.coordinate == pytest.approx(engine.q, abs=1e-9)
    assert ours.motion.rate == pytest.approx(engine.dq, abs=1e-8 * np.abs(engine.dq).max())
    limit = 1e-6 * np.abs(engine.force).max()
    assert ours.shaft_torque[0, 0, 0] == pytest.approx(engine.force, abs=limit)
    assert ours.shaft_torque[0, 0, 1] == pytest.approx(-engine.force, abs=limit)


RIM, ROLLER, MASS = 0.18, 0.02, 7.78


def on_rollers(half_angle: float, arm: float, torque: float, sense: float) -> RollerResistance:
    """Return the package's rollers without friction on their axles, the right row driven."""
    rollers = SupportRollers(
        RIM, ROLLER, half_angle, rolling_arm=Range3(arm, arm, arm), turned=(RIGHT,)
    )
    return rollers.resistance(np.array(MASS * 9.80665), 0.0, torque, sense, ("middle",))


def agree_in_press(ours: RollerResistance, engine: CarriedDrum) -> None:
    left, right = ours.presses(RIGHT, 0.0, 0.0)
    assert left.normal.item() == pytest.approx(engine.left, rel=2e-3)
    assert right.normal.item() == pytest.approx(engine.right, rel=2e-3)


@pytest.mark.parametrize("speed", [-1.0, 1.0])
def test_a_drum_turned_by_one_row_of_rollers(speed: float) -> None:
    # Rollers that turn clockwise turn the drum anticlockwise.
    angle, arm = radians(33.0), 0.5e-3
    engine = drum_on_rollers(RIM, ROLLER, angle, MASS, rolling_arm=arm, speed=speed)
    ours = on_rollers(angle, arm, 0.0, -speed)
    agree_in_press(ours, engine)
    at_roller = speed * ours(0.0, 0.0).item() * ROLLER / RIM
    assert at_roller == pytest.approx(engine.motor, rel=0.01)


@pytest.mark.parametrize("off_centre", [-0.05, 0.05])
def test_a_lopsided_drum_held_by_one_row_of_rollers(off_centre: float) -> None:
    # The heavy side on the right wants to fall clockwise; the row there holds it, or lifts it.
    angle = radians(40.0)
    engine = drum_on_rollers(RIM, ROLLER, angle, MASS, off_centre=off_centre)
    torque = MASS * 9.80665 * off_centre
    ours = on_rollers(angle, 0.0, torque, 1.0)
    agree_in_press(ours, engine)
    assert -torque * ROLLER / RIM == pytest.approx(engine.motor, rel=2e-3)
    assert abs(engine.left - engine.right) > 10.0
