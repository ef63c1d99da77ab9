"""What was found of turning: how far, how often, until when. The figures stand in the tables."""

from __future__ import annotations

import math
from dataclasses import dataclass

from turnercalc.tables import Limit, Row, limit, table

DAY = 86400.0  # s


@dataclass(frozen=True)
class Evidence:
    """One finding on turning, as the papers have it."""

    id: str
    topic: str
    finding: str
    source: str
    how: str


def evidence(topic: str | None = None) -> tuple[Evidence, ...]:
    """Return the findings on one topic (angle, frequency, days, position, gentleness) or all."""
    return tuple(
        _evidence(row)
        for row in table("turning_practice").rows
        if topic is None or row.text("topic") == topic
    )


def _evidence(row: Row) -> Evidence:
    return Evidence(row.text("id"), row.text("topic"), row.text("finding"), row.source, row.how)


def tilt_limit(turns_per_day: float) -> Limit:
    """Return the limit on the tilt each side, which is milder where eggs are turned often."""
    often = limit("often_turned").fine
    if often is not None and turns_per_day >= often:
        return limit("tilt_each_side_often")
    return limit("tilt_each_side")


def interval(turns_per_day: float) -> float:
    """Return the time from one turn to the next [s]."""
    return DAY / turns_per_day


def turns_until(last_day: float, turns_per_day: float, first_day: float = 0.0) -> int:
    """Return how many turns the eggs get from one day to another.

    Days count from setting. Counting from day 0 to day 18 is 18 days of turning; hand turning
    "on days 2 to 18", both included, is 17, so write first_day = 1 there.
    """
    return math.floor((last_day - first_day) * turns_per_day + 1e-9)


def quiet_days(incubation_days: float, last_turning_day: float) -> float:
    """Return the days without turning before the hatch."""
    return incubation_days - last_turning_day


def is_turn(total_tilt: float) -> bool:
    """Return whether a move through so much tilt [rad] really changes sides."""
    least = limit("counts_as_turn")
    return least.fine is not None and least.of_si(total_tilt) > least.fine - 1e-9


def left_of_turn(turn: float) -> float:
    """Return how far an egg that turned so far [rad] lies from where it lay, 0 to a half turn."""
    return abs((turn + math.pi) % math.tau - math.pi)


def dwells_at_ends(tilts: tuple[float, ...], tilt_least: float) -> bool:
    """Return whether the eggs rest on both sides of level, and nowhere near level.

    Parameters
    ----------
    tilts : tuple of float
        Tilt at which the tray rests after each move of one cycle, signed [rad].
    tilt_least : float
        Least tilt that counts as an end [rad].

    Notes
    -----
    Trays that were tilted and put back to the middle at once hatched worse in every position
    of the eggs (Buhr 1989, Poultry Sci. 68:1603): rests in the middle do not count as turning.
    """
    left = any(t >= tilt_least for t in tilts)
    right = any(t <= -tilt_least for t in tilts)
    return left and right and all(abs(t) >= tilt_least for t in tilts)
