"""The physics engine's opinion on racks, tested by itself before anything is compared with it.

Authority: MuJoCo 3 or later (Todorov, Erez and Tassa 2012). The checks here need nothing of the
package: known answers, derivatives by differences, and MuJoCo's own constraint solver.
"""

from __future__ import annotations

import ast
import sys
from dataclasses import replace
from math import radians
from pathlib import Path

import mujoco
import numpy as np
import pytest

from .mujoco_models import full_turn, rack_cycle, rack_mechanism, rack_pose, turn_crank
from .rack_examples import RACKS, crank_angles, top_heavy_four

OUTSIDE_OPINIONS = sorted(
    path
    for pattern in ("mujoco_*.py", "force_balance*.py", "rack_*.py", "turner_*.py")
    for path in Path(__file__).parent.glob(pattern)
)


@pytest.mark.parametrize("path", OUTSIDE_OPINIONS, ids=lambda p: p.name)
def test_outside_opinions_import_nothing_of_the_package(path: Path) -> None:
    allowed = {"mujoco", "numpy", "scipy"} | set(sys.stdlib_module_names)
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            assert {a.name.split(".")[0] for a in node.names} <= allowed
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            assert (node.module or "").split(".")[0] in allowed
        elif isinstance(node, ast.ImportFrom):
            # Siblings, but only those that are outside opinions themselves.
            assert f"{node.module}.py" in {p.name for p in OUTSIDE_OPINIONS}


def test_rack_of_four_top_heavy_trays_gives_the_known_answer() -> None:
    # Independent calculation: tilt +-45.000 deg, peaks +1.913 N m at 32.5 deg and -1.425 N m
    # turning anticlockwise, no friction. Those figures stop at the third decimal, hence 1e-3.
    cycle = rack_cycle(top_heavy_four(), full_turn(720))
    assert np.degrees([cycle.q.min(), cycle.q.max()]) == pytest.approx([-45, 45], abs=5e-4)
    assert cycle.force.max() == pytest.approx(1.913, abs=1e-3)
    assert cycle.force.min() == pytest.approx(-1.425, abs=1e-3)
    at_peak = np.degrees(cycle.q[cycle.force.argmax()])
    assert at_peak == pytest.approx(32.5, abs=0.5)  # the top is flat: 0.5 deg is 1e-4 of it


@pytest.mark.parametrize("name", RACKS)
def test_loops_close_to_the_last_digits(name: str) -> None:
    cycle = rack_cycle(RACKS[name](), crank_angles(name))
    assert np.isfinite(cycle.force).all()
    assert cycle.gap.max() < 1e-14  # [m]


@pytest.mark.parametrize("name", RACKS)
def test_every_rack_is_level_somewhere_and_tilts_far(name: str) -> None:
    # A rack that hardly moves would agree with anything.
    tilt = np.degrees(rack_cycle(RACKS[name](), crank_angles(name)).q)
    assert tilt.min() < -30
    assert tilt.max() > 30


@pytest.mark.parametrize("name", RACKS)
def test_projected_torque_is_the_slope_of_mujocos_energy(name: str) -> None:
    rack, h = RACKS[name](), 1e-5
    mechanism = rack_mechanism(rack)
    angles = crank_angles(name, 18)[1:-1]
    here = rack_cycle(rack, angles)

    def energy(shift: float) -> np.ndarray:
        places = rack_places(rack, angles + shift)
        return np.array([mechanism.potential_energy(p) for p in places])

    slope = (energy(h) - energy(-h)) / (2 * h)
    # The energy is of the order of 10 J with 16 digits: 1e-15 * 10 / 1e-5 is 1e-9 N m.
    assert here.force == pytest.approx(slope, abs=1e-7 * np.abs(here.force).max() + 1e-8)


def rack_places(rack, angles):  # type: ignore[no-untyped-def]
    """Closed joint positions at the crank angles."""
    mechanism = rack_mechanism(rack)
    return turn_crank(
        mechanism,
        lambda crank, tilt: rack_pose(mechanism, rack, crank, tilt),
        f"pin{rack.driven}",
        rack.crank,
        angles,
        (-np.pi, np.pi),
    )


@pytest.mark.parametrize("name", RACKS)
def test_rates_are_the_differences_of_the_positions(name: str) -> None:
    rack, h = RACKS[name](), 1e-4
    angles = crank_angles(name, 18)[1:-1]
    before, here, after = (rack_cycle(rack, angles + s) for s in (-h, 0.0, h))
    assert here.dq == pytest.approx((after.q - before.q) / (2 * h), abs=1e-6)
    assert here.ddq == pytest.approx((after.dq - before.dq) / (2 * h), abs=1e-5)


