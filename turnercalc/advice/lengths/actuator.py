"""Eyes for a bought actuator: where its ends go so that its stroke gives the wanted swing.

One that runs its whole stroke is S long at one end of the swing and S + stroke at the other, so
its fixed eye stands where circles of these radii about the pin's two end places meet: two
places, for either way round, for every arm. One between end switches may stand anywhere where
both lengths lie within its stroke.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.lengths import space
from turnercalc.advice.lengths.choosing import suggestions
from turnercalc.advice.lengths.crank_link import arms, pin_inside, shaft_places, wanted_ends
from turnercalc.advice.lengths.each import groups, try_each
from turnercalc.advice.lengths.wish import Lengths, Wish
from turnercalc.building import build
from turnercalc.design import Design
from turnercalc.parts.clearances import LINK_END
from turnercalc.paths import Path
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]

ACROSS, HEIGHT = "actuator.eye_across", "actuator.eye_height"
#: Sets that are tried one by one.
SHORT = 24
#: Ends may come out this far from wanted once the eye is marked [rad].
OFF_WANTED = math.radians(2.0)
#: Length left at either end of the stroke between end switches [m].
IN_HAND = 0.005
SWING_STEPS = 19


def SUITS(design: Design) -> bool:  # noqa: N802 - a constant question of the registry
    """Tell whether a design has an actuator."""
    return design.drive == "linear_actuator"


@dataclass(frozen=True)
class Place:
    """A place of the fixed eye for one arm, with the least lever that the rod has there [m]."""

    values: Mapping[str, float]
    lever: float
    room: float


def find(design: Design, wish: Wish) -> Lengths:
    """Return places of the eye and arms, best first, or why there is none."""
    built = build(design)
    if built.turner.endless:
        return Lengths((), "It is turned round and round: a rod only goes to and fro.")
    wanted = wanted_ends(design, built.turner)
    too_big = space.parts_too_big(design, built.turner, *wanted)
    if too_big:
        return Lengths((), too_big)
    places: list[Place] = []
    tried = 0
    for arm, turner in arms(design, built.turner, wish, count=25):
        if not pin_inside(turner.path(), space.walls(design, turner), *wanted):
            continue
        x, y = eyes(design, turner, wish, wanted)
        tried += x.size
        places += good_places(design, turner, wish, wanted, arm, x, y)
    if not places:
        return Lengths((), why_none(design), tried)
    best = sorted(places, key=lambda place: -place.lever)[: SHORT - SHORT // 3]
    near = sorted(places, key=lambda place: place.room)[: SHORT // 3]
    room = {id(place.values): place.room for place in (*best, *near)}
    found = list(try_each(design, (place.values for place in (*best, *near)), wanted))
    found = [one for one in found if one.off <= OFF_WANTED]
    rooms = {i: room.get(id(one.values), 0.0) for i, one in enumerate(found)}
    chosen = suggestions(design, groups(design, found, wish, room=rooms, easiest="lowest_force"))
    if not chosen:
        return Lengths((), why_none(design), tried)
    return Lengths(chosen[: wish.count], "", tried)


def eyes(
    design: Design, turner: Turner, wish: Wish, wanted: tuple[float, float]
) -> tuple[Array, Array]:
    """Return places of the fixed eye to look at, in whole steps [m]."""
    section = design["actuator"]
    path = turner.path()
    if section.runs != "its whole stroke":
        around = space.walls(design, turner)
        reach = section.shortest + section.stroke
        return shaft_places(path, around, wish, wanted, fields=(ACROSS, HEIGHT), reach=reach)
    px, py = path.point(np.array(wanted))
    short, long = section.shortest, section.shortest + section.stroke
    found = [
        place
        for radii in ((short, long), (long, short))
        for place in circles_meet((px[0], py[0]), (px[1], py[1]), radii)
    ]
    x, y = (np.array([place[i] for place in found]) for i in (0, 1))
    return np.round(x / wish.step) * wish.step, np.round(y / wish.step) * wish.step


def circles_meet(
    one: tuple[float, float], other: tuple[float, float], radii: tuple[float, float]
) -> Iterator[tuple[float, float]]:
    """Yield the places that are so far from two points; none where there are none."""
    dx, dy = other[0] - one[0], other[1] - one[1]
    apart = math.hypot(dx, dy)
    if apart == 0.0:
        return
    along = (radii[0] ** 2 - radii[1] ** 2 + apart**2) / (2.0 * apart)
    square = radii[0] ** 2 - along**2
    if square < 0.0:
        return
    for side in (1.0, -1.0):
        off = side * math.sqrt(square)
        yield (
            one[0] + (along * dx - off * dy) / apart,
            one[1] + (along * dy + off * dx) / apart,
        )


def good_places(
    design: Design,
    turner: Turner,
    wish: Wish,
    wanted: tuple[float, float],
    arm: float | None,
    x: Array,
    y: Array,
) -> Iterator[Place]:
    """Yield the places that reach, stand in the box clear of the parts, and keep a lever."""
    if not x.size:
        return
    section, path = design["actuator"], turner.path()
    around = space.walls(design, turner)
    kept = space.inside(around, x, y, np.zeros(x.shape))
    for field, values in ((ACROSS, x), (HEIGHT, y)):
        low, high = wish.range_of(field, -9.9, 9.9)
        kept &= (values >= low - 1e-9) & (values <= high + 1e-9)
    length, lever = lengths_and_levers(path, x, y, wanted)
    if section.runs != "its whole stroke":
        short, long = section.shortest + IN_HAND, section.shortest + section.stroke - IN_HAND
        kept &= (length.min(axis=-1) >= short) & (length.max(axis=-1) <= long)
    # A lever that changes its sign passes through nought: there the rod pushes at the pivot.
    one_sided = (lever > 0.0).all(axis=-1) | (lever < 0.0).all(axis=-1)
    kept &= one_sided
    if not wish.beside and kept.any():
        away = np.zeros(x.shape)
        away[kept] = space.distance_to(space.swept(turner, *wanted), x[kept], y[kept])
        kept &= away >= LINK_END + space.wall_margin()
    arm_field = next(iter(turner.dimensions.values()), "")
    for at in np.flatnonzero(kept):
        place = {ACROSS: float(x[at]), HEIGHT: float(y[at])}
        if arm is not None:
            place[arm_field] = arm
        least = float(np.abs(lever[at]).min())
        yield Place(place, least, float(np.hypot(x[at], y[at])))


def lengths_and_levers(
    path: Path, x: Array, y: Array, wanted: tuple[float, float]
) -> tuple[Array, Array]:
    """Return the length of the rod and its lever d(length)/dq over the swing, (place, step)."""
    q = np.linspace(*wanted, SWING_STEPS)
    px, py = path.point(q)
    tx, ty = path.tangent(q)
    ux, uy = px - x[:, None], py - y[:, None]
    length = np.hypot(ux, uy)
    return length, (ux * tx + uy * ty) / length


def why_none(design: Design) -> str:
    """Return why no place does."""
    section = design["actuator"]
    tilt = design["turning"].tilt
    wanted = "the wanted move" if tilt is None else f"{math.degrees(tilt):.3g}° to each side"
    return (
        f"No place of its eye was found at which a stroke of {1e3 * section.stroke:.0f} mm from "
        f"{1e3 * section.shortest:.0f} mm gives {wanted}, inside the box and "
        "clear of what is turned. A stroke of about 1.4 times the arm suits 45°; another arm "
        "(--within arm.length=...), or an eye beside the parts (--beside), may do."
    )
