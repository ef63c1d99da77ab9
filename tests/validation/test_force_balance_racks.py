"""Racks with friction against the full force balance of every body.

Authority: Newton-Euler per body with journal friction, `force_balance.py`, solved by scipy.
Wanted: within 2 % of the peak. The package uses virtual work and iterates forces and losses,
the balance solves for all forces at once; where both take the same forces they agree to the
last digits, and within 1e-3 where the balance also counts the sideways forces on the tie bar.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from .force_balance import balance
from .package_racks import COMPARED, package_cycle
from .rack_examples import FRICTION, crank_angles
from .rack_numbers import Journal, RackFriction

DIRECTIONS = (1, -1)


@pytest.mark.parametrize("direction", DIRECTIONS)
@pytest.mark.parametrize("name", COMPARED)
def test_shaft_torque_and_loss_with_friction(name: str, direction: int) -> None:
    rack, angles = COMPARED[name](), crank_angles(name)
    forces = balance(rack, FRICTION, angles, direction)
    ours, which = package_cycle(rack, angles, FRICTION), DIRECTIONS.index(direction)
    peak = np.abs(forces.torque).max()
    assert not ours.jams.any()
    assert ours.shaft_torque[0, 0, which] == pytest.approx(forces.torque, abs=1e-8 * peak)
    assert ours.lost[0, 0, which] == pytest.approx(forces.loss, abs=1e-8 * peak)


@pytest.mark.parametrize("direction", DIRECTIONS)
@pytest.mark.parametrize("name", COMPARED)
def test_shaft_torque_with_the_tie_bars_sideways_forces(name: str, direction: int) -> None:
    rack, angles = COMPARED[name](), crank_angles(name)
    forces = balance(rack, FRICTION, angles, direction, sideways=True)
    ours = package_cycle(rack, angles, FRICTION).shaft_torque[0, 0, DIRECTIONS.index(direction)]
    assert ours == pytest.approx(forces.torque, abs=1e-3 * np.abs(forces.torque).max())


@pytest.mark.parametrize("direction", DIRECTIONS)
@pytest.mark.parametrize("name", COMPARED)
def test_forces_on_the_pins(name: str, direction: int) -> None:
    rack, angles = COMPARED[name](), crank_angles(name)
    forces = balance(rack, FRICTION, angles, direction)
    ours, which = package_cycle(rack, angles, FRICTION), DIRECTIONS.index(direction)
    assert ours.bar_force is not None
    pairs = {
        "crank pin": forces.crank_pin_force,
        "link pin": forces.arm_pin_force,
        "lowest pivot": forces.pivot_force[:, 0],
    }
    if len(rack.trays) > 1:
        pairs["upper pivots"] = forces.pivot_force[:, 1:].max(axis=1)
        pairs["tie bar pins"] = forces.tie_pin_force.max(axis=1)
    for pin, expected in pairs.items():
        assert ours.pin_forces[pin][0, 0, which] == pytest.approx(expected, abs=1e-6), pin
    assert ours.bar_force[0, 0, which] == pytest.approx(forces.link_tension, abs=1e-6)


@pytest.mark.parametrize("direction", DIRECTIONS)
def test_friction_several_times_worse(direction: int) -> None:
    # Thick pins, dry: friction of the order of the load itself, where iteration has to work.
    dry = Journal(0.010, 0.6)
    friction = RackFriction(dry, Journal(0.006, 0.5), Journal(0.006, 0.5), dry)
    name = "bottom_heavy_three"
    rack, angles = COMPARED[name](), crank_angles(name)
    forces = balance(rack, friction, angles, direction)
    ours = package_cycle(rack, angles, friction).shaft_torque[0, 0, DIRECTIONS.index(direction)]
    peak = np.abs(forces.torque).max()
    free = balance(rack, replace(friction, pivots=Journal(0.010, 0.0)), angles, direction)
    assert peak > 1.3 * np.abs(free.torque).max()
    assert ours == pytest.approx(forces.torque, abs=1e-8 * peak)


def test_friction_jams_at_the_same_crank_angles() -> None:
    # Dry pins near the jam point, where link and arm come into line: the crank has to lift the
    # trays and at some angle no force is enough.
    dry = Journal(0.004, 0.6)
    friction = RackFriction(dry, dry, dry, dry)
    rack, angles = COMPARED["to_and_fro_arc"](), np.radians(np.linspace(-41.95, -39.0, 60))
    forces, ours = balance(rack, friction, angles, 1), package_cycle(rack, angles, friction)
    jams = np.isnan(forces.torque)
    assert np.isfinite(forces.tilt).all()
    assert 3 < jams.sum() < 30
    # At the very edge the iteration may still be on its way: one step of 0.05 deg.
    differ = np.flatnonzero(ours.jams[0, 0, 0] != jams)
    assert differ.size <= 1
    both = ~jams & ~ours.jams[0, 0, 0]
    assert ours.shaft_torque[0, 0, 0, both] == pytest.approx(forces.torque[both], rel=1e-6)


def test_where_the_load_drives_friction_never_jams_however_much_there_is() -> None:
    # The same dry rack the other way round: its weights drive the crank, and friction takes off
    # more than a newton for every newton of the link. Putting the forces in again and again
    # swings away from the balance, but there is one: the crank has to hold the rack back.
    dry = Journal(0.004, 0.6)
    friction = RackFriction(dry, dry, dry, dry)
    rack, angles = COMPARED["to_and_fro_arc"](), np.radians(np.linspace(-41.9, -39.0, 60))
    forces, ours = balance(rack, friction, angles, -1), package_cycle(rack, angles, friction)
    assert np.isfinite(forces.torque).all()
    assert not ours.jams[0, 0, 1].any()
    assert ours.shaft_torque[0, 0, 1] == pytest.approx(forces.torque, rel=1e-6)
    assert (forces.torque < -0.5).any()
