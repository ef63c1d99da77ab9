"""Rolling bars against the MuJoCo physics engine, and against a balance of every force.

Authority: MuJoCo (Todorov, Erez and Tassa 2012), once as `mujoco_turners.py` says (exact, by
inverse dynamics), once with its own contacts, where eggs really roll and nothing is told of nests
or forces. Wanted: motion to 1e-5 and frictionless torque to 1e-3 of its peak.

With friction: every egg and bar in balance by itself, the grip at each contact included, which
the package leaves out of the journals. Wanted within 3 %.
"""

from __future__ import annotations

from math import pi, radians

import numpy as np
import pytest

from turnercalc.cycle import turn_cycle
from turnercalc.drives.shaft import TurningShaft
from turnercalc.joints import JointFriction
from turnercalc.tables import Range3
from turnercalc.turners.base import LoadCase
from turnercalc.turners.heavy_sides import PHASES
from turnercalc.turners.joining import Joining
from turnercalc.turners.rolling_bars import RollingBars

from .mujoco_bars import let_bars_run_down, let_eggs_roll, press_beside_a_bar_that_stands
from .mujoco_turners import bars_cycle
from .turner_numbers import Bars, EggOnBars, RollingEgg

EGG, RADIUS, OFF, INERTIA = 0.155, 0.02875, 0.0012, 5.0e-5
BAR, PITCH, COUNT = 0.0125, 0.068, 4
#: Eggs in each lane with their heavy side to the left and to the right half way.
SIDES = ((2, 0), (0, 1), (1, 1))
LEFT, RIGHT = radians(-90.0), radians(90.0)


def exactly(value: float) -> Range3:
    return Range3(value, value, value)


def ours(**changes: object) -> RollingBars:
    numbers: dict[str, object] = {
        "count": COUNT,
        "pitch": PITCH,
        "bar_radius": BAR,
        "egg_radius": RADIUS,
        "egg_mass": EGG,
        "egg_inertia": INERTIA,
        "egg_turn": pi,
        "off_centre": exactly(OFF),
    }
    return RollingBars(**(numbers | changes))  # type: ignore[arg-type]


def loaded(sides: tuple[tuple[int, int], ...] = SIDES) -> LoadCase:
    cells = np.zeros((COUNT - 1, len(PHASES)), int)
    cells[:, :2] = sides
    return LoadCase("filled", "filled", "filled", True, cells)


def theirs(turned: float = 0.0) -> Bars:
    """The same eggs; heavy sides stand as they do when the bars are at the angle `turned`."""
    eggs = []
    for lane, (left, right) in enumerate(SIDES):
        for side in (LEFT,) * left + (RIGHT,) * right:
            egg = RollingEgg(EGG, RADIUS, INERTIA, OFF, side - turned * BAR / RADIUS)
            eggs.append(EggOnBars(egg, lane))
    return Bars(COUNT, BAR, PITCH, 2e-5, tuple(eggs))


@pytest.mark.parametrize("speed", [0.0, 8.0])
def test_lopsided_eggs_on_four_bars(speed: float) -> None:
    positions = np.linspace(*ours().travel, 73)
    engine = bars_cycle(theirs(), positions, speed)
    cycle = turn_cycle(ours(), TurningShaft(), (loaded(),), levels=("none",), positions=positions)
    assert -ours().ratio * positions == pytest.approx(engine.q, abs=1e-9)
    torque = cycle.shaft_torque_at(speed)[0, 0]
    limit = 1e-6 * np.abs(engine.force).max()
    assert torque[0] == pytest.approx(engine.force, abs=limit)
    assert torque[1] == pytest.approx(-engine.force, abs=limit)


@pytest.mark.parametrize("speed", [1.0, -1.0])
def test_eggs_that_really_roll(speed: float) -> None:
    """Contacts and nothing else: turn of the eggs, and the torque all bars ask together."""
    start = -0.8 * speed
    seats = tuple(
        EggOnBars(RollingEgg(EGG, RADIUS, INERTIA, OFF, LEFT - start * BAR / RADIUS), lane)
        for lane in (0, 1)
    )
    rolled = let_eggs_roll(Bars(COUNT, BAR, PITCH, 2e-5, seats), speed, 2.0)
    turned = np.ptp(rolled.eggs, axis=0) / np.ptp(rolled.bars[:, 0])
    assert turned == pytest.approx(ours().ratio, rel=1e-5)
    case, positions = loaded(((1, 0), (1, 0), (0, 0))), start + rolled.bars[:, 0]
    cycle = turn_cycle(ours(), TurningShaft(), (case,), levels=("none",), positions=positions)
    asked = cycle.load_torque[0, 0, 0]
    assert np.abs(asked).max() > 0.9 * 2 * EGG * 9.80665 * OFF * BAR / RADIUS
    assert rolled.torques.sum(axis=1) == pytest.approx(asked, abs=1e-3 * np.abs(asked).max())


