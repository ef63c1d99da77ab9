"""What a timer alone does: where the crank stands after many runs of the same length."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.mechanics.motion import times_along

Array = NDArray[np.float64]

FULL_TURN = 2.0 * np.pi
#: As many moves as the longest hatch can have: 50 days of 96 turns.
MOST_MOVES = 4800


@dataclass(frozen=True)
class Side:
    """Where the moves meant for one side end, as the drive wanders off.

    Attributes
    ----------
    high : bool
        Whether they are meant to end where the coordinate is greatest.
    flat_after : int or None
        Moves that pass, to both sides, before one meant for this side ends nearer to level than
        `Drift.flat`. None: not within the longest hatch.
    level_after : int or None
        The same before one ends level or on the other side.
    at_quarter : float or None
        Where the first one parks after the shaft stands a quarter turn off [rad or m].
    """

    high: bool
    flat_after: int | None
    level_after: int | None
    at_quarter: float | None


@dataclass(frozen=True)
class Drift:
    """How a drive wanders off when nothing but a timer stops it.

    Attributes
    ----------
    run_time : float
        The timer's setting [s].
    per_move : float
        Mean of what the shaft turns too far (positive) or too little in one move [rad].
    quarter_after : int or None
        Moves that pass before the shaft stands a quarter turn off, where the part parks half way
        instead of at an end. None: not within the longest hatch.
    flat : float
        Least distance from level that counts as an end [rad or m].
    flat_after : int or None
        Moves that pass before one ends nearer to level than `flat`. None as above.
    sides : tuple of Side
        The same for each side by itself, the greatest coordinate first.
    """

    run_time: float
    per_move: float
    quarter_after: int | None
    flat: float
    flat_after: int | None
    sides: tuple[Side, ...] = ()


def in_sense(position: ArrayLike, values: ArrayLike, sense: float) -> tuple[Array, Array]:
    """Return positions and values of one turn in the order they are passed.

    Parameters
    ----------
    position, values : array_like, shape (P,)
        Shaft angles of one turn, ascending anticlockwise [rad], and anything there.
    sense : float
        +1 anticlockwise, -1 clockwise.

    Returns
    -------
    turned, values : ndarray, shape (P,)
        Angles turned in the sense it runs, ascending, and the values there.
    """
    angle, value = np.asarray(position, float), np.asarray(values, float)
    return (angle, value) if sense > 0.0 else (-angle[::-1], value[::-1])


def stops(turned: ArrayLike, speed: ArrayLike, start: float, run_time: float, moves: int) -> Array:
    """Return how far the shaft has turned in all after each run, shape (moves,) [rad].

    Parameters
    ----------
    turned : array_like, shape (P,)
        Angles of one turn in the sense it runs, ascending, the last one short of a full turn
        [rad].
    speed : array_like, shape (P,)
        Speed there, positive [rad/s].
    start : float
        Where it stands at first, in the same terms [rad].
    run_time : float
        Length of every run [s].
    moves : int
        Number of runs.

    Notes
    -----
    Starting and stopping take no time here: a small gearmotor is at its speed within hundredths
    of a second. As every turn is like the last, the time to reach an angle repeats itself turn
    by turn. NaN where it stands still anywhere.
    """
    angle, pace = np.asarray(turned, float), np.asarray(speed, float)
    angle = np.append(angle, angle[0] + FULL_TURN)
    time = times_along(angle, np.append(pace, pace[0]))
    whole = float(time[-1])
    if not np.isfinite(whole):
        return np.full(moves, np.nan)
    begin = angle[0] + (start - angle[0]) % FULL_TURN
    reached = np.interp(begin, angle, time) + run_time * np.arange(1, moves + 1)
    turns, rest = np.divmod(reached, whole)
    return np.asarray(turns * FULL_TURN + np.interp(rest, time, angle) - begin)


def moves_before(bad: ArrayLike) -> int | None:
    """Return how many moves pass before the first bad one; None where none is bad."""
    found = np.flatnonzero(np.asarray(bad))
    return int(found[0]) if found.size else None


def drift(
    position: ArrayLike,
    coordinate: ArrayLike,
    speed: ArrayLike,
    *,
    sense: float,
    start: float,
    run_time: float,
    flat: float,
    moves: int = MOST_MOVES,
) -> Drift:
    """Return how a shaft that a timer runs wanders off its half turns.

    Parameters
    ----------
    position, coordinate : array_like, shape (P,)
        Shaft angles of one turn, ascending [rad], and the turner's coordinate there.
    speed : array_like, shape (P,)
        Shaft speed there in the sense it runs, positive [rad/s].
    sense : float
        +1 anticlockwise, -1 clockwise.
    start : float
        Shaft angle it starts from, an end of the swing [rad].
    run_time : float
        Length of every run [s].
    flat : float
        Least distance from level that counts as an end [rad or m].
    moves : int
        How many moves to follow.
    """
    turned, pace = in_sense(position, speed, sense)
    _, follows = in_sense(position, coordinate, sense)
    begin = start * sense
    gone = stops(turned, pace, begin, run_time, moves)
    number = np.arange(1, moves + 1)
    off = gone - np.pi * number
    stands = np.interp(begin + gone, turned, follows, period=FULL_TURN)
    quarter = moves_before(np.abs(off) >= 0.25 * FULL_TURN)
    return Drift(
        run_time=run_time,
        per_move=float(off[-1] / moves),
        quarter_after=quarter,
        flat=flat,
        flat_after=moves_before(np.abs(stands) < flat),
        sides=tuple(_side(stands, flat, quarter, first=first) for first in (True, False)),
    )


def _side(stands: Array, flat: float, quarter: int | None, *, first: bool) -> Side:
    """Return how the odd moves fare (`first`: up from the low end), or the even ones."""
    mine = np.zeros(stands.size, dtype=bool)
    mine[0 if first else 1 :: 2] = True
    reach = stands if first else -stands
    at_quarter = None
    if quarter is not None:
        at = np.flatnonzero(mine[quarter:])
        at_quarter = float(stands[quarter + int(at[0])]) if at.size else None
    return Side(
        high=first,
        flat_after=moves_before(mine & (reach < flat)),
        level_after=moves_before(mine & (reach <= 0.0)),
        at_quarter=at_quarter,
    )
