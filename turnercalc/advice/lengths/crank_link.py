"""Crank, link, arm and the motor's place, for any turner that holds a pin.

Both ends of the swing are wanted, so the pin's places there, A and B, are known. A crank that
goes round stands at its rest points when crank and link are in line: the pin is then link +
crank or link - crank from the shaft. So for *every* place of the shaft::

    link  = (|A| + |B|)/2        crank = ||A| - |B||/2        distances from the shaft

and the ends are even and as wanted, exactly. What is searched is the place of the shaft and the
arm; each set is rounded to what can be marked first, and judged as it then comes out.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.lengths import space
from turnercalc.advice.lengths.along import ends_by_crank, judge_cranks
from turnercalc.advice.lengths.searching import (
    Armed,
    Arms,
    Rules,
    Sets,
    Sieve,
    best_of,
    tight,
    usual,
)
from turnercalc.advice.lengths.wish import Lengths, Suggestion, Wish
from turnercalc.building import build
from turnercalc.design import Design
from turnercalc.parts.clearances import LINK_END
from turnercalc.paths import CirclePath, Path
from turnercalc.tables import limit
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]

#: The shortest crank that has room for a shaft and a pin [m].
SHORTEST_CRANK = 0.010
#: A link longer than so many arms gains next to nothing.
LONGEST_LINK = 6.0
#: Rounded lengths may leave the wanted ends, and the ends each other, by this much [rad].
OFF_WANTED = math.radians(1.0)
#: Peak that a degree away from the wanted ends has to save: it is no merit to tilt less.
OFF_COSTS = 0.03 / math.radians(1.0)
#: Ends of a slide may leave the wanted ones by this share of the stroke.
OFF_STROKE = 0.05

CRANK, LINK = "crank.radius", "link.length"
ACROSS, HEIGHT = "crank.across", "crank.height"
PLACE = (ACROSS, HEIGHT)
#: What is looked for, and besides an arm.
FIELDS = (CRANK, LINK, ACROSS, HEIGHT)
ARM = True


def SUITS(design: Design) -> bool:  # noqa: N802 - a constant question of the registry
    """Tell whether a design has a crank and a link."""
    return design.drive == "crank_and_link"


def find(design: Design, wish: Wish) -> Lengths:
    """Return sets of crank, link, arm and motor place, best first, or why there is none.

    First with the usual room and length in hand. Where nothing has that, with as good as none and
    with arms far longer and shorter than the given one; such a set is told as marginal.
    """
    design = design.replace({"crank.runs": "round and round"})
    turner = build(design).turner
    if turner.endless:
        return Lengths((), "It is turned round and round: crank and link only go to and fro.")
    wanted = wanted_ends(design, turner)
    too_big = space.parts_too_big(design, turner, *wanted)
    if too_big:
        return Lengths((), too_big, too_big=True)
    tried = 0
    for rules in (usual(), tight()):
        sieve, refused = Sieve(), list[str]()
        arms = Arms(design, wish, rules, wanted)
        chosen = found_by(design, wish, rules, arms, sieve, refused)
        tried += sieve.tried
        if chosen:
            return Lengths(chosen[: wish.count], "", tried)
    return Lengths((), why_none(design, sieve, arms, refused), tried)


def found_by(
    design: Design, wish: Wish, rules: Rules, arms: Arms, sieve: Sieve, refused: list[str]
) -> tuple[Suggestion, ...]:
    """Return what a search by some rules gives."""

    def judge(armed: Armed, x: Array, y: Array) -> Sets | None:
        return judged(armed, arms, wish, rules, x, y, sieve)

    def places(armed: Armed) -> tuple[Array, Array, float]:
        return shaft_places(armed.turner.path(), armed.around, wish, arms.wanted, rules.places)

    return best_of(design, wish, arms, places, judge, PLACE, allowed_off(arms), refused=refused)


def allowed_off(arms: Arms) -> tuple[float, float]:
    """Return how far ends may be off, and what share of the peak a unit of it has to save."""
    low, high = arms.wanted
    if arms.at(arms.lengths()[0]).turner.coordinate_unit == "rad":
        return OFF_WANTED, OFF_COSTS
    return OFF_STROKE * abs(high - low), 1.0 / abs(high - low)


def judged(
    armed: Armed, arms: Arms, wish: Wish, rules: Rules, x: Array, y: Array, sieve: Sieve
) -> Sets | None:
    """Return the sets that have room and go round between the wanted ends; None: none does."""
    low, high = arms.wanted
    path = armed.turner.path()
    x, y = within(wish, x, y)
    crank, link = crank_and_link_at(path, x, y, low, high, wish)
    sieve.tried += x.size
    kept = np.asarray((crank >= SHORTEST_CRANK) & (link > crank))
    for field_path, values in ((CRANK, crank), (LINK, link)):
        least, most = wish.range_of(field_path, 0.0, np.inf)
        kept &= (values >= least - 1e-9) & (values <= most + 1e-9)
    sieve.count("lengths", kept)
    kept &= pin_inside(path, armed.around, low, high, rules.wall)
    kept &= space.inside(armed.around, x, y, crank, rules.wall)
    sieve.count("box", kept)
    if not wish.beside and kept.any():
        away = np.zeros(x.shape)
        away[kept] = space.distance_to(armed.parts, x[kept], y[kept])
        kept &= away >= crank + LINK_END + rules.wall
    sieve.count("trays", kept)
    kept &= margin(path, crank, link, x, y) >= rules.in_hand
    sieve.count("margin", kept)
    if not kept.any():
        return None
    crank, link, x, y = (values[kept] for values in (crank, link, x, y))
    ends = ends_by_crank(path, (crank, link, x, y), arms.wanted)
    off = np.maximum(np.abs(ends[0] - low), np.abs(ends[1] - high))
    uneven = np.abs(ends[0] + ends[1] - low - high)
    most, _ = allowed_off(arms)
    found = judge_cranks(armed.swing, path, (crank, link, x, y), ends)
    with np.errstate(invalid="ignore"):
        good = np.asarray((off <= most) & (uneven <= most) & found.goes)
    sieve.count("ends", good)
    sieve.best_angle = max(sieve.best_angle, float(np.nanmax(found.angle[good], initial=0.0)))
    good &= np.nan_to_num(found.angle) >= math.radians(limit("link_to_arm").no or 0.0)
    sieve.count("angle", good)
    if not good.any():
        return None
    lengths = {CRANK: crank, LINK: link, ACROSS: x, HEIGHT: y}
    if armed.arm is not None:
        lengths[arms.field] = np.full(x.shape, armed.arm)
    room = np.hypot(x, y) + crank
    return Sets(lengths, found.angle, off, found.peak, room).take(good)


def within(wish: Wish, x: Array, y: Array, fields: tuple[str, str] = PLACE) -> tuple[Array, Array]:
    """Return the places that a wish allows."""
    kept = np.ones(x.shape, bool)
    for field_path, values in zip(fields, (x, y), strict=True):
        low, high = wish.range_of(field_path, -np.inf, np.inf)
        kept &= (values >= low - 1e-9) & (values <= high + 1e-9)
    return x[kept], y[kept]


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
    count: int,
    *,
    fields: tuple[str, str] = PLACE,
    reach: float | None = None,
) -> tuple[Array, Array, float]:
    """Return places of the shaft to begin with, in whole steps, and how far they are apart [m].

    Within the box and the wish, and no farther than a link would sensibly be long.
    """
    px, py = path.point(np.linspace(*wanted, 9))
    reach = LONGEST_LINK * arm_of(path) if reach is None else reach
    x_low, x_high = wish.range_of(
        fields[0], max(around.left, px.min() - reach), min(around.right, px.max() + reach)
    )
    y_low, y_high = wish.range_of(
        fields[1], max(around.low, py.min() - reach), min(around.high, py.max() + reach)
    )
    area = max(x_high - x_low, wish.step) * max(y_high - y_low, wish.step)
    gap = max(1, round(math.sqrt(area / count) / wish.step)) * wish.step
    xs, ys = (
        np.unique(np.round(np.arange(a, b + 0.5 * gap, gap) / wish.step)) * wish.step
        for a, b in ((x_low, x_high), (y_low, y_high))
    )
    x, y = np.meshgrid(xs, ys)
    return x.ravel(), y.ravel(), gap


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


def pin_inside(
    path: Path, around: space.Walls, low: float, high: float, wall: float | None = None
) -> bool:
    """Say whether the driven pin stays inside the box."""
    px, py = path.point(np.linspace(low, high, 19))
    return bool(space.inside(around, px, py, np.zeros(px.shape), wall).all())


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


def why_none(design: Design, sieve: Sieve, arms: Arms, refused: Sequence[str]) -> str:
    """Return why no set of lengths does, by the question at which the last ones were lost."""
    left = sieve.left
    head = f"No crank and link was found for {what_is_wanted(design)}"
    if arms.field:
        head += f", with arms from {1e3 * arms.low:.0f} to {1e3 * arms.high:.0f} mm"
    if not left.get("lengths"):
        return f"{head}, within the lengths you allow."
    if not left.get("box"):
        return (
            f"{head}: nowhere in the box is there room for a crank long enough. Let the shaft "
            "stand somewhere else, or make the box larger."
        )
    if not left.get("trays"):
        return (
            f"{head}: wherever the crank has room in the box, the moving parts come in its way. "
            "Let it stand beside them (--beside), or leave more room under the lowest."
        )
    beside = left["trays"] < left["box"]
    more = " Beside the moving parts (--beside) there are more places for it." if beside else ""
    if not left.get("margin"):
        return f"{head} that goes round.{more}"
    if not left.get("ends"):
        return (
            f"{head}: wherever shaft and crank have room, the linkage does not swing between the "
            f"wanted ends in lengths that can be marked.{more}"
        )
    if not left.get("angle"):
        least = limit("link_to_arm").no or 0.0
        text = (
            f"{head}: link and arm come as flat as {math.degrees(sieve.best_angle):.0f}° to each "
            f"other at best, and {least:.0f}° is the least."
        )
        tilt = design["turning"].tilt
        if tilt is None:
            return f"{text}{more}"
        best = 90.0 - math.degrees(tilt)
        wanted = what_is_wanted(design)
        return (
            f"{text} At {wanted} no link can do better than {best:.3g}°: a smaller tilt gives "
            f"more.{more}"
        )
    return f"{head} that stands up to a full sizing.{nearest(refused)}{more}"


def nearest(refused: Sequence[str]) -> str:
    """Return what stands in the way of the set that comes nearest."""
    if not refused:
        return " Friction jams every one."
    return f" The one that comes nearest: {refused[0]}"


def what_is_wanted(design: Design) -> str:
    """Return the wanted move in words."""
    tilt = design["turning"].tilt
    return "the wanted move" if tilt is None else f"{math.degrees(tilt):.3g}° to each side"
