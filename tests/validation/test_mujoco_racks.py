"""Racks of tilting trays against the MuJoCo physics engine.

Authority: MuJoCo (Todorov, Erez and Tassa 2012), used as `mujoco_loops.py` says: exact
positions, inverse dynamics, no time stepping. Wanted: tilt to 1e-6 rad and frictionless shaft
torque to 1e-4 of its peak at every crank angle. Both agree far better, so the limits here are
tighter; what is left is the 1e-9 kg that MuJoCo needs where a part weighs nothing.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from .mujoco_models import full_turn, rack_cycle
from .package_racks import COMPARED, package_crank, package_cycle, package_trays
from .rack_examples import crank_angles, top_heavy_four
from .rack_numbers import FRICTIONLESS

STEPS = 120


def test_at_least_six_racks_are_compared() -> None:
    assert len(COMPARED) >= 6


@pytest.mark.parametrize("name", COMPARED)
def test_tilt_and_its_rates(name: str) -> None:
    rack, angles = COMPARED[name](), crank_angles(name, STEPS)
    engine, motion = rack_cycle(rack, angles), package_cycle(rack, angles).motion
    assert motion.coordinate == pytest.approx(engine.q, abs=1e-10)  # [rad]
    assert motion.rate == pytest.approx(engine.dq, abs=1e-9)
    assert motion.second == pytest.approx(engine.ddq, abs=1e-8)


@pytest.mark.parametrize("name", COMPARED)
def test_frictionless_shaft_torque(name: str) -> None:
    rack, angles = COMPARED[name](), crank_angles(name, STEPS)
    engine, ours = rack_cycle(rack, angles), package_cycle(rack, angles)
    limit = 1e-7 * np.abs(engine.force).max()
    anticlockwise, clockwise = ours.shaft_torque[0, 0]
    assert anticlockwise == pytest.approx(engine.force, abs=limit)
    # The motor that turns clockwise feels the same torque on the shaft the other way.
    assert clockwise == pytest.approx(-engine.force, abs=limit)


@pytest.mark.parametrize("name", COMPARED)
def test_link_force_without_friction(name: str) -> None:
    rack, angles = COMPARED[name](), crank_angles(name, STEPS)
    # Without its own weight the force in the link is the force it puts on the arm pin.
    rack = replace(rack, crank=replace(rack.crank, link_mass=0.0))
    engine, ours = rack_cycle(rack, angles), package_cycle(rack, angles)
    on_pin = np.hypot(*engine.pin_force[:, 0].T)
    assert ours.bar_force is not None
    assert np.abs(ours.bar_force[0, 0, 0]) == pytest.approx(on_pin, abs=1e-6)  # [N]


@pytest.mark.parametrize("speed", [5.0, -5.0])
@pytest.mark.parametrize("name", COMPARED)
def test_shaft_torque_at_speed(name: str, speed: float) -> None:
    # 5 rad/s is 48 rpm, far too fast for eggs, so that inertia has a say: it changes the peak
    # by up to several times. A point mass in MuJoCo is a sphere of 0.1 mm, hence 1e-5.
    rack, angles = COMPARED[name](), crank_angles(name, STEPS)
    engine = rack_cycle(rack, angles, speed)
    ours = package_cycle(rack, angles).shaft_torque_at(abs(speed))[0, 0, 0 if speed > 0 else 1]
    felt = np.sign(speed) * engine.force
    assert ours == pytest.approx(felt, abs=1e-5 * np.abs(felt).max())


@pytest.mark.parametrize("name", COMPARED)
def test_the_rack_is_put_together_the_same_way(name: str) -> None:
    rack = COMPARED[name]()
    turner, _ = package_trays(rack, FRICTIONLESS)
    drive = package_crank(rack, FRICTIONLESS)
    assert drive.assemble(turner.path()).branch == rack.crank.push_sense


def test_known_answer_of_four_top_heavy_trays() -> None:
    # Independent calculation, no friction: tilt +-45.000 deg; shaft torque peaks +1.913 N m at
    # 32.5 deg of tilt and -1.425 N m, turning anticlockwise (figures cut at three decimals).
    ours = package_cycle(top_heavy_four(), full_turn(720))
    tilt, torque = np.degrees(ours.motion.coordinate), ours.shaft_torque[0, 0, 0]
    assert [tilt.min(), tilt.max()] == pytest.approx([-45.0, 45.0], abs=5e-4)
    assert torque.max() == pytest.approx(1.913, abs=1e-3)
    assert torque.min() == pytest.approx(-1.425, abs=1e-3)
    assert tilt[torque.argmax()] == pytest.approx(32.5, abs=0.5)


def test_a_link_one_millimetre_too_short_stays_open_at_the_same_angles() -> None:
    rack, angles = top_heavy_four(), full_turn(STEPS)
    short = replace(rack, crank=replace(rack.crank, length=0.112))
    engine, ours = rack_cycle(short, angles), package_cycle(short, angles)
    open_there = np.isnan(engine.q)
    assert 0 < open_there.sum() < STEPS
    assert (np.isnan(ours.motion.coordinate) == open_there).all()
    assert (np.isnan(ours.shaft_torque[0, 0, 0]) == open_there).all()
