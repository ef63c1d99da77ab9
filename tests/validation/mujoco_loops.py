"""A planar mechanism with closed loops in MuJoCo, solved exactly instead of simulated.

Source of the second opinion: the MuJoCo physics engine (Todorov, Erez and Tassa 2012, "MuJoCo:
A physics engine for model-based control", IROS; documentation at mujoco.readthedocs.io), its
functions mj_kinematics, mj_jacSite, mj_jacDot and mj_inverse.

Time stepping drifts and MuJoCo's own constraints are soft, so neither is used here. The model
is a tree of bodies without constraints; this module closes the loops:

* positions: Newton on the gaps between pairs of sites, with MuJoCo's kinematics and Jacobians;
* motion per crank angle: the null space of those Jacobians, t = d(qpos)/d(theta);
* torque: MuJoCo's inverse dynamics gives the generalised force of every joint; projected on t
  (constraint forces do no work along t) it is the torque needed at the driven joint.

Nothing of the package under test is imported. The plane is x-y of the model, the viewer looks
against z, gravity is -y, so anticlockwise is positive for a hinge about +z.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import cos, sin

import mujoco
import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

GRAVITY = 9.80665  # [m/s2], standard gravity (CGPM 1901)
CLOSED = 1e-12  # [m], the largest gap of a loop that counts as closed
MASSLESS = 1e-9  # [kg] MuJoCo refuses a moving body without mass
NO_INERTIA = 1e-13  # [kg m2]
DOT = 1e-4  # [m] radius of a point mass; its own inertia is 4e-9 m2 times its mass


@dataclass(frozen=True)
class Coupling:
    """A linear relation between joints: sum(coefficient * joint) = constant."""

    coefficients: dict[str, float]
    constant: float = 0.0


@dataclass(frozen=True)
class Loops:
    """What makes a tree of bodies a mechanism of one degree of freedom.

    `driven` is the joint the motor turns or pushes. `pins` are pairs of sites that coincide,
    `couplings` linear relations between joints (rolling, gears).
    """

    driven: str
    output: str
    pins: tuple[tuple[str, str], ...] = ()
    couplings: tuple[Coupling, ...] = ()


@dataclass(frozen=True)
class Cycle:
    """Motion and drive over the positions of the driven joint; NaN where it does not close.

    Attributes
    ----------
    drive : array, shape (n,)
        Driven joint [rad] or [m].
    q, dq, ddq : array, shape (n,)
        Output joint and its first two derivatives by the driven joint.
    force : array, shape (n,)
        Torque [N m] or force [N] that the drive must put on its joint, positive in the
        joint's positive sense.
    pin_force : array, shape (n, pins, 2)
        Force [N] of the first site's body on the second site's body, for every pair of pins.
        Shared arbitrarily where the loops are redundant.
    gap : array, shape (n,)
        Largest opening left in any loop [m].
    """

    drive: Array
    q: Array
    dq: Array
    ddq: Array
    force: Array
    pin_force: Array
    gap: Array


def model_xml(bodies: str, extra: str = "", options: str = "") -> str:
    """A planar model around `bodies`: gravity down, no contacts, no soft constraints."""
    return f"""
    <mujoco>
      <compiler angle="radian" inertiafromgeom="auto" autolimits="false"/>
      <option gravity="{place(0.0, -GRAVITY)}" {options}>
        <flag constraint="disable" contact="disable" energy="enable"/>
      </option>
      <worldbody>{bodies}</worldbody>
      {extra}
    </mujoco>"""


def number(value: float) -> str:
    """A number as MuJoCo's files want it, with all its digits."""
    return repr(float(value))


def place(x: float, y: float) -> str:
    """A place in the plane."""
    return f"{number(x)} {number(y)} 0"


def dot(mass: float, x: float, y: float) -> str:
    """A point mass fixed to the body it is written in."""
    return f'<geom type="sphere" size="{DOT}" mass="{number(mass)}" pos="{place(x, y)}"/>'


