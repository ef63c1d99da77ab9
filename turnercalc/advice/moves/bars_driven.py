"""Let the motor turn another bar, from which fewer belts hang one behind the other."""

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.sizing import Sizing


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the middle bar, and its neighbour where the bars are even."""
    bars = sizing.design.get("bars")
    if bars is None or not bars.joined_by.endswith("bar to bar"):
        return
    for bar in sorted({(bars.count + 1) // 2, bars.count // 2 + 1}):
        if bar != bars.driven_bar:
            yield Proposal(
                "drive_middle_bar",
                {"bars.driven_bar": f"{bar}"},
                f"Let the motor turn bar {bar}, in the middle.",
            )
