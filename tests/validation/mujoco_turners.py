"""MuJoCo's opinion on single moving parts with every drive.

A moving part (tray or drum on a pivot, cradle rolling on a floor, grid sliding on one with eggs
rolling before it) and a drive (crank and link, slotted lever, linear actuator, shaft) are
written as bodies of one MuJoCo tree and joined by their pins; `mujoco_loops.py` says how that
is solved. Rolling is a linear relation between MuJoCo's joints; that it is what a rough floor
does is shown with MuJoCo's own contacts in `mujoco_contacts.py`. Nothing of the package under
test is imported.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, sin

import numpy as np

from .mujoco_loops import (
    MASSLESS,
    Array,
    Coupling,
    Cycle,
    Loops,
    Mechanism,
    dot,
    hinge,
    inertial,
    model_xml,
    place,
    run,
    slide,
    spot,
)
from .mujoco_models import crank_and_link_xml
from .turner_numbers import (
    Actuator,
    Bars,
    CrankLink,
    Drive,
    Grid,
    Part,
    Rocker,
    RollingEgg,
    Shaft,
    SlottedLever,
    Swing,
)

SEARCHED = 721  # points at which the moving part is tried before Newton takes over


@dataclass(frozen=True)
class Tree:
    """A moving part in MuJoCo's words.

    `bodies` takes what else belongs inside the moving body. `followers` are the joints that
    move with the coordinate, and how much of each per unit of it. `span` is where to look.
    """

    bodies: Callable[[str], str]
    coordinate: str
    followers: dict[str, float]
    span: tuple[float, float]

    @property
    def couplings(self) -> tuple[Coupling, ...]:
        """Every follower tied to the coordinate."""
        return tuple(
            Coupling({joint: 1.0, self.coordinate: -share})
            for joint, share in self.followers.items()
        )


def egg_mass(egg: RollingEgg) -> str:
    """The mass of a rolling egg, set off from the axis its body turns on."""
    x = egg.off_centre * sin(egg.heavy_side)
    y = -egg.off_centre * cos(egg.heavy_side)
    return inertial(egg.mass, x, y, egg.inertia)


def swing_tree(part: Swing) -> Tree:
    """A part on a pivot at the origin."""
    masses = "".join(dot(m.mass, m.x, m.y) for m in part.masses)

    def bodies(inside: str) -> str:
        pivot = hinge("swing") + dot(MASSLESS, 0.0, 0.0)
        return f"<body>{pivot}{masses}{spot('pin', part.pin_x, part.pin_y)}{inside}</body>"

    return Tree(bodies, "swing", {}, (-np.pi, np.pi))


def rocker_tree(part: Rocker) -> Tree:
    """A cradle: its body's origin is the middle of the arc, which slides as the arc rolls."""
    radius = part.runner_radius
    masses = "".join(dot(m.mass, m.x, m.y - radius) for m in part.masses)

    def bodies(inside: str) -> str:
        joints = slide("along_floor", 0.0) + hinge("roll") + dot(MASSLESS, 0.0, 0.0)
        pin = spot("pin", part.pin_x, part.pin_y - radius)
        return f'<body pos="{place(0.0, radius)}">{joints}{masses}{pin}{inside}</body>'

    return Tree(bodies, "roll", {"along_floor": -radius}, (-2.0, 2.0))


def grid_tree(part: Grid) -> Tree:
    """A grid on a floor and its eggs, each turning clockwise as it is rolled to the right."""
    eggs, followers = "", {}
    for i, egg in enumerate(part.eggs):
        joints = slide(f"egg_along{i}", part.slope) + hinge(f"egg_roll{i}")
        eggs += f"<body>{joints}{egg_mass(egg)}</body>"
        followers |= {f"egg_along{i}": 1.0, f"egg_roll{i}": -1.0 / egg.radius}

    def bodies(inside: str) -> str:
        grid = slide("along_floor", part.slope) + inertial(part.mass, 0.0, 0.0, 0.0)
        return f"<body>{grid}{spot('pin')}{inside}</body>{eggs}"

    return Tree(bodies, "along_floor", followers, (-1.0, 1.0))


def tree_of(part: Part) -> Tree:
    """The tree of any moving part."""
    if isinstance(part, Swing):
        return swing_tree(part)
    return rocker_tree(part) if isinstance(part, Rocker) else grid_tree(part)


