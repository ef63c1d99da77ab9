"""What is asked of lengths, and what comes back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from turnercalc.advice.asked import above_zero, whole
from turnercalc.advice.rows import PEAK_NAMES, Rows
from turnercalc.design import Design
from turnercalc.errors import AskedError
from turnercalc.findings import Answer
from turnercalc.sizing import Sizing

Range = tuple[float, float]
MILLIMETRE = 1e-3


@dataclass(frozen=True)
class Wish:
    """What the builder asks of the lengths.

    Attributes
    ----------
    within : mapping
        Field path -> lowest and highest value [m or rad]; both alike keep a field as it is.
    step : float
        Lengths come out in whole steps of this: what can be marked [m].
    count : int
        How many suggestions at most.
    beside : bool
        Whether shaft and crank stand before or behind the moving parts, so that they need not
        stay clear of them.
    system : str
        Units in which the lengths are written: ``metric`` or ``us``.
    """

    within: Mapping[str, Range] = field(default_factory=lambda: MappingProxyType({}))
    step: float = MILLIMETRE
    count: int = 4
    beside: bool = False
    system: str = "metric"

    def __post_init__(self) -> None:
        above_zero(self.step, "steps of lengths")
        whole(self.count, "suggestions")
        if self.system not in ("metric", "us"):
            raise AskedError(f"system is metric or us, not {self.system!r}")

    def range_of(self, path: str, low: float, high: float) -> Range:
        """Return what is allowed of a field: as wished, else the given range."""
        wished = self.within.get(path)
        if wished is None:
            return low, high
        return wished


@dataclass(frozen=True)
class Promise:
    """What a suggestion says of itself, from its own full sizing.

    Attributes
    ----------
    low, high : float
        Ends of the swing [rad or m].
    peak : float
        Hardest planned shaft torque in the better direction, middle friction [N·m or N].
    link_to_arm : float or None
        Least angle between link and arm while it carries load [rad].
    in_hand : float
        Length by which the linkage could be off and still go through [m].
    """

    low: float
    high: float
    peak: float
    link_to_arm: float | None
    in_hand: float


@dataclass(frozen=True)
class Suggestion:
    """One set of lengths.

    Attributes
    ----------
    id : str
        What it is best in, such as ``lowest_peak``.
    settings : mapping
        Field path -> text, as ``--set`` takes it.
    trade : str
        What it is best in and what it costs, in a sentence.
    design : Design
        The design with these settings.
    sizing : Sizing
        Its full sizing, without motors.
    promise : Promise
        Its figures.
    answer : Answer
        fine or marginal, over the questions that the lengths decide.
    """

    id: str
    settings: Mapping[str, str]
    trade: str
    design: Design
    sizing: Sizing
    promise: Promise
    answer: Answer


@dataclass(frozen=True)
class Lengths(Rows):
    """The answer to a wish: suggestions, best first, or why there is none.

    Attributes
    ----------
    suggestions : tuple of Suggestion
    why_none : str
        A sentence; empty where there are suggestions.
    tried : int
        How many sets of lengths were looked at.
    too_big : bool
        Whether what is turned does not fit the box, whatever drives it.
    """

    suggestions: tuple[Suggestion, ...]
    why_none: str = ""
    tried: int = 0
    too_big: bool = False

    def rows(self) -> list[dict[str, Any]]:
        """Return one line for each suggestion, keys with their unit in SI."""
        return [
            {
                "id": one.id,
                "answer": one.answer.value,
                f"low_end_{one.sizing.turner.coordinate_unit}": one.promise.low,
                f"high_end_{one.sizing.turner.coordinate_unit}": one.promise.high,
                PEAK_NAMES[one.sizing.drive.position_unit]: one.promise.peak,
                "link_to_arm_rad": one.promise.link_to_arm,
                "in_hand_m": one.promise.in_hand,
                **one.settings,
            }
            for one in self.suggestions
        ]
