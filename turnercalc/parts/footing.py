"""What a cradle stands on has to hold: grip against sliding, press on rollers, creep."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.cycle import TurnCycle
from turnercalc.loads import planned
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.mechanics.rolling import creepage
from turnercalc.turners.arc_on_rollers import LEFT, RIGHT
from turnercalc.turners.rocking_cradle import GRIP, PRESS, RockingCradle

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Hardest:
    """Where a cycle asks most of what the cradle stands on.

    Attributes
    ----------
    value : float
        What is asked there; see the function that returns it.
    load : int
        Index along the load axis.
    coordinate : float
        Tilt there [rad].
    rises : bool
        Whether the tilt is on its way up there.
    """

    value: float
    load: int
    coordinate: float
    rises: bool


def grip_needed(cycle: TurnCycle, ways: Sequence[int]) -> Hardest:
    """Return the friction coefficient that rolling needs, at its largest [-].

    Over the planned loads, all frictions of the cycle and the directions it may turn. Infinite
    where the drive lifts the runners off the floor.
    """
    return _largest(cycle, ways, _asked(cycle.pin_forces[GRIP], cycle.pin_forces[PRESS]))


def strap_pull(cycle: TurnCycle, ways: Sequence[int]) -> Hardest:
    """Return the largest force along the floor, which straps have to hold [N]."""
    return _largest(cycle, ways, cycle.pin_forces[GRIP])


def lightest_roller(cycle: TurnCycle, ways: Sequence[int]) -> Hardest:
    """Return the least press on either roller as a share of the press on both [-]."""
    left, right = cycle.pin_forces[LEFT], cycle.pin_forces[RIGHT]
    both = left + right
    with np.errstate(divide="ignore", invalid="ignore"):
        share = np.where(both > 0.0, np.minimum(left, right) / both, -np.inf)
    found = _largest(cycle, ways, -share)
    return Hardest(-found.value, found.load, found.coordinate, found.rises)


def _asked(grip: Array, press: Array) -> Array:
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(press > 0.0, grip / press, np.where(np.isnan(press), np.nan, np.inf))


def _largest(cycle: TurnCycle, ways: Sequence[int], values: Array) -> Hardest:
    """Return the largest of some values; what jams is not counted here, it has its own check."""
    counted = np.where(planned(cycle)[:, None, None, None], values, -np.inf)[:, :, list(ways)]
    counted = np.where(np.isnan(counted), -np.inf, counted)
    load, _, way, at = (int(i) for i in np.unravel_index(int(counted.argmax()), counted.shape))
    sense = (1.0, -1.0)[list(ways)[way]]
    return Hardest(
        value=float(counted.max()),
        load=load,
        coordinate=float(cycle.motion.coordinate[at]),
        rises=bool(sense * cycle.motion.rate[at] > 0.0),
    )


def creep(cradle: RockingCradle, cycle: TurnCycle, way: int, level: str = "middle") -> Array:
    """Return how far each load lets the cradle creep in one cycle, right is positive [m].

    Parameters
    ----------
    cradle : RockingCradle
        On a floor.
    cycle : TurnCycle
        With the force along the bar that drives it.
    way : int
        Index along the direction axis; a drive that runs to and fro runs both.
    level : str
        Friction.

    Returns
    -------
    ndarray, shape (load,)
        NaN where it slides anywhere.

    Notes
    -----
    A contact that rolls and transmits a force creeps the way it is pushed, whichever way it
    rolls (`mechanics.rolling.creepage`), so what differs between the two sides of the swing
    adds up turn by turn. How wide the contact is nobody knows; the press lies within it, so it is
    taken as wide to each side as the arm of rolling resistance: the result is a rough figure.
    """
    motion, at = cycle.motion, cycle.levels.index(level)
    assert cycle.bar_force is not None
    assert motion.bar_x is not None
    assert motion.bar_y is not None
    ways = (way,) if motion.round_and_round else (0, 1)
    cells = np.stack([case.cells for case in cycle.loads]).astype(float)
    weight = STANDARD_GRAVITY * cradle.moments(cells)[0].reshape(-1, 1, 1)
    grip, press = (cycle.pin_forces[name][:, at][:, list(ways)] for name in (GRIP, PRESS))
    along = motion.bar_x / np.hypot(motion.bar_x, motion.bar_y)
    held = weight * np.sin(cradle.lean) + cycle.bar_force[:, at][:, list(ways)] * along
    share = creepage(
        grip, press, cradle.grip.middle, cradle.rolling_arm.middle, cradle.runner_radius
    )
    rolled = np.abs(motion.rate) * np.asarray(cradle.runner_radius)
    # The floor holds against the push, so it goes the other way.
    steps = -np.sign(held) * share * rolled
    if motion.round_and_round:
        return np.asarray(steps.mean(axis=-1).sum(axis=-1) * 2.0 * np.pi)
    spans = np.diff(motion.position)
    return np.asarray((0.5 * (steps[..., 1:] + steps[..., :-1]) * spans).sum(axis=(-1, -2)))
