"""Fill the shelves of a drum so that they balance each other: mirror filling, round an axle."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.sizing import Sizing
from turnercalc.turners.drum_loads import ANY_ORDER, BALANCED, PAIRS, loading_order
from turnercalc.turners.rotating_drum import RotatingDrum


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the promises a builder can make, where eggs come and go in any order."""
    drum, section = sizing.turner, sizing.design.get("drum")
    if not isinstance(drum, RotatingDrum) or section is None or section.filled != ANY_ORDER:
        return
    if drum.shelves % 2 == 0:
        yield Proposal(
            "fill_in_opposite_pairs",
            {"drum.filled": PAIRS},
            "Fill and empty opposite shelves together.",
        )
    order = loading_order(drum.shelves, 1.0, drum.empty_in_shelves)
    told = ", ".join(str(shelf + 1) for shelf in order)
    yield Proposal(
        "fill_in_balanced_order",
        {"drum.filled": BALANCED},
        f"Fill the shelves in the order {told}, and empty them the other way round.",
    )
