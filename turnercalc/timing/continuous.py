"""Running slowly without a pause instead of turning by a timer."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from turnercalc.drives.base import Motion
from turnercalc.mechanics.motion import share_of_time_beyond
from turnercalc.tables import limit

DAY = 86400.0  # s


@dataclass(frozen=True)
class Continuous:
    """A shaft that goes round all day, two moves a turn.

    Attributes
    ----------
    shaft_speed : float
        [rad/s]
    gear_ratio : float or None
        Turns of the motor for one of the shaft that this takes; None without a motor's speed.
    share_near_level, share_beyond : float
        Share of the day nearer to level, and further from it, than the two distances.
    near_level, beyond : float
        Those distances [rad or m].
    near_level_most : float or None
        The most of the day that is fine near level, by the limits table [ratio].
    """

    shaft_speed: float
    gear_ratio: float | None
    share_near_level: float
    share_beyond: float
    near_level: float
    beyond: float
    near_level_most: float | None = None


def continuous(
    motion: Motion,
    turns_per_day: float,
    near_level: float,
    beyond: float,
    motor_speed: float | None = None,
) -> Continuous | None:
    """Return what it is to run all day; None where the shaft does not go round.

    Parameters
    ----------
    motion : Motion
        Of one whole turn.
    turns_per_day : float
        Moves to the other side in a day.
    near_level, beyond : float
        Distances from level [rad or m].
    motor_speed : float, optional
        Of the motor's own shaft [rad/s].

    Notes
    -----
    So slow a shaft is taken to turn evenly, so that the share of a turn is the share of the day.
    """
    if not motion.round_and_round:
        return None
    speed = 0.5 * turns_per_day * 2.0 * np.pi / DAY
    turn = np.append(motion.position, motion.position[0] + 2.0 * np.pi)
    away = np.abs(np.append(motion.coordinate, motion.coordinate[0]))
    return Continuous(
        shaft_speed=float(speed),
        gear_ratio=None if motor_speed is None else float(motor_speed / speed),
        share_near_level=1.0 - float(share_of_time_beyond(away, turn, near_level)),
        share_beyond=float(share_of_time_beyond(away, turn, beyond)),
        near_level=near_level,
        beyond=beyond,
        near_level_most=limit("share_of_day_near_level").fine,
    )