def mechanism_of(part: Part, drive: Drive) -> Mechanism:
    """The tree of part and drive, with the pins that join them."""
    tree = tree_of(part)
    inside, beside, driven, pins = "", "", tree.coordinate, ()
    if isinstance(drive, CrankLink):
        beside, driven, pins = crank_and_link_xml(drive), "crank", (("link_tip", "pin"),)
    elif isinstance(drive, SlottedLever):
        driven, pins = "crank", (("crank_pin", "block"),)
        beside = f"""
          <body pos="{place(drive.shaft_x, drive.shaft_y)}">
            {hinge("crank")}{inertial(0.0, 0.0, 0.0, 0.0)}{spot("crank_pin", drive.radius)}
          </body>"""
        slot = slide("in_slot", drive.slot_angle)
        x, y = drive.slot_x, drive.slot_y
        if isinstance(part, Rocker):
            y -= part.runner_radius
        block = slot + inertial(0.0, 0.0, 0.0, 0.0) + spot("block")
        inside = f'<body pos="{place(x, y)}">{block}</body>'
    elif isinstance(drive, Actuator):
        driven, pins = "rod", (("rod_eye", "pin"),)
        beside = f"""
          <body pos="{place(drive.fixed_x, drive.fixed_y)}">
            {hinge("cylinder")}{inertial(0.0, 0.0, 0.0, 0.0)}
            <body>{slide("rod", 0.0)}{inertial(0.0, 0.0, 0.0, 0.0)}{spot("rod_eye")}</body>
          </body>"""
    loops = Loops(driven=driven, output=tree.coordinate, pins=pins, couplings=tree.couplings)
    return Mechanism(model_xml(tree.bodies(inside) + beside), loops)


@dataclass
class Closer:
    """Finds the place where part and drive meet, at any position of the drive."""

    mechanism: Mechanism
    part: Part
    drive: Drive

    def __post_init__(self) -> None:
        self.tree = tree_of(self.part)
        self.grid = np.linspace(*self.tree.span, SEARCHED)
        followed = "block" if isinstance(self.drive, SlottedLever) else "pin"
        self.path = np.array([self.part_place(q, followed) for q in self.grid])

    def part_pose(self, coordinate: float) -> Array:
        """Joint positions with only the moving part moved."""
        qpos = np.zeros(self.mechanism.model.nq)
        qpos[self.mechanism.dof(self.tree.coordinate)] = coordinate
        for joint, share in self.tree.followers.items():
            qpos[self.mechanism.dof(joint)] = share * coordinate
        return qpos

    def part_place(self, coordinate: float, site: str) -> Array:
        """Where a site of the moving part is at a coordinate."""
        self.mechanism.place(self.part_pose(coordinate))
        return self.mechanism.where(site)

    def pose(self, position: float, coordinate: float) -> Array:
        """Joint positions near the closed place."""
        qpos = self.part_pose(coordinate)
        qpos[self.mechanism.driven] = position
        dof = self.mechanism.dof
        if isinstance(self.drive, CrankLink):
            pin = self.part_place(coordinate, "pin")
            self.mechanism.place(qpos)
            toward = pin - self.mechanism.where("link_foot")
            qpos[dof("link")] = np.arctan2(toward[1], toward[0]) - position
        elif isinstance(self.drive, Actuator):
            toward = self.part_place(coordinate, "pin") - self.fixed_point(position)
            qpos[dof("cylinder")] = np.arctan2(toward[1], toward[0])
        elif isinstance(self.drive, SlottedLever):
            start = self.part_place(coordinate, "block")
            qpos[dof("in_slot")] = self.in_slot(position, np.array(coordinate), start)[0]
        return qpos

    def fixed_point(self, position: float) -> Array:
        """The crank pin, or the fixed eye of an actuator."""
        drive = self.drive
        if isinstance(drive, Actuator):
            return np.array([drive.fixed_x, drive.fixed_y])
        assert not isinstance(drive, Shaft)
        pin = drive.radius * np.array([np.cos(position), np.sin(position)])
        return np.array([drive.shaft_x, drive.shaft_y]) + pin

    def in_slot(self, position: float, coordinate: Array, start: Array) -> tuple[Array, Array]:
        """How far the crank pin is along the slot from its start, and how far beside it."""
        assert isinstance(self.drive, SlottedLever)
        turned = 0.0 if isinstance(self.part, Grid) else coordinate
        direction = self.drive.slot_angle + turned
        dx, dy = (self.fixed_point(position) - start).T
        along = dx * np.cos(direction) + dy * np.sin(direction)
        return along, dy * np.cos(direction) - dx * np.sin(direction)

    def misfits(self, position: float) -> tuple[Array, Array]:
        """What must become zero at every searched coordinate, and where it may."""
        drive = self.drive
        if isinstance(drive, SlottedLever):
            along, beside = self.in_slot(position, self.grid, self.path)
            return beside, along > 0
        length = drive.length if isinstance(drive, CrankLink) else position
        misfit = np.hypot(*(self.path - self.fixed_point(position)).T) - length
        assert isinstance(drive, CrankLink | Actuator)
        # Pushing drives the part towards where the pin gets farther away.
        rising = np.gradient(misfit) * drive.push_sense > 0
        return misfit, rising

    def close(self, position: float) -> Array | None:
        """The closed place nearest to q = 0 on the named branch, None where there is none."""
        if isinstance(self.drive, Shaft):
            return self.part_pose(position)
        misfit, allowed = self.misfits(position)
        sides = np.where(misfit >= 0, 1, -1)
        crossings = np.flatnonzero((np.diff(sides) != 0) & allowed[:-1] & allowed[1:])
        for i in sorted(crossings, key=lambda i: abs(self.grid[i])):
            part = misfit[i] / (misfit[i] - misfit[i + 1])
            guess = self.grid[i] + part * (self.grid[i + 1] - self.grid[i])
            closed = self.mechanism.close(self.pose(position, float(guess)))
            if closed is not None:
                return closed
        return None


