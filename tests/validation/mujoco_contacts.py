"""MuJoCo with its own contacts: what nests, floors and bars do when nothing is assumed.

The exact models in `mujoco_turners.py` take rolling without slip and the place of a nest for
granted. Here MuJoCo's contacts (soft, with Coulomb friction) are left to find them by time
stepping, to a few parts in ten thousand. Nothing of the package under test is imported.
"""

from __future__ import annotations

from dataclasses import dataclass

import mujoco
import numpy as np

from .mujoco_loops import GRAVITY, Array, dot, hinge, inertial, number, place, slide
from .turner_numbers import Rocker

QUARTER = np.pi / 2
STEP = 1e-4  # [s]
FLOOR = '<geom type="plane" size="5 5 1" zaxis="0 1 0"/>'


def gravity(leaning: float) -> tuple[float, float]:
    """Gravity seen from a frame that leans anticlockwise [m/s2]."""
    return -GRAVITY * np.sin(leaning), -GRAVITY * np.cos(leaning)


def contact_xml(bodies: str, actuators: str = "") -> str:
    """A planar model with stiff contacts.

    Contacts give way by about 1e-9 m under the
    weight of what rests on them (solref as stiffness and damping per unit of mass).
    """
    return f"""
    <mujoco>
      <compiler angle="radian" inertiafromgeom="auto" autolimits="false"/>
      <option gravity="{place(*gravity(0.0))}" timestep="{STEP}"
              cone="elliptic" integrator="implicitfast"
              iterations="200" tolerance="1e-14" noslip_iterations="50" noslip_tolerance="1e-14"/>
      <default>
        <geom solref="-1e7 -6e3" solimp="0.999 0.999 1e-4" friction="0.8 0 0" condim="3"/>
      </default>
      <worldbody>{bodies}</worldbody>
      <actuator>{actuators}</actuator>
    </mujoco>"""


def rod(radius: float, more: str = "", half_length: float = 0.1) -> str:
    """A round rod along the viewing axis, in the middle of its body."""
    length = number(half_length)
    return (
        f'<geom type="capsule" size="{number(radius)}" fromto="0 0 -{length} 0 0 {length}" {more}/>'
    )


def body(x: float, y: float, *inside: str, name: str = "") -> str:
    """A body at a place with all that belongs to it."""
    called = f'name="{name}" ' if name else ""
    return f'<body {called}pos="{place(x, y)}">{"".join(inside)}</body>'


def ball(radius: float, mass: float, more: str = "") -> str:
    """A round egg."""
    return f'<geom type="sphere" size="{number(radius)}" mass="{number(mass)}" {more}/>'


@dataclass(frozen=True)
class Nest:
    """An egg at rest on two bars.

    Attributes
    ----------
    x, height : float
        The egg's centre from the middle between the bars and above their axes [m].
    left, right : float
        Force between egg and bar [N].
    left_angle, right_angle : float
        Direction of those contacts from straight down in the frame, always positive [rad].
    """

    x: float
    height: float
    left: float
    right: float
    left_angle: float
    right_angle: float


def nest(
    egg_radius: float, bar_radius: float, spacing: float, egg_mass: float, leaning: float = 0.0
) -> Nest | None:
    """Lay a smooth round egg on two bars and wait; None where it does not stay.

    `leaning` turns the frame anticlockwise, left bar down [rad].
    """
    smooth = 'condim="1"'
    bars = "".join(body(s * spacing / 2, 0.0, rod(bar_radius, smooth)) for s in (-1, 1))
    damping = f'damping="{number(20 * egg_mass)}"'
    joints = "".join(
        f'<joint type="slide" axis="{axis}" {damping}/>' for axis in ("1 0 0", "0 1 0")
    )
    shell = ball(egg_radius, egg_mass, smooth)
    egg = body(0.0, egg_radius + bar_radius, joints, shell, name="egg")
    model = mujoco.MjModel.from_xml_string(contact_xml(bars + egg))
    data = mujoco.MjData(model)
    for i in range(30_000):
        # Let it come to rest, lean slowly, let it come to rest again.
        model.opt.gravity[:2] = gravity(leaning * np.clip(i / 10_000 - 1, 0, 1))
        mujoco.mj_step(model, data)
        if data.body("egg").xpos[1] < -egg_radius:
            return None  # dropped through, or rolled over a bar
    centre = data.body("egg").xpos[:2]
    if data.ncon != 2:
        return None
    forces, angles = [], []
    for i in range(2):
        wrench = np.zeros(6)
        mujoco.mj_contactForce(model, data, i, wrench)
        dx, dy = data.contact[i].pos[:2] - centre
        forces.append(float(wrench[0]))
        angles.append(float(np.arctan2(dx, -dy)))
    left, right = np.argsort(angles)
    return Nest(
        float(centre[0]),
        float(centre[1]),
        forces[left],
        forces[right],
        -angles[left],
        angles[right],
    )


