"""Make the trays narrower where the box has no room for them at the sides."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor

from turnercalc.advice.moves import Proposal, millimetres
from turnercalc.checks.room import ID
from turnercalc.findings import Answer
from turnercalc.sizing import Sizing
from turnercalc.tables import limit

#: What is taken off, over what is lacking: a tray that tips sweeps as its edge does, not its width.
SHARES = (1.0, 1.2)
UNLIKE = 1e-6  # m


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the widest trays that leave enough room at both walls."""
    trays = sizing.design.get("trays")
    tight = any(one.id == ID and one.answer is not Answer.FINE for one in sizing.findings)
    if trays is None or not tight or sizing.clearances is None:
        return
    around = sizing.clearances.turner
    enough = limit("clearance").fine
    if around is None or around.left is None or around.right is None or enough is None:
        return
    lacking = 1e-3 * enough - min(around.left, around.right)
    if lacking <= UNLIKE:
        return
    for share in SHARES:
        # Rounded down to what a rule shows, and first to what a float can tell apart.
        width = 5e-4 * floor(round(2e3 * (trays.width - 2.0 * share * lacking), 6))
        if width <= 0.0:
            return
        text = millimetres(width)
        yield Proposal("narrower_trays", {"trays.width": text}, f"Make the trays {text} wide.")
