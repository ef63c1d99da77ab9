"""How often and until when: the counts a builder can check a turner by."""

from __future__ import annotations

from dataclasses import dataclass

from turnercalc.eggs.practice import interval, quiet_days, turns_until


@dataclass(frozen=True)
class Counts:
    """What a counter on the turner should show.

    Attributes
    ----------
    interval : float
        From the start of one move to the start of the next [s].
    turns_per_day : float
        Moves a day.
    changes_sides : bool
        Whether a move really changes sides, and so counts as a turn.
    day_7, last_day_count : int
        Moves from setting to the end of day 7, and to the end of turning.
    last_day : float
        Last day of turning, counted from setting.
    quiet_days : float
        From then to the hatch.
    """

    interval: float
    turns_per_day: float
    changes_sides: bool
    day_7: int
    last_day: float
    last_day_count: int
    quiet_days: float

    @property
    def counted_per_day(self) -> float:
        """Turns a day that count as turns."""
        return self.turns_per_day if self.changes_sides else 0.0


def count(
    turns_per_day: float, last_day: float, incubation_days: float, changes_sides: bool = True
) -> Counts:
    """Return what a counter should show; days count from setting."""
    return Counts(
        interval=interval(turns_per_day),
        turns_per_day=turns_per_day,
        changes_sides=changes_sides,
        day_7=turns_until(min(7.0, last_day), turns_per_day),
        last_day=last_day,
        last_day_count=turns_until(last_day, turns_per_day),
        quiet_days=quiet_days(incubation_days, last_day),
    )
