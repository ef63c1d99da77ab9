"""Trays by slotted lever, actuator and shaft against the MuJoCo physics engine.

Authority: MuJoCo (Todorov, Erez and Tassa 2012), used as `mujoco_turners.py` says: exact
positions and inverse dynamics, no time stepping. Wanted: motion to 1e-5 and frictionless torque
or force to 1e-3 of its peak at every position; both agree far better, so the limits here are
tighter. What is left is the 1e-9 kg that MuJoCo needs where a part weighs nothing.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import pi, radians

import numpy as np
import pytest
from numpy.typing import NDArray

from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.drives import base, linear_actuator, shaft, slotted_lever
from turnercalc.turners import tilting_trays
from turnercalc.turners.base import LoadCase

from .mujoco_turners import turner_cycle
from .turner_examples import EXAMPLES, ROUND
from .turner_numbers import Actuator, Drive, PointMass, Shaft, SlottedLever, Swing

Array = NDArray[np.float64]
STEPS = 96


@dataclass(frozen=True)
class Pair:
    """Three trays as one swinging part, their drive, and how far the drive runs."""

    part: Swing
    drive: Drive
    travel: tuple[float, float] = ROUND

    def positions(self) -> Array:
        """Once round without repeating the end, or both ends."""
        return np.linspace(*self.travel, STEPS + 1)[: STEPS if self.travel == ROUND else None]


def three_trays(rows: tuple[int, ...], height: float, pin: tuple[float, float]) -> Swing:
    """Three trays on one tie bar move as one: rows of eggs, the empty trays, the bar at the pin."""
    middle = (len(rows) - 1) / 2
    eggs = tuple(PointMass(3 * n * 0.059, (i - middle) * 0.05, height) for i, n in enumerate(rows))
    return Swing((*eggs, PointMass(2.1, 0.0, -0.004), PointMass(0.25, *pin)), *pin)


FULL, RIGHT = (6,) * 6, (0, 0, 0, 6, 6, 6)
PAIRS = {
    "slot below, all trays full": Pair(
        three_trays(FULL, 0.012, (0.0, -0.15)),
        SlottedLever(0.090, 0.0, -0.180, 0.0, 0.0, -pi / 2),
    ),
    "slot askew and off the pivot, right rows only": Pair(
        three_trays(RIGHT, 0.012, (0.0, -0.15)),
        SlottedLever(0.075, 0.020, -0.170, 0.015 * np.cos(0.2), 0.015 * np.sin(0.2), 0.2 - pi / 2),
    ),
    "slot beside, to and fro": Pair(
        three_trays(RIGHT, -0.020, (0.15, 0.0)),
        SlottedLever(0.120, 0.110, 0.020, 0.0, 0.0, 0.0),
        (radians(-60.0), radians(60.0)),
    ),
    "actuator below, all trays full": Pair(
        three_trays(FULL, 0.012, (0.070, 0.0)), Actuator(0.045, -0.30, +1), (0.255, 0.345)
    ),
    "actuator above the other side, right rows only": Pair(
        three_trays(RIGHT, 0.030, (-0.080, 0.0)), Actuator(-0.060, 0.26, +1), (0.215, 0.310)
    ),
    "shaft, all trays full": Pair(three_trays(FULL, 0.035, (0.0, 0.0)), Shaft(), (-0.79, 0.79)),
    "shaft, right rows only": Pair(three_trays(RIGHT, -0.02, (0.0, 0.0)), Shaft(), (-0.79, 0.79)),
}
for name in ("tray by slotted lever", "tray by actuator", "tray by its shaft"):
    _example = EXAMPLES[name]
    assert isinstance(_example.part, Swing)
    PAIRS[name] = Pair(_example.part, _example.drive, _example.travel)


def package_trays(part: Swing) -> tuple[tilting_trays.TiltingTrays, LoadCase]:
    """One tray of the package with every mass as a weight of its own."""
    arm = float(np.hypot(part.pin_x, part.pin_y))
    trays = tilting_trays.TiltingTrays(
        count=1,
        row_places=(0.0,),
        eggs_per_row=1,
        egg_mass=0.0,
        egg_height=0.0,
        tray_mass=0.0,
        tray_height=0.0,
        arm_length=arm,
        arm_angle=float(np.arctan2(part.pin_y, part.pin_x)),
        wanted_tilt=radians(45.0),
        weights=tuple(tilting_trays.PointMass(m.mass, m.x, m.y) for m in part.masses),
    )
    return trays, LoadCase("as_given", "as given", "as_given", True, np.ones((1, 1), int))


def package_drive(part: Swing, drive: Drive, positions: Array) -> tuple[base.Drive, Array]:
    """The package's drive of the same numbers, and its positions: an actuator's are extensions."""
    if isinstance(drive, SlottedLever):
        # The slot's foot: its line seen from the pivot, and how it stands to the arm.
        direction = drive.slot_angle
        off = drive.slot_y * np.cos(direction) - drive.slot_x * np.sin(direction)
        arm = np.arctan2(part.pin_y, part.pin_x)
        first, last = float(positions[0]), float(positions[-1])
        made = slotted_lever.SlottedLever(
            drive.radius,
            drive.shaft_x,
            drive.shaft_y,
            angle=direction - arm,
            off_line=float(off),
            arc=None if last - first > pi else (first, last),
        )
        return made, positions
    if isinstance(drive, Actuator):
        shortest = float(positions[0])
        made_rod = linear_actuator.LinearActuator(
            shortest,
            float(np.ptp(positions)),
            drive.fixed_x,
            drive.fixed_y,
            branch=float(drive.push_sense),
        )
        return made_rod, positions - shortest
    assert isinstance(drive, Shaft)
    return shaft.TurningShaft(), positions


def package_cycle(pair: Pair) -> TurnCycle:
    """The package's turn cycle of the same numbers, without friction."""
    trays, load = package_trays(pair.part)
    drive, positions = package_drive(pair.part, pair.drive, pair.positions())
    return turn_cycle(trays, drive, [load], levels=("none",), positions=positions)


