"""How eggs lean, cross over and leave their cells, against a rigid-body engine.

MuJoCo knows nothing of our statics: it gets an ellipsoid (an egg with its greatest breadth at
half length), a floor, two walls and a gravity that turns slowly, and finds by contact forces alone
where the egg goes. Everything is ten times life size, which changes no angle.

The floor is a plane, not a box: between a smooth body and the face of a box the engine's general
collision search can return the normal of a hair-thin overlap with the wrong sign, and the floor
then pulls. For the same reason the walls are planes where an egg has to let go of one.
"""

import math
from functools import cache

import mujoco
import numpy as np
import pytest

from turnercalc.eggs.poses import round_reach, standing_in_cell, tips_over

LENGTH, BREADTH = 57.5e-3, 43.5e-3
SCALE = 10.0
GRAVITY = 9.81
SETTLE = 1.0  # s before the cell begins to tilt
THICK = 0.5


def cell(length, breadth, room, wall, friction, upright):
    a, b = SCALE * length / 2, SCALE * breadth / 2
    room, wall = SCALE * room, SCALE * wall
    size, height = (f"{b} {b} {a}", a) if upright else (f"{b} {a} {b}", b)
    if math.isinf(wall):
        shape = 'type="plane" size="1 1 .1" pos="{x} 0 0" zaxis="{away} 0 0"'
        places = [shape.format(x=side * room / 2, away=-side) for side in (-1, 1)]
    else:
        shape = 'type="box" size="{t} 1 {half}" pos="{x} 0 {half}"'
        places = [
            shape.format(t=THICK, half=wall / 2, x=side * (room / 2 + THICK)) for side in (-1, 1)
        ]
    walls = "".join(f'<geom {place} friction="{friction} 0 0"/>' for place in places)
    return mujoco.MjModel.from_xml_string(
        f"""<mujoco>
        <option timestep="0.001" integrator="implicitfast" cone="elliptic" impratio="20"/>
        <default><geom solref="0.004 1" solimp="0.99 0.999 0.0001" condim="3"/></default>
        <worldbody>
          <geom type="plane" size="3 1 .1" friction="{friction} 0 0"/>
          {walls}
          <body pos="0 0 {height}">
            <joint type="slide" axis="1 0 0"/><joint type="slide" axis="0 0 1"/>
            <joint type="hinge" axis="0 1 0"/>
            <geom type="ellipsoid" size="{size}" mass="0.06" friction="0 0 0"/>
          </body>
        </worldbody></mujoco>"""
    )


def run(model, tilt_at, until, stop):
    """Step with a turning gravity; return tilt [rad], place across [m] and lean [rad] in time."""
    data = mujoco.MjData(model)
    record = []
    while data.time < until:
        tilt = tilt_at(data.time)
        model.opt.gravity[:] = (-GRAVITY * math.sin(tilt), 0, -GRAVITY * math.cos(tilt))
        mujoco.mj_step(model, data)
        record.append((tilt, data.qpos[0] / SCALE, data.qpos[2]))
        if stop(data.qpos[0] / SCALE):
            break
    return np.array(record).T


@cache
def tipped_slowly(length, breadth, room, wall, friction=0.3, upright=True):
    """Tilt a cell to the left by 2 degrees a second until the egg is out of it."""
    model = cell(length, breadth, room, wall, friction, upright)
    rate = math.radians(2.0)
    return run(
        model,
        lambda t: max(0.0, (t - SETTLE) * rate),
        until=SETTLE + 60.0,
        stop=lambda x: x < -room / 2 - 0.15 * breadth,
    )


@pytest.mark.parametrize(("room", "wall"), [(0.046, 0.025), (0.046, 0.018), (0.050, 0.025)])
def test_a_standing_egg_leans_on_its_wall(room, wall):
    tilt, across, lean = tipped_slowly(LENGTH, BREADTH, room, wall)
    at = np.searchsorted(tilt, math.radians(20))
    ours = standing_in_cell(LENGTH, BREADTH, 0.0, None, room, wall).pose
    # The engine lets the tip creep a little; our tip stays where it stood. (On a wall as low as
    # 12 mm the egg falls so far that its tip slips, and the lean is whatever the fall made it.)
    assert -lean[at] == pytest.approx(ours.lean, abs=math.radians(0.5))
    assert -across[at] == pytest.approx(ours.across, abs=0.15e-3)


@pytest.mark.parametrize(
    ("room", "wall"), [(0.046, 0.025), (0.046, 0.018), (0.050, 0.025), (0.046, 0.012)]
)
def test_a_standing_egg_leaves_its_cell(room, wall):
    tilt, _, _ = tipped_slowly(LENGTH, BREADTH, room, wall)
    ours = standing_in_cell(LENGTH, BREADTH, 0.0, None, room, wall).pose
    predicted = tips_over(room / 2 - ours.across, ours.height, wall)
    # While the egg tips, the cell goes on tilting: one second of falling is 2 degrees.
    assert math.degrees(predicted) - 0.5 < math.degrees(tilt[-1]) < math.degrees(predicted) + 3.0


@pytest.mark.parametrize(("room", "wall"), [(0.048, 0.015), (0.048, 0.010), (0.044, 0.005)])
def test_a_lying_egg_rolls_over_its_wall(room, wall):
    """Seen along its axis a lying egg is round: the wheel before a step."""
    tilt, _, _ = tipped_slowly(BREADTH, BREADTH, room, wall, upright=False)
    radius = BREADTH / 2
    predicted = tips_over(round_reach(radius, wall), radius, wall)
    assert math.degrees(predicted) - 0.5 < math.degrees(tilt[-1]) < math.degrees(predicted) + 3.0


@pytest.mark.parametrize("room", [0.045, 0.046, 0.050])
def test_a_leaning_egg_crosses_over_only_past_level(room):
    """Between tall walls it is still on the left at level: it crosses over beyond."""
    model = cell(LENGTH, BREADTH, room, math.inf, 0.3, upright=True)
    times = np.array([0.0, SETTLE, SETTLE + 5, SETTLE + 10, SETTLE + 60])
    tilts = np.radians([0.0, 0.0, 10.0, 0.0, -10.0])
    tilt, across, _ = run(
        model, lambda t: float(np.interp(t, times, tilts)), until=times[-1], stop=lambda x: x > 0
    )
    stand = standing_in_cell(LENGTH, BREADTH, 0.0, None, room, math.inf)
    predicted = math.atan2(stand.pose.across - stand.contact, stand.pose.height)
    assert across[-1] > 0
    just_past_level = np.argmax(tilt < 0)
    assert across[just_past_level] == pytest.approx(-stand.pose.across, abs=0.15e-3)
    assert -math.degrees(tilt[-1]) == pytest.approx(math.degrees(predicted), abs=0.5)