def spot(name: str, x: float = 0.0, y: float = 0.0) -> str:
    """A named point of the body it is written in."""
    return f'<site name="{name}" pos="{place(x, y)}"/>'


def hinge(name: str, more: str = "") -> str:
    """A pivot about the viewing axis."""
    return f'<joint name="{name}" type="hinge" axis="0 0 1" {more}/>'


def slide(name: str, angle: float) -> str:
    """A straight guide in the direction `angle` from the x axis [rad]."""
    axis = place(cos(angle), sin(angle))
    return f'<joint name="{name}" type="slide" axis="{axis}"/>'


def inertial(mass: float, x: float, y: float, inertia: float) -> str:
    """Mass, centre and inertia about the centre [kg m2] stated outright."""
    i = number(max(inertia, NO_INERTIA))
    m = number(max(mass, MASSLESS))
    return f'<inertial mass="{m}" pos="{place(x, y)}" diaginertia="{i} {i} {i}"/>'


@dataclass
class Mechanism:
    """The MuJoCo model together with its loops."""

    xml: str
    loops: Loops
    model: mujoco.MjModel = field(init=False)
    data: mujoco.MjData = field(init=False)

    def __post_init__(self) -> None:
        self.model = mujoco.MjModel.from_xml_string(self.xml)
        self.data = mujoco.MjData(self.model)
        self.driven = self.dof(self.loops.driven)
        self.output = self.dof(self.loops.output)
        self.others = [i for i in range(self.model.nv) if i != self.driven]
        self.site_pairs = [(self._site(a), self._site(b)) for a, b in self.loops.pins]

    def dof(self, joint: str) -> int:
        """Index of a joint in qpos and qvel (all joints here have one degree of freedom)."""
        return int(self.model.joint(joint).dofadr[0])

    def _site(self, name: str) -> int:
        return int(self.model.site(name).id)

    def place(self, qpos: Array) -> None:
        """Put every joint at `qpos` and let MuJoCo work out where everything is."""
        self.data.qpos[:] = qpos
        mujoco.mj_kinematics(self.model, self.data)
        mujoco.mj_comPos(self.model, self.data)

    def where(self, site: str) -> Array:
        """Where a site is now, shape (2,) [m]."""
        return np.array(self.data.site(site).xpos[:2])

    def residual(self) -> Array:
        """The openings of all loops at the present place."""
        gaps: list[Array] = [np.zeros(0)]
        gaps += [
            self.data.site_xpos[a][:2] - self.data.site_xpos[b][:2] for a, b in self.site_pairs
        ]
        linear = [
            sum(k * self.data.qpos[self.dof(j)] for j, k in c.coefficients.items()) - c.constant
            for c in self.loops.couplings
        ]
        return np.concatenate([*gaps, np.array(linear, dtype=float)])

    def _stacked(self, site_rows: list[Array], coupling_scale: float) -> Array:
        rows = np.zeros((len(self.loops.couplings), self.model.nv))
        for row, coupling in zip(rows, self.loops.couplings, strict=True):
            for joint, k in coupling.coefficients.items():
                row[self.dof(joint)] = k * coupling_scale
        return np.vstack([*site_rows, rows])

    def jacobian(self) -> Array:
        """d(residual)/d(qpos) from MuJoCo's site Jacobians, shape (constraints, nv)."""

        def of(site: int) -> Array:
            jacobian = np.zeros((3, self.model.nv))
            mujoco.mj_jacSite(self.model, self.data, jacobian, None, site)
            return jacobian[:2]

        return self._stacked([of(a) - of(b) for a, b in self.site_pairs], 1.0)

    def jacobian_rate(self) -> Array:
        """d(jacobian)/dt at the present qpos and qvel, from MuJoCo's mj_jacDot."""
        mujoco.mj_comVel(self.model, self.data)

        def of(site: int) -> Array:
            rate = np.zeros((3, self.model.nv))
            point, body = self.data.site_xpos[site], int(self.model.site_bodyid[site])
            mujoco.mj_jacDot(self.model, self.data, rate, None, point, body)
            return rate[:2]

        return self._stacked([of(a) - of(b) for a, b in self.site_pairs], 0.0)

    def close(self, guess: Array, steps: int = 40) -> Array | None:
        """Newton from `guess`, the driven joint held; None where the loops stay open."""
        qpos = guess.copy()
        for _ in range(steps):
            self.place(qpos)
            gap = self.residual()
            if np.abs(gap).max() < 1e-15:
                break
            step = np.linalg.lstsq(self.jacobian()[:, self.others], -gap, rcond=1e-12)[0]
            qpos[self.others] += step * min(1.0, 0.5 / max(np.abs(step).max(), 1e-30))
        self.place(qpos)
        return qpos if np.abs(self.residual()).max() < CLOSED else None

    def _follow(self, right_side: Array) -> Array:
        """Solve jacobian @ x = right_side for all joints but the driven one."""
        if not self.others:
            return np.zeros(self.model.nv)
        matrix = self.jacobian()[:, self.others]
        solution = np.linalg.lstsq(matrix, right_side, rcond=1e-12)[0]
        if not np.allclose(matrix @ solution, right_side, atol=1e-9 * (1 + np.abs(right_side))):
            message = "the loops cannot follow the drive: a jam point"
            raise ArithmeticError(message)
        full = np.zeros(self.model.nv)
        full[self.others] = solution
        return full

    def tangent(self) -> Array:
        """d(qpos)/d(driven joint) at the present place, shape (nv,)."""
        along = self._follow(-self.jacobian()[:, self.driven])
        along[self.driven] = 1.0
        return along

    def curvature(self, tangent: Array) -> Array:
        """d2(qpos)/d(driven joint)2 at the present place, shape (nv,)."""
        self.data.qvel[:] = tangent
        bend = self._follow(-self.jacobian_rate() @ tangent)
        self.data.qvel[:] = 0.0
        return bend

    def inverse(self, qpos: Array, qvel: Array, qacc: Array) -> Array:
        """MuJoCo's inverse dynamics: generalised force at every joint, shape (nv,)."""
        self.data.qpos[:], self.data.qvel[:], self.data.qacc[:] = qpos, qvel, qacc
        mujoco.mj_inverse(self.model, self.data)
        forces = np.array(self.data.qfrc_inverse)
        self.data.qvel[:], self.data.qacc[:] = 0.0, 0.0
        return forces

    def potential_energy(self, qpos: Array) -> float:
        """MuJoCo's potential energy of gravity and springs [J]."""
        self.data.qpos[:], self.data.qvel[:] = qpos, 0.0
        mujoco.mj_forward(self.model, self.data)
        return float(self.data.energy[0])