@dataclass(frozen=True)
class Rocking:
    """A cradle let go on a rough floor: time [s], angle [rad], the arc's middle (x, y) [m]."""

    time: Array
    q: Array
    x: Array
    y: Array


def let_cradle_go(part: Rocker, start: float, seconds: float) -> Rocking:
    """Let a cradle on a rough floor go from the angle `start` and watch it rock."""
    radius = part.runner_radius
    masses = "".join(dot(m.mass, m.x, m.y - radius) for m in part.masses).replace(
        "<geom ", '<geom contype="0" conaffinity="0" '
    )
    joints = slide("x", 0.0) + slide("y", QUARTER) + hinge("q")
    cradle = body(0.0, radius, joints, rod(radius, 'mass="0"', 0.2), masses)
    model = mujoco.MjModel.from_xml_string(contact_xml(FLOOR + cradle))
    data = mujoco.MjData(model)
    data.qpos[:] = [-radius * start, 0.0, start]
    rows = []
    for _ in range(round(seconds / STEP)):
        mujoco.mj_step(model, data)
        rows.append([data.time, data.qpos[2], data.qpos[0], data.qpos[1] + radius])
    time, q, x, y = np.array(rows).T
    return Rocking(time, q, x, y)


def egg_turn_on_bars(
    egg_radius: float, bar_radius: float, spacing: float, egg_mass: float, bar_speed: float
) -> float:
    """Turn two rough bars the same way at a steady speed; the egg's speed over the bars'."""
    bars = ""
    for name, side in (("left", -1), ("right", 1)):
        steady = inertial(1.0, 0.0, 0.0, 1.0)
        bars += body(side * spacing / 2, 0.0, hinge(name), steady, rod(bar_radius))
    height = float(np.sqrt((egg_radius + bar_radius) ** 2 - (spacing / 2) ** 2))
    joints = slide("x", 0.0) + slide("y", QUARTER) + hinge("egg")
    egg = body(0.0, height, joints, ball(egg_radius, egg_mass))
    speeds = "".join(f'<velocity joint="{name}" kv="1e3"/>' for name in ("left", "right"))
    model = mujoco.MjModel.from_xml_string(contact_xml(bars + egg, actuators=speeds))
    data = mujoco.MjData(model)
    data.ctrl[:] = bar_speed
    mujoco.mj_step(model, data, 5_000)  # let it settle
    turned = [float(data.joint(name).qpos[0]) for name in ("egg", "left")]
    mujoco.mj_step(model, data, 10_000)
    egg_now, bar_now = (float(data.joint(name).qpos[0]) for name in ("egg", "left"))
    return (egg_now - turned[0]) / (bar_now - turned[1])


def egg_roll_by_grid(egg_radius: float, egg_mass: float, stroke: float) -> float:
    """Push an egg along a rough floor with a smooth upright; how far it turns [rad]."""
    box = '<geom type="box" size="0.01 0.005 0.05" mass="100" condim="1" priority="1"/>'
    grid = body(-egg_radius - 0.01, egg_radius, slide("grid", 0.0), box)
    joints = slide("x", 0.0) + slide("y", QUARTER) + hinge("egg")
    egg = body(0.0, egg_radius, joints, ball(egg_radius, egg_mass))
    move = '<velocity joint="grid" kv="1e5"/>'
    model = mujoco.MjModel.from_xml_string(contact_xml(FLOOR + grid + egg, actuators=move))
    data = mujoco.MjData(model)
    data.ctrl[:] = 0.05  # [m/s]
    while data.joint("x").qpos[0] < stroke:
        mujoco.mj_step(model, data)
    return float(data.joint("egg").qpos[0]) * stroke / float(data.joint("x").qpos[0])