@pytest.mark.parametrize("name", PAIRS)
def test_tilt_and_its_rates(name: str) -> None:
    pair = PAIRS[name]
    engine = turner_cycle(pair.part, pair.drive, pair.positions())
    motion = package_cycle(pair).motion
    assert np.isfinite(engine.q).all()
    assert np.ptp(engine.q) > 0.2
    assert motion.coordinate == pytest.approx(engine.q, abs=1e-10)  # [rad]
    scale = np.abs(engine.dq).max()
    assert motion.rate == pytest.approx(engine.dq, abs=1e-9 * scale)
    assert motion.second == pytest.approx(engine.ddq, abs=1e-8 * scale**2)


@pytest.mark.parametrize("name", PAIRS)
def test_frictionless_shaft_torque_or_push(name: str) -> None:
    pair = PAIRS[name]
    engine = turner_cycle(pair.part, pair.drive, pair.positions())
    ours = package_cycle(pair).shaft_torque[0, 0]
    limit = 1e-6 * np.abs(engine.force).max()
    assert ours[0] == pytest.approx(engine.force, abs=limit)
    assert ours[1] == pytest.approx(-engine.force, abs=limit)


@pytest.mark.parametrize("sense", [1.0, -1.0])
@pytest.mark.parametrize("name", PAIRS)
def test_shaft_torque_or_push_at_speed(name: str, sense: float) -> None:
    # 48 rpm, or 0.2 m/s: far too fast for eggs, so that inertia has a say.
    pair = PAIRS[name]
    speed = 0.2 if isinstance(pair.drive, Actuator) else 5.0
    engine = turner_cycle(pair.part, pair.drive, pair.positions(), sense * speed)
    ours = package_cycle(pair).shaft_torque_at(speed)[0, 0, 0 if sense > 0 else 1]
    felt = sense * engine.force
    assert ours == pytest.approx(felt, abs=1e-5 * np.abs(felt).max())


@pytest.mark.parametrize("name", [n for n in PAIRS if "slot" in n])
def test_pin_force_in_the_slot(name: str) -> None:
    pair = PAIRS[name]
    engine = turner_cycle(pair.part, pair.drive, pair.positions())
    on_pin = np.hypot(*engine.pin_force[:, 0].T)
    ours = package_cycle(pair).pin_forces["crank pin"][0, 0, 0]
    assert ours == pytest.approx(on_pin, abs=1e-6 * on_pin.max())


@pytest.mark.parametrize("name", [n for n in PAIRS if "actuator" in n])
def test_an_actuator_is_bolted_on_the_same_way(name: str) -> None:
    pair = PAIRS[name]
    assert isinstance(pair.drive, Actuator)
    trays, _ = package_trays(pair.part)
    drive, _ = package_drive(pair.part, pair.drive, pair.positions())
    assert isinstance(drive, linear_actuator.LinearActuator)
    assert replace(drive, branch=0.0).assemble(trays.path()).branch == pair.drive.push_sense
