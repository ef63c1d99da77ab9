"""Search for a place and an arm: all over the box first, then ever more finely around the best.

A finder says how sets do, given an arm and places of the shaft or eye, by closed forms; here the
best of them are looked for, and those then tried with friction.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import product

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.lengths.along import Swing, swing_of
from turnercalc.advice.lengths.choosing import suggestions
from turnercalc.advice.lengths.each import EASY, Tried, groups, try_each
from turnercalc.advice.lengths.space import Swept, Walls, swept, walls
from turnercalc.advice.lengths.wish import Suggestion, Wish
from turnercalc.building import build
from turnercalc.design import Design
from turnercalc.tables import limit
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Wanted = tuple[float, float]

#: Of each kind: sets that are tried with friction.
SHORT = 8
#: Of each kind: sets around which is looked more finely.
SEEDS = 3
#: Where no angle is fine, angles within this of the best are taken alike [rad].
SAME_ANGLE = math.radians(1.0)
#: Directions from the pivot, and sizes of arms, of each of which the easiest is tried too.
SECTORS, SIZES = 12, 3
#: Places from which it is climbed, so far apart at least, in whole steps.
CLIMBS, APART = 2, 12
#: Steps of the climb with friction, in whole steps of the wish.
STRIDES = (4, 2, 1)
#: Sets tried with friction while climbing, at most.
CLIMB = 40


@dataclass(frozen=True)
class Rules:
    """How strict a search is, and how far it looks.

    Attributes
    ----------
    wall : float
        What stays free at a wall and beside the moving parts [m].
    in_hand : float
        By which a linkage could be off and still go through [m].
    shortest, longest : float
        Arms looked at, as a share of the given one.
    arms : int
        How many.
    places : int
        Places of the shaft or eye for one arm, about.
    """

    wall: float
    in_hand: float
    shortest: float
    longest: float
    arms: int
    places: int


def usual() -> Rules:
    """Return the rules by which a set is fine."""
    wall, hand = (1e-3 * (limit(name).fine or 0.0) for name in ("clearance", "closing_margin"))
    return Rules(wall, hand, 0.6, 1.5, 10, 1600)


def tight() -> Rules:
    """Return the rules by which a set is not yet impossible, over a wider range."""
    return Rules(5e-4, 5e-4, 0.3, 2.2, 12, 4000)


@dataclass
class Sieve:
    """How many sets are left after each question, for the sentence where none is."""

    tried: int = 0
    left: dict[str, int] = field(default_factory=dict)
    best_angle: float = 0.0

    def count(self, question: str, kept: Mask) -> None:
        """Note how many pass a question."""
        self.left[question] = self.left.get(question, 0) + int(kept.sum())


@dataclass(frozen=True)
class Sets:
    """Sets of lengths, each array shape (set,).

    Attributes
    ----------
    values : mapping
        Field path -> SI.
    angle : ndarray
        Least angle between link and arm [rad].
    off : ndarray
        How far an end is from the wanted one [rad or m].
    peak : ndarray
        Hardest planned shaft torque or push without friction of the drive's pins [N·m or N].
    room : ndarray
        How much room it takes [m].
    """

    values: Mapping[str, Array]
    angle: Array
    off: Array
    peak: Array
    room: Array

    def take(self, keep: NDArray[np.intp] | Mask) -> Sets:
        """Return some of the sets."""
        values = {path: array[keep] for path, array in self.values.items()}
        return Sets(values, self.angle[keep], self.off[keep], self.peak[keep], self.room[keep])

    def one(self, at: int) -> dict[str, float]:
        """Return the values of one set."""
        return {path: float(array[at]) for path, array in self.values.items()}


def joined(parts: Sequence[Sets]) -> Sets:
    """Return all sets of several in one, each once."""
    values = {path: np.concatenate([one.values[path] for one in parts]) for path in parts[0].values}
    every = Sets(
        values,
        *(
            np.concatenate([getattr(one, name) for one in parts])
            for name in ("angle", "off", "peak", "room")
        ),
    )
    whole = np.round(np.stack(list(values.values())) * 1e6).astype(np.int64)
    return every.take(np.unique(whole, axis=1, return_index=True)[1])


@dataclass(frozen=True)
class Armed:
    """A turner with an arm of some length, and what follows from it.

    Attributes
    ----------
    arm : float or None
        Its length [m]; None where the turner's pin has no length of its own to choose.
    """

    arm: float | None
    turner: Turner
    around: Walls
    swing: Swing
    parts: Swept


Judge = Callable[[Armed, Array, Array], Sets | None]
Places = Callable[[Armed], tuple[Array, Array, float]]


class Arms:
    """The arms that may be taken, each built once; only the given one with `keep`."""

    def __init__(
        self, design: Design, wish: Wish, rules: Rules, wanted: Wanted, *, keep: bool = False
    ) -> None:
        self.design, self.wanted, self.step = design, wanted, wish.step
        turner = build(design).turner
        paths = list(turner.dimensions.values())
        # A turner whose pin's path has more lengths than one, or none, is left as it is.
        self.field = paths[0] if len(paths) == 1 and not keep else ""
        self.low = self.high = self.now = 0.0
        if self.field:
            self.now = float(design.value(self.field))
            self.low, self.high = wish.range_of(
                self.field, rules.shortest * self.now, rules.longest * self.now
            )
        self.count = rules.arms
        self.built: dict[int, Armed] = {}

    def lengths(self) -> list[float | None]:
        """Return the lengths to begin with, the given one among them."""
        if not self.field:
            return [None]
        return self.allowed([self.now, *np.linspace(self.low, self.high, self.count).tolist()])

    def allowed(self, lengths: Sequence[float]) -> list[float | None]:
        """Return lengths in whole steps, each once, that may be taken."""
        whole = dict.fromkeys(round(length / self.step) for length in lengths)
        found = [steps * self.step for steps in whole]
        return [x for x in found if self.low - 1e-9 <= x <= self.high + 1e-9 and x > 0.0]

    @property
    def gap(self) -> float:
        """How far the first lengths are apart [m]."""
        return (self.high - self.low) / max(self.count - 1, 1)

    def at(self, arm: float | None) -> Armed:
        """Return the turner with an arm."""
        key = 0 if arm is None else round(arm / self.step)
        if key not in self.built:
            design = self.design if arm is None else self.design.replace({self.field: arm}, si=True)
            turner = build(design).turner
            around, parts = walls(design, turner), swept(turner, *self.wanted)
            self.built[key] = Armed(arm, turner, around, swing_of(turner, *self.wanted), parts)
        return self.built[key]


def best_of(
    design: Design,
    wish: Wish,
    arms: Arms,
    places: Places,
    judge: Judge,
    where: tuple[str, str],
    off: tuple[float, float],
    *,
    easiest: str = "lowest_peak",
    refused: list[str] | None = None,
) -> tuple[Suggestion, ...]:
    """Return suggestions from a whole search, best first.

    Parameters
    ----------
    places, judge, where
        See `search`.
    off : (float, float)
        How far ends may be off, and what share of the peak a unit of that has to save.
    easiest : str
        What the set with the smallest peak is called.
    refused : list of str, optional
        Is told why sets are refused that were sized in full.
    """
    sets = search(arms, places, judge, where, per_off=off[1])
    if sets is None:
        return ()
    found = with_friction(design, sets, arms, judge, where, off=off[0], per_off=off[1])
    return suggestions(
        design,
        groups(
            design,
            found,
            wish,
            room={i: room_of(one.values, where) for i, one in enumerate(found)},
            easiest=easiest,
            per_off=off[1],
            arm=arms.field,
        ),
        refused,
    )


def search(
    arms: Arms, places: Places, judge: Judge, where: tuple[str, str], *, per_off: float
) -> Sets | None:
    """Return the sets worth trying with friction; None where none passes.

    Parameters
    ----------
    places : callable
        Places to begin with for an arm, and how far they are apart.
    judge : callable
        Sets for places with one arm, those that pass.
    where : (str, str)
        Fields of the place.
    """
    found, gap = [], 0.0
    for arm in arms.lengths():
        armed = arms.at(arm)
        x, y, apart = places(armed)
        gap = max(gap, apart)
        if (sets := judge(armed, x, y)) is not None:
            found.append(sets)
    if not found:
        return None
    every = joined(found)
    between = 0.5 * arms.gap
    while gap > 0.6 * arms.step:
        gap, between = 0.5 * gap, max(between, arms.step)
        every = joined([every, *finer(arms, judge, where, every, gap, between, per_off)])
        between *= 0.5
    picked = shortlist(every, SHORT, per_off, arms.field) + spread_out(every, where, arms, per_off)
    return every.take(np.array(list(dict.fromkeys(picked))))


def spread_out(sets: Sets, where: tuple[str, str], arms: Arms, per_off: float) -> list[int]:
    """Return the easiest of each direction and size of arm: friction may prefer any of them."""
    x, y = (sets.values[path] for path in where)
    sector = np.floor(SECTORS * np.arctan2(y, x) / (2.0 * np.pi)).astype(int)
    size = np.zeros(x.shape, int)
    if arms.field and arms.high > arms.low:
        share = (sets.values[arms.field] - arms.low) / (arms.high - arms.low)
        size = np.minimum((SIZES * share).astype(int), SIZES - 1)
    cost = sets.peak * (1.0 + per_off * sets.off)
    order = np.argsort(cost, kind="stable")
    _, first = np.unique((sector * SIZES + size)[order], return_index=True)
    return [int(at) for at in order[first]]


def finer(
    arms: Arms,
    judge: Judge,
    where: tuple[str, str],
    every: Sets,
    gap: float,
    between: float,
    per_off: float,
) -> list[Sets]:
    """Return the sets around the best of each kind."""
    asked: dict[float | None, set[tuple[int, int]]] = {}
    near = np.unique(np.round(gap * np.arange(-2, 3) / arms.step).astype(int))
    for at in shortlist(every, SEEDS, per_off, arms.field):
        x, y = (round(every.values[path][at] / arms.step) for path in where)
        lengths: list[float | None] = [None]
        if arms.field:
            arm = float(every.values[arms.field][at])
            lengths = arms.allowed([arm - between, arm, arm + between])
        for length in lengths:
            asked.setdefault(length, set()).update(
                (x + dx, y + dy) for dx, dy in product(near.tolist(), repeat=2)
            )
    found = []
    for length, steps in asked.items():
        x, y = (arms.step * np.array(one, float) for one in zip(*sorted(steps), strict=True))
        if (sets := judge(arms.at(length), x, y)) is not None:
            found.append(sets)
    return found


def shortlist(sets: Sets, count: int, per_off: float, arm: str) -> list[int]:
    """Return the sets that could be the best of any kind: so many of each."""
    rule = math.radians(limit("link_to_arm").fine or 0.0)
    flattest = min(rule, float(sets.angle.max()) - SAME_ANGLE)
    good = np.flatnonzero(sets.angle >= flattest)
    cost = sets.peak * (1.0 + per_off * sets.off)
    easy = good[sets.peak[good] <= EASY * sets.peak[good].min()]
    orders = [
        good[np.argsort(cost[good], kind="stable")],
        easy[np.lexsort((cost[easy], -sets.angle[easy]))],
        easy[np.lexsort((cost[easy], sets.room[easy]))],
    ]
    if arm:
        orders.append(easy[np.lexsort((cost[easy], -sets.values[arm][easy]))])
    return list(dict.fromkeys(int(at) for order in orders for at in order[:count]))


def with_friction(
    design: Design,
    sets: Sets,
    arms: Arms,
    judge: Judge,
    where: tuple[str, str],
    *,
    off: float,
    per_off: float,
) -> list[Tried]:
    """Return sets tried with friction, and those around the easiest, climbing down to the least."""
    found = {key(sets.one(at)): sets.one(at) for at in range(sets.peak.size)}
    tried = [one for one in try_each(design, found.values(), arms.wanted) if one.off <= off]
    rule = math.radians(limit("link_to_arm").fine or 0.0)

    def cost(one: Tried) -> tuple[bool, float]:
        return one.angle < rule, one.peak * (1.0 + per_off * one.off)

    begun: list[Tried] = []
    for best in sorted(tried, key=cost):
        if len(begun) == CLIMBS:
            break
        if not all(far_apart(best.values, one.values, where, arms.step) for one in begun):
            continue
        begun.append(best)
        left = CLIMB
        for stride in STRIDES:
            better = True
            while better and left > 0:
                around = [
                    values
                    for values in neighbours(best.values, arms, judge, where, stride)
                    if key(values) not in found
                ]
                found |= {key(values): values for values in around}
                left -= len(around)
                more = [one for one in try_each(design, around, arms.wanted) if one.off <= off]
                tried += more
                nearest = min(more, key=cost, default=best)
                better = cost(nearest) < cost(best)
                best = nearest if better else best
    return [one for one in tried if math.isfinite(one.peak)]


def far_apart(
    one: Mapping[str, float], other: Mapping[str, float], where: tuple[str, str], step: float
) -> bool:
    """Tell whether two places are not near each other."""
    return math.hypot(*(one[path] - other[path] for path in where)) >= APART * step


def neighbours(
    values: Mapping[str, float], arms: Arms, judge: Judge, where: tuple[str, str], stride: int
) -> list[dict[str, float]]:
    """Return the sets a stride away in one thing, those that pass."""
    x, y = (values[path] for path in where)
    far = stride * arms.step
    arm = values.get(arms.field)
    found = []
    moves: list[tuple[float | None, list[tuple[float, float]]]] = [
        (arm, [(x - far, y), (x + far, y), (x, y - far), (x, y + far)])
    ]
    if arm is not None:
        moves += [(one, [(x, y)]) for one in arms.allowed([arm - far, arm + far])]
    for length, places in moves:
        px, py = (np.array(one) for one in zip(*places, strict=True))
        sets = judge(arms.at(length), px, py)
        if sets is not None:
            found += [sets.one(at) for at in range(sets.peak.size)]
    return found


def room_of(values: Mapping[str, float], where: tuple[str, str]) -> float:
    """Return how much room a set takes: from the origin to the far side of its crank [m]."""
    return math.hypot(*(values[path] for path in where)) + values.get("crank.radius", 0.0)


def key(values: Mapping[str, float]) -> tuple[int, ...]:
    """Return what tells a set from another."""
    return tuple(round(value * 1e6) for value in values.values())
