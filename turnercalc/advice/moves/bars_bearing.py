"""Give the bars better bearings, or a surface that grips the eggs."""

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.sizing import Sizing

BEARINGS = {
    "steel in bronze, oiled": "Run the stub axles in oiled bronze bushes.",
    "ball bearing": "Run the stub axles in ball bearings.",
}
GRIPPING = "heat shrink tube"


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield better bearings; a sleeve where the bars slip under the eggs."""
    bars = sizing.design.get("bars")
    if bars is None:
        return
    given = sizing.design.origin.get("bars.journal_friction")
    for journal, say in BEARINGS.items():
        # Friction that somebody measured would stay as it is, whatever the bearing is called.
        if journal != bars.journal and (given is None or given.how == "taken for granted"):
            yield Proposal("better_journals", {"bars.journal": journal}, say)
    if sizing.reason.id == "traction" and bars.surface != GRIPPING:
        say = "Draw heat shrink tube over the bars: it grips the eggs."
        yield Proposal("sleeves_that_grip", {"bars.surface": GRIPPING}, say)
