"""Crank, link, arm and the motor's place, for any turner that holds a pin.

Both ends of the swing are wanted, so the pin's places there, A and B, are known. A crank that
goes round stands at its rest points when crank and link are in line: the pin is then link +
crank or link - crank from the shaft. So for *every* place of the shaft::

    link  = (|A| + |B|)/2        crank = ||A| - |B||/2        distances from the shaft

and the ends are even and as wanted, exactly. What is searched is the place of the shaft and the
arm; each set is then rounded to what can be marked, and judged as it comes out.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.lengths import space
from turnercalc.advice.lengths.choosing import Candidate, suggestions
from turnercalc.advice.lengths.each import groups, settings, try_each
from turnercalc.advice.lengths.wish import Lengths, Wish
from turnercalc.advice.many import (
    ends_in_blocks,
    free_peaks,
    hardest_loads,
    least_link_angle,
    peaks_with_friction,
    takes_arrays,
)
from turnercalc.building import build
from turnercalc.design import Design
from turnercalc.drives.base import Drive
from turnercalc.parts.clearances import LINK_END
from turnercalc.paths import CirclePath, Path
from turnercalc.tables import limit
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]

#: Shaft places looked at for one arm, about.
PLACES = 1600
#: The shortest crank that has room for a shaft and a pin [m].
SHORTEST_CRANK = 0.010
#: A link longer than so many arms gains next to nothing.
LONGEST_LINK = 6.0
#: Rounded lengths may leave the wanted ends, and the ends each other, by this much [rad].
OFF_WANTED = math.radians(1.0)
UNEVEN = math.radians(1.0)
#: Peak that a degree away from the wanted ends has to save: it is no merit to tilt less.
OFF_COSTS = 0.03 / math.radians(1.0)
#: Of each kind: sets of one arm whose torque is computed with friction, and sets that are sized
#: in full until one does.
SHORT = 10
SIZED = 3
#: Sets of one arm that are tried one by one where the pin's path has no closed form.
EACH = 20
#: Ends of a slide may leave the wanted ones by this share of the stroke.
OFF_STROKE = 0.05
#: A set is worth telling for its angle or room where its peak is at most so many times the least.
EASY = 1.25
#: Where no angle is fine, angles within this of the best are taken alike [rad].
SAME_ANGLE = math.radians(1.0)

CRANK, LINK = "crank.radius", "link.length"
ACROSS, HEIGHT = "crank.across", "crank.height"


def SUITS(design: Design) -> bool:  # noqa: N802 - a constant question of the registry
    """Tell whether a design has a crank and a link."""
    return design.drive == "crank_and_link"


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
    """Sets of lengths for one arm, each field an array over the sets [m, rad, N·m]."""

    turner: Turner
    drive: Drive
    arm: float | None
    wanted: tuple[float, float]
    lengths: dict[str, Array]
    angle: Array
    off: Array
    peak: Array

    def take(self, keep: NDArray[np.intp] | Mask) -> Sets:
        """Return some of the sets."""
        return replace(
            self,
            lengths={path: values[keep] for path, values in self.lengths.items()},
            angle=self.angle[keep],
            off=self.off[keep],
            peak=self.peak[keep],
        )


def find(design: Design, wish: Wish) -> Lengths:
    """Return sets of crank, link, arm and motor place, best first, or why there is none."""
    design = design.replace({"crank.runs": "round and round"})
    built = build(design)
    if built.turner.endless:
        return Lengths((), "It is turned round and round: crank and link only go to and fro.")
    too_big = space.parts_too_big(design, built.turner, *wanted_ends(design, built.turner))
    if too_big:
        return Lengths((), too_big)
    sieve = Sieve()
    if not takes_arrays(built.turner, built.drive, built.drive.dimensions.values()):
        return one_by_one(design, built.turner, wish, sieve)
    found = [
        sets
        for arm, turner in arms(design, built.turner, wish)
        if (sets := search(design, turner, built.drive, wish, arm, sieve)) is not None
    ]
    chosen = suggestions(design, candidates(design, found, wish)) if found else ()
    if not chosen:
        return Lengths((), why_none(design, sieve), sieve.tried)
    return Lengths(chosen[: wish.count], "", sieve.tried)


def one_by_one(design: Design, turner: Turner, wish: Wish, sieve: Sieve) -> Lengths:
    """Return sets where turner and drive take no arrays, each tried by itself.

    Places of the shaft are thinned out evenly, from the nearest to the farthest.
    """
    wanted = wanted_ends(design, turner)
    arm_field = next(iter(turner.dimensions.values()), "")
    sets = []
    for arm, changed in arms(design, turner, wish, 3):
        lengths = possible(design, changed, wish, wanted, sieve)
        order = np.argsort(room_of(lengths), kind="stable")
        for at in order[:: max(1, order.size // EACH)]:
            values = {path: float(array[at]) for path, array in lengths.items()}
            sets.append(values if arm is None else {**values, arm_field: arm})
    off = OFF_WANTED if turner.coordinate_unit == "rad" else OFF_STROKE * abs(wanted[1] - wanted[0])
    per_off = OFF_COSTS if turner.coordinate_unit == "rad" else 1.0 / abs(wanted[1] - wanted[0])
    found = [one for one in try_each(design, sets, wanted) if one.off <= off]
    sieve.left["ends"] = len(found)
    sieve.left["angle"] = len(found)
    room = {
        i: float(np.hypot(one.values[ACROSS], one.values[HEIGHT])) for i, one in enumerate(found)
    }
    chosen = suggestions(design, groups(design, found, wish, room=room, per_off=per_off))
    if not chosen:
        return Lengths((), why_none(design, sieve), sieve.tried)
    return Lengths(chosen[: wish.count], "", sieve.tried)


def arms(
    design: Design, turner: Turner, wish: Wish, count: int = 7
) -> Iterator[tuple[float | None, Turner]]:
    """Yield the arm lengths to look at, each with the turner it gives; the given one first.

    A turner whose pin's path has more lengths than one, or none, is left as it is.
    """
    paths = list(turner.dimensions.values())
    if len(paths) != 1:
        yield None, turner
        return
    now = float(design.value(paths[0]))
    low, high = wish.range_of(paths[0], 0.6 * now, 1.5 * now)
    every = [now, *(np.linspace(low, high, count) if high > low else [low])]
    for steps in dict.fromkeys(round(value / wish.step) for value in every):
        length = steps * wish.step
        if low - 1e-9 <= length <= high + 1e-9:
            yield length, build(design.replace({paths[0]: length}, si=True)).turner


def search(
    design: Design, turner: Turner, drive: Drive, wish: Wish, arm: float | None, sieve: Sieve
) -> Sets | None:
    """Return the sets that pass every question for one arm; None where none does."""
    wanted = wanted_ends(design, turner)
    lengths = possible(design, turner, wish, wanted, sieve)
    if not lengths[CRANK].size:
        return None
    return judged(turner, drive, lengths, wanted, arm, sieve)


def possible(
    design: Design, turner: Turner, wish: Wish, wanted: tuple[float, float], sieve: Sieve
) -> dict[str, Array]:
    """Return the sets that have room and go round, before it is looked at how they swing."""
    low, high = wanted
    path = turner.path()
    around = space.walls(design, turner)
    x, y = shaft_places(path, around, wish, wanted)
    crank, link = crank_and_link_at(path, x, y, low, high, wish)
    sieve.tried += x.size
    kept = np.asarray((crank >= SHORTEST_CRANK) & (link > crank))
    for field_path, values in ((CRANK, crank), (LINK, link)):
        least, most = wish.range_of(field_path, 0.0, np.inf)
        kept &= (values >= least - 1e-9) & (values <= most + 1e-9)
    sieve.count("lengths", kept)
    kept &= pin_inside(path, around, low, high) & space.inside(around, x, y, crank)
    sieve.count("box", kept)
    if not wish.beside and kept.any():
        parts = space.swept(turner, low, high)
        away = np.zeros(x.shape)
        away[kept] = space.distance_to(parts, x[kept], y[kept])
        kept &= away >= crank + LINK_END + space.wall_margin()
    sieve.count("trays", kept)
    kept &= margin(path, crank, link, x, y) >= 1e-3 * (limit("closing_margin").fine or 0.0)
    sieve.count("margin", kept)
    return {CRANK: crank[kept], LINK: link[kept], ACROSS: x[kept], HEIGHT: y[kept]}


def judged(
    turner: Turner,
    drive: Drive,
    lengths: dict[str, Array],
    wanted: tuple[float, float],
    arm: float | None,
    sieve: Sieve,
) -> Sets | None:
    """Return the sets whose ends and angle are right as they come out, with their peak."""
    low, high = wanted
    ends = ends_in_blocks(turner, drive, lengths)
    uneven = np.abs(ends.low + ends.high - low - high)
    off = np.maximum(np.abs(ends.low - low), np.abs(ends.high - high))
    with np.errstate(invalid="ignore"):
        good = np.asarray((off <= OFF_WANTED) & (uneven <= UNEVEN))
    sieve.count("ends", good)
    if not good.any():
        return None
    lengths = {path: values[good] for path, values in lengths.items()}
    angle = least_link_angle(turner, drive, lengths)
    sieve.best_angle = max(sieve.best_angle, float(np.nanmax(angle, initial=0.0)))
    rule = limit("link_to_arm")
    turns = np.asarray(angle >= math.radians(rule.no or 0.0))
    sieve.count("angle", turns)
    if not turns.any():
        return None
    lengths = {path: values[turns] for path, values in lengths.items()}
    loads = hardest_loads(turner, low, high)
    peak = free_peaks(turner, drive, lengths, loads).max(axis=1).min(axis=1)
    return Sets(turner, drive, arm, wanted, lengths, angle[turns], off[good][turns], peak)


def wanted_ends(design: Design, turner: Turner) -> tuple[float, float]:
    """Return the wanted ends as the coordinate has them, so that the true tilts are even."""
    low, high = turner.travel
    leans = design["box"].leans or 0.0 if turner.coordinate_unit == "rad" else 0.0
    return low - leans, high - leans


def shaft_places(
    path: Path,
    around: space.Walls,
    wish: Wish,
    wanted: tuple[float, float],
    *,
    fields: tuple[str, str] = (ACROSS, HEIGHT),
    reach: float | None = None,
) -> tuple[Array, Array]:
    """Return places of the shaft to look at, in whole steps, within the box and the wish [m]."""
    px, py = path.point(np.linspace(*wanted, 9))
    reach = LONGEST_LINK * arm_of(path) if reach is None else reach
    x_low, x_high = wish.range_of(
        fields[0], max(around.left, px.min() - reach), min(around.right, px.max() + reach)
    )
    y_low, y_high = wish.range_of(
        fields[1], max(around.low, py.min() - reach), min(around.high, py.max() + reach)
    )
    area = max(x_high - x_low, wish.step) * max(y_high - y_low, wish.step)
    gap = max(1, round(math.sqrt(area / PLACES) / wish.step)) * wish.step
    xs, ys = (
        np.unique(np.round(np.arange(a, b + 0.5 * gap, gap) / wish.step)) * wish.step
        for a, b in ((x_low, x_high), (y_low, y_high))
    )
    x, y = np.meshgrid(xs, ys)
    return x.ravel(), y.ravel()


def arm_of(path: Path) -> float:
    """Return the lever of a path: the arm on a circle, a tenth of a metre on any other [m]."""
    tx, ty = path.tangent(0.0)
    return max(float(np.hypot(tx, ty)), 0.02) if path.turning else 0.1


def crank_and_link_at(
    path: Path, x: Array, y: Array, low: float, high: float, wish: Wish
) -> tuple[Array, Array]:
    """Return crank and link for shafts at (x, y), in whole steps [m]."""
    px, py = path.point(np.array([low, high]))
    one, other = (np.hypot(px[end] - x, py[end] - y) for end in (0, 1))
    crank, link = 0.5 * np.abs(one - other), 0.5 * (one + other)
    return np.round(crank / wish.step) * wish.step, np.round(link / wish.step) * wish.step


def pin_inside(path: Path, around: space.Walls, low: float, high: float) -> bool:
    """Say whether the driven pin stays inside the box."""
    px, py = path.point(np.linspace(low, high, 19))
    return bool(space.inside(around, px, py, np.zeros(px.shape)).all())


def margin(path: Path, crank: Array, link: Array, x: Array, y: Array) -> Array:
    """Return the length in hand before the crank no longer goes round [m].

    On a circle by the nearest and the farthest the crank pin comes to the pivot, as
    `crank_loop.closing_on` has it. On any other path nothing is said before it is closed.
    """
    if not isinstance(path, CirclePath):
        return np.full(x.shape, np.inf)
    arm, ground = float(np.asarray(path.radius)), np.hypot(x, y)
    far, near = ground + crank, np.abs(ground - crank)
    shortest = np.maximum(far - arm, arm - near)
    return np.asarray(np.minimum(link - shortest, arm + near - link))


def candidates(design: Design, found: Sequence[Sets], wish: Wish) -> Iterator[list[Candidate]]:
    """Yield for each kind the sets worth sizing in full, best first.

    Fine angles go before marginal ones; within them the easiest turn with friction, the best
    angle, the least room, and the longest arm, whose ends an error of a millimetre moves least.
    """
    rule = math.radians(limit("link_to_arm").fine or 0.0)
    flattest = min(rule, max(float(sets.angle.max()) for sets in found) - SAME_ANGLE)
    promising = [sets.take(shortlist(sets, flattest)) for sets in found]
    promising = [with_friction(sets) for sets in promising if sets.peak.size]
    peak, angle, off, arm, room = (
        np.concatenate([np.broadcast_to(part, sets.peak.shape) for part, sets in parts])
        for parts in (
            [(sets.peak, sets) for sets in promising],
            [(sets.angle, sets) for sets in promising],
            [(sets.off, sets) for sets in promising],
            [(np.array(sets.arm or 0.0), sets) for sets in promising],
            [(room_taken(sets), sets) for sets in promising],
        )
    )
    owner = [(sets, at) for sets in promising for at in range(sets.peak.size)]
    easy = peak <= EASY * peak.min()
    scores = {
        "lowest_peak": peak * (1.0 + OFF_COSTS * off),
        "best_angle": np.where(easy, -angle, np.inf),
        "most_compact": np.where(easy, room, np.inf),
        "least_sensitive": np.where(easy, -arm, np.inf),
    }
    for kind, score in scores.items():
        order = [int(at) for at in np.lexsort((peak, score))[:SIZED] if np.isfinite(score[at])]
        yield [Candidate(kind, settings(design, values_of(*owner[at]), wish)) for at in order]


def shortlist(sets: Sets, flattest: float) -> NDArray[np.intp]:
    """Return the sets of one arm that could be the best of any kind."""
    good = np.flatnonzero(sets.angle >= flattest)
    scores = (sets.peak, -sets.angle, room_taken(sets))
    picked = [good[np.argsort(score[good], kind="stable")[:SHORT]] for score in scores]
    return np.unique(np.concatenate(picked))


def with_friction(sets: Sets) -> Sets:
    """Return sets with their peak at middle friction in the better direction."""
    loads = hardest_loads(sets.turner, *sets.wanted)
    peak = peaks_with_friction(sets.turner, sets.drive, sets.lengths, loads)
    return replace(sets, peak=peak.max(axis=1).min(axis=1))


def room_taken(sets: Sets) -> Array:
    """Return how much room crank and link take, see `room_of`."""
    return room_of(sets.lengths)


def room_of(lengths: Mapping[str, Array]) -> Array:
    """Return how much room crank and link take: from the pivot to the crank's far side [m]."""
    return np.asarray(np.hypot(lengths[ACROSS], lengths[HEIGHT]) + lengths[CRANK])


