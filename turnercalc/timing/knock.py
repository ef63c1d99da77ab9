"""The knock after slack: where the force in the link changes sign, its play is taken up at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.cycle import TurnCycle
from turnercalc.drives.base import Motion
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.parts.outlines import corners
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Knock:
    """The hardest knock of a cycle.

    Attributes
    ----------
    load : int
        Index along the load axis.
    coordinate : float
        Where the turner is when the force changes sign [rad or m].
    rises : bool
        Whether the coordinate is on its way up there.
    fall : float
        Bound on the knock: it is no harder than setting the farthest egg down from this height
        [m].
    times : int
        How often the force changes sign in one cycle with this load.
    """

    load: int
    coordinate: float
    rises: bool
    fall: float
    times: int


def farthest_egg(turner: Turner, motion: Motion) -> float:
    """Return how far the farthest egg moves per unit of the coordinate [m/rad or -]."""
    across, height = corners(turner, "egg")
    x, y = turner.path_of(across[:, None], height[:, None]).tangent(motion.coordinate)
    return float(np.nanmax(np.hypot(x, y)))


def hardest_knock(
    turner: Turner,
    cycle: TurnCycle,
    direction: int,
    play: float,
    radius: float,
    shaft_speed: float | None = None,
    level: int = 0,
) -> Knock | None:
    """Return the hardest knock over all planned loads; None where the link never goes slack.

    Parameters
    ----------
    turner : Turner
        For its inertia.
    cycle : TurnCycle
        With the force along the link.
    direction : int
        Index along the direction axis.
    play : float
        Free movement of the turner from the play of the link's pins [rad or m].
    radius : float
        How far the farthest egg moves per unit of the coordinate [m/rad or -].
    shaft_speed : float or None
        Speed of the driving shaft [rad/s]; None: not known, only the fall is counted.
    level : int
        Index along the friction axis; the least friction knocks hardest.

    Notes
    -----
    While the link is slack the part is free over its play d. What its own load torque Q gives it
    there is at most Q d, with Q the largest within the play, so it lands with a speed of at most
    sqrt(2 Q d/J); or it has stood still and the drive runs up to it with q' w. The faster of the
    two counts, and is told as the height h = v2/2g from which a thing falls with that speed. How
    hard the stop itself is depends on how stiff the parts are, which nobody knows.
    """
    if cycle.bar_force is None or not play > 0.0:  # an unknown play is no play to reckon with
        return None
    cells = np.stack([case.cells for case in cycle.loads]).astype(float)
    inertia, _ = turner.inertia(cells, cycle.motion.coordinate)
    inertias = np.broadcast_to(inertia, (len(cells), 1, 1, cycle.motion.position.size))[:, 0, 0]
    knocks = []
    for load, case in enumerate(cycle.loads):
        torque = np.abs(cycle.load_torque[load, level, direction])
        places = _changes_of_sign(cycle, load, level, direction)
        if not case.planned or not places.size:
            continue
        falls = [
            _fall(cycle.motion, torque, inertias[load], int(at), play, radius, shaft_speed or 0.0)
            for at in places
        ]
        at = int(places[int(np.argmax(falls))])
        sense = 1.0 if direction == 0 else -1.0
        knocks.append(
            Knock(
                load=load,
                coordinate=float(cycle.motion.coordinate[at]),
                rises=bool(sense * cycle.motion.rate[at] > 0.0),
                fall=max(falls),
                times=int(places.size),
            )
        )
    return max(knocks, key=lambda knock: knock.fall, default=None)


def _changes_of_sign(cycle: TurnCycle, load: int, level: int, direction: int) -> NDArray[np.intp]:
    """Return the indices of the positions after which the force along the link changes sign."""
    assert cycle.bar_force is not None
    force = cycle.bar_force[load, level, direction]
    crosses = force * np.roll(force, -1) < 0.0
    if not cycle.motion.round_and_round:
        crosses[-1] = False
    return np.flatnonzero(crosses)


def _fall(
    motion: Motion,
    torque: Array,
    inertia: Array,
    at: int,
    play: float,
    radius: float,
    shaft_speed: float,
) -> float:
    """Return the height of fall that bounds the knock at one place [m]."""
    q = motion.coordinate
    # The sign changes somewhere before the next position, and the play may end past that one.
    around = np.arange(at - 1, at + 3)
    around = around % q.size if motion.round_and_round else np.clip(around, 0, q.size - 1)
    near = np.abs(q[:, None] - q[around]).min(axis=1) <= play
    falling = 2.0 * torque[near].max() * play / inertia[at]
    running = (np.abs(motion.rate[near]).max() * shaft_speed) ** 2
    return float(radius**2 * max(falling, running) / (2.0 * STANDARD_GRAVITY))
