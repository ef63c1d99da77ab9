"""What the checks of rolling bars have in common."""

from __future__ import annotations

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import between, degrees
from turnercalc.turners.nests import Nest, nests
from turnercalc.turners.rolling_bars import RollingBars


def on_bars(evidence: Evidence) -> tuple[RollingBars, tuple[Nest, Nest, Nest]] | None:
    """Return the bars and the nests of the smallest, typical and largest egg; None: no bars."""
    turner = evidence.turner
    if not isinstance(turner, RollingBars):
        return None
    return turner, nests(turner, evidence.ingredients.lot)


def guessed(evidence: Evidence, *sizes: str) -> str:
    """Return which of some sizes nobody gave; empty where all were."""
    origin = evidence.design.origin
    named = [
        size
        for size in sizes
        if (at := origin.get(f"eggs.{size}")) and at.how == "taken for granted"
    ]
    return f" (the {' and the '.join(named)} by the species table)" if named else ""


def spread(low: float, high: float, digits: int = 0) -> str:
    """Return a range of angles [rad] in degrees, its sign at both ends."""
    return between(degrees(low, digits), degrees(high, digits))