@pytest.mark.parametrize("arm", [0.2e-3, 0.5e-3, 1.0e-3])
def test_bars_run_down_by_rolling_resistance_alone(arm: float) -> None:
    """Round eggs on bars that nothing drives: J dw/dt is the torque that rolling takes."""
    egg, radius, bar, pitch, inertia = 0.060, 0.022, 0.008, 0.036, 1e-3
    seats = tuple(EggOnBars(RollingEgg(egg, radius, 1.1e-5), lane) for lane in (0, 2))
    started = Bars(COUNT, bar, pitch, inertia, seats)
    rolled = let_bars_run_down(started, 3.0, 2.0, rolling_arm=arm)
    slows = -np.polyfit(rolled.time, rolled.speeds.mean(axis=1), 1)[0]
    turner = ours(
        pitch=pitch,
        bar_radius=bar,
        bar_inertia=inertia,
        egg_radius=radius,
        egg_mass=egg,
        egg_inertia=1.1e-5,
        off_centre=exactly(0.0),
        rolling_arm=exactly(arm),
    )
    case = loaded(((1, 0), (0, 0), (1, 0)))
    cycle = turn_cycle(turner, TurningShaft(), (case,), positions=[0.0, 1.0])
    heavy, _ = turner.inertia(case.cells[None].astype(float), 0.0)
    # A contact that grips and rolls at once slips a little there, so that it slows a little less.
    assert slows * heavy.item() == pytest.approx(cycle.shaft_torque[0, 1, 0, 0], rel=0.03)


@pytest.mark.parametrize("pitch", [0.060, 0.068])
def test_an_egg_wedges_beside_a_bar_that_stands(pitch: float) -> None:
    """Beyond 90 degrees of nest and friction angle together, and not before."""
    nest = np.arcsin(pitch / 2 / (RADIUS + BAR))
    pair = Bars(2, BAR, pitch, 1.0, (EggOnBars(RollingEgg(EGG, RADIUS, INERTIA), 0),))

    def press(short_of_90: float) -> float:
        friction = float(np.tan(pi / 2 - nest - radians(short_of_90)))
        return press_beside_a_bar_that_stands(pair, friction)

    assert press(10.0) < 100.0  # times its weight, as it is drawn in and slips
    assert press(-1.0) > 3000.0  # all that the motor gives
    limit_of_ours = ours(pitch=pitch).nest
    assert limit_of_ours == pytest.approx(nest)


def balanced(bars: RollingBars, sides: tuple[tuple[int, int], ...], q: float, way: float) -> float:
    """Shaft torque with every egg and every bar in balance, the bars turning `way` round [N·m].

    Both contacts of an egg grip alike; of the grip, the journals of its bars bear the reaction.
    """
    arm, eta = bars.rolling_arm.middle, bars.joining.efficiency.middle
    nest = np.arcsin(PITCH / 2 / (RADIUS + BAR))
    own = np.array([0.0, -bars.bar_mass * 9.80665])
    forces = [own.copy() for _ in range(COUNT)]
    forces[0] += [bars.joining.end_pull, 0.0]
    forces[-1] -= [bars.joining.end_pull, 0.0]
    torques = np.zeros(COUNT)
    for lane, (left, right) in enumerate(sides):
        for side in (LEFT,) * left + (RIGHT,) * right:
            # Moments about the egg's middle: its heavy side hangs at `at` from straight down.
            at = side - q * BAR / RADIUS
            lifted = way * -EGG * 9.80665 * OFF * np.sin(at)
            both = EGG * 9.80665 / np.cos(nest)  # of the two normal forces, upwards
            grip = (both * arm + lifted) / RADIUS / 2
            apart = 2 * grip * np.cos(nest) / np.sin(nest) * way  # sideways
            normals = (0.5 * (both + apart), 0.5 * (both - apart))
            for bar, normal, lean in ((lane, normals[0], 1.0), (lane + 1, normals[1], -1.0)):
                along = np.array([lean * np.sin(nest), np.cos(nest)])
                turning = way * np.array([-along[1], along[0]])
                forces[bar] -= normal * along + grip * turning
                torques[bar] += grip * BAR + normal * arm
    circle = 0.5 * bars.journal_diameter * np.sin(np.arctan(bars.journal_friction.middle))
    torques += circle * np.hypot(*np.array(forces).T)
    return float(sum(t / eta ** abs(j - bars.driven_bar) for j, t in enumerate(torques)))


@pytest.mark.parametrize("way", [1.0, -1.0])
@pytest.mark.parametrize("sides", [SIDES, ((4, 0), (4, 0), (4, 0)), ((0, 0), (0, 3), (0, 0))])
def test_every_egg_and_bar_in_balance(sides: tuple[tuple[int, int], ...], way: float) -> None:
    bars = ours(
        bar_mass=0.130,
        journal_diameter=0.008,
        journal_friction=JointFriction(0.15, 0.30, 0.45, 0.55),
        rolling_arm=Range3(0.5e-3, 1e-3, 2e-3),
        joining=Joining(bar_to_bar=True, efficiency=Range3(0.8, 0.9, 0.95), end_pull=24.0),
        driven_bar=1,
    )
    positions = np.linspace(*bars.travel, 25)
    cycle = turn_cycle(bars, TurningShaft(), (loaded(sides),), positions=positions)
    asked = cycle.shaft_torque[0, 1, 0 if way > 0 else 1]
    expected = np.array([balanced(bars, sides, q, way) for q in positions])
    assert asked == pytest.approx(expected, abs=0.03 * expected.max())
