"""A sliding grid with friction everywhere, against a balance of forces written down once more.

Authority: statics alone. Grid, link, crank and one egg are cut free and their equilibrium is
solved for all forces at once with a general root finder: the link's line of action touches the
friction circles of both its pins (Beer and Johnston, Vector Mechanics, section 8.6, from memory),
the grid rests on guides with Coulomb friction, each egg touches bar and floor. No virtual work and
no iteration of losses as in the package. Wanted: 3 % of the peak; they agree to rounding.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import root

from tests.grids import EXACTLY_NONE, crank_for, exactly, six_cells
from turnercalc.cycle import turn_cycle
from turnercalc.drives.crank_link import CrankLink
from turnercalc.joints import JointFriction
from turnercalc.turners.sliding_grid import SlidingGrid

GRAVITY = 9.80665  # [m/s2], standard gravity (CGPM 1901)
MU_PIN, MU_GUIDE, MU_BAR, ARM = 0.30, 0.25, 0.35, 0.0015
RADIUS, PIN = 0.02175, 0.008


def one_value(mu: float) -> JointFriction:
    return JointFriction(mu, mu, mu, mu)


def the_grid(**changes: object) -> SlidingGrid:
    numbers: dict[str, object] = {
        "off_centre": EXACTLY_NONE,
        "bar_friction": exactly(MU_BAR),
        "rolling_arm": exactly(ARM),
        "floor_friction": exactly(np.inf),
        "guide_friction": one_value(MU_GUIDE),
    }
    return six_cells(**(numbers | changes))


def egg_by_statics(slope: float) -> tuple[float, float]:
    """Push along the floor and lift of one egg that is rolled up a slope [N]."""
    weight = 0.0583 * GRAVITY

    def unbalanced(forces: np.ndarray) -> list[float]:
        bar, floor, hold = forces
        return [
            bar - hold - weight * np.sin(slope),
            floor - weight * np.cos(slope) - MU_BAR * bar,
            hold * RADIUS - floor * ARM - MU_BAR * bar * RADIUS,
        ]

    found = root(unbalanced, [0.1, weight, 0.1], tol=1e-13)
    assert np.abs(unbalanced(found.x)).max() < 1e-12
    bar = float(found.x[0])
    return bar, MU_BAR * bar


def torque_by_statics(
    grid: SlidingGrid, drive: CrankLink, theta: float, way: float, pushed: bool
) -> float:
    """Shaft torque as the motor feels it, of the full grid at one crank angle."""
    # Where everything is, from two circles and a line, by the quadratic formula.
    ax = drive.across + drive.crank * np.cos(theta)
    ay = drive.height + drive.crank * np.sin(theta)
    q = ax + drive.branch * np.sqrt(drive.link**2 - ay**2)
    ux, uy = (q - ax) / drive.link, -ay / drive.link

    def motion(angle: float) -> tuple[float, float]:
        bx = drive.across + drive.crank * np.cos(angle)
        by = drive.height + drive.crank * np.sin(angle)
        slide = bx + drive.branch * np.sqrt(drive.link**2 - by**2)
        return slide, float(np.arctan2(-by, slide - bx))

    h = 1e-6
    (q1, turn1), (q0, turn0) = motion(theta + h), motion(theta - h)
    going = np.sign(way * (q1 - q0))
    link_turns = way * (np.angle(np.exp(1j * (turn1 - turn0))) / (2 * h))
    circle = 0.5 * PIN * MU_PIN / np.hypot(1.0, MU_PIN)
    one, lift = egg_by_statics(0.0) if pushed else (0.0, 0.0)

    def unbalanced(forces: np.ndarray) -> list[float]:
        # (fx, fy): link on grid at the driven pin; guides: normal; moment of the motor.
        fx, fy, normal, motor = forces
        size = np.hypot(fx, fy)
        # Friction moments on the link, against its rotation relative to grid and to crank.
        at_tip = -np.sign(link_turns) * circle * size
        at_foot = -np.sign(link_turns - way) * circle * size
        return [
            # the grid slides steadily: along and upwards
            fx - going * (MU_GUIDE * abs(normal) + 30 * one),
            normal + fy + 30 * lift - 0.65 * GRAVITY,
            # the link balances about its foot: the grid pushes back on its tip with (-fx, -fy)
            drive.link * (ux * -fy - uy * -fx) + at_tip + at_foot,
            # the crank: the link pushes on the crank pin with (-fx, -fy); its friction turns back
            motor + (ax - drive.across) * -fy - (ay - drive.height) * -fx - at_foot,
        ]

    slope = uy / ux
    start = [going * 3.0, going * 3.0 * slope, 6.0, 0.1 * way]
    found = root(unbalanced, start, tol=1e-12)
    assert np.abs(unbalanced(found.x)).max() < 1e-8
    return float(way * found.x[3])


@pytest.mark.parametrize("way", [1.0, -1.0])
@pytest.mark.parametrize(
    "placed", [{}, {"height": 0.03}, {"height": -0.05}, {"across": -0.11, "height": 0.01}]
)
def test_shaft_torque_of_a_full_grid_with_friction_everywhere(
    placed: dict[str, float], way: float
) -> None:
    grid = the_grid()
    drive = crank_for(grid, friction=one_value(MU_PIN), pin_diameter=PIN, **placed)
    # away from the ends, where no sense of motion is sure, and after the play is crossed
    theta = np.radians(np.arange(0.5, 360.0, 1.0))
    cycle = turn_cycle(grid, drive, [grid.cases[0]], levels=("middle",), positions=theta)
    q, rate = cycle.motion.coordinate, cycle.motion.rate
    ours = cycle.shaft_torque[0, 0, 0 if way > 0 else 1]
    gone = np.where(way * rate > 0, q - q.min(), q.max() - q)
    peak = np.abs(ours).max()
    checked = 0
    for i in range(0, theta.size, 7):
        if abs(rate[i]) < 0.004 or abs(gone[i] - grid.play) < 0.0005:
            continue
        theirs = torque_by_statics(grid, drive, theta[i], way, bool(gone[i] >= grid.play))
        assert ours[i] == pytest.approx(theirs, abs=1e-3 * peak)
        checked += 1
    assert checked > 35


def test_the_push_on_one_egg() -> None:
    # uphill and level; solved as three equations, not by the formula
    for slope in (0.0, 0.05):
        push, lift = egg_by_statics(slope)
        grid = the_grid(lean=slope, guide_friction=one_value(0.0))
        one = grid.egg_forces(
            grid.progress(np.linspace(*grid.travel, 5), np.ones(5)), 1.0, np.ones(1), ("middle",)
        )
        assert float(one.push.flat[-1]) == pytest.approx(push, rel=1e-9)
        assert float(one.lift.flat[-1]) == pytest.approx(lift, rel=1e-9)
