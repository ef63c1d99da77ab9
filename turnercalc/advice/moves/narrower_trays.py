"""Make the trays narrower where the box has no room for them, or for the air, at the sides."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor

from turnercalc.advice.moves import Proposal, millimetres
from turnercalc.checks import air_gap, room
from turnercalc.findings import Answer
from turnercalc.sizing import Sizing
from turnercalc.tables import limit

#: What has to be enough at the sides, in the table of limits: room to swing, then air as well.
ENOUGH = ("clearance", "air_gap")
#: What is taken off, over what is lacking: the corner of a tray that tips sweeps a little farther
#: out than half the width, and comes in by a little less than that does.
SHARES = (1.0, 1.05)
UNLIKE = 1e-6  # m


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the widest trays that leave enough at both walls."""
    trays, found = sizing.design.get("trays"), sizing.clearances
    asked = {one.id for one in sizing.findings if one.answer is not Answer.FINE}
    if trays is None or found is None or asked.isdisjoint((room.ID, air_gap.ID)):
        return
    sides = found.turner.sides
    if sides is None:
        return
    for name in ENOUGH:
        enough = limit(name).fine
        lacking = 0.0 if enough is None else 1e-3 * enough - sides
        if lacking <= UNLIKE:
            continue
        for share in SHARES:
            # Down to what a rule shows, and first to what tells 416.0000001 from 416.
            width = 5e-4 * floor(round(2e3 * (trays.width - 2.0 * share * lacking), 6))
            if width > 0.0:
                text = millimetres(width)
                say = f"Make the trays {text} wide."
                yield Proposal("narrower_trays", {"trays.width": text}, say)
