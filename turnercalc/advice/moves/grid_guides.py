"""Guides that let a grid slide easily, and keep it down."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.sizing import Sizing

SLIPPERY = "steel in ptfe"
WHEELS = {
    "guides.bearing": "ball bearing",
    "guides.wheel_diameter": "22 mm",
    "guides.axle_diameter": "8 mm",
}


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield slippery guides or wheels where nobody measured the friction, and a hold from above."""
    guides = sizing.design.get("guides")
    if guides is None or sizing.design.get("grid") is None:
        return
    guessed = sizing.design.origin["guides.friction"].how == "taken for granted"
    if guessed and not guides.wheel_diameter:
        if guides.bearing != SLIPPERY:
            yield Proposal(
                "slippery_guides",
                {"guides.bearing": SLIPPERY},
                "Let the grid slide on strips of PTFE.",
            )
        yield Proposal("wheels", WHEELS, "Let the grid run on four small ball bearings.")
    if not guides.hold_down:
        yield Proposal(
            "hold_grid_down",
            {"guides.hold_down": "yes"},
            "Put strips over the edges of the grid, so that the eggs cannot lift it.",
        )
