"""The turn cycle: turner x drive x load x friction x direction x position.

By virtual work on the one coordinate q of the turner (' = d/dposition, w = shaft speed)::

    load torque  Q = dV/dq + J q'' w^2 + 1/2 (dJ/dq) q'^2 w^2 + Q_f sign(q' w)
    shaft torque   = Q q' + (link's weight) + sign(w) (losses of the drive's own pins)

The friction Q_f depends on the forces of the drive, and these on Q: both are iterated until
they agree. Where they do not, the drive jams.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.drives.base import DIRECTIONS, Drive, Motion, Reaction
from turnercalc.joints import LEVELS
from turnercalc.mechanics.numeric import keep_freed_memory, magnitude
from turnercalc.mechanics.settling import Values, settle
from turnercalc.paths import Path
from turnercalc.turners.base import LoadCase, Resistance, Turner

Array = NDArray[np.float64]

#: Forces and losses agree when one more round changes the forces by less than this part.
AGREEMENT = 1e-10
NO_LEVER = 1e-12  # m


@dataclass(frozen=True)
class TurnCycle:
    """One complete answer: every torque and force of a turn cycle.

    Axes of every torque and force: load, friction, direction, position. The direction axis is
    anticlockwise, clockwise; the friction axis as in `levels`. NaN where the drive jams or does
    not close.

    Attributes
    ----------
    loads : tuple of LoadCase
        The load axis.
    levels : tuple of str
        The friction axis.
    motion : Motion
        The coordinate and its derivatives along the position axis.
    load_torque : ndarray
        At the tray, bar set or drum, friction included; positive drives q up [N·m or N].
    shaft_torque : ndarray
        At the crank or driving shaft as the motor feels it: positive, the motor pushes;
        without inertia [N·m, or N for an actuator].
    inertia_torque : ndarray
        To be multiplied by the shaft speed squared and added to the shaft torque [N·m·s2],
        shape (load, 1, direction, position).
    bar_force : ndarray or None
        Along the link, tension positive [N].
    pin_forces : mapping
        Bearing or pin -> force on it [N].
    lost : ndarray
        Power lost to friction per unit of shaft speed, in turner and drive [N·m or N].
    jams : ndarray of bool
        Where forces and losses do not agree: friction holds the drive whatever the motor does.
    """

    loads: tuple[LoadCase, ...]
    levels: tuple[str, ...]
    motion: Motion
    load_torque: Array
    shaft_torque: Array
    inertia_torque: Array
    bar_force: Array | None
    pin_forces: Mapping[str, Array]
    lost: Array
    jams: NDArray[np.bool_]

    def shaft_torque_at(self, shaft_speed: float) -> Array:
        """Return the shaft torque at a steady shaft speed [rad/s], inertia included [N·m]."""
        return self.shaft_torque + self.inertia_torque * shaft_speed**2


def turn_cycle(
    turner: Turner,
    drive: Drive,
    loads: Sequence[LoadCase],
    *,
    levels: Sequence[str] = LEVELS,
    positions: ArrayLike | None = None,
    count: int = 360,
) -> TurnCycle:
    """Compute the whole cycle of a turner and a drive.

    Parameters
    ----------
    turner, drive
        What is turned, and by what.
    loads : sequence of LoadCase
        The load axis.
    levels : sequence of str
        Friction levels, see `joints.JointFriction.at`.
    positions : array_like, optional
        Shaft positions [rad or m]; one full cycle of `count` positions by default.
    count : int
        Number of positions of a full cycle.
    """
    keep_freed_memory()
    path = turner.path()
    if positions is None:
        positions = drive.positions(turner.travel, count)
    motion = drive.close(path, positions)
    cells = np.stack([case.cells for case in loads]).astype(float)
    q = motion.coordinate
    sense = DIRECTIONS * np.sign(motion.rate)
    held = turner.load_torque(cells, q, sense)
    resistance = turner.resistance(cells, q, sense, levels)

    friction, reaction, jams = _agree(drive, motion, path, held, sense, resistance, levels)
    lost = friction * np.abs(motion.rate) + reaction.loss
    shaft = DIRECTIONS * (held * motion.rate + drive.weight_torque(motion, path)) + lost
    bearings = {**resistance.bearing_forces(reaction.x, reaction.y), **reaction.pins}
    shape = np.broadcast_shapes(shaft.shape, jams.shape)

    def blank(values: Array) -> Array:
        return np.where(jams, np.nan, np.broadcast_to(values, shape))

    return TurnCycle(
        loads=tuple(loads),
        levels=tuple(levels),
        motion=motion,
        load_torque=blank(held + sense * friction),
        shaft_torque=blank(shaft),
        inertia_torque=inertia_torque(turner, drive, motion, cells),
        bar_force=None if reaction.bar_force is None else blank(reaction.bar_force),
        pin_forces={name: blank(force) for name, force in bearings.items()},
        lost=blank(lost),
        jams=np.broadcast_to(jams, shape),
    )


def frictionless(
    turner: Turner, drive: Drive, cells: Array, positions: ArrayLike
) -> tuple[Array, Array, Array, Array]:
    """Return q, q', q'' and the shaft torque without friction, inertia and the drive's weights.

    The kernel of design sweeps: turner and drive may hold arrays with the designs on their first
    axis and one axis for every later one of the result (load, friction, direction, position).

    Returns
    -------
    coordinate, rate, second : ndarray, shape (design, 1, 1, 1, position)
        NaN where the loop does not close.
    torque : ndarray, shape (design, load, 1, 1, position)
        Of the shaft turning anticlockwise [N·m]; the other direction has the sign turned.
    """
    coordinate, rate, second = drive.trace(turner.path(), positions)
    return coordinate, rate, second, turner.load_torque(cells, coordinate, rate) * rate


def inertia_torque(turner: Turner, drive: Drive, motion: Motion, cells: Array) -> Array:
    """Return the shaft torque of inertia per shaft speed squared [N·m·s2].

    d/dposition of the kinetic energy 1/2 J q'^2, as the motor feels it.
    """
    path = turner.path()
    inertia, slope = turner.inertia(cells, motion.coordinate)
    tx, ty = path.tangent(motion.coordinate)
    kx, ky = path.second(motion.coordinate)
    inertia = inertia + drive.pin_mass * (tx * tx + ty * ty)
    slope = slope + 2.0 * drive.pin_mass * (tx * kx + ty * ky)
    climb = inertia * motion.rate * motion.second + 0.5 * slope * motion.rate**3
    return np.asarray(DIRECTIONS * climb)


def _agree(
    drive: Drive,
    motion: Motion,
    path: Path,
    held: Array,
    sense: Array,
    resistance: Resistance,
    levels: Sequence[str],
) -> tuple[Array, Reaction, NDArray[np.bool_]]:
    """Find losses and forces that agree, and say where there are none.

    The forces make the losses, in the turner and in the drive's own pins, and these the forces.
    """
    # A turner that is turned at its shaft may have a pin without any way to go.
    lever = np.maximum(np.hypot(*path.tangent(motion.coordinate)), NO_LEVER)

    def apply(forces: Values) -> tuple[Array, Reaction]:
        x, y = forces
        losses = resistance(x, y)
        load = held + sense * losses
        start = Reaction(x, y, losses)
        return losses, drive.react(motion, path, load, DIRECTIONS, levels, start)

    def lead_to(forces: Values) -> Values:
        _, reaction = apply(forces)
        return reaction.x, reaction.y

    at_least = np.abs(held) / lever

    def allowed(forces: Values) -> Array:
        return AGREEMENT * (magnitude(*forces) + at_least)

    free = drive.react(motion, path, held, DIRECTIONS, levels)
    forces, agrees = settle(lead_to, (free.x, free.y), allowed, motion.closes)
    with np.errstate(over="ignore", invalid="ignore"):
        losses, reaction = apply(forces)
    return losses, reaction, ~(agrees & motion.closes)
