"""The full force balance with friction, tested by itself before anything is compared with it."""

from __future__ import annotations

from dataclasses import replace
from math import radians, sqrt

import numpy as np
import pytest

from .force_balance import balance, friction_circle
from .mujoco_models import rack_cycle
from .rack_examples import ARCS, FRICTION, RACKS, crank_angles
from .rack_numbers import (
    FRICTIONLESS,
    CrankLink,
    Journal,
    PointMass,
    Rack,
    RackFriction,
    TorsionSpring,
    Tray,
)

BOTH = (1, -1)


@pytest.mark.parametrize("name", RACKS)
def test_without_friction_it_is_mujocos_torque_and_link_force(name: str) -> None:
    rack, angles = RACKS[name](), crank_angles(name)
    engine, forces = rack_cycle(rack, angles), balance(rack, FRICTIONLESS, angles, 1)
    assert forces.tilt == pytest.approx(engine.q, abs=1e-12)
    assert forces.tilt_rate == pytest.approx(engine.dq, abs=1e-11)
    # Bodies that MuJoCo will not take without mass carry 1e-9 kg: 1e-8 N.
    assert forces.torque == pytest.approx(engine.force, abs=1e-8 * np.abs(engine.force).max())
    in_arm_pin = np.hypot(*engine.pin_force[:, 0].T)
    assert forces.arm_pin_force == pytest.approx(in_arm_pin, abs=1e-7)


@pytest.mark.parametrize("name", RACKS)
@pytest.mark.parametrize("direction", BOTH)
def test_every_body_is_balanced(name: str, direction: int) -> None:
    forces = balance(RACKS[name](), FRICTION, crank_angles(name), direction)
    assert forces.residual.max() < 1e-12


@pytest.mark.parametrize("name", [n for n in RACKS if n not in ARCS])
@pytest.mark.parametrize("direction", BOTH)
def test_mean_torque_over_a_turn_is_the_mean_loss(name: str, direction: int) -> None:
    # Weights and springs give back what they took, whichever way the crank goes round.
    forces = balance(RACKS[name](), FRICTION, crank_angles(name), direction)
    assert forces.loss.min() > 0
    # The mean of 72 points of a smooth periodic torque is exact; a spring that goes slack is not
    # smooth.
    slack = any(tray.springs for tray in RACKS[name]().trays)
    assert forces.torque.mean() == pytest.approx(forces.loss.mean(), rel=1e-3 if slack else 1e-9)


@pytest.mark.parametrize("name", ARCS)
def test_there_and_back_over_an_arc_costs_the_loss_of_both_ways(name: str) -> None:
    there, back = (balance(RACKS[name](), FRICTION, crank_angles(name), d) for d in BOTH)
    spent = np.trapezoid(there.torque + back.torque, there.crank_angle)
    lost = np.trapezoid(there.loss + back.loss, there.crank_angle)
    assert spent == pytest.approx(lost, rel=1e-9)


@pytest.mark.parametrize("name", RACKS)
def test_friction_makes_either_direction_harder(name: str) -> None:
    rack, angles = RACKS[name](), crank_angles(name)
    free = balance(rack, FRICTIONLESS, angles, 1).torque
    assert (balance(rack, FRICTION, angles, 1).torque > free).all()
    assert (balance(rack, FRICTION, angles, -1).torque > -free).all()


@pytest.mark.parametrize("name", [n for n in RACKS if len(RACKS[n]().trays) > 1])
@pytest.mark.parametrize("direction", BOTH)
def test_sideways_forces_on_the_tie_bar_hardly_matter(name: str, direction: int) -> None:
    # The measure of the one simplification: at most 4e-4 of the peak on these racks.
    rack, angles = RACKS[name](), crank_angles(name)
    plain, honest = (balance(rack, FRICTION, angles, direction, s) for s in (False, True))
    assert honest.residual.max() < 1e-12
    peak = np.abs(honest.torque).max()
    difference = np.abs(plain.torque - honest.torque).max()
    assert 0 < difference < 1e-3 * peak


