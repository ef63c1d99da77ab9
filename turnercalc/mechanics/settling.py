"""Values that have to agree with the answer they lead to, found by putting answers in again.

Coulomb friction makes a force depend on itself: the friction of a bearing is part of the force
that the bearing carries. Putting each answer in again settles where a newton of force makes less
than a newton of friction (a gain below 1). Where friction takes its newton *off* the force, a
gain of 1 or more makes the answers swing to and fro and away, although there is a balance: going
only a share of the way finds it. Where friction *adds* to the force and the gain is 1 or more
there is none, and the values run away by any share.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Values = tuple[Array, ...]

#: Of the way from what was put in to the answer. The whole of it is fastest and does for
#: ordinary friction; what does not settle so is tried again in smaller steps, which settle for
#: gains up to 2/share - 1 where friction relieves.
SHARES = (1.0, 1.0 / 8.0, 1.0 / 64.0)
MOST_ROUNDS = 200
#: Values that change by this many times their first change have run away.
RUN_AWAY = 1e6


def settle(
    answer: Callable[[Values], Values],
    start: Values,
    allowed: Callable[[Values], Array],
    wanted: NDArray[np.bool_] | bool = True,
) -> tuple[Values, NDArray[np.bool_]]:
    """Return values that lead to themselves, element by element, and where they do.

    Parameters
    ----------
    answer : callable
        From values to the values they lead to; all in one unit.
    start : tuple of ndarray
        Where to begin: without friction.
    allowed : callable
        From values to the change of one round that counts as none, >= 0.
    wanted : ndarray of bool
        Elements worth the trouble.

    Returns
    -------
    values : tuple of ndarray
        As put in last.
    agrees : ndarray of bool
        Where the answer to them is no other.
    """
    values, agrees = _rounds(answer, start, allowed, SHARES[0], np.logical_not(wanted))
    for share in SHARES[1:]:
        if (agrees | ~np.asarray(wanted)).all():
            break
        tried, settled = _rounds(answer, start, allowed, share, agrees | ~np.asarray(wanted))
        values = tuple(np.where(agrees, old, new) for old, new in zip(values, tried, strict=True))
        agrees = agrees | settled
    return values, agrees


def _rounds(
    answer: Callable[[Values], Values],
    start: Values,
    allowed: Callable[[Values], Array],
    share: float,
    done: NDArray[np.bool_],
) -> tuple[Values, NDArray[np.bool_]]:
    values = start
    furthest: Array | None = None
    with np.errstate(over="ignore", invalid="ignore", divide="ignore"):
        for _ in range(MOST_ROUNDS):
            answers = answer(values)
            steps = tuple(new - old for new, old in zip(answers, values, strict=True))
            change = _size(steps)
            furthest = RUN_AWAY * change if furthest is None else furthest
            agrees = np.asarray(change <= allowed(values))
            hopeless = ~(change <= furthest)
            if (agrees | done | hopeless).all():
                break
            if share == 1.0:
                values = answers
            else:
                values = tuple(old + share * step for old, step in zip(values, steps, strict=True))
    return values, agrees


def _size(steps: Values) -> Array:
    """Return how far steps go together; a single one without the root of its square."""
    if len(steps) == 1:
        return np.abs(steps[0])
    size: Array = np.sqrt(np.asarray(sum(step * step for step in steps)))
    return size
