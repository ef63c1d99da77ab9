"""Turning shaft: the motor's torque is the load torque, and no pin of the turner is pushed."""

from dataclasses import replace

import numpy as np
import pytest

from tests.drives.toys import Weights, sliding, swinging
from turnercalc.cycle import turn_cycle
from turnercalc.drives.shaft import TurningShaft
from turnercalc.swing import ends

TRAVEL = (-0.8, 0.8)


def direct(**more: object) -> tuple[Weights, TurningShaft]:
    turner = swinging(travel=TRAVEL, rubs=0.004, drags=0.01, **more)  # type: ignore[arg-type]
    return turner, TurningShaft().assemble(turner.path(), TRAVEL, endless=turner.endless)


def test_reversing_shaft_runs_the_travel_and_back() -> None:
    turner, drive = direct()
    assert drive.both_ways
    motion = drive.close(turner.path(), drive.positions(TRAVEL, 201))
    assert not motion.round_and_round
    assert motion.coordinate[[0, -1]] == pytest.approx(TRAVEL)
    assert (motion.rate == 1.0).all()
    assert (motion.second == 0.0).all()
    swing = ends(turner, drive)
    assert (swing.low, swing.high) == pytest.approx(TRAVEL)
    assert not swing.rests


def test_endless_shaft_goes_round_one_move_after_the_other() -> None:
    turner, drive = direct(endless=True)
    assert not drive.both_ways
    motion = drive.close(turner.path(), drive.positions(TRAVEL))
    assert motion.round_and_round
    assert motion.position[0] == TRAVEL[0]
    assert motion.position.size * np.diff(motion.position)[0] == pytest.approx(2 * np.pi)


@pytest.mark.parametrize("endless", [False, True])
def test_shaft_torque_is_load_and_friction(endless: bool) -> None:
    turner, drive = direct(endless=endless)
    cycle = turn_cycle(turner, drive, turner.load_cases(), levels=("none", "middle"))
    load = turner.load_torque(np.ones((1, 1)), cycle.motion.coordinate, 1.0)[0, 0, 0]
    # No force on the bearing but 2 kg, which rubs 0.004 N·m per newton, and a drag of 0.01 N·m.
    rubs = 2.0 * 9.80665 * 0.004 + 0.01
    assert cycle.shaft_torque[0, 0] == pytest.approx(np.array([load, -load]))
    assert cycle.shaft_torque[0, 1] == pytest.approx(np.array([load + rubs, -load + rubs]))
    assert cycle.bar_force is None
    assert set(cycle.pin_forces) == {"bearing"}


def test_round_and_round_the_work_is_what_friction_took() -> None:
    turner, drive = direct(endless=True)
    cycle = turn_cycle(turner, drive, turner.load_cases())
    np.testing.assert_allclose(cycle.shaft_torque.mean(-1), cycle.lost.mean(-1), rtol=1e-12)


def test_inertia_of_an_even_turn_is_only_what_changes_with_the_angle() -> None:
    turner, drive = direct(extra_inertia=0.02)
    cycle = turn_cycle(turner, drive, turner.load_cases())
    # A part on a pivot has the same inertia everywhere, and the shaft turns steadily.
    assert np.abs(cycle.inertia_torque).max() < 1e-15


def test_it_always_gets_through() -> None:
    turner, drive = direct()
    closing = drive.closing(turner.path())
    assert closing.closes
    assert closing.kind == "shaft"


def test_a_sliding_part_is_turned_by_its_own_coordinate() -> None:
    # A part that slides has no shaft of its own; a pinion's position is its travel.
    turner = replace(sliding(), travel=(-0.02, 0.03))
    drive = TurningShaft().assemble(turner.path(), turner.travel)
    cycle = turn_cycle(turner, drive, turner.load_cases(), levels=("none",))
    push = 1.5 * 9.80665 * np.sin(0.1)
    assert cycle.shaft_torque[0, 0, 0] == pytest.approx(push, rel=1e-12)
