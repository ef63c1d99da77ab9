"""Hold the eggs of a drum all round, firmly and gently."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.eggs.holders import NET
from turnercalc.eggs.lot import Egg
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.sizing import Sizing
from turnercalc.turners.rotating_drum import RotatingDrum

#: A little more than what just holds [-].
IN_HAND = 1.05


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield foam and net, and the press with which they hold the smallest and the largest egg."""
    if not isinstance(sizing.turner, RotatingDrum):
        return
    seating, lot = sizing.ingredients.seating, sizing.ingredients.lot
    mu = seating.seat.mu.low
    low, high = (_just_holds(egg, mu) for egg in (lot.smallest, lot.largest))
    press = {"drum.squeeze": f"{low:g} to {high:g} N"}
    say = f"foam and net that press with {low:g} N on the smallest and {high:g} N on the largest"
    if seating.seat.held_by != NET:
        yield Proposal("foam_and_net", {"eggs.held_by": NET, **press}, f"Hold the eggs by {say}.")
    elif sizing.design["drum"].squeeze is not None:
        yield Proposal("right_squeeze", press, f"Choose {say}.")


def _just_holds(egg: Egg, mu: float) -> float:
    """Return the press that holds an egg on its side and overhead, to tenths of a newton."""
    weight = egg.mass * STANDARD_GRAVITY
    needed = max(weight, 0.5 * weight / mu if mu > 0.0 else weight)
    return math.ceil(10.0 * IN_HAND * needed) / 10.0