def lever(coefficient: float, journal_in: float = 1.0) -> tuple[Rack, RackFriction]:
    """A weight on one side of a journal, a very long upright link pulling on the other."""
    inch, pound = 0.0254, 0.45359237
    tray = Tray((PointMass(500 * pound, -2 * inch, 0.0),))
    far = 1e4
    crank = CrankLink(0.1 * inch, 2 * inch + 0.1 * inch, -far, far, +1)
    rack = Rack((tray,), 0.0, 2 * inch, 0.0, crank)
    free = Journal(0.0, 0.0)
    return rack, RackFriction(Journal(journal_in * inch, coefficient), free, free, free)


def test_pulley_on_a_dry_shaft() -> None:
    # Beer and Johnston, Vector Mechanics: Statics, sample problem 8.6 (from memory): 500 lb on
    # one side of a 4 in pulley on a 2 in shaft, mu = 0.20; 611 lb to start raising the weight,
    # 409 lb to hold it. The book rounds the friction circle r sin(atan 0.2) up to r mu = 0.2 in,
    # so the coefficient here is the one whose sine is 0.2 exactly.
    rack, friction = lever(0.2 / sqrt(1 - 0.2**2))
    assert friction_circle(friction.pivots) == pytest.approx(0.2 * 0.0254, rel=1e-12)
    pound_force = 0.45359237 * 9.80665
    # At crank angle 180 deg the arm is level. Anticlockwise the crank pin then goes down and
    # the link pulls the arm down, which raises the weight on the left.
    raising = balance(rack, friction, np.array([np.pi]), 1)
    lowering = balance(rack, friction, np.array([np.pi]), -1)
    assert raising.tilt_rate[0] < 0
    assert raising.link_tension[0] / pound_force == pytest.approx(611, abs=0.5)
    assert lowering.link_tension[0] / pound_force == pytest.approx(409, abs=0.5)


def test_one_frictionless_lever_by_hand() -> None:
    rack, friction = lever(0.0)
    forces = balance(rack, friction, np.array([np.pi]), 1)
    pound_force = 0.45359237 * 9.80665
    assert forces.link_tension[0] / pound_force == pytest.approx(500, rel=1e-6)
    assert forces.pivot_force[0, 0] / pound_force == pytest.approx(1000, rel=1e-6)
    # 500 lb at a crank of 0.1 in, pin going down on the left: the weight resists.
    assert forces.torque[0] == pytest.approx(500 * pound_force * 0.1 * 0.0254, rel=1e-6)


def test_springs_that_balance_a_top_heavy_tray_take_the_torque_away() -> None:
    # A torsion spring of stiffness m g h balances a mass above the pivot to first order.
    mass, height = 2.0, 0.03
    name = "one_tray_pulled_from_above"
    rack = RACKS[name]()
    plain = replace(
        rack, trays=(Tray((PointMass(mass, 0.0, height),)),), crank=replace(rack.crank, link_mass=0)
    )
    angles = crank_angles(name)
    peak = np.abs(balance(plain, FRICTIONLESS, angles, 1).torque).max()
    spring = TorsionSpring(mass * 9.80665 * height, 0.0)
    sprung = replace(plain, trays=(replace(plain.trays[0], torsion_springs=(spring,)),))
    small = np.abs(balance(sprung, FRICTIONLESS, angles, 1).torque).max()
    assert small < 0.15 * peak  # 1 - sin(t)/t is 0.08 at 40 deg


def test_a_rack_that_cannot_reach_has_no_forces() -> None:
    rack = RACKS["top_heavy_four"]()
    short = replace(rack, crank=replace(rack.crank, length=0.05))
    assert np.isnan(balance(short, FRICTION, np.array([radians(270)]), 1).torque).all()
