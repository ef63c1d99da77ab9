"""Lengths tried one after the other, with none of the finders' own code: a yardstick for them.

What is asked of a set is asked anew here: ends where they are wanted, an angle between link and
arm above the least, the crank's circle inside the box and clear of the trays. Peaks are those of
whole turn cycles with middle friction.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from turnercalc.building import build
from turnercalc.checks.link_to_arm import link_to_arm
from turnercalc.cycle import turn_cycle
from turnercalc.design import Design
from turnercalc.errors import TurnercalcError
from turnercalc.findings import Answer
from turnercalc.loads import hardest
from turnercalc.parts.outlines import corners
from turnercalc.sizing import size
from turnercalc.swing import ends
from turnercalc.turners.base import Turner

Values = dict[str, float]
#: What a link's end stands out beyond its pin, and what stays free at a wall [m].
STANDS_OUT, FREE = 0.010, 0.005
#: Questions that lengths decide.
DECIDED = {"closes", "jam", "tilt", "tilt_ends", "as_built", "link_to_arm", "room"}


@dataclass(frozen=True)
class Space:
    """What is tried: arms, and places of shaft or eye [m]."""

    arms: tuple[float, ...]
    across: tuple[float, ...]
    height: tuple[float, ...]
    free: float = FREE


def peaks(
    design: Design, space: Space, step: float = 1e-3, flattest: float = 40.0
) -> Iterator[tuple[float, Values]]:
    """Yield the peak of every set that does what is wanted, and the set."""
    for values in sets(design, space, step):
        peak = peak_of(design, values, flattest=flattest)
        if math.isfinite(peak):
            yield peak, values


def some_sets(design: Design, space: Space, step: float, seed: int, looked: int) -> list[Values]:
    """Return the sets that have room among about so many places drawn at random, in any order."""
    rng = np.random.default_rng(seed)
    every = len(space.arms) * len(space.across) * len(space.height)
    share = min(1.0, looked / every)
    found = list(sets(design, space, step, drawn=lambda: rng.random() < share))
    return [found[at] for at in rng.permutation(len(found))]


def sets(
    design: Design, space: Space, step: float, drawn: Callable[[], bool] = lambda: True
) -> Iterator[Values]:
    """Yield every set of lengths that has room; of the places only those that are drawn."""
    turner = build(design).turner
    field = list(turner.dimensions.values())
    for arm in space.arms:
        armed = design.replace({field[0]: arm}, si=True) if arm else design
        turner = build(armed).turner
        low, high = wanted(design, turner)
        ax, ay = (float(v) for v in turner.path().point(low))
        bx, by = (float(v) for v in turner.path().point(high))
        for x in space.across:
            for y in space.height:
                if not drawn():
                    continue
                one, other = math.hypot(ax - x, ay - y), math.hypot(bx - x, by - y)
                values = {field[0]: arm} if arm else {}
                crank = 0.0
                if design.drive == "crank_and_link":
                    crank = round(0.5 * abs(one - other) / step) * step
                    link = round(0.5 * (one + other) / step) * step
                    if crank < 0.0099 or link <= crank:
                        continue
                    values |= {"crank.radius": crank, "link.length": link}
                    values |= {"crank.across": x, "crank.height": y}
                elif design.drive == "linear_actuator":
                    values |= {"actuator.eye_across": x, "actuator.eye_height": y}
                else:
                    half = 0.5 * (high - low)
                    crank = round(math.hypot(x, y) * math.sin(half) / step) * step
                    turned = math.atan2(y, x) - math.atan2(ay + by, ax + bx)
                    turned = (turned + math.pi) % (2.0 * math.pi) - math.pi
                    values |= {"crank.radius": crank, "crank.across": x, "crank.height": y}
                    values |= {"slot.angle": turned, "slot.off_line": 0.0}
                    if crank < 0.0099:
                        continue
                clear = design.drive != "slotted_lever"
                if in_box(design, turner, x, y, crank + STANDS_OUT + space.free) and (
                    not clear or away(turner, low, high, x, y) >= crank + STANDS_OUT + space.free
                ):
                    yield values


def wanted(design: Design, turner: Turner) -> tuple[float, float]:
    """Return the wanted ends; a box that leans tips the trays with it."""
    low, high = turner.travel
    leans = (design["box"].leans or 0.0) if turner.coordinate_unit == "rad" else 0.0
    return low - leans, high - leans


def in_box(design: Design, turner: Turner, x: float, y: float, radius: float) -> bool:
    """Tell whether a circle is inside the box."""
    box = design["box"]
    left = box.width / 2 if turner.origin_from_left is None else turner.origin_from_left
    sides = [left + x, box.width - left - x]
    if turner.origin_height is not None:
        sides += [turner.origin_height + y, box.height - turner.origin_height - y]
    return min(sides) >= radius - 1e-9


def away(turner: Turner, low: float, high: float, x: float, y: float) -> float:
    """Return how far a point is from what is turned anywhere in the swing; 0 inside it [m]."""
    across, height = corners(turner)
    least = math.inf
    for q in np.linspace(low, high, 13):
        px, py = turner.path_of(across, height).point(q)
        for dx, dy in turner.stack:
            hull = list(zip((px + dx).tolist(), (py + dy).tolist(), strict=True))
            least = min(least, distance(hull, x, y))
    return least


def distance(hull: list[tuple[float, float]], x: float, y: float) -> float:
    """Return the distance of a point from a convex outline; 0 inside (plane geometry)."""
    signs, least = set(), math.inf
    for (ax, ay), (bx, by) in zip(hull, hull[1:] + hull[:1], strict=True):
        ex, ey = bx - ax, by - ay
        long = ex * ex + ey * ey
        if long == 0.0:
            continue
        signs.add(ex * (y - ay) - ey * (x - ax) > 0.0)
        along = min(1.0, max(0.0, ((x - ax) * ex + (y - ay) * ey) / long))
        least = min(least, math.hypot(x - ax - along * ex, y - ay - along * ey))
    return 0.0 if len(signs) == 1 else least


def peak_of(design: Design, values: Values, count: int = 90, flattest: float = 40.0) -> float:
    """Return the hardest planned peak of one set; infinite where it is no answer."""
    try:
        built = build(design.replace(values, si=True))
    except TurnercalcError:
        return math.inf
    turner, drive = built.turner, built.drive
    low, high = wanted(design, turner)
    # An actuator that runs its whole stroke has no end switches to be set.
    most = 2.0 if drive.both_ways else 1.0
    unit = math.radians(most) if turner.coordinate_unit == "rad" else 0.05 * (high - low)
    if not drive.closing(turner.path()).closes:
        return math.inf
    swing = ends(turner, drive, count=90)
    if not max(abs(swing.low - low), abs(swing.high - high)) <= unit:
        return math.inf
    loads = [case for case in turner.load_cases() if case.planned]
    with np.errstate(all="ignore"):
        cycle = turn_cycle(turner, drive, loads, levels=("middle",), count=count)
        angle = np.nanmin(link_to_arm(cycle.motion, turner.path()), initial=math.pi / 2)
    if angle < math.radians(flattest):
        return math.inf
    both = [hardest(cycle, 0, way).torque for way in (0, 1)]
    peak = max(both) if drive.both_ways else min(both)
    return math.inf if math.isnan(peak) else peak


def works(design: Design, values: Values) -> bool:
    """Tell whether a full sizing has no no among what lengths decide."""
    try:
        sizing = size(design.replace(values, si=True))
    except TurnercalcError:
        return False
    if sizing.cycle is None:
        return False
    middle = sizing.cycle.levels.index("middle")
    if not math.isfinite(hardest(sizing.cycle, middle, sizing.told_direction).torque):
        return False
    return not any(f.answer is Answer.NO and f.id in DECIDED for f in sizing.findings)


def sticks_out(design: Design) -> bool:
    """Tell whether what is turned comes nearer than nothing to a wall or to its neighbour."""
    turner, box = build(design).turner, design["box"]
    low, high = wanted(design, turner)
    across, height = corners(turner)
    left = box.width / 2 if turner.origin_from_left is None else turner.origin_from_left
    floor = turner.origin_height
    for q in np.linspace(low, high, 361):
        px, py = turner.path_of(across, height).point(q)
        hulls = [(px + dx, py + dy) for dx, dy in turner.stack]
        x, y = np.concatenate([h[0] for h in hulls]), np.concatenate([h[1] for h in hulls])
        if x.min() < -left or x.max() > box.width - left:
            return True
        if floor is not None and (y.min() < -floor or y.max() > box.height - floor):
            return True
        for one, other in pairwise(hulls):
            first, second = (list(zip(*(p.tolist() for p in h), strict=True)) for h in (one, other))
            if any(distance(first, *p) == 0.0 for p in second):
                return True
            if any(distance(second, *p) == 0.0 for p in first):
                return True
    return False
