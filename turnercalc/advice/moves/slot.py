"""Change the crank of a slotted lever, so that it tips as far as is wanted."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from turnercalc.advice.moves import Proposal, each_side, millimetres
from turnercalc.sizing import Sizing

#: Off by less than this a change of the crank is not worth the work [m].
WORTH = 0.5e-3


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the crank that gives the wanted tilt: sin(tilt) = radius / distance of the centres."""
    crank, slot = sizing.design.get("crank"), sizing.design.get("slot")
    wanted = each_side(sizing)
    if crank is None or slot is None or wanted is None or crank.runs != "round and round":
        return
    radius = float(np.hypot(crank.across, crank.height) * np.sin(wanted))
    if abs(radius - crank.radius) >= WORTH:
        text = millimetres(radius)
        yield Proposal("crank_radius", {"crank.radius": text}, f"Make the crank {text}.")