def kinetic(rack, angles):  # type: ignore[no-untyped-def]
    """Inertia of everything seen from the crank, t^T M t, with MuJoCo's mass matrix."""
    mechanism = rack_mechanism(rack)
    model, data = mechanism.model, mechanism.data
    seen = []
    for place in rack_places(rack, angles):
        mechanism.place(place)
        along = mechanism.tangent()
        mujoco.mj_forward(model, data)
        moved = np.zeros(model.nv)
        mujoco.mj_mulM(model, data, moved, along)
        seen.append(along @ moved)
    return np.array(seen)


@pytest.mark.parametrize("name", RACKS)
def test_torque_at_speed_is_the_power_into_mujocos_kinetic_energy(name: str) -> None:
    # At constant crank speed w the torque above the static one is w^2/2 dJ/dtheta, where
    # J = t^T M t is the inertia seen from the crank; M from MuJoCo, slope by differences.
    rack, w, h = RACKS[name](), 9.0, 1e-5
    angles = crank_angles(name, 18)[1:-1]
    extra = rack_cycle(rack, angles, w).force - rack_cycle(rack, angles).force
    slope = (kinetic(rack, angles + h) - kinetic(rack, angles - h)) / (2 * h)
    expected = w**2 / 2 * slope
    assert np.abs(expected).max() > 1e-3
    assert extra == pytest.approx(expected, abs=1e-6 * np.abs(expected).max() + 1e-8)


@pytest.mark.parametrize("name", RACKS)
def test_mujocos_own_constraint_solver_stands_still_under_the_torque(name: str) -> None:
    # The same tree with MuJoCo's connect constraints switched on. Under the projected torque
    # nothing may accelerate, and without it the rack does. MuJoCo's constraints give way by the
    # share 1 - d (its impedance d is at most 0.9999), so the acceleration left over must shrink
    # with it; extrapolated to rigid pins it is nothing.
    rack = RACKS[name]()
    # Bodies without any mass are only given way to.
    crank = replace(rack.crank, link_mass=max(rack.crank.link_mass, 0.05))
    rack = replace(rack, crank=crank, tie_bar_mass=max(rack.tie_bar_mass, 0.05))
    angles = crank_angles(name, 12)
    torques = rack_cycle(rack, angles).force
    hardest = int(np.abs(torques).argmax())
    place = rack_places(rack, angles[hardest : hardest + 1])[0]

    def crank_acceleration(impedance: float, torque: float) -> float:
        mechanism = rack_mechanism(rack)
        connects = "".join(
            f'<connect site1="{a}" site2="{b}" solref="0.002 1"'
            f' solimp="{impedance} {impedance} 1e-3"/>'
            for a, b in mechanism.loops.pins
        )
        xml = mechanism.xml.replace('constraint="disable"', "").replace(
            "</mujoco>", f"<equality>{connects}</equality></mujoco>"
        )
        model = mujoco.MjModel.from_xml_string(xml)
        model.opt.tolerance, model.opt.iterations = 0.0, 200
        data = mujoco.MjData(model)
        data.qpos[:] = place
        data.qfrc_applied[mechanism.driven] = torque
        mujoco.mj_forward(model, data)
        return float(data.qacc[mechanism.driven])

    soft, stiff = (crank_acceleration(d, torques[hardest]) for d in (0.999, 0.9999))
    rigid = (10 * stiff - soft) / 9
    assert abs(rigid) < 1e-3 * abs(crank_acceleration(0.9999, 0.0))


@pytest.mark.parametrize("name", [n for n, r in RACKS.items() if r().crank.link_mass > 0])
def test_halving_the_link_is_exact_for_its_weight_and_not_for_its_inertia(name: str) -> None:
    # Half at each end has the weight and the centre of a uniform rod, so the static torque is
    # the same; its inertia about the centre is three times too large, m l^2/4 against m l^2/12.
    rack, angles = RACKS[name](), crank_angles(name)
    ends, rod = (rack_cycle(rack, angles, lumped_link=lumped) for lumped in (True, False))
    assert ends.force == pytest.approx(rod.force, abs=1e-12 * np.abs(rod.force).max())
    fast = 2 * np.pi * 15 / 60  # 15 rpm, faster than a turner should be
    ends, rod = (rack_cycle(rack, angles, fast, lumped) for lumped in (True, False))
    difference = np.abs(ends.force - rod.force).max() / np.abs(rod.force).max()
    assert 0 < difference < 2e-3


def test_a_link_too_short_to_reach_stays_open() -> None:
    rack = top_heavy_four()
    # Farthest apart: crank pin down, arm pin up. Nearest distances are what a link must bridge.
    short = replace(rack, crank=replace(rack.crank, length=0.050))
    cycle = rack_cycle(short, np.radians([270.0]))
    assert np.isnan(cycle.q).all()
    assert np.isnan(cycle.force).all()


def test_the_two_ways_to_put_the_linkage_together_are_different_places() -> None:
    rack = top_heavy_four()
    other = replace(rack, crank=replace(rack.crank, push_sense=-1))
    angle = np.array([radians(0.0)])
    assert rack_cycle(rack, angle).q != pytest.approx(rack_cycle(other, angle).q, abs=0.5)