def run(
    mechanism: Mechanism, drive: Array, places: list[Array | None], speed: float = 0.0
) -> Cycle:
    """Motion and drive at closed `places` (None: open), at constant `speed` of the drive."""
    n, pairs = len(places), len(mechanism.site_pairs)
    columns = {name: np.full(n, np.nan) for name in ("q", "dq", "ddq", "force", "gap")}
    pins = np.full((n, pairs, 2), np.nan)
    for i, qpos in enumerate(places):
        if qpos is None:
            continue
        mechanism.place(qpos)
        along = mechanism.tangent()
        bend = mechanism.curvature(along)
        columns["gap"][i] = np.abs(mechanism.residual()).max(initial=0.0)
        columns["q"][i] = qpos[mechanism.output]
        columns["dq"][i] = along[mechanism.output]
        columns["ddq"][i] = bend[mechanism.output]
        needed = mechanism.inverse(qpos, along * speed, bend * speed**2)
        columns["force"][i] = along @ needed
        # Joint forces that the drive does not supply come from the loops: J^T lambda.
        if not pairs:
            continue
        needed[mechanism.driven] -= columns["force"][i]
        multipliers = np.linalg.lstsq(mechanism.jacobian().T, needed, rcond=1e-12)[0]
        pins[i] = -multipliers[: 2 * pairs].reshape(pairs, 2)
    return Cycle(drive=np.array(drive, dtype=float), pin_force=pins, **columns)
