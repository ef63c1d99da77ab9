"""Driven cradles that MuJoCo finds rolling by itself, with its own contacts and its own pins.

Authority: MuJoCo (Todorov, Erez and Tassa 2012), used as `mujoco_driven_cradle.py` says. Wanted:
motion to 1e-5 rad and the drive's torque or force within 1e-3 of its peak, without friction in
the pins; press and grip of the floor within 2e-3 of the weight. Soft contacts and time steps cost
a few parts in ten thousand.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.drives import crank_link
from turnercalc.drives.linear_actuator import LinearActuator
from turnercalc.parts.footing import grip_needed
from turnercalc.turners.base import LoadCase
from turnercalc.turners.rocking_cradle import GRIP, PRESS, RockingCradle

from .mujoco_driven_cradle import Driven, drive_cradle
from .test_mujoco_cradles import CRADLES, package_cradle
from .turner_examples import CRADLE
from .turner_numbers import Actuator, CrankLink, PointMass, Rocker

#: MuJoCo's steps cannot take a link that weighs nothing.
CRANKS = {
    name: (part, replace(crank, link_mass=max(crank.link_mass, 0.05)))
    for name, (part, crank) in CRADLES.items()
}
RODS: dict[str, tuple[Rocker, Actuator, tuple[float, float]]] = {
    "pushed from the right": (CRADLE, Actuator(0.30, 0.20, +1), (0.25, 0.36)),
    "pulled from above": (
        Rocker(0.16, (PointMass(2.1, 0.01, 0.114), PointMass(1.9, 0.0, 0.06)), 0.13, 0.15),
        Actuator(-0.15, 0.50, -1),
        (0.30, 0.50),
    ),
    "pushed flat along the floor": (
        Rocker(0.16, (PointMass(2.1, 0.0, 0.114), PointMass(1.9, 0.0, 0.06)), 0.038, 0.076),
        Actuator(-0.28, 0.14, -1),
        (0.25, 0.36),
    ),
}


def package_crank(crank: CrankLink) -> crank_link.CrankLink:
    return crank_link.CrankLink(
        crank.radius,
        crank.length,
        crank.shaft_x,
        crank.shaft_y,
        branch=float(crank.push_sense),
        link_mass=crank.link_mass,
    )


def start_of(
    drive: crank_link.CrankLink | LinearActuator, cradle: RockingCradle, position: float
) -> tuple[float, float]:
    """Return the tilt and the direction of link or rod to begin with."""
    motion = drive.close(cradle.path(), np.array([position]))
    assert motion.bar_x is not None
    assert motion.bar_y is not None
    return float(motion.coordinate[0]), float(np.arctan2(motion.bar_y[0], motion.bar_x[0]))


def turned_by_crank(
    part: Rocker, crank: CrankLink, sense: float = 1.0, friction: float = 5.0
) -> tuple[Driven, TurnCycle]:
    """Drive it once round in MuJoCo and reckon it at the same crank angles."""
    cradle, load = package_cradle(part)
    drive, first = package_crank(crank), 0.3
    seen = drive_cradle(
        part,
        crank,
        (first, *start_of(drive, cradle, first)),
        sense * 2.0 * np.pi,
        sense * 1.0,
        friction=friction,
    )
    return seen, turn_cycle(cradle, drive, [load], levels=("none",), positions=seen.position)


def moved_by_rod(name: str) -> tuple[Driven, TurnCycle]:
    """Drive it from one end to the other in MuJoCo and reckon it at the same lengths."""
    part, rod, (low, high) = RODS[name]
    cradle, load = package_cradle(part)
    drive = LinearActuator(low, high - low, rod.fixed_x, rod.fixed_y, branch=float(rod.push_sense))
    inside = 0.1 * (high - low)
    seen = drive_cradle(
        part,
        rod,
        (low + inside, *start_of(drive, cradle, inside)),
        high - low - 2.0 * inside,
        0.02,
    )
    positions = seen.position - low
    return seen, turn_cycle(cradle, drive, [load], levels=("none",), positions=positions)


def weight(load: LoadCase, cradle: RockingCradle) -> float:
    return 9.80665 * float(cradle.moments(load.cells[None].astype(float))[0].squeeze())


def agree(seen: Driven, cycle: TurnCycle, speed: float, way: int, part: Rocker) -> None:
    """Compare motion, drive, press and grip at every look."""
    cradle, load = package_cradle(part)
    assert len(seen.q) > 100
    assert np.ptp(seen.q) > 0.25
    assert np.ptp(seen.slid) < 1e-5
    assert cycle.motion.coordinate == pytest.approx(seen.q, abs=1e-5)  # [rad]
    sense = 1.0 if way == 0 else -1.0
    ours = sense * cycle.shaft_torque_at(speed)[0, 0, way]
    assert ours == pytest.approx(seen.force, abs=1e-3 * np.abs(seen.force).max())
    within = 2e-3 * weight(load, cradle)
    assert cycle.pin_forces[PRESS][0, 0, way] == pytest.approx(seen.press, abs=within)
    assert cycle.pin_forces[GRIP][0, 0, way] == pytest.approx(np.abs(seen.grip), abs=within)


@pytest.mark.parametrize("sense", [1.0, -1.0])
@pytest.mark.parametrize("name", CRANKS)
def test_a_crank_rolls_it_as_we_say(name: str, sense: float) -> None:
    part, crank = CRANKS[name]
    seen, cycle = turned_by_crank(part, crank, sense)
    agree(seen, cycle, 1.0, 0 if sense > 0.0 else 1, part)


@pytest.mark.parametrize("name", RODS)
def test_an_actuator_rolls_it_as_we_say(name: str) -> None:
    seen, cycle = moved_by_rod(name)
    agree(seen, cycle, 0.02, 0, RODS[name][0])


@pytest.mark.parametrize("name", CRANKS)
def test_it_slides_just_where_the_floor_gives_less_than_we_ask(name: str) -> None:
    part, crank = CRANKS[name]
    cradle, load = package_cradle(part)
    cycle = turn_cycle(cradle, package_crank(crank), [load], levels=("none",))
    needed = grip_needed(cycle, (0,)).value
    holds, _ = turned_by_crank(part, crank, friction=1.1 * needed)
    slides, _ = turned_by_crank(part, crank, friction=0.8 * needed)
    assert np.ptp(holds.slid) < 2e-5
    assert np.ptp(slides.slid) > 5e-4
