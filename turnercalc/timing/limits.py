"""How slow and how fast the driving shaft may turn, by the eggs alone."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from turnercalc.drives.base import Motion
from turnercalc.errors import TableError
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.tables import limit
from turnercalc.timing.gentleness import Gentleness, gentleness
from turnercalc.turners.base import Turner


@dataclass(frozen=True)
class SpeedLimits:
    """The driving shaft's speeds at which a move is neither too slow nor too hard on the eggs.

    Attributes
    ----------
    slowest, fastest : float
        [rad/s, or m/s for an actuator]
    fastest_because : str
        What stands in the way of a faster shaft, for people.
    shortest_travel, longest_travel : float
        What the shaft turns in the shorter and in the longer of the two moves [rad or m].
    gentleness : Gentleness
        What a shaft speed does to the farthest egg.
    """

    slowest: float
    fastest: float
    fastest_because: str
    shortest_travel: float
    longest_travel: float
    gentleness: Gentleness


def speed_limits(turner: Turner, motion: Motion) -> SpeedLimits:
    """Return how slow and how fast the driving shaft may turn.

    A move shall take no less than the shortest and no more than the longest time of the limits
    table, and the farthest egg shall not be moved harder than is fine there.
    """
    moved = gentleness(turner, motion)
    shortest, longest = travels(motion, one_step(turner))
    soonest, latest = fine_limit("move_time_shortest"), fine_limit("move_time_longest")
    by_time = shortest / soonest
    gentle = moved.shaft_speed_at(fine_limit("peak_acceleration") * STANDARD_GRAVITY)
    because = (
        f"a move takes {soonest:g} s there, and shorter ones jerk"
        if by_time <= gentle
        else f"the farthest egg is moved with {fine_limit('peak_acceleration'):g} g there"
    )
    return SpeedLimits(
        slowest=longest / latest,
        fastest=min(by_time, gentle),
        fastest_because=because,
        shortest_travel=shortest,
        longest_travel=longest,
        gentleness=moved,
    )


def one_step(turner: Turner) -> float | None:
    """Return how far a part that goes on the same way round goes in one move; None for others."""
    low, high = turner.travel
    return high - low if turner.endless else None


def travels(motion: Motion, step: float | None = None) -> tuple[float, float]:
    """Return what the shaft turns in the shorter and in the longer move [rad or m].

    A shaft that goes round makes two moves a turn, from one end of the swing to the other; one
    that goes to and fro makes the same move back; one that goes on by a `step` makes that.
    """
    if step is not None:
        return step, step
    if not motion.round_and_round:
        whole = float(motion.position[-1] - motion.position[0])
        return whole, whole
    low, high = (
        float(motion.position[i])
        for i in (np.nanargmin(motion.coordinate), np.nanargmax(motion.coordinate))
    )
    one = abs(high - low)
    other = 2.0 * np.pi - one
    return min(one, other), max(one, other)


def fine_limit(name: str) -> float:
    """Return where fine ends, in the unit of the limit; refuses a limit without it."""
    found = limit(name).fine
    if found is None:
        raise TableError(f"limits.csv: {name} has to say where fine ends.")
    return found
