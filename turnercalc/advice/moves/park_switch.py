"""Let a switch end each move, where nothing but the clock does."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.sizing import Sizing


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield a park switch at a crank that goes round and is stopped by a timer."""
    crank = sizing.design.get("crank")
    timed = sizing.design["motor"].stopped_by == "timer"
    if timed and crank is not None and crank.runs == "round and round":
        yield Proposal(
            "park_switch",
            {"motor.stopped_by": "park switch"},
            "Let a park switch at the crank end each move, not the clock alone.",
        )