@dataclass(frozen=True)
class RolledEgg:
    """What a bar and a floor do to an egg that rolls steadily; all forces in N.

    Attributes
    ----------
    push, lift : float
        Of the egg on the bar against its travel, and upwards.
    floor : float
        Of the floor on the egg, upwards.
    turned : float
        How far it turned over how far it would, rolling without slip.
    """

    push: float
    lift: float
    floor: float
    turned: float


def egg_before_a_rubbing_bar(
    radius: float,
    mass: float,
    *,
    bar_friction: float,
    floor_friction: float,
    rolling_arm: float,
    round_bar: tuple[float, float] | None = None,
    leaning: float = 0.0,
) -> RolledEgg:
    """Push an egg along a floor that flattens under it with a bar that rubs it, and weigh forces.

    `round_bar` is the radius of a round bar and the height of its middle [m]; None is an upright
    face. `leaning` turns everything anticlockwise, so that the egg is pushed uphill.
    """
    rubs = f'friction="{number(bar_friction)} 0 0" condim="3" priority="2"'
    if round_bar is None:
        shape = f'<geom type="box" size="0.01 0.03 0.05" mass="100" {rubs}/>'
        x, y = -radius - 0.01, 0.035
    else:
        small, height = round_bar
        shape = rod(small, f'mass="100" {rubs}')
        x, y = -float(np.sqrt((radius + small) ** 2 - (height - radius) ** 2)), height
    grid = body(x, y, slide("grid", 0.0), shape, name="bar")
    floor = FLOOR.replace(
        "/>", f' friction="{number(floor_friction)} 0 {number(rolling_arm)}" condim="6"/>'
    )
    joints = slide("x", 0.0) + slide("y", QUARTER) + hinge("egg")
    egg = body(0.0, radius, joints, ball(radius, mass, 'friction="0 0 0"'), name="egg")
    move = '<velocity joint="grid" kv="1e5"/>'
    model = mujoco.MjModel.from_xml_string(contact_xml(floor + grid + egg, actuators=move))
    data = mujoco.MjData(model)
    model.opt.gravity[:2] = gravity(leaning)
    model.geom_solref[:] = -1e6, -2e3  # softer, or a rolling egg chatters
    model.opt.impratio = 100.0  # friction as stiff as it goes, or contacts creep
    data.ctrl[:] = 0.02  # [m/s]
    mujoco.mj_step(model, data, 30_000)  # let it settle
    start = data.joint("x").qpos[0], data.joint("egg").qpos[0]
    rows = []
    for _ in range(10_000):
        mujoco.mj_step(model, data)
        on_egg = {"bar": np.zeros(2), "floor": np.zeros(2)}
        for i in range(data.ncon):
            wrench = np.zeros(6)
            mujoco.mj_contactForce(model, data, i, wrench)
            contact = data.contact[i]
            force = contact.frame.reshape(3, 3).T @ wrench[:3]
            # MuJoCo gives the force on the second body of a pair.
            bodies = [int(model.geom_bodyid[g]) for g in (contact.geom1, contact.geom2)]
            sign = 1.0 if bodies[1] == model.body("egg").id else -1.0
            on_egg["floor" if 0 in bodies else "bar"] += sign * force[:2]
        rows.append([on_egg["bar"][0], on_egg["bar"][1], on_egg["floor"][1]])
    push, down, up = np.mean(rows, axis=0)
    went, turned = data.joint("x").qpos[0] - start[0], data.joint("egg").qpos[0] - start[1]
    return RolledEgg(float(push), float(-down), float(up), float(-turned * radius / went))


@dataclass(frozen=True)
class OverWires:
    """An egg that is pushed over the wires of a mesh.

    Attributes
    ----------
    went : array
        How far the bar has gone since it touched the egg in its first nest, at every step [m].
    push : array
        Of the bar then; 0 where the egg has run ahead of it [N].
    rise : float
        How far its middle goes up and down [m].
    """

    went: Array
    push: Array
    rise: float


