"""Radius of a drum's shelves on a turning shaft, and the weight that balances an empty drum."""

from __future__ import annotations

import math

from turnercalc.advice.lengths.by_sizing import find_by_sizing, steps
from turnercalc.advice.lengths.wish import Lengths, Wish
from turnercalc.building import build
from turnercalc.design import Design

RADIUS, OUTSIDE = "drum.shelf_radius", "drum.outside"
DECIDED = frozenset({"drum_move", "held_over", "eggs_apart", "room", "imbalance", "air_gap"})


def SUITS(design: Design) -> bool:  # noqa: N802 - a constant question of the registry
    """Tell whether eggs ride in a drum that is turned at its axle."""
    return design.turner == "rotating_drum" and design.drive == "turning_shaft"


def find(design: Design, wish: Wish) -> Lengths:
    """Return radii, best first, or why there is none.

    A ring of n eggs side by side needs a radius of half an egg over sin(pi/n) at least; the
    outside grows with the radius and has to turn in the box.
    """
    drum, box = design["drum"], design["box"]
    eggs = build(design).ingredients.lot
    around = drum.outside / 2.0 - drum.shelf_radius
    least = 0.5 * eggs.largest.breadth / math.sin(math.pi / max(drum.shelves, 2))
    most = min(box.width, box.height) / 2.0 - around
    low, high = wish.range_of(RADIUS, least, most)
    sets = [
        {RADIUS: radius, OUTSIDE: 2.0 * (radius + around)}
        for radius in steps(low, high, wish.step, 40)
    ]
    if not sets:
        return Lengths(
            (),
            f"A ring of {drum.shelves} shelves needs a radius of {1e3 * least:.0f} mm; only "
            f"{1e3 * most:.0f} mm turn in this box.",
        )
    return find_by_sizing(design, wish, sets, DECIDED, RADIUS)
