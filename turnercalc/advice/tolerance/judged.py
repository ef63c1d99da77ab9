"""What is told of very many builds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from turnercalc.advice.rows import Rows
from turnercalc.advice.tolerance.errors import Source
from turnercalc.advice.tolerance.goal import Goal
from turnercalc.design import Design
from turnercalc.sizing import Sizing


@dataclass(frozen=True)
class Spread:
    """How one figure comes out.

    Attributes
    ----------
    nominal : float
        As meant [rad, m, N·m or N].
    mean, deviation, least, most : float
        Over the builds.
    low, high : float
        95 of 100 builds lie between them.
    shares : mapping
        Field path -> share of the variance that this error alone brings; largest first.
    """

    nominal: float
    mean: float
    deviation: float
    least: float
    most: float
    low: float
    high: float
    shares: Mapping[str, float]


@dataclass(frozen=True)
class Judged(Rows):
    """How a design comes out when it is built and known no better than it is.

    Attributes
    ----------
    design : Design
        As meant.
    sizing : Sizing
        Its sizing.
    count, seed : int
        Builds, and the seed they were drawn with.
    sources : tuple of Source
        What was drawn.
    low, high : Spread
        The two ends of the swing [rad or m].
    turn : Spread or None
        How far an egg is turned in a move [rad]; None where the turner does not say.
    peak : Spread
        Hardest planned shaft torque in the direction it turns [N·m or N].
    peak_error : float or None
        What the peak of one build is off, root mean square as a share of it: the friction of
        builds that are reckoned all at once is fitted. None where every build is computed in
        full; NaN where friction jams some.
    goes_through : float
        Share of the builds that go through at all.
    goal : Goal or None
        What a build has to do: tip inside the limits at both ends, or turn its eggs far enough.
    inside : float or None
        Share that does; None where the turner has no such limits.
    inside_error : float or None
        Its standard error.
    strong : float or None
        Share in which the chosen motor is strong enough to turn at all; None without a motor.
    strong_error : float or None
        Its standard error.
    wanted : float or None
        Share in which it is times enough as wanted.
    good : float
        Share with both ends right and the motor strong enough, of what can be judged.
    good_error : float
        Its standard error.
    accuracy : float or None
        Error of every marked length, 95 of 100 within it, with which 95 % would be inside the
        limits [m]; 0 where no accuracy gives that, None where the turner has no limits or
        nothing that is marked matters for them.
    """

    design: Design
    sizing: Sizing
    count: int
    seed: int
    sources: tuple[Source, ...]
    low: Spread
    high: Spread
    turn: Spread | None
    peak: Spread
    peak_error: float | None
    goes_through: float
    goal: Goal | None
    inside: float | None
    inside_error: float | None
    strong: float | None
    strong_error: float | None
    wanted: float | None
    good: float
    good_error: float
    accuracy: float | None

    def rows(self) -> list[dict[str, Any]]:
        """Return a line each for both ends, egg turn and peak, with their units in SI."""
        end = self.sizing.turner.coordinate_unit
        force = "N·m" if self.sizing.drive.position_unit == "rad" else "N"
        named = {"low_end": (self.low, end), "high_end": (self.high, end)}
        named |= {"egg_turn": (self.turn, "rad")} if self.turn is not None else {}
        named |= {"peak": (self.peak, force)}
        return [
            {
                "what": name,
                "unit": unit,
                **{key: getattr(one, key) for key in FIGURES},
                "matters_most": next(iter(one.shares), None),
            }
            for name, (one, unit) in named.items()
        ]


FIGURES = ("nominal", "mean", "deviation", "least", "low", "high", "most")