def values_of(sets: Sets, at: int) -> dict[str, float]:
    """Return one set of lengths."""
    values = {path: float(lengths[at]) for path, lengths in sets.lengths.items()}
    if sets.arm is not None:
        values[next(iter(sets.turner.dimensions.values()))] = sets.arm
    return values


def why_none(design: Design, sieve: Sieve) -> str:
    """Return why no set of lengths does, by the question at which the last ones were lost."""
    tilt = design["turning"].tilt
    wanted = "the wanted move" if tilt is None else f"{math.degrees(tilt):.3g}° to each side"
    left = sieve.left
    head = f"No crank and link was found for {wanted}"
    if not left.get("lengths"):
        return f"{head} within the lengths you allow."
    if not left.get("box"):
        return (
            f"{head}: nowhere in the box is there room for a crank long enough. A shorter arm "
            "needs a shorter crank; or let the shaft stand somewhere else."
        )
    if not left.get("trays"):
        return (
            f"{head}: wherever the crank has room in the box, the moving parts come in its way. "
            "Let it stand beside them (--beside), or leave more room under the lowest."
        )
    if not left.get("margin"):
        beside = left["trays"] < left["box"]
        more = " Beside the moving parts (--beside) there are more places for it." if beside else ""
        return f"{head} that goes round with 5 mm in hand.{more}"
    if not left.get("ends"):
        return (
            f"{head}: wherever shaft and crank have room, the linkage does not swing between the "
            "wanted ends in lengths that can be marked."
        )
    if not left.get("angle"):
        least = limit("link_to_arm").no or 0.0
        text = (
            f"{head}: link and arm come as flat as {math.degrees(sieve.best_angle):.0f}° to each "
            f"other at best, and {least:.0f}° is the least."
        )
        if tilt is None:
            return text
        best = 90.0 - math.degrees(tilt)
        return (
            f"{text} At {wanted} no link can do better than {best:.3g}°: a smaller tilt gives more."
        )
    return (
        f"{head} that stands up to a full sizing: what the lengths do not decide is in the way. "
        "Size the design as it stands to see what."
    )
