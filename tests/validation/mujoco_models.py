"""MuJoCo's opinion on a rack of tilting trays driven by a crank and link.

Every part is a body of its own: crank, link, trays on their pivots and a tie bar that is free
to move and to turn, held by nothing but the pins through the trays' arms. How the loops are
closed and the torque is found stands in `mujoco_loops.py`. Nothing of the package under test
is imported.
"""

from __future__ import annotations

from collections.abc import Callable
from math import cos, sin

import numpy as np

from .mujoco_loops import (
    MASSLESS,
    Array,
    Cycle,
    Loops,
    Mechanism,
    dot,
    hinge,
    inertial,
    model_xml,
    number,
    place,
    run,
    slide,
    spot,
)
from .rack_numbers import CrankLink, Rack, Tray

TURN = 2 * np.pi


def crank_and_link_xml(crank: CrankLink, lumped: bool = True) -> str:
    """The crank on its shaft and the link hanging from the crank pin; joints crank, link.

    `lumped` puts half of the link's mass at each of its ends, otherwise it is a uniform rod.
    Both have the same weight and centre; only the inertia differs.
    """
    mass, length = crank.link_mass, crank.length
    inertia = mass * length**2 * (1 / 4 if lumped else 1 / 12)
    return f"""
      <body name="crank" pos="{place(crank.shaft_x, crank.shaft_y)}">
        {hinge("crank")}{inertial(0.0, 0.0, 0.0, 0.0)}
        <body name="link" pos="{place(crank.radius, 0.0)}">
          {hinge("link")}{inertial(mass, length / 2, 0.0, inertia)}
          {spot("link_foot")}{spot("link_tip", length)}
        </body>
      </body>"""


def springs_xml(trays: tuple[Tray, ...], pitch: float) -> tuple[str, str]:
    """Fixed points of the straight springs (for the world) and their tendons."""
    fixed, tendons = "", ""
    for i, tray in enumerate(trays):
        for j, spring in enumerate(tray.springs):
            fixed += spot(f"hook{i}_{j}", spring.fixed_x, spring.fixed_y + i * pitch)
            # Between the two spring lengths it is slack: it only pulls.
            slack = f"0 {number(spring.free_length)}"
            tendons += (
                f'<spatial stiffness="{number(spring.stiffness)}" springlength="{slack}">'
                f'<site site="hook{i}_{j}"/><site site="eye{i}_{j}"/></spatial>'
            )
    return fixed, f"<tendon>{tendons}</tendon>" if tendons else ""


def tray_xml(tray: Tray, name: str, pin: tuple[float, float], extra: str = "") -> str:
    """The inside of a tray's body: pivot, masses, spring eyes and the pin through its arm."""
    stiffness = sum(s.stiffness for s in tray.torsion_springs)
    moment = sum(s.stiffness * s.free_angle for s in tray.torsion_springs)
    torsion = ""
    if stiffness:
        torsion = f'stiffness="{number(stiffness)}" springref="{number(moment / stiffness)}"'
    masses = "".join(dot(m.mass, m.x, m.y) for m in tray.masses if m.mass > 0)
    eyes = "".join(spot(f"eye{name}_{j}", s.part_x, s.part_y) for j, s in enumerate(tray.springs))
    pivot = hinge(f"tray{name}", torsion) + dot(MASSLESS, 0.0, 0.0)
    return pivot + masses + eyes + spot(f"pin{name}", *pin) + extra


def rack_mechanism(rack: Rack, lumped_link: bool = True) -> Mechanism:
    """The rack as a MuJoCo tree with its loops: link to arm, tie bar to every arm."""
    arm = (rack.arm_length * cos(rack.arm_angle), rack.arm_length * sin(rack.arm_angle))
    count = len(rack.trays)
    fixed, tendons = springs_xml(rack.trays, rack.pitch)
    bodies = crank_and_link_xml(rack.crank, lumped_link) + fixed
    for i, tray in enumerate(rack.trays):
        # One tray has nothing to be tied to: its bar is a weight on the arm pin.
        weight = dot(rack.tie_bar_mass, *arm) if count == 1 and rack.tie_bar_mass else ""
        bodies += (
            f'<body pos="{place(0.0, i * rack.pitch)}">{tray_xml(tray, str(i), arm, weight)}</body>'
        )
    pins = [("link_tip", f"pin{rack.driven}")]
    if count > 1:
        holes = "".join(spot(f"hole{i}", 0.0, i * rack.pitch) for i in range(count))
        length = (count - 1) * rack.pitch
        bar = inertial(rack.tie_bar_mass, 0.0, length / 2, rack.tie_bar_mass * length**2 / 12)
        joints = slide("bar_x", 0.0) + slide("bar_y", TURN / 4) + hinge("bar")
        bodies += f"<body>{joints}{bar}{holes}</body>"
        pins += [(f"hole{i}", f"pin{i}") for i in range(count)]
    loops = Loops(driven="crank", output=f"tray{rack.driven}", pins=tuple(pins))
    return Mechanism(model_xml(bodies, tendons), loops)


