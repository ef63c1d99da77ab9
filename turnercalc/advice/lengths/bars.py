"""Diameter and pitch of rolling bars, for eggs that must not touch, drop through or climb out."""

from __future__ import annotations

from turnercalc.advice.lengths.by_sizing import Values, find_by_sizing, steps
from turnercalc.advice.lengths.wish import Lengths, Wish
from turnercalc.building import build
from turnercalc.design import Design

DIAMETER, PITCH = "bars.diameter", "bars.pitch"
#: What is looked for.
FIELDS = (DIAMETER, PITCH)
DECIDED = frozenset(
    {
        "egg_turn",
        "neighbours_touch",
        "drop_through",
        "nest",
        "climbing_out",
        "traction",
        "under_bars",
        "bar_sag",
        "air_gap",
        "room",
    }
)
#: Bars and tubes that builders use [m].
THINNEST, THICKEST = 0.010, 0.034


def SUITS(design: Design) -> bool:  # noqa: N802 - a constant question of the registry
    """Tell whether eggs lie on bars."""
    return design.turner == "rolling_bars"


def find(design: Design, wish: Wish) -> Lengths:
    """Return diameters and pitches, best first, or why there is none.

    Neighbouring eggs lie a pitch apart, so the pitch begins at the breadth of the largest egg; it
    ends where the bars fill the box, or half as wide again.
    """
    eggs = build(design).ingredients.lot
    breadth, count = eggs.largest.breadth, design["bars"].count
    widest = min(1.5 * breadth, design["box"].width / count)
    low, high = wish.range_of(PITCH, breadth, widest)
    thin, thick = wish.range_of(DIAMETER, THINNEST, THICKEST)
    sets = [
        {DIAMETER: diameter, PITCH: pitch}
        for diameter in steps(thin, thick, 2.0 * wish.step, 9)
        for pitch in steps(low, high, wish.step, 10)
    ]
    if not sets:
        return Lengths(
            (),
            f"{count} bars a largest egg apart, {1e3 * breadth:.0f} mm, need "
            f"{1e3 * breadth * count:.0f} mm; the box is {1e3 * design['box'].width:.0f} mm wide.",
        )

    def around(values: Values) -> list[Values]:
        """Return the pitches a step away, and the next thicker and thinner bars."""
        pitch, diameter = values[PITCH], values[DIAMETER]
        places = [(pitch + wish.step, diameter), (pitch - wish.step, diameter)]
        places += [(pitch, diameter + wish.step), (pitch, diameter - wish.step)]
        return [
            {DIAMETER: round(d / wish.step) * wish.step, PITCH: round(p / wish.step) * wish.step}
            for p, d in places
            if low - 1e-9 <= p <= high + 1e-9 and thin - 1e-9 <= d <= thick + 1e-9
        ]

    return find_by_sizing(design, wish, sets, DECIDED, PITCH, around)
