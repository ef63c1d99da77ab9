"""Let the crank turn the other way."""

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.sizing import Sizing

WAYS = ("anticlockwise", "clockwise")


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the better direction, where the design names the other."""
    crank = sizing.design.get("crank")
    better = WAYS[sizing.better_direction]
    if crank is not None and crank.turns in WAYS and crank.turns != better:
        yield Proposal(
            "turn_the_other_way", {"crank.turns": better}, f"Let the crank turn {better}."
        )
