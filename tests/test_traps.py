"""Ten ways in which a toy calculator goes wrong, each with a test that would catch it here.

Five of them are about the cycle and stand in test_cycle.py: numbers where the link cannot reach
(a clipped arccos), friction with its sign turned round, pivot friction from the weight alone,
worst loads from full and half only, and the choice of branch below.
"""

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from turnercalc.design import read_design
from turnercalc.loads import hardest
from turnercalc.motors import MotorFile, MotorResult, read_motors
from turnercalc.sizing import Sizing, size

EXAMPLES = Path(__file__).parents[1] / "examples"
LISTING = "name,what,speed,torque,torque is,supply\n"


@cache
def sized(*settings: tuple[str, str], listing: str = "") -> Sizing:
    design = read_design(EXAMPLES / "larder-rack.toml", dict(settings))
    motors: MotorFile = read_motors(listing or EXAMPLES / "motors.csv")
    return size(design, motors)


def judged(row: str, *settings: tuple[str, str]) -> MotorResult:
    listed = sized(("motor.have", None), *settings, listing=LISTING + row)  # type: ignore[arg-type]
    return listed.motors[0]


@pytest.mark.parametrize("points", ["right", "left"])
def test_the_branch_is_the_one_in_which_the_tray_swings_about_level(points: str) -> None:
    """Trap: the wrong branch, which turns the trays upside down."""
    side = {"right": "56 mm right of pivot", "left": "56 mm left of pivot"}[points]
    sizing = sized(("arm.points", points), ("crank.across", side))
    assert np.degrees(sizing.ends.low) == pytest.approx(-44.4, abs=0.1)
    assert np.degrees(sizing.ends.high) == pytest.approx(44.4, abs=0.1)


def test_the_start_over_the_run_depends_on_the_bearing() -> None:
    """Trap: one start factor for everything."""
    ratios = []
    for bearing in ("ball bearing", "steel in nylon", "steel in steel, dry"):
        sizing = sized(("pivots.bearing", bearing), ("trays.filled", "in mirror pairs"))
        assert sizing.cycle is not None
        assert sizing.starting is not None
        high = sizing.cycle.levels.index("high")
        run = hardest(sizing.cycle, high, 0).torque
        ratios.append(hardest(sizing.starting, 0, 0).torque / run)
    ball, nylon, dry_steel = ratios
    assert 1.0 <= ball < 1.01
    assert nylon > ball + 0.01
    assert dry_steel > ball + 0.01
    assert abs(nylon - dry_steel) > 0.005


def test_rated_stall_and_holding_torque_are_different_things() -> None:
    """Trap: one torque for all kinds. The same figure counts fully, by a share, or not at all."""
    rated = judged("R,worm gearmotor,5 rpm,6 N·m,rated,12 V DC")
    stall = judged("S,worm gearmotor,5 rpm,6 N·m,stall,12 V DC")
    holding = judged("H,worm gearmotor,5 rpm,6 N·m,holding,12 V DC")
    assert rated.dependable == pytest.approx(6.0)
    assert stall.dependable is not None
    assert stall.dependable < 0.5 * 6.0
    assert holding.dependable is None or holding.dependable < 0.5 * 6.0


def test_a_loaded_motor_takes_longer_up_than_down() -> None:
    """Trap: half a turn over the listed speed. A brushed motor slows lifting, runs ahead down."""
    result = judged("W,worm gearmotor,5 rpm,3.2 N·m,rated,12 V DC")
    naive = 30.0 / 5.0
    assert result.shortest_move is not None
    assert result.longest_move is not None
    assert result.longest_move > 1.02 * naive
    assert result.shortest_move < 0.99 * naive
    synchronous = judged("Y,reversible synchronous gearmotor,5 rpm,6 N·m,rated,230 V 50 Hz")
    assert synchronous.longest_move == pytest.approx(naive, rel=1e-6)


@pytest.mark.parametrize("factor", ["1.5", "2.0", "3.0"])
def test_the_safety_factor_is_charged_once(factor: str) -> None:
    """Trap: a safety factor in the dependable torque and again in the comparison."""
    sizing = sized(("motor.safety_factor", factor))
    assert sizing.cycle is not None
    assert sizing.chosen is not None
    assert sizing.shopping is not None
    need = hardest(sizing.cycle, 1, sizing.better_direction).torque
    # At its speed the inertia of the trays adds a few parts in ten thousand.
    assert sizing.chosen.times_enough == pytest.approx(3.2 / need, rel=2e-3)
    assert sizing.shopping.rated_torque_min == pytest.approx(float(factor) * need, rel=2e-3)


def test_the_verdict_follows_the_factor_the_builder_asked_for() -> None:
    answers = [sized(("motor.safety_factor", f)).verdict.value for f in ("1.5", "2.0")]
    assert answers == ["fine", "marginal"]
