"""Give a sliding grid a floor that grips the eggs and does not bump them."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.sizing import Sizing
from turnercalc.turners.grid_sections import SMOOTH

LINER, BOARD = "shelf liner", "plywood"


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield a lining that grips, and a board over a mesh."""
    floor = sizing.design.get("floor")
    if floor is None or sizing.design.get("grid") is None:
        return
    # What was measured on the old floor says nothing of a new one.
    measured = [
        path
        for path in ("floor.friction", "floor.rolling_arm")
        if sizing.design.origin[path].how != "taken for granted"
    ]
    forgotten = dict.fromkeys(measured, "unknown")
    smooth = {} if floor.mesh == SMOOTH else {"floor.mesh": SMOOTH}
    if smooth:
        yield Proposal(
            "board_over_mesh",
            {**smooth, "floor.surface": BOARD, **forgotten},
            "Lay a thin plywood board over the mesh for the eggs to roll on.",
        )
    if floor.surface != LINER or measured:
        yield Proposal(
            "line_floor",
            {**smooth, "floor.surface": LINER, **forgotten},
            "Line the floor with rubber shelf liner, which grips the eggs.",
        )
