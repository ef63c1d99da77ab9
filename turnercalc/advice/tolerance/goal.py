"""What a build has to do to count as right: tip far enough, or turn its eggs far enough."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.many import ManyEnds
from turnercalc.checks.tilt import least_tilt
from turnercalc.sizing import Sizing
from turnercalc.tables import limit

Array = NDArray[np.float64]

#: Check of a turner that judges how far its eggs lie from where they lay -> its limit.
TURN_LIMITS: Mapping[str, str] = MappingProxyType(
    {"egg_turn": "egg_turn_net", "grid_turn": "egg_turn_net", "drum_move": "drum_turn"}
)
#: Somebody who wants more or less tilt than usual is judged by that [deg].
EITHER_WAY = 5.0


@dataclass(frozen=True)
class Goal:
    """The range in which a build is right.

    Attributes
    ----------
    what : str
        ``tilt``: of both ends, to each side; ``turn``: how far an egg lies from where it lay,
        whole turns taken off.
    least, most : float
        [rad].
    """

    what: str
    least: float
    most: float

    def met(self, ends: ManyEnds, turn: Array | None, leans: float) -> NDArray[np.bool_]:
        """Say which builds are right.

        Parameters
        ----------
        ends : ManyEnds
        turn : ndarray or None
            How far the egg that is looked at turns in a move [rad].
        leans : float
            How far the box stands out of level, anticlockwise [rad].
        """
        if self.what == "turn":
            assert turn is not None
            net = np.abs((turn + np.pi) % (2.0 * np.pi) - np.pi)
            with np.errstate(invalid="ignore"):
                return np.asarray((net >= self.least) & (net <= self.most))
        left, right = ends.high + leans, -ends.low - leans
        with np.errstate(invalid="ignore"):
            return np.asarray(
                (np.minimum(left, right) >= self.least) & (np.maximum(left, right) <= self.most)
            )


def goal_of(sizing: Sizing) -> Goal | None:
    """Return what its builds are judged by; None where no check of the turner says."""
    checks = sizing.kind.checks
    if "tilt" in checks and sizing.turner.coordinate_unit == "rad":
        turning = sizing.ingredients.sections["turning"]
        species = sizing.ingredients.lot.species
        low, high = least_tilt(species, turning.turns_per_day).fine, limit("tilt_each_side_most")
        wanted = math.degrees(turning.tilt)
        usual, steep = low or 0.0, high.fine or 90.0
        least = usual if wanted >= usual else wanted - EITHER_WAY
        most = steep if wanted <= steep else wanted + EITHER_WAY
        return Goal("tilt", math.radians(least), math.radians(most))
    named = next((TURN_LIMITS[check] for check in checks if check in TURN_LIMITS), None)
    if named is None:
        return None
    return Goal("turn", math.radians(limit(named).fine or 0.0), math.pi)
