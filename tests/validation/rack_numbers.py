"""The bare numbers of a mechanism, for the outside opinions.

Nothing here calculates. A test fills these from a design and hands the same figures to the
package, to the physics engine (`mujoco_models.py`) and to the force balance
(`force_balance.py`); so neither opinion can inherit a mistake from the package.

SI throughout: [m], [kg], [rad], [N/m], [N m], [N m/rad]. x to the right, y up, angles
anticlockwise positive. A tray's angle q is zero when level; q > 0 puts its left side down.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class PointMass:
    """A mass fixed to a moving part, at (x, y) from the part's origin with the part level."""

    mass: float
    x: float
    y: float


@dataclass(frozen=True)
class Spring:
    """An extension spring from a point of the part to a fixed point.

    Pulls when longer than `free_length`, hangs slack when shorter. `fixed_x`, `fixed_y` are
    from the same origin as `part_x`, `part_y`, but stay put.
    """

    stiffness: float
    free_length: float
    part_x: float
    part_y: float
    fixed_x: float
    fixed_y: float


@dataclass(frozen=True)
class TorsionSpring:
    """A torsion spring at the pivot: torque on the part = -stiffness * (q - free_angle)."""

    stiffness: float
    free_angle: float


@dataclass(frozen=True)
class Tray:
    """One tray and everything that tilts with it; origin at its own pivot."""

    masses: tuple[PointMass, ...]
    springs: tuple[Spring, ...] = ()
    torsion_springs: tuple[TorsionSpring, ...] = ()


@dataclass(frozen=True)
class CrankLink:
    """Crank on a shaft at (`shaft_x`, `shaft_y`) and a link to a pin of the driven part.

    `push_sense` names the branch: +1 where a link under compression drives the part's
    coordinate up, -1 where it drives it down. It cannot change without passing a jam point.
    """

    radius: float
    shaft_x: float
    shaft_y: float
    length: float
    push_sense: int
    link_mass: float = 0.0


@dataclass(frozen=True)
class Rack:
    """Trays on a vertical line of pivots, `pitch` apart, lowest first; joined by one tie bar.

    The origin for the shaft is the lowest pivot. The link holds the arm of tray `driven`.
    """

    trays: tuple[Tray, ...]
    pitch: float
    arm_length: float
    arm_angle: float
    crank: CrankLink
    tie_bar_mass: float = 0.0
    driven: int = 0


@dataclass(frozen=True)
class Journal:
    """A plain bearing: radius [m] of the pin and coefficient of friction."""

    radius: float
    coefficient: float


@dataclass(frozen=True)
class RackFriction:
    """The journals of a rack: tray pivots, both pins of the link, the tie bar's pins."""

    pivots: Journal
    crank_pin: Journal
    arm_pin: Journal
    tie_bar_pins: Journal


FRICTIONLESS = RackFriction(*(Journal(0.0, 0.0),) * 4)
