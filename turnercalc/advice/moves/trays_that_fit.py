"""Set the trays as far apart and as high as the box asks."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.findings import Answer
from turnercalc.sizing import Sizing


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield pitch and pivot height, and fewer trays if need be, where there is no room."""
    from turnercalc.advice.fit_trays import fit_trays

    trays = sizing.design.get("trays")
    tight = any(f.id == "room" and f.answer is not Answer.FINE for f in sizing.findings)
    if trays is None or not tight:
        return
    fit = fit_trays(sizing.design)
    if fit.count == 0:
        return
    settings = dict(fit.settings)
    apart, high = settings["trays.pitch"], settings["trays.lowest_pivot"]
    if trays.count <= fit.count:
        del settings["trays.count"]
        alone = {"trays.pitch": apart}
        yield Proposal("trays_that_fit", alone, f"Set the tray pivots {apart} apart.")
        say = f"Set the tray pivots {apart} apart, the lowest {high}."
        yield Proposal("trays_that_fit", settings, say)
    elif not sizing.design.loads:
        say = f"Take {fit.count} trays, their pivots {apart} apart, the lowest {high}."
        yield Proposal("fewer_trays", settings, say)
