"""Where eggs of other sizes than the typical one lie between the bars, and how far they turn."""

from __future__ import annotations

import math
from dataclasses import dataclass

from turnercalc.eggs.lot import Egg, EggLot
from turnercalc.mechanics.rolling import egg_turn_ratio, nest_angle, nest_force, nest_height
from turnercalc.turners.rolling_bars import RollingBars


@dataclass(frozen=True)
class Nest:
    """One egg in its nest.

    Attributes
    ----------
    size : str
        ``smallest``, ``typical`` or ``largest``.
    length, radius : float
        Of the egg; the radius where it touches the bars [m].
    angle : float
        From straight down to either bar, seen from its middle [rad]; NaN: it drops through.
    height : float
        Its middle above the bar middles [m].
    share : float
        Force on either bar over its weight [-].
    turn : float
        Turns of the egg per turn of the bars [-].
    """

    size: str
    length: float
    radius: float
    angle: float
    height: float
    share: float
    turn: float

    @property
    def bottom(self) -> float:
        """Its lowest point above the bar middles; below them it is negative [m]."""
        return self.height - self.radius

    @property
    def drops(self) -> bool:
        """Whether it drops through."""
        return math.isnan(self.angle)


def nests(bars: RollingBars, lot: EggLot) -> tuple[Nest, Nest, Nest]:
    """Return the smallest, a typical and the largest egg in the nest of level bars."""
    return (
        _nest(bars, "smallest", lot.smallest),
        _nest(bars, "typical", lot.typical),
        _nest(bars, "largest", lot.largest),
    )


def _nest(bars: RollingBars, size: str, egg: Egg) -> Nest:
    radius = 0.5 * egg.breadth
    angle = float(nest_angle(radius, bars.bar_radius, bars.pitch))
    return Nest(
        size=size,
        length=egg.length,
        radius=radius,
        angle=angle,
        height=float(nest_height(radius, bars.bar_radius, bars.pitch)),
        share=float(nest_force(1.0, angle)),
        turn=float(egg_turn_ratio(radius, bars.bar_radius)),
    )
