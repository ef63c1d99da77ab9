"""Crank and shaft for a slotted lever: r and d.

A lever whose slot points at the shaft in the middle of its swing tips asin(r/d) to each side, d
being pivot to shaft. A part that slides goes the crank's radius to each side. Shaft and crank
stand before or behind the part, as its slot runs over the crank pin.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.lengths import space
from turnercalc.advice.lengths.along import judge_slots
from turnercalc.advice.lengths.choosing import suggestions
from turnercalc.advice.lengths.crank_link import (
    OFF_COSTS,
    OFF_STROKE,
    PLACE,
    SHORTEST_CRANK,
    nearest,
    shaft_places,
    wanted_ends,
    what_is_wanted,
    within,
)
from turnercalc.advice.lengths.each import groups, try_each
from turnercalc.advice.lengths.searching import (
    Armed,
    Arms,
    Rules,
    Sets,
    best_of,
    room_of,
    tight,
    usual,
)
from turnercalc.advice.lengths.wish import Lengths, Wish
from turnercalc.building import build
from turnercalc.design import Design
from turnercalc.paths import CirclePath, LinePath

Array = NDArray[np.float64]

CRANK, ACROSS, HEIGHT = "crank.radius", "crank.across", "crank.height"
ANGLE, OFF_LINE = "slot.angle", "slot.off_line"
#: What is looked for.
FIELDS = (CRANK, ACROSS, HEIGHT, ANGLE, OFF_LINE)
#: Farther than this from the pivot no shaft is looked for [m].
FARTHEST = 0.6
#: A slot's direction is marked to this [deg].
MARKED = 0.5
OFF_WANTED = math.radians(1.5)


def SUITS(design: Design) -> bool:  # noqa: N802 - a constant question of the registry
    """Tell whether a design has a slotted lever."""
    return design.drive == "slotted_lever"


def find(design: Design, wish: Wish) -> Lengths:
    """Return cranks and places of the shaft, best first, or why there is none."""
    design = design.replace({"crank.runs": "round and round"})
    turner = build(design).turner
    if turner.endless:
        return Lengths((), "It is turned round and round: a slotted lever only goes to and fro.")
    wanted = wanted_ends(design, turner)
    too_big = space.parts_too_big(design, turner, *wanted)
    if too_big:
        return Lengths((), too_big, too_big=True)
    path = turner.path()
    if not isinstance(path, CirclePath | LinePath):
        return Lengths((), "A slot suits a part that turns about a fixed pivot, or that slides.")
    off, per_off = OFF_WANTED, OFF_COSTS
    if isinstance(path, LinePath):
        off, per_off = OFF_STROKE * abs(wanted[1] - wanted[0]), 1.0 / abs(wanted[1] - wanted[0])
    tried = 0
    for rules in (usual(), tight()):
        refused: list[str] = []
        if isinstance(path, CirclePath):
            looker = Looker(design, wish, rules, path, wanted)
            arms = looker.arms
            good = best_of(
                design,
                wish,
                arms,
                looker.places,
                looker.judge,
                PLACE,
                (off, per_off),
                refused=refused,
            )
            tried += looker.tried
        else:
            sets = list(yokes(path, wish, wanted, space.walls(design, turner), rules))
            found = [one for one in try_each(design, sets, wanted) if one.off <= off]
            room = {i: room_of(one.values, PLACE) for i, one in enumerate(found)}
            good = suggestions(
                design, groups(design, found, wish, room=room, per_off=per_off), refused
            )
            tried += len(sets)
        if good:
            return Lengths(good[: wish.count], "", tried)
    return Lengths((), why_none(design, refused), tried)


class Looker:
    """What the search asks about places of the shaft of a lever that swings."""

    def __init__(
        self,
        design: Design,
        wish: Wish,
        rules: Rules,
        path: CirclePath,
        wanted: tuple[float, float],
    ) -> None:
        self.wish, self.rules, self.wanted = wish, rules, wanted
        self.arms = Arms(design, wish, rules, wanted, keep=True)
        self.slot_at_rest = float(np.asarray(path.angle)) + 0.5 * sum(wanted)
        self.share = math.sin(0.5 * (wanted[1] - wanted[0]))
        self.tried = 0

    def places(self, armed: Armed) -> tuple[Array, Array, float]:
        """Return places of the shaft to begin with, in whole steps, and how far apart [m]."""
        path, count = armed.turner.path(), self.rules.places
        return shaft_places(path, armed.around, self.wish, self.wanted, count, reach=FARTHEST)

    def judge(self, armed: Armed, x: Array, y: Array) -> Sets | None:
        """Return the levers whose crank turns inside the box; None where none does.

        The slot points at the shaft in the middle of the swing, by its angle to half a degree.
        """
        x, y = within(self.wish, x, y)
        self.tried += x.size
        distance, step = np.hypot(x, y), self.wish.step
        crank = np.round(distance * self.share / step) * step
        turned = np.angle(np.exp(1j * (np.arctan2(y, x) - self.slot_at_rest)))
        angle = np.radians(np.round(np.degrees(turned) / MARKED) * MARKED)
        nought = np.zeros(x.shape)
        values = {CRANK: crank, ACROSS: x, HEIGHT: y, ANGLE: angle, OFF_LINE: nought}
        kept = (crank >= SHORTEST_CRANK) & allowed(values, self.wish)
        kept &= space.inside(armed.around, x, y, crank, self.rules.wall)
        judged = judge_slots(armed.swing, crank, distance)
        kept &= judged.goes
        if not kept.any():
            return None
        with np.errstate(divide="ignore", invalid="ignore"):
            off = np.abs(np.arcsin(crank / distance) - math.asin(self.share))
        off = np.nan_to_num(off + np.abs(angle - turned), nan=np.inf)
        return Sets(values, judged.angle, off, judged.peak, distance + crank).take(kept)


def yokes(
    path: LinePath,
    wish: Wish,
    wanted: tuple[float, float],
    around: space.Walls,
    rules: Rules,
) -> Iterator[dict[str, float]]:
    """Yield the crank for a part that slides: half the stroke, its shaft beside the middle."""
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
        place = np.array([values[ACROSS]]), np.array([values[HEIGHT]])
        fits = space.inside(around, *place, np.array([crank]), rules.wall).all()
        if fits and allowed(values, wish):
            yield values


def allowed(values: Mapping[str, float | Array], wish: Wish) -> NDArray[np.bool_]:
    """Tell which sets keep to the wish."""
    kept = np.array(True)
    for field, value in values.items():
        low, high = wish.range_of(field, -9.9, 9.9)
        kept = kept & (np.asarray(value) >= low - 1e-9) & (np.asarray(value) <= high + 1e-9)
    return np.asarray(kept)


def why_none(design: Design, refused: Sequence[str]) -> str:
    """Return why no crank and shaft does."""
    if refused:
        return (
            f"No shaft and crank stand up to a full sizing for {what_is_wanted(design)}."
            f"{nearest(refused)}"
        )
    return (
        f"No shaft and crank were found for {what_is_wanted(design)} inside the box: the whole "
        "crank has to turn in it, pointing wherever there is most room. A smaller move needs a "
        "smaller crank."
    )
