"""Crank and shaft for a slotted lever: r and d.

A lever whose slot points at the shaft in the middle of its swing tips asin(r/d) to each side, d
being pivot to shaft. A part that slides goes the crank's radius to each side. Shaft and crank
stand before or behind the part, as its slot runs over the crank pin.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from turnercalc.advice.lengths import space
from turnercalc.advice.lengths.choosing import suggestions
from turnercalc.advice.lengths.crank_link import SHORTEST_CRANK, wanted_ends
from turnercalc.advice.lengths.each import groups, try_each
from turnercalc.advice.lengths.wish import Lengths, Wish
from turnercalc.building import build
from turnercalc.design import Design
from turnercalc.paths import CirclePath, LinePath
from turnercalc.turners.base import Turner

CRANK, ACROSS, HEIGHT = "crank.radius", "crank.across", "crank.height"
ANGLE, OFF_LINE = "slot.angle", "slot.off_line"
#: Distances of the shaft looked at [m], and directions besides along the arm [deg].
DISTANCES = np.arange(0.03, 0.401, 0.01)
DIRECTIONS = np.arange(-180, 180, 15)
OFF_WANTED = math.radians(1.5)
SHORT = 40


def SUITS(design: Design) -> bool:  # noqa: N802 - a constant question of the registry
    """Tell whether a design has a slotted lever."""
    return design.drive == "slotted_lever"


def find(design: Design, wish: Wish) -> Lengths:
    """Return cranks and places of the shaft, best first, or why there is none."""
    design = design.replace({"crank.runs": "round and round"})
    built = build(design)
    if built.turner.endless:
        return Lengths((), "It is turned round and round: a slotted lever only goes to and fro.")
    wanted = wanted_ends(design, built.turner)
    too_big = space.parts_too_big(design, built.turner, *wanted)
    if too_big:
        return Lengths((), too_big)
    path = built.turner.path()
    if isinstance(path, CirclePath):
        every = list(levers(design, built.turner, path, wish, wanted))
    elif isinstance(path, LinePath):
        every = list(yokes(path, wish, wanted))
    else:
        return Lengths((), "A slot suits a part that turns about a fixed pivot, or that slides.")
    sets = sorted(every, key=lambda values: math.hypot(values[ACROSS], values[HEIGHT]))
    # The nearest, and then evenly the others: force falls with the distance, room grows.
    chosen = sets if len(sets) <= SHORT else [sets[i * len(sets) // SHORT] for i in range(SHORT)]
    off = OFF_WANTED if built.turner.coordinate_unit == "rad" else 0.002
    found = [one for one in try_each(design, chosen, wanted) if one.off <= off]
    room = {i: math.hypot(one.values[ACROSS], one.values[HEIGHT]) for i, one in enumerate(found)}
    good = suggestions(design, groups(design, found, wish, room=room))
    if not good:
        return Lengths((), why_none(design), len(sets))
    return Lengths(good[: wish.count], "", len(sets))


def levers(
    design: Design, turner: Turner, path: CirclePath, wish: Wish, wanted: tuple[float, float]
) -> Iterator[dict[str, float]]:
    """Yield r, d and the slot's angle for a part that swings, inside the box."""
    low, high = wanted
    around = space.walls(design, turner)
    arm, middle = float(np.asarray(path.angle)), 0.5 * (low + high)
    for turned in [0.0, *(math.radians(angle) for angle in DIRECTIONS if angle)]:
        direction = arm + middle + turned
        for distance in DISTANCES:
            x = round(distance * math.cos(direction) / wish.step) * wish.step
            y = round(distance * math.sin(direction) / wish.step) * wish.step
            crank = round(math.hypot(x, y) * math.sin(0.5 * (high - low)) / wish.step) * wish.step
            values = {CRANK: crank, ACROSS: x, HEIGHT: y, ANGLE: turned, OFF_LINE: 0.0}
            if crank < SHORTEST_CRANK or not allowed(values, wish):
                continue
            place = np.array([x]), np.array([y])
            if not space.inside(around, *place, np.array([crank])).all():
                continue
            yield values


def yokes(path: LinePath, wish: Wish, wanted: tuple[float, float]) -> Iterator[dict[str, float]]:
    """Yield the crank for a part that slides: half the stroke, its shaft under the middle."""
    low, high = wanted
    crank = round(0.5 * (high - low) / wish.step) * wish.step
    px, py = path.point(0.5 * (low + high))
    ex, ey = math.cos(float(np.asarray(path.angle))), math.sin(float(np.asarray(path.angle)))
    for aside in (-0.08, -0.06, -0.04, -0.02, 0.0, 0.02, 0.04, 0.06, 0.08):
        x, y = float(px) - aside * ey, float(py) + aside * ex
        values = {
            CRANK: crank,
            ACROSS: round(x / wish.step) * wish.step,
            HEIGHT: round(y / wish.step) * wish.step,
        }
        if allowed(values, wish):
            yield values


def allowed(values: dict[str, float], wish: Wish) -> bool:
    """Tell whether a set keeps to the wish."""
    return all(
        low - 1e-9 <= value <= high + 1e-9
        for field, value in values.items()
        for low, high in [wish.range_of(field, -9.9, 9.9)]
    )


def why_none(design: Design) -> str:
    """Return why no crank and shaft does."""
    tilt = design["turning"].tilt
    wanted = "the wanted move" if tilt is None else f"{math.degrees(tilt):.3g}° to each side"
    return (
        f"No shaft and crank were found for {wanted} inside the box. Point the arm where there "
        "is room."
    )
