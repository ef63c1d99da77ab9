"""Turning shaft: the motor turns the turner's own shaft, straight or through external stages.

The position of the drive is the turner's coordinate itself. No pin is pushed, so the bearings of
the turner carry no force of the drive; the pull of a chain or belt on the shaft is not counted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.drives.base import Closing, DriveKind, Motion, Reaction
from turnercalc.drives.wording import Wording
from turnercalc.ingredients import Ingredients
from turnercalc.paths import Path

Array = NDArray[np.float64]

FULL_TURN = 2.0 * np.pi

WORDING = Wording(
    shaft="the driving shaft",
    head="shaft",
    bar="",
    parts="",
    goes_through="The shaft turns it without any linkage",
    stays="",
    set_by="",
    ends_set_by="The switches at its ends",
    squarer="",
    at_rest="A shaft has no rest point: friction or the motor has to hold it.",
    can_rest=False,
    play=(),
    pins=(),
    lengths=(),
)


@dataclass(frozen=True)
class TurningShaft:
    """A motor on the turner's own shaft.

    Attributes
    ----------
    endless : bool
        Whether it goes round and round, the next move going on from the last; else it reverses
        at both ends of the turner's travel.
    turns_back : bool
        False where it makes the same move again and again, without coming round.
    """

    endless: bool = False
    turns_back: bool = True

    position_unit = "rad"
    wording = WORDING
    dimensions = MappingProxyType(dict[str, str]())
    pin_mass = 0.0
    play = 0.0
    play_field = ""
    play_like = ""

    @property
    def both_ways(self) -> bool:
        """True where it reverses."""
        return self.turns_back and not self.endless

    def positions(self, travel: tuple[float, float], count: int = 360) -> Array:
        """Return shaft angles: the travel with both ends, or one turn without its last point."""
        if self.endless:
            return np.asarray(travel[0] + np.arange(count) * (FULL_TURN / count))
        return np.asarray(np.linspace(*travel, count), float)

    def assemble(
        self,
        path: Path,
        travel: tuple[float, float] | None = None,
        *,
        endless: bool = False,
        turns_back: bool = True,
    ) -> TurningShaft:
        """Return the drive as the turner wants it: to and fro, or always the same way round."""
        del path, travel
        return replace(self, endless=endless, turns_back=turns_back)

    def trace(self, path: Path, position: ArrayLike) -> tuple[Array, Array, Array]:
        """Return the position itself, 1 and 0."""
        del path
        angle = np.asarray(position, float)
        return angle, np.ones_like(angle), np.zeros_like(angle)

    def close(self, path: Path, position: ArrayLike) -> Motion:
        """Return the motion of the shaft; it always closes."""
        coordinate, rate, second = self.trace(path, position)
        return Motion(
            position=coordinate,
            coordinate=coordinate,
            rate=rate,
            second=second,
            closes=np.isfinite(coordinate),
            round_and_round=self.endless,
        )

    def closing(self, path: Path) -> Closing:
        """Say that it gets through: there is no loop that could stay open."""
        del path
        return Closing(
            closes=True,
            kind="shaft",
            missing=-np.inf,
            text="The shaft turns it itself: there is no linkage that could get stuck.",
        )

    def weight_torque(self, motion: Motion, path: Path) -> Array:
        """Return zeros: nothing of the drive rises or falls."""
        del path
        return np.zeros_like(motion.position)

    def react(
        self,
        motion: Motion,
        path: Path,
        load: ArrayLike,
        direction: ArrayLike,
        levels: Sequence[str],
        start: Reaction | None = None,
    ) -> Reaction:
        """Return no force at all: a shaft gives a torque and nothing else."""
        del path, direction, levels, start
        nothing = np.zeros(np.broadcast_shapes(np.shape(load), np.shape(motion.position)))
        return Reaction(x=nothing, y=nothing, loss=nothing, couple=np.asarray(load, float))


def build(ingredients: Ingredients) -> TurningShaft:
    """Return the drive; a design file says nothing about it beyond its stages and motor."""
    del ingredients
    return TurningShaft()


KIND = DriveKind(
    id="turning_shaft",
    words=("turning shaft", "straight on the shaft", "direct", "shaft"),
    says="the motor turns the turner's own shaft, straight or through gears, chain or belt",
    sections=MappingProxyType({}),
    build=build,
    holds_pin=False,
)
