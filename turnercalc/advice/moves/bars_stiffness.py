"""Take bars that sag less."""

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.sizing import Sizing

STIFFER = ("aluminium tube", "steel tube")
WALL = "1.5 mm"


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield tubes of metal for bars that sag."""
    bars = sizing.design.get("bars")
    if bars is None or sizing.reason.id != "bar_sag":
        return
    for what in STIFFER:
        if what != bars.material:
            say = f"Take {what} with a wall of {WALL}."
            yield Proposal("stiffer_bars", {"bars.material": what, "bars.wall": WALL}, say)
