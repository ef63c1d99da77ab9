"""MuJoCo's own contacts under eggs that really roll between turning bars.

Nothing is assumed of nests, rolling or forces at the contacts: bars turn under eggs with a heavy
side that lie on them, or are let go and run down by the eggs' rolling resistance. MuJoCo's
rolling friction is a length, the arm of rolling resistance. Nothing of the package under test is
imported.
"""

from __future__ import annotations

from dataclasses import dataclass

import mujoco
import numpy as np

from .mujoco_contacts import QUARTER, STEP, body, contact_xml, rod
from .mujoco_loops import GRAVITY, Array, hinge, inertial, number, place, slide
from .turner_numbers import Bars, EggOnBars

SETTLING = 0.5  # [s]
READ_EVERY = 50  # steps of 0.1 ms


@dataclass(frozen=True)
class Rolled:
    """What was read as the bars turned, the time on the first axis.

    Attributes
    ----------
    time : ndarray
        [s]
    bars, eggs : ndarray
        Angle of every bar and egg [rad].
    speeds : ndarray
        Of every bar [rad/s].
    torques : ndarray
        That the motor of every bar gives, anticlockwise positive [N·m]; none where they run free.
    """

    time: Array
    bars: Array
    eggs: Array
    speeds: Array
    torques: Array


def let_eggs_roll(bars: Bars, speed: float, seconds: float) -> Rolled:
    """Turn bars on motors of their own, steadily at `speed` [rad/s], under eggs with heavy sides.

    The motors hold the speed, whatever inertia `bars` has.
    """
    motors = "".join(f'<velocity joint="bar{i}" kv="1e3"/>' for i in range(bars.count))
    return _turn(contact_xml(_bodies(bars, 1.0), actuators=motors), bars, speed, seconds)


def let_bars_run_down(bars: Bars, speed: float, seconds: float, rolling_arm: float) -> Rolled:
    """Let bars go that turn at `speed` [rad/s]: rolling resistance alone slows them."""
    # The middle figure resists spinning about the normal, which nothing does here.
    rough = f'friction="0.8 0.01 {number(rolling_arm)}" condim="6"'
    xml = contact_xml(_bodies(bars, bars.inertia))
    return _turn(xml.replace('friction="0.8 0 0" condim="3"', rough), bars, speed, seconds)


def _bodies(bars: Bars, inertia: float) -> str:
    bodies = ""
    for i in range(bars.count):
        inside = hinge(f"bar{i}") + inertial(1.0, 0.0, 0.0, inertia) + rod(bars.radius)
        bodies += body(i * bars.spacing, 0.0, inside)
    return bodies + "".join(_egg(bars, index, seat) for index, seat in enumerate(bars.eggs))


def _turn(xml: str, bars: Bars, speed: float, seconds: float) -> Rolled:
    model = mujoco.MjModel.from_xml_string(xml)
    data = mujoco.MjData(model)
    turning = [data.joint(f"bar{i}") for i in range(bars.count)]
    rolling = [data.joint(f"egg{j}") for j in range(len(bars.eggs))]
    for joint in turning:
        joint.qvel[0] = speed
    for joint, seat in zip(rolling, bars.eggs, strict=True):
        joint.qvel[0] = -speed * bars.radius / seat.egg.radius
    data.ctrl[:] = speed
    rows = []
    for step in range(round(seconds / STEP)):
        mujoco.mj_step(model, data)
        if step * STEP >= SETTLING and step % READ_EVERY == 0:
            angles = [float(joint.qpos[0]) for joint in (*turning, *rolling)]
            speeds = [float(joint.qvel[0]) for joint in turning]
            rows.append([data.time, *angles, *speeds, *data.actuator_force])
    columns = np.cumsum([1, bars.count, len(bars.eggs), bars.count])
    time, angles, eggs, paces, torques = np.split(np.array(rows), columns, axis=1)
    return Rolled(time[:, 0], angles, eggs, paces, torques)


def _egg(bars: Bars, index: int, seat: EggOnBars) -> str:
    """An egg on its two bars: a light round shell about the axis, a heavy point off it."""
    egg = seat.egg
    height = float(np.sqrt((bars.radius + egg.radius) ** 2 - (bars.spacing / 2) ** 2))
    down = -QUARTER + egg.heavy_side
    centre = place(egg.off_centre * np.cos(down), egg.off_centre * np.sin(down))
    turning = " ".join([number(egg.inertia)] * 3)
    mass = f'<inertial mass="{number(egg.mass)}" pos="{centre}" diaginertia="{turning}"/>'
    shell = f'<geom type="sphere" size="{number(egg.radius)}"/>'
    joints = slide(f"x{index}", 0.0) + slide(f"y{index}", QUARTER) + hinge(f"egg{index}")
    return body((seat.lane + 0.5) * bars.spacing, height, joints, mass, shell)


def press_beside_a_bar_that_stands(bars: Bars, friction: float, seconds: float = 0.4) -> float:
    """Turn the right of two bars anticlockwise, the left one standing; force on the egg over W.

    The largest force between an egg and either bar once it has settled.
    """
    motors = "".join(f'<velocity joint="bar{i}" kv="1e3"/>' for i in range(2))
    xml = contact_xml(_bodies(bars, 1.0), actuators=motors)
    xml = xml.replace('friction="0.8 0 0"', f'friction="{number(friction)} 0 0"')
    model = mujoco.MjModel.from_xml_string(xml)
    data = mujoco.MjData(model)
    mujoco.mj_step(model, data, 2_000)
    data.ctrl[:] = (0.0, 0.2)
    most, wrench = 0.0, np.zeros(6)
    for _ in range(round(seconds / STEP)):
        mujoco.mj_step(model, data)
        for i in range(data.ncon):
            mujoco.mj_contactForce(model, data, i, wrench)
            most = max(most, float(wrench[0]))
    return most / (bars.eggs[0].egg.mass * GRAVITY)
