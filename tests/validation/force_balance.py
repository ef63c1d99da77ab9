"""A full force balance of every body of a rack with friction in every pin.

Newton-Euler in static equilibrium, body by body, in the way of any statics text (Beer and
Johnston, Vector Mechanics for Engineers: Statics, chapter 6 on machines and section 8.6 on
journal bearings, from memory): unknown are the force in every pin and the torque on the crank;
known are weights, springs and the way each pin turns. Nothing of the package under test is
imported, and no virtual work is used, so an agreement is not the same formula written twice.

* A pin of radius r with coefficient mu under a force R resists with the moment
  r sin(atan(mu)) |R| against the relative rotation of the two bodies it joins.
* The link is a body with its weight at its middle; both its pins carry their share.
* The trays of the rack are joined by the tie bar's pins through their arms. The bar stays
  parallel to the line of pivots, so it does not turn, but its pins do. With more than one tray
  the sideways forces on the bar cannot be found by statics alone: they balance each other along
  the bar and do no work, and are taken as zero. `sideways=True` gives them to the lowest and
  the highest pin instead, which hold the bar against turning: the truth for two trays, and the
  measure of how much the simplification is worth.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import root

from .rack_numbers import Journal, Rack, RackFriction, Tray

Array = NDArray[np.float64]

GRAVITY = 9.80665  # [m/s2], standard gravity (CGPM 1901)
BALANCED = 1e-9  # of the sum of weights; solved balances are left with 1e-16


@dataclass(frozen=True)
class Pose:
    """The rack at one crank angle; vectors are complex numbers x + iy [m], rates per radian."""

    tilt: float
    tilt_rate: float
    link_rate: float
    crank: complex
    link: complex
    arm: complex


@dataclass(frozen=True)
class Balance:
    """The forces of a rack over the crank angles, for one direction of the crank.

    Attributes
    ----------
    crank_angle, tilt, tilt_rate : array, shape (n,)
        [rad], [rad], [-]; NaN where the link does not reach.
    torque : array, shape (n,)
        Torque of the motor on the shaft as the motor feels it, positive where it pushes [N m].
    loss : array, shape (n,)
        Friction work per radian of crank [N m], summed over all pins.
    link_tension : array, shape (n,)
        Force along the link in its middle, tension positive [N]. Towards the ends the link's
        own weight adds and takes half its share.
    crank_pin_force, arm_pin_force : array, shape (n,)
        Magnitudes [N].
    pivot_force, tie_pin_force : array, shape (n, trays)
        Magnitudes [N].
    residual : array, shape (n,)
        Largest force or moment left unbalanced, scaled by the sum of weights. Where it is more
        than 1e-9 there is no equilibrium with the crank going that way: friction jams it, and
        all forces are NaN.
    """

    crank_angle: Array
    tilt: Array
    tilt_rate: Array
    torque: Array
    loss: Array
    link_tension: Array
    crank_pin_force: Array
    arm_pin_force: Array
    pivot_force: Array
    tie_pin_force: Array
    residual: Array


def cross(a: complex, b: complex) -> float:
    """Moment of a force b at a place a."""
    return (a.conjugate() * b).imag


def friction_circle(journal: Journal) -> float:
    """Radius of the friction circle, r sin(atan mu) [m]."""
    return float(journal.radius * np.sin(np.arctan(journal.coefficient)))


def pose(rack: Rack, crank_angle: float) -> Pose | None:
    """Where everything is at a crank angle; None where the link does not reach.

    The arm pin is where a circle of the link's length about the crank pin meets the circle of
    the arm about its pivot.
    """
    c = rack.crank
    crank = c.radius * np.exp(1j * crank_angle)
    pivot = 1j * rack.driven * rack.pitch
    crank_pin = complex(c.shaft_x, c.shaft_y) + crank - pivot  # seen from the driven pivot
    distance = abs(crank_pin)
    along = (rack.arm_length**2 - c.length**2 + distance**2) / (2 * distance)
    square = rack.arm_length**2 - along**2
    if square < 0:
        return None
    direction = crank_pin / distance
    for side in (1, -1):
        arm = direction * (along + side * 1j * np.sqrt(square))
        link = arm - crank_pin
        # The arm pin moves along i*arm as the tilt grows.
        if np.sign((link * (1j * arm).conjugate()).real) == c.push_sense:
            break
    tilt = np.angle(arm * np.exp(-1j * rack.arm_angle))
    # Velocity of the arm pin: i*arm*tilt' = i*crank + i*link*link', two real equations.
    matrix = np.array([[arm.real, -link.real], [arm.imag, -link.imag]])
    tilt_rate, link_rate = np.linalg.solve(matrix, [crank.real, crank.imag])
    return Pose(float(tilt), float(tilt_rate), float(link_rate), crank, link, arm)


def applied_to_tray(tray: Tray, tilt: float) -> tuple[complex, float]:
    """Weights and springs on a tray: force [N] and moment about its pivot [N m]."""
    turn = complex(np.exp(1j * tilt))
    force, moment = 0j, 0.0
    for mass in tray.masses:
        place, weight = turn * complex(mass.x, mass.y), -1j * mass.mass * GRAVITY
        force += weight
        moment += cross(place, weight)
    for spring in tray.springs:
        place = turn * complex(spring.part_x, spring.part_y)
        pull = complex(spring.fixed_x, spring.fixed_y) - place
        pull *= spring.stiffness * max(abs(pull) - spring.free_length, 0.0) / abs(pull)
        force += pull
        moment += cross(place, pull)
    for torsion in tray.torsion_springs:
        moment -= torsion.stiffness * (tilt - torsion.free_angle)
    return force, moment


@dataclass(frozen=True)
class Unknowns:
    """The unknown forces at one position, unpacked from a flat vector.

    `torque` acts on the crank, anticlockwise; `shaft` is the bearing on the crank, `crank_pin`
    the crank on the link, `arm_pin` the link on the arm, `pivots` the stand on the trays and
    `bar` the tie bar on the arms.
    """

    torque: float
    shaft: complex
    crank_pin: complex
    arm_pin: complex
    pivots: tuple[complex, ...]
    bar: tuple[complex, ...]

    @staticmethod
    def count(trays: int, sideways: bool) -> int:
        """Number of scalar unknowns."""
        return 7 + 3 * trays + 2 * sideways

    @staticmethod
    def unpack(v: Array, trays: int, sideways: bool) -> Unknowns:
        """Read the flat vector."""
        pivots = tuple(complex(*v[7 + 2 * i : 9 + 2 * i]) for i in range(trays))
        bar = [1j * complex(f) for f in v[7 + 2 * trays : 7 + 3 * trays]]
        if sideways:
            bar[0] += v[-2]
            bar[-1] += v[-1]
        return Unknowns(
            v[0], complex(*v[1:3]), complex(*v[3:5]), complex(*v[5:7]), pivots, tuple(bar)
        )


@dataclass(frozen=True)
class Spin:
    """Which way the bodies turn at each pin: signs of relative rotation (0 where none)."""

    link_on_crank: float
    tray_on_link: float
    tray: float


def unbalanced(
    unknown: Unknowns,
    rack: Rack,
    friction: RackFriction,
    at: Pose,
    spin: Spin,
    sideways: bool,
) -> Array:
    """Force and moment left over on every body; all zero in equilibrium."""
    link_weight = -1j * rack.crank.link_mass * GRAVITY
    bar_weight = -1j * rack.tie_bar_mass * GRAVITY
    in_crank_pin = friction_circle(friction.crank_pin) * abs(unknown.crank_pin)
    in_arm_pin = friction_circle(friction.arm_pin) * abs(unknown.arm_pin)
    # Moments on the body named first, against its rotation relative to the other.
    link_on_crank = -spin.link_on_crank * in_crank_pin
    tray_on_link = -spin.tray_on_link * in_arm_pin
    in_bar = [friction_circle(friction.tie_bar_pins) * abs(f) for f in unknown.bar]

    left: list[complex | float] = [
        unknown.shaft - unknown.crank_pin,
        unknown.torque + cross(at.crank, -unknown.crank_pin) - link_on_crank,
        unknown.crank_pin - unknown.arm_pin + link_weight,
        cross(at.link, -unknown.arm_pin)
        + cross(at.link / 2, link_weight)
        + link_on_crank
        - tray_on_link,
    ]
    for i, tray in enumerate(rack.trays):
        force, moment = applied_to_tray(tray, at.tilt)
        in_pivot = friction_circle(friction.pivots) * abs(unknown.pivots[i])
        force += unknown.pivots[i] + unknown.bar[i]
        moment += cross(at.arm, unknown.bar[i]) - spin.tray * (in_pivot + in_bar[i])
        if i == rack.driven:
            force += unknown.arm_pin
            moment += cross(at.arm, unknown.arm_pin) + tray_on_link
        left += [force, moment]
    on_bar = bar_weight - sum(unknown.bar)
    left.append(on_bar.imag)
    if sideways:
        places = [1j * i * rack.pitch for i in range(len(rack.trays))]
        turning = sum(cross(p, -f) for p, f in zip(places, unknown.bar, strict=True))
        # The bar's weight acts on the bar's own line and does not turn it.
        left += [on_bar.real, turning + spin.tray * sum(in_bar)]
    flat: list[float] = []
    for item in left:
        flat += [item.real, item.imag] if isinstance(item, complex) else [item]
    return np.array(flat)


def balance(
    rack: Rack,
    friction: RackFriction,
    crank_angles: Array,
    direction: int,
    sideways: bool = False,
) -> Balance:
    """Forces in every pin and the shaft torque at the crank angles.

    Parameters
    ----------
    rack : Rack
        Lengths, masses, springs.
    friction : RackFriction
        Radii and coefficients of the pins.
    crank_angles : array, shape (n,)
        [rad], anticlockwise from the x axis.
    direction : int
        +1 where the crank turns anticlockwise, -1 clockwise.
    sideways : bool
        Let the lowest and highest pin of the tie bar carry the sideways forces that keep the
        bar from turning; otherwise there are none.

    Returns
    -------
    Balance
        See there.
    """
    trays, n = len(rack.trays), len(crank_angles)
    sideways = sideways and trays > 1
    weight = GRAVITY * sum(m.mass for t in rack.trays for m in t.masses)
    scale = weight + GRAVITY * (rack.tie_bar_mass + rack.crank.link_mass)
    names = ("tilt", "tilt_rate", "torque", "loss", "link_tension")
    names += ("crank_pin_force", "arm_pin_force", "residual")
    out = {name: np.full(n, np.nan) for name in names}
    pivot_force, tie_pin_force = np.full((2, n, trays), np.nan)

    for i, angle in enumerate(crank_angles):
        at = pose(rack, float(angle))
        if at is None:
            continue
        spin = Spin(
            float(np.sign(direction * (at.link_rate - 1.0))),
            float(np.sign(direction * (at.tilt_rate - at.link_rate))),
            float(np.sign(direction * at.tilt_rate)),
        )

        def left_over(v: Array, at: Pose = at, spin: Spin = spin) -> Array:
            unknown = Unknowns.unpack(v, trays, sideways)
            return unbalanced(unknown, rack, friction, at, spin, sideways)

        solution = root(
            lambda v, f=left_over: f(v * scale) / scale,
            np.full(Unknowns.count(trays, sideways), 0.1),
            method="hybr",
            tol=1e-13,
        )
        unknown = Unknowns.unpack(solution.x * scale, trays, sideways)
        out["residual"][i] = np.abs(left_over(solution.x * scale)).max() / scale
        out["tilt"][i], out["tilt_rate"][i] = at.tilt, at.tilt_rate
        if out["residual"][i] > BALANCED:
            continue  # no forces hold the balance: friction jams it
        out["torque"][i] = unknown.torque * direction
        through = (unknown.crank_pin + unknown.arm_pin) / 2
        out["link_tension"][i] = -(through * at.link.conjugate()).real / abs(at.link)
        out["crank_pin_force"][i] = abs(unknown.crank_pin)
        out["arm_pin_force"][i] = abs(unknown.arm_pin)
        pivot_force[i] = np.abs(unknown.pivots)
        tie_pin_force[i] = np.abs(unknown.bar)
        out["loss"][i] = (
            friction_circle(friction.crank_pin) * abs(unknown.crank_pin) * abs(at.link_rate - 1)
            + friction_circle(friction.arm_pin)
            * abs(unknown.arm_pin)
            * abs(at.tilt_rate - at.link_rate)
            + friction_circle(friction.pivots) * pivot_force[i].sum() * abs(at.tilt_rate)
            + friction_circle(friction.tie_bar_pins) * tie_pin_force[i].sum() * abs(at.tilt_rate)
        )
    return Balance(
        crank_angle=np.array(crank_angles),
        pivot_force=pivot_force,
        tie_pin_force=tie_pin_force,
        **out,
    )
