"""Rocking cradles against the MuJoCo physics engine.

Authority: MuJoCo (Todorov, Erez and Tassa 2012), used as `mujoco_turners.py` says (exact
positions, inverse dynamics, rolling taken for granted) and as `mujoco_contacts.py` says (left to
find by itself that a cradle rolls). Wanted: motion to 1e-5 rad and frictionless shaft torque to
1e-3 of its peak at every crank angle; both agree far better, so the limits here are tighter.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq

from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.drives import crank_link
from turnercalc.turners.base import LoadCase
from turnercalc.turners.rocking_cradle import RockingCradle

from .mujoco_contacts import let_cradle_go
from .mujoco_models import full_turn
from .mujoco_turners import turner_cycle
from .turner_examples import CRADLE, EXAMPLES
from .turner_numbers import CrankLink, PointMass, Rocker

STEPS = 72
_KNOWN = EXAMPLES["cradle by crank and link"]
assert isinstance(_KNOWN.drive, CrankLink)
CRADLES: dict[str, tuple[Rocker, CrankLink]] = {
    "known example": (CRADLE, _KNOWN.drive),
    "pushed from the left": (
        Rocker(0.30, (PointMass(2.6, 0.0, 0.16), PointMass(2.0, 0.0, 0.05)), -0.02, 0.22),
        CrankLink(0.055, -0.52, 0.18, 0.50, -1, 0.12),
    ),
    "top-heavy": (
        Rocker(0.22, (PointMass(4.0, 0.006, 0.27), PointMass(1.5, 0.0, 0.09)), 0.03, 0.25),
        CrankLink(0.05, 0.50, 0.28, 0.47, +1, 0.05),
    ),
    "one side filled": (
        Rocker(0.35, (PointMass(1.8, 0.075, 0.14), PointMass(2.2, 0.0, 0.04)), 0.0, 0.30),
        CrankLink(0.06, 0.60, 0.20, 0.60, +1, 0.0),
    ),
}


def package_cradle(part: Rocker) -> tuple[RockingCradle, LoadCase]:
    """The package's cradle and load for bare numbers: the first mass is eggs, the last wood."""
    eggs, wood = part.masses
    assert wood.x == 0.0
    cradle = RockingCradle(
        runner_radius=part.runner_radius,
        row_places=(eggs.x,),
        eggs_per_row=1,
        egg_mass=eggs.mass,
        egg_height=eggs.y,
        cradle_mass=wood.mass,
        cradle_height=wood.y,
        pin_across=part.pin_x,
        pin_height=part.pin_y,
        wanted_tilt=np.radians(40.0),
    )
    return cradle, LoadCase("as_given", "as given", "as_given", True, np.ones((1, 1), int))


def package_cycle(part: Rocker, crank: CrankLink, angles: np.ndarray) -> TurnCycle:
    """The package's turn cycle of the same numbers."""
    cradle, load = package_cradle(part)
    drive = crank_link.CrankLink(
        crank.radius,
        crank.length,
        crank.shaft_x,
        crank.shaft_y,
        branch=float(crank.push_sense),
        link_mass=crank.link_mass,
    )
    return turn_cycle(cradle, drive, [load], levels=("none",), positions=angles)


@pytest.mark.parametrize("name", CRADLES)
def test_tilt_and_its_rates(name: str) -> None:
    part, crank = CRADLES[name]
    engine, motion = (
        turner_cycle(part, crank, full_turn(STEPS)),
        package_cycle(part, crank, full_turn(STEPS)).motion,
    )
    assert np.isfinite(engine.q).all()
    assert np.ptp(engine.q) > 0.2
    assert motion.coordinate == pytest.approx(engine.q, abs=1e-10)  # [rad]
    assert motion.rate == pytest.approx(engine.dq, abs=1e-9)
    assert motion.second == pytest.approx(engine.ddq, abs=1e-8)


@pytest.mark.parametrize("name", CRADLES)
def test_frictionless_shaft_torque(name: str) -> None:
    part, crank = CRADLES[name]
    engine = turner_cycle(part, crank, full_turn(STEPS))
    ours = package_cycle(part, crank, full_turn(STEPS)).shaft_torque[0, 0]
    limit = 1e-6 * np.abs(engine.force).max()
    assert ours[0] == pytest.approx(engine.force, abs=limit)
    assert ours[1] == pytest.approx(-engine.force, abs=limit)


@pytest.mark.parametrize("speed", [5.0, -5.0])
@pytest.mark.parametrize("name", CRADLES)
def test_shaft_torque_at_speed(name: str, speed: float) -> None:
    # 48 rpm, far too fast for eggs, so that the changing inertia of a rolling body has a say.
    part, crank = CRADLES[name]
    engine = turner_cycle(part, crank, full_turn(STEPS), speed)
    cycle = package_cycle(part, crank, full_turn(STEPS))
    ours = cycle.shaft_torque_at(abs(speed))[0, 0, 0 if speed > 0 else 1]
    felt = np.sign(speed) * engine.force
    assert ours == pytest.approx(felt, abs=1e-5 * np.abs(felt).max())


@pytest.mark.parametrize("name", CRADLES)
def test_the_cradle_is_put_together_the_same_way(name: str) -> None:
    part, crank = CRADLES[name]
    cradle, _ = package_cradle(part)
    drive = crank_link.CrankLink(crank.radius, crank.length, crank.shaft_x, crank.shaft_y)
    assert drive.assemble(cradle.path()).branch == crank.push_sense


def test_a_short_link_stays_open_at_the_same_angles() -> None:
    part, crank = CRADLES["one side filled"]
    # The pin of a runner goes far: only a link that cannot reach the floor's side stays open.
    far = replace(crank, shaft_y=1.2, length=0.52)
    engine = turner_cycle(part, far, full_turn(STEPS))
    ours = package_cycle(part, far, full_turn(STEPS)).motion.coordinate
    open_there = np.isnan(engine.q)
    assert open_there.any()
    assert (np.isnan(ours) == open_there).all()


def test_let_go_on_a_rough_floor_it_rocks_as_far_and_as_fast_as_our_energy_says() -> None:
    # MuJoCo's contacts are told nothing of rolling; its steps of 0.1 ms lose 2.5e-4 of the energy.
    cradle, load = package_cradle(CRADLE)
    cells, up = load.cells[None].astype(float), np.ones(1)
    start = 0.3
    tilts = np.linspace(-1.0, start, 200_001)
    torque = cradle.load_torque(cells, tilts, up).squeeze()
    # Energy above that at the start, by the trapezoid rule from the start backwards.
    below = np.concatenate([[0.0], np.cumsum(0.5 * (torque[1:] + torque[:-1]) * np.diff(tilts))])
    energy = below - below[-1]
    other_end = brentq(lambda q: float(np.interp(q, tilts, energy)), -1.0, -0.1)
    rocking = let_cradle_go(CRADLE, start, 2.0)
    assert rocking.q.min() == pytest.approx(other_end, rel=5e-4)
    inertia, _ = cradle.inertia(cells, 0.0)
    speed = np.sqrt(-2.0 * np.interp(0.0, tilts, energy) / float(inertia.squeeze()))
    crossing = np.flatnonzero(np.diff(np.sign(rocking.q)))[0]
    seen = abs(rocking.q[crossing + 1] - rocking.q[crossing]) / 1e-4
    assert seen == pytest.approx(speed, rel=5e-4)