def rack_pose(mechanism: Mechanism, rack: Rack, crank_angle: float, tilt: float) -> Array:
    """Joint positions with all trays at `tilt`, the link pointing at the arm pin."""
    qpos = np.zeros(mechanism.model.nq)
    qpos[mechanism.driven] = crank_angle
    for i in range(len(rack.trays)):
        qpos[mechanism.dof(f"tray{i}")] = tilt
    mechanism.place(qpos)
    pin = mechanism.where(f"pin{rack.driven}")
    if len(rack.trays) > 1:
        qpos[mechanism.dof("bar_x")] = pin[0]
        qpos[mechanism.dof("bar_y")] = pin[1] - rack.driven * rack.pitch
    point_link(mechanism, qpos, pin)
    return qpos


def point_link(mechanism: Mechanism, qpos: Array, pin: Array) -> None:
    """Turn the link in `qpos` so that it points from the crank pin to `pin`."""
    mechanism.place(qpos)
    dx, dy = pin - mechanism.where("link_foot")
    qpos[mechanism.dof("link")] = np.arctan2(dy, dx) - qpos[mechanism.driven]


def turn_crank(
    mechanism: Mechanism,
    pose: Callable[[float, float], Array],
    pin_site: str,
    crank: CrankLink,
    crank_angles: Array,
    span: tuple[float, float],
) -> list[Array | None]:
    """Close the loops at every crank angle, on the named branch; None where they stay open.

    `pose(crank angle, coordinate)` gives joint positions with the link pointing at the pin but
    not reaching it. The driven part is walked through `span`: where the distance from crank pin
    to driven pin passes the link's length, and does so in the sense in which the link would
    push, Newton is started. No position is carried over from the one before.
    """
    grid = np.linspace(*span, 721)
    path = np.empty((grid.size, 2))
    for i, coordinate in enumerate(grid):
        mechanism.place(pose(0.0, coordinate))
        path[i] = mechanism.where(pin_site)

    places: list[Array | None] = []
    for angle in crank_angles:
        mechanism.place(pose(angle, 0.0))
        misfit = np.hypot(*(path - mechanism.where("link_foot")).T) - crank.length
        # A link under compression drives the part towards where the pin gets farther away.
        too_far = np.where(misfit >= 0, 1, -1)
        crossings = np.flatnonzero(np.diff(too_far) == 2 * crank.push_sense)
        closed = None
        for i in crossings:
            part = misfit[i] / (misfit[i] - misfit[i + 1])
            closed = mechanism.close(pose(angle, grid[i] + part * (grid[i + 1] - grid[i])))
            if closed is not None:
                break
        places.append(closed)
    return places


def rack_cycle(
    rack: Rack, crank_angles: Array, speed: float = 0.0, lumped_link: bool = True
) -> Cycle:
    """Tilt and frictionless shaft torque of a rack at the crank angles.

    Parameters
    ----------
    rack : Rack
        Lengths, masses, springs.
    crank_angles : array, shape (n,)
        Angle of the crank from the x axis, anticlockwise positive [rad].
    speed : float
        Constant crank speed [rad/s], negative clockwise; 0 gives the static torque.
    lumped_link : bool
        Half the link's mass at each end; otherwise a uniform rod.

    Returns
    -------
    Cycle
        `force` is the torque on the crank, anticlockwise positive [N m]; a motor turning
        clockwise feels its negative. `pin_force[:, 0]` is the force of the link on the arm pin.
    """
    mechanism = rack_mechanism(rack, lumped_link)

    def pose(crank_angle: float, tilt: float) -> Array:
        return rack_pose(mechanism, rack, crank_angle, tilt)

    pin = f"pin{rack.driven}"
    places = turn_crank(mechanism, pose, pin, rack.crank, crank_angles, (-np.pi, np.pi))
    return run(mechanism, crank_angles, places, speed)


def full_turn(steps: int = 72, start: float = 0.0) -> Array:
    """Crank angles once round, the end not repeated [rad]."""
    return start + np.arange(steps) * TURN / steps
