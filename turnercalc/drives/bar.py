"""A straight bar with a pin at either end, pushing the driven pin: a link, or an actuator's rod.

The foot is the end at the drive, the tip the end at the turner. Half of the bar's weight is
taken at each of its ends; its middle moves so little faster than that, that nothing is lost.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.drives.base import Motion, Reaction
from turnercalc.mechanics.numeric import magnitude
from turnercalc.paths import Path

Array = NDArray[np.float64]


def push_through_bar(
    motion: Motion,
    path: Path,
    load: ArrayLike,
    direction: ArrayLike,
    *,
    circle: Array,
    half_weight: float,
    foot_turns: float,
    names: Sequence[str],
    start: Reaction | None = None,
) -> Reaction:
    """Return the bar's forces for a load torque at the coordinate, and its pins' losses.

    Parameters
    ----------
    motion, path, load, direction, start
        As in `drives.base.Drive.react`.
    circle : ndarray, shape (friction, 1, 1)
        Radius of the friction circle of both pins [m].
    half_weight : float
        At each end of the bar [N].
    foot_turns : float
        Rotation of what holds the foot per unit of position: 1 for a crank, 0 for a fixed eye.
    names : sequence of str
        What the pins at foot and tip are called.

    Notes
    -----
    u is the vector along the bar, t the tangent dp/dq of the driven pin, F the force of the
    bar on the pin before its half weight, and f the friction circle's radius of a pin::

        F . t = load + half weight . t + s_b f |F_b|         balance of the moving part
        u x F = s_a f |F_a| + s_b f |F_b|                    balance of the bar
        loss  = f |F_a| |foot' - bar'| + f |F_b| |q' - bar'|     power at the two pins

    s_a and s_b are the signs of the relative rotation at foot and tip. The friction moments
    depend on the forces, so that an earlier answer as `start` makes it a step of an iteration.
    """
    ux, uy = motion.bar_x, motion.bar_y
    assert ux is not None
    assert uy is not None
    assert motion.bar_rate is not None
    way = np.asarray(direction, float)
    tx, ty = path.tangent(motion.coordinate)
    at_foot = foot_turns - motion.bar_rate
    at_tip = path.turning * motion.rate - motion.bar_rate
    moment_foot = moment_tip = np.zeros(())
    if start is not None:
        foot, tip = pin_forces(start.x, start.y, half_weight)
        moment_foot = np.sign(way * at_foot) * circle * foot
        moment_tip = np.sign(way * at_tip) * circle * tip
    length2 = ux * ux + uy * uy
    lever = ux * tx + uy * ty
    square = (moment_foot + moment_tip) / length2
    with np.errstate(divide="ignore", invalid="ignore"):
        needed = np.asarray(load) + half_weight * ty + path.turning * moment_tip
        along = (needed - square * (ux * ty - uy * tx)) / lever
    x, y = along * ux - square * uy, along * uy + square * ux - half_weight
    foot, tip = pin_forces(x, y, half_weight)
    return Reaction(
        x=x,
        y=y,
        loss=circle * (foot * np.abs(at_foot) + tip * np.abs(at_tip)),
        # The bar pulls the pin towards its foot when it is in tension: against u.
        bar_force=-along * np.sqrt(length2),
        pins=dict(zip(names, (foot, tip), strict=True)),
    )


def pin_forces(x: Array, y: Array, half_weight: float) -> tuple[Array, Array]:
    """Return the forces on the pins at foot and tip [N] of a bar that puts (x, y) on its tip.

    The foot bears what the tip puts on the turner and the bar's whole weight.
    """
    return magnitude(x, y + 2.0 * half_weight), magnitude(x, y)
