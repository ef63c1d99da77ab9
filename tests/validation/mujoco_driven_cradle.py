"""MuJoCo drives a cradle over a rough floor by crank and link or by an actuator.

Nothing is taken for granted here: that the runners roll, where the contact is and what presses
them down, MuJoCo's own contacts find by time stepping, and the pin of the drive is one of its own
constraints. Only that the motion is slow is used, by reading the drive's force as it goes.
Nothing of the package under test is imported.
"""

from __future__ import annotations

from dataclasses import dataclass

import mujoco
import numpy as np

from .mujoco_contacts import FLOOR, QUARTER, STEP, body, contact_xml, rod
from .mujoco_loops import Array, dot, hinge, inertial, number, slide, spot
from .turner_numbers import Actuator, CrankLink, Rocker

STIFF = 'solref="-1e7 -6e3" solimp="0.9999 0.9999 1e-4"'
ROD = 0.5  # [kg], of no account so slowly
CRANK = 2e-3  # [kg m2], of no account at a steady speed


@dataclass(frozen=True)
class Driven:
    """What was seen every so often, after the start.

    Attributes
    ----------
    position : array
        Crank angle, or eye to eye [rad or m].
    q : array
        Of the cradle [rad].
    force : array
        Torque or push of the drive, positive in the sense of its position [N m or N].
    slid : array
        How far the runner has slid: its middle's way and the roll it has made together [m].
    press, grip : array
        Of the floor on the runner, up and to the right [N].
    """

    position: Array
    q: Array
    force: Array
    slid: Array
    press: Array
    grip: Array


def cradle_xml(part: Rocker) -> str:
    """The cradle as a round body with its masses and its pin."""
    radius = part.runner_radius
    masses = "".join(dot(m.mass, m.x, m.y - radius) for m in part.masses).replace(
        "<geom ", '<geom contype="0" conaffinity="0" '
    )
    joints = slide("x", 0.0) + slide("y", QUARTER) + hinge("q")
    pin = spot("pin", part.pin_x, part.pin_y - radius)
    return body(0.0, radius, joints, rod(radius, 'mass="0"', 0.2), masses, pin)


def crank_xml(crank: CrankLink) -> str:
    """A crank and a link with half its mass at each end."""
    inertia = crank.link_mass * crank.length**2 / 4
    link = body(
        crank.radius,
        0.0,
        hinge("link"),
        inertial(crank.link_mass, crank.length / 2, 0.0, inertia),
        spot("tip", crank.length),
    )
    return body(crank.shaft_x, crank.shaft_y, hinge("drive"), inertial(0.0, 0.0, 0.0, CRANK), link)


def actuator_xml(rod_: Actuator) -> str:
    """A rod that slides out of a cylinder on its fixed eye, without weight but not massless."""
    inner = body(0.0, 0.0, slide("drive", 0.0), inertial(ROD, 0.0, 0.0, 1e-4), spot("tip"))
    outer = body(rod_.fixed_x, rod_.fixed_y, hinge("eye"), inertial(ROD, 0.0, 0.0, 1e-3), inner)
    return outer.replace("<body ", '<body gravcomp="1" ')


def drive_cradle(
    part: Rocker,
    drive: CrankLink | Actuator,
    start: tuple[float, float, float],
    travel: float,
    speed: float,
    *,
    friction: float = 5.0,
    every: int = 200,
) -> Driven:
    """Drive a cradle slowly and watch.

    Parameters
    ----------
    part, drive
        What moves, and what moves it.
    start : (position, q, bar)
        Position of the drive, tilt, and direction of link or rod at the start [rad or m, rad,
        rad]; a millimetre off does not matter.
    travel, speed : float
        How far and how fast the drive goes, signed alike [rad or m, per s].
    friction : float
        Coefficient between runners and floor; by default they hardly can slide.
    every : int
        Steps from one look to the next.
    """
    position, q, bar = start
    turns = isinstance(drive, CrankLink)
    own = crank_xml(drive) if isinstance(drive, CrankLink) else actuator_xml(drive)
    gain = 1e3 if turns else 3e4
    xml = contact_xml(
        FLOOR + cradle_xml(part) + own, f'<velocity joint="drive" kv="{number(gain)}"/>'
    )
    xml = xml.replace('friction="0.8 0 0"', f'friction="{number(friction)} 0 0"')
    xml = xml.replace(
        "</mujoco>", f'<equality><connect site1="tip" site2="pin" {STIFF}/></equality></mujoco>'
    )
    model = mujoco.MjModel.from_xml_string(xml)
    data = mujoco.MjData(model)
    radius = part.runner_radius
    for name, value in {
        "x": -radius * q,
        "q": q,
        "drive": position,
        ("link" if turns else "eye"): bar - position if turns else bar,
    }.items():
        data.joint(name).qpos[0] = value
    rows = []
    seconds = abs(travel / speed) + 0.5
    for count in range(round(seconds / STEP)):
        # A second to start in, gently; it takes half of the way of a second at speed.
        data.ctrl[0] = speed * min(data.time, 1.0) ** 2 * (3.0 - 2.0 * min(data.time, 1.0))
        mujoco.mj_step(model, data)
        if count % every == 0 and data.time > 1.0:
            press, grip = floor_force(model, data)
            roll = float(data.joint("q").qpos[0])
            rows.append(
                [
                    float(data.joint("drive").qpos[0]),
                    roll,
                    float(data.actuator_force[0]),
                    float(data.joint("x").qpos[0]) + radius * roll,
                    press,
                    grip,
                ]
            )
    return Driven(*np.array(rows).T)


def floor_force(model: mujoco.MjModel, data: mujoco.MjData) -> tuple[float, float]:
    """Force of the floor on the runner: up, and to the right [N]."""
    up = right = 0.0
    for index in range(data.ncon):
        wrench = np.zeros(6)
        mujoco.mj_contactForce(model, data, index, wrench)
        force = data.contact[index].frame.reshape(3, 3).T @ wrench[:3]
        # The force is that on the second geom of the pair; the floor is the first.
        sense = 1.0 if data.contact[index].geom1 == 0 else -1.0
        right += sense * force[0]
        up += sense * force[1]
    return up, right
