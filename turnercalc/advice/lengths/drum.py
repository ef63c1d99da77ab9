"""Radius of a drum's shelves on a turning shaft, and the weight that balances an empty drum."""

from __future__ import annotations

import math

from turnercalc.advice.lengths.by_sizing import Values, find_by_sizing, steps
from turnercalc.advice.lengths.wish import Lengths, Wish
from turnercalc.building import build
from turnercalc.design import Design
from turnercalc.fields.things import HeavySide

RADIUS, OUTSIDE, WEIGHT = "drum.shelf_radius", "drum.outside", "drum.counterweight"
#: What is looked for.
FIELDS = (RADIUS, OUTSIDE, WEIGHT)
DECIDED = frozenset({"drum_move", "held_over", "eggs_apart", "room", "imbalance", "air_gap"})
#: Radii looked at before it is looked more finely around the best.
RADII = 40
#: A heavy side of less than this share of a full shelf asks for no weight.
WORTH_A_WEIGHT = 0.02
GRAM = 1e-3


def SUITS(design: Design) -> bool:  # noqa: N802 - a constant question of the registry
    """Tell whether eggs ride in a drum that is turned at its axle."""
    return design.turner == "rotating_drum" and design.drive == "turning_shaft"


def find(design: Design, wish: Wish) -> Lengths:
    """Return radii and counterweights, best first, or why there is none.

    A ring of n eggs side by side needs a radius of half an egg over sin(pi/n) at least; the
    outside grows with the radius and has to turn in the box. A drum with a heavy side gets the
    weight that balances it when empty, as far out as its shelves.
    """
    drum, box = design["drum"], design["box"]
    eggs = build(design).ingredients.lot
    beyond = drum.outside / 2.0 - drum.shelf_radius
    least = 0.5 * eggs.largest.breadth / math.sin(math.pi / max(drum.shelves, 2))
    most = min(box.width, box.height) / 2.0 - beyond
    low, high = wish.range_of(RADIUS, least, most)

    def at(radius: float) -> list[Values]:
        """Return a radius as it is, and balanced."""
        plain = {RADIUS: radius, OUTSIDE: 2.0 * (radius + beyond)}
        weight = balancing(design, radius)
        return [plain] if weight is None else [{**plain, WEIGHT: weight}, plain]

    def around(values: Values) -> list[Values]:
        near = (values[RADIUS] - wish.step, values[RADIUS], values[RADIUS] + wish.step)
        allowed = (radius for radius in near if low - 1e-9 <= radius <= high + 1e-9)
        return [one for radius in allowed for one in at(round(radius / wish.step) * wish.step)]

    sets = [one for radius in steps(low, high, wish.step, RADII) for one in at(radius)]
    if not sets:
        return Lengths(
            (),
            f"A ring of {drum.shelves} shelves needs a radius of {1e3 * least:.0f} mm; only "
            f"{1e3 * most:.0f} mm turn in this box.",
        )
    return find_by_sizing(design, wish, sets, DECIDED, RADIUS, around)


def balancing(design: Design, radius: float) -> HeavySide | None:
    """Return the weight that balances an empty drum, at a radius [m]; None where none is needed.

    In whole grams, toward a shelf or half way between two. One that is there already is left out
    of account: this takes its place.
    """
    drum = design["drum"]
    heavy = drum.empty_balance
    if heavy is None or not heavy.mass * heavy.radius:
        return None
    lot = build(design).ingredients.lot
    moment = heavy.mass * heavy.radius
    if moment < WORTH_A_WEIGHT * lot.typical.mass * drum.eggs_per_shelf * radius:
        return None
    mass = max(round(moment / radius / GRAM), 1) * GRAM
    opposite = heavy.shelf - 1.0 + 0.5 * drum.shelves
    return HeavySide(mass, radius, 1.0 + round(2.0 * opposite) / 2.0 % drum.shelves)
