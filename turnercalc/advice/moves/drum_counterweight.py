"""Balance an empty drum by a weight opposite its heavy side."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.advice.moves import Proposal, millimetres
from turnercalc.sizing import Sizing
from turnercalc.turners.rotating_drum import RotatingDrum

#: Below this share of one full shelf nothing is gained.
WORTH_A_WEIGHT = 0.02
GRAM = 1e-3


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the counterweight that balances the empty drum, at the radius of the shelves."""
    drum = sizing.turner
    if not isinstance(drum, RotatingDrum) or drum.heavy_side is None:
        return
    if math.hypot(*drum.empty_in_shelves) < WORTH_A_WEIGHT:
        return
    wanted = drum.balancing_weight(float(drum.shelf_radius))
    weight = max(round(wanted.mass / GRAM), 1)
    # to half a shelf: on a shelf, or between two
    toward = 1.0 + round(2.0 * (wanted.shelf - 1.0)) / 2.0 % drum.shelves
    text = f"{weight} g at {millimetres(wanted.radius)} toward shelf {toward:g}"
    yield Proposal(
        "add_counterweight",
        {"drum.counterweight": text},
        f"Screw {weight} g to the drum, {millimetres(wanted.radius)} from the axle toward "
        f"shelf {toward:g}.",
    )
