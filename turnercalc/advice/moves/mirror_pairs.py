"""Promise to fill and empty in mirror pairs about the pivots."""

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.sizing import Sizing


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the promise, where eggs come and go in any order."""
    trays = sizing.design.get("trays")
    if trays is not None and trays.filled == "in any order":
        yield Proposal(
            "fill_in_mirror_pairs",
            {"trays.filled": "in mirror pairs"},
            "Fill and empty rows in mirror pairs about the pivots.",
        )