def egg_over_wires(
    radius: float, mass: float, pitch: float, wire_radius: float, *, bar_friction: float = 0.0
) -> OverWires:
    """Push an egg slowly over rough wires with an upright face, from nest to nest."""
    wires = "".join(
        body(i * pitch, -wire_radius, rod(wire_radius, 'friction="3 0 0"')) for i in range(7)
    )
    rubs = f'friction="{number(bar_friction)} 0 0" condim="3" priority="2"'
    bar = f'<geom type="box" size="0.01 0.008 0.05" mass="100" {rubs}/>'
    start = 0.5 * pitch
    low = float(np.sqrt((radius + wire_radius) ** 2 - start**2)) - wire_radius
    grid = body(start - radius - 0.0101, low, slide("grid", 0.0), bar, name="bar")
    joints = slide("x", 0.0) + slide("y", QUARTER) + hinge("egg")
    egg = body(start, low, joints, ball(radius, mass), name="egg")
    move = '<velocity joint="grid" kv="1e5"/>'
    model = mujoco.MjModel.from_xml_string(contact_xml(wires + grid + egg, actuators=move))
    data = mujoco.MjData(model)
    model.geom_solref[:] = -1e6, -2e3
    data.ctrl[:] = 0.005  # [m/s]
    bar_body, egg_body = (model.body(name).id for name in ("bar", "egg"))
    rows = []
    while data.joint("x").qpos[0] < 4.0 * pitch - 0.1e-3:
        mujoco.mj_step(model, data)
        assert data.time < 15.0, "the egg is stuck"
        push = 0.0
        for i in range(data.ncon):
            contact = data.contact[i]
            bodies = {int(model.geom_bodyid[g]) for g in (contact.geom1, contact.geom2)}
            if bodies == {bar_body, egg_body}:
                wrench = np.zeros(6)
                mujoco.mj_contactForce(model, data, i, wrench)
                push += float(wrench[0])
        rows.append([data.joint("grid").qpos[0] - 0.0001, data.joint("y").qpos[0], push])
    went, y, push = np.array(rows).T
    return OverWires(went, push, float(y.max() - y.min()))


@dataclass(frozen=True)
class CarriedDrum:
    """A drum on two rows of rollers, of which a motor turns the right one.

    Attributes
    ----------
    motor : float
        Torque at the driven rollers, anticlockwise positive [N·m].
    left, right : float
        Press of either row on the rim [N].
    """

    motor: float
    left: float
    right: float


def drum_on_rollers(
    rim: float,
    roller: float,
    half_angle: float,
    mass: float,
    *,
    rolling_arm: float = 0.0,
    off_centre: float = 0.0,
    speed: float = 0.0,
) -> CarriedDrum:
    """Lay a drum on two rows of rollers, turn the right row at a speed [rad/s], and weigh forces.

    `off_centre` is how far right of its middle the drum's mass sits when it is put down [m].
    """
    rubs = f'friction="0.8 0 {number(rolling_arm)}" condim="6" priority="1"'
    reach, rows = rim + roller, ""
    for name, side in (("left", -1.0), ("right", 1.0)):
        x, y = side * reach * float(np.sin(half_angle)), -reach * float(np.cos(half_angle))
        rows += body(x, y, hinge(name), inertial(0.5, 0.0, 0.0, 1e-3), rod(roller, rubs), name=name)
    heavy = inertial(mass, off_centre, 0.0, 0.5 * mass * rim**2)
    joints = slide("x", 0.0) + slide("y", QUARTER) + hinge("drum")
    drum = body(0.0, 0.0, joints, heavy, rod(rim, 'friction="0 0 0"'), name="drum")
    turn = '<velocity joint="right" kv="1e3"/>'
    model = mujoco.MjModel.from_xml_string(contact_xml(rows + drum, actuators=turn))
    data = mujoco.MjData(model)
    model.geom_solref[:] = -1e6, -2e3  # softer, or what rolls chatters
    model.opt.impratio = 100.0  # friction as stiff as it goes, or contacts creep
    data.ctrl[:] = speed
    mujoco.mj_step(model, data, 10_000)  # let it settle
    rows_found = []
    for _ in range(8_000):
        mujoco.mj_step(model, data)
        press = {"left": 0.0, "right": 0.0}
        for i in range(data.ncon):
            wrench = np.zeros(6)
            mujoco.mj_contactForce(model, data, i, wrench)
            geoms = (data.contact[i].geom1, data.contact[i].geom2)
            names = {model.body(int(model.geom_bodyid[geom])).name for geom in geoms}
            press["left" if "left" in names else "right"] += float(wrench[0])
        rows_found.append([float(data.actuator_force[0]), press["left"], press["right"]])
    return CarriedDrum(*(float(value) for value in np.mean(rows_found, axis=0)))
