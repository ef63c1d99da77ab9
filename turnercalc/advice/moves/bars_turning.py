"""Turn eggs on bars by half a turn, and back again in the next move."""

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.sizing import Sizing

HALF_A_TURN = "180 deg"


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield half a turn where the eggs end as they lay, and turning back where they never do."""
    turning = sizing.design["turning"]
    if getattr(turning, "egg_turn", None) is None:
        return
    if sizing.reason.id in ("egg_turn", "turns_per_day"):
        say = "Turn the eggs by half a turn in each move."
        yield Proposal("half_an_egg_turn", {"turning.egg_turn": HALF_A_TURN}, say)
    if getattr(turning, "sense", None) == "always the same":
        say = "Turn them back in every other move."
        yield Proposal("turn_them_back", {"turning.sense": "alternate"}, say)
