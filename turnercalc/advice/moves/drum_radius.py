"""Bring the shelves of a drum nearer to its axle: every egg pulls on a shorter lever."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.advice.moves import Proposal, millimetres
from turnercalc.sizing import Sizing
from turnercalc.tables import limit
from turnercalc.turners.rotating_drum import RotatingDrum

#: What foam, net and board take between two neighbouring eggs besides the least gap [m].
FOAM = 0.010
SHORTER = (0.9, 0.8, 0.7)


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield smaller radii down to where the largest eggs of two shelves just keep clear."""
    drum, section = sizing.turner, sizing.design.get("drum")
    if not isinstance(drum, RotatingDrum) or section is None:
        return
    breadth = sizing.ingredients.lot.largest.breadth
    gap = 1e-3 * (limit("egg_gap").fine or 0.0)
    now, step = float(drum.shelf_radius), 2.0 * math.sin(math.pi / drum.shelves)
    least = (breadth + gap + FOAM) / step
    if now < (breadth + gap) / step:  # they touch: the other way round
        yield _at(section, math.ceil(1e3 * least) * 1e-3, "further from")
        return
    for share in SHORTER:
        radius = math.ceil(1e3 * max(share * now, least)) * 1e-3
        if radius < now - 1e-3:
            yield _at(section, radius, "nearer to")


def _at(section: object, radius: float, way: str) -> Proposal:
    outside = section.outside + 2.0 * (radius - section.shelf_radius)  # type: ignore[attr-defined]
    return Proposal(
        "move_shelves",
        {"drum.shelf_radius": millimetres(radius), "drum.outside": millimetres(outside)},
        f"Put the shelves {way} the axle, {millimetres(radius)} to the eggs' middles.",
    )
