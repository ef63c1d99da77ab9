"""Hold a cradle's runners to the floor with crossed straps."""

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.advice.moves.on_runners import cradle_of
from turnercalc.sizing import Sizing


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield crossed straps, where friction alone keeps the runners from sliding."""
    cradle = cradle_of(sizing)
    if cradle is not None and cradle.rolls_on_floor and not cradle.strapped:
        yield Proposal(
            "crossed_straps",
            {"cradle.straps": "crossed straps"},
            "Cross two straps under each runner, each from one end of the arc to the floor below "
            "its other end: they keep it from sliding and from walking.",
        )