def turner_cycle(part: Part, drive: Drive, positions: Array, speed: float = 0.0) -> Cycle:
    """Motion and frictionless drive of a moving part.

    Parameters
    ----------
    part : Swing, Rocker or Grid
        What moves.
    drive : CrankLink, SlottedLever, Actuator or Shaft
        What moves it.
    positions : array, shape (n,)
        Crank or shaft angle, anticlockwise from the x axis [rad]; actuator: eye to eye [m].
    speed : float
        Constant speed of the drive, signed [rad/s or m/s].

    Returns
    -------
    Cycle
        `q` in rad or m. `force` is the torque on the crank or shaft, anticlockwise positive
        [N m], or the push of the actuator [N], negative where it pulls.
    """
    mechanism = mechanism_of(part, drive)
    closer = Closer(mechanism, part, drive)
    places = [closer.close(float(p)) for p in positions]
    return run(mechanism, positions, places, speed)


def bars_cycle(bars: Bars, bar_angles: Array, speed: float = 0.0) -> Cycle:
    """Egg angle and the frictionless torque on the shaft that turns all bars.

    Parameters
    ----------
    bars : Bars
        Bars and the eggs in their nests.
    bar_angles : array, shape (n,)
        Angle of the bars, anticlockwise positive [rad].
    speed : float
        Constant speed of the bars, signed [rad/s].

    Returns
    -------
    Cycle
        `q` is the angle of the first egg, which turns against the bars; `force` the torque on
        the bars together, anticlockwise positive [N m].
    """
    bodies, couplings = "", []
    for i in range(bars.count):
        body = hinge(f"bar{i}") + inertial(0.0, 0.0, 0.0, bars.inertia)
        bodies += f'<body pos="{place(i * bars.spacing, 0.0)}">{body}</body>'
        if i:
            couplings.append(Coupling({f"bar{i}": 1.0, "bar0": -1.0}))
    for j, seat in enumerate(bars.eggs):
        reach = bars.radius + seat.egg.radius
        height = float(np.sqrt(reach**2 - (bars.spacing / 2) ** 2))
        x = (seat.lane + 0.5) * bars.spacing
        bodies += f'<body pos="{place(x, height)}">{hinge(f"egg{j}")}{egg_mass(seat.egg)}</body>'
        # No slip: the surfaces of egg and bar run the same way at the contact.
        couplings.append(Coupling({f"egg{j}": seat.egg.radius, f"bar{seat.lane}": bars.radius}))
    loops = Loops(driven="bar0", output="egg0", couplings=tuple(couplings))
    mechanism = Mechanism(model_xml(bodies), loops)
    places: list[Array | None] = []
    for angle in bar_angles:
        qpos = np.zeros(mechanism.model.nq)
        for i in range(bars.count):
            qpos[mechanism.dof(f"bar{i}")] = angle
        for j, seat in enumerate(bars.eggs):
            qpos[mechanism.dof(f"egg{j}")] = -angle * bars.radius / seat.egg.radius
        places.append(mechanism.close(qpos))
    return run(mechanism, bar_angles, places, speed)
