"""Eyes for a bought actuator: where its ends go so that its stroke gives the wanted swing.

One that runs its whole stroke is S long at one end of the swing and S + stroke at the other, so
its fixed eye stands where circles of these radii about the pin's two end places meet: two
places, for either way round, for every arm. One between end switches may stand anywhere where
both lengths lie within its stroke.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.lengths import space
from turnercalc.advice.lengths.along import ends_by_crank, judge_rods
from turnercalc.advice.lengths.crank_link import (
    OFF_COSTS,
    OFF_STROKE,
    nearest,
    pin_inside,
    shaft_places,
    wanted_ends,
    what_is_wanted,
    within,
)
from turnercalc.advice.lengths.searching import Armed, Arms, Rules, Sets, best_of, tight, usual
from turnercalc.advice.lengths.wish import Lengths, Wish
from turnercalc.building import build
from turnercalc.design import Design
from turnercalc.parts.clearances import LINK_END
from turnercalc.tables import limit

Array = NDArray[np.float64]

ACROSS, HEIGHT = "actuator.eye_across", "actuator.eye_height"
EYE = (ACROSS, HEIGHT)
#: What is looked for, and besides an arm.
FIELDS = (ACROSS, HEIGHT)
ARM = True
#: Ends may come out this far from wanted once the eye is marked [rad].
OFF_WANTED = math.radians(2.0)
#: Arms and places looked at: a stroke suits few arms, and those have to be met.
ARMS, PLACES = 24, 900
WHOLE = "its whole stroke"


def SUITS(design: Design) -> bool:  # noqa: N802 - a constant question of the registry
    """Tell whether a design has an actuator."""
    return design.drive == "linear_actuator"


def find(design: Design, wish: Wish) -> Lengths:
    """Return places of the eye and arms, best first, or why there is none."""
    turner = build(design).turner
    if turner.endless:
        return Lengths((), "It is turned round and round: a rod only goes to and fro.")
    wanted = wanted_ends(design, turner)
    too_big = space.parts_too_big(design, turner, *wanted)
    if too_big:
        return Lengths((), too_big, too_big=True)
    low, high = wanted
    off = (OFF_WANTED, OFF_COSTS)
    if turner.coordinate_unit != "rad":
        off = (OFF_STROKE * abs(high - low), 1.0 / abs(high - low))
    tried = 0
    for rules in (usual(), tight()):
        refused: list[str] = []
        rules = replace(rules, arms=ARMS, places=PLACES)
        arms = Arms(design, wish, rules, wanted)
        looker = Looker(design, wish, rules, arms, off[0])
        chosen = best_of(
            design,
            wish,
            arms,
            looker.places,
            looker.judge,
            EYE,
            off,
            easiest="lowest_force",
            refused=refused,
        )
        tried += looker.tried
        if chosen:
            return Lengths(chosen[: wish.count], "", tried)
    return Lengths((), why_none(design, arms, refused), tried)


class Looker:
    """What the search asks about places of the eye."""

    def __init__(self, design: Design, wish: Wish, rules: Rules, arms: Arms, off: float) -> None:
        self.wish, self.rules, self.arms, self.off = wish, rules, arms, off
        section = design["actuator"]
        self.whole = section.runs == WHOLE
        self.short, self.long = section.shortest, section.shortest + section.stroke
        self.tried = 0

    def places(self, armed: Armed) -> tuple[Array, Array, float]:
        """Return places of the fixed eye to begin with, in whole steps, and how far apart [m]."""
        path, wanted, step = armed.turner.path(), self.arms.wanted, self.wish.step
        if not self.whole:
            count, far = self.rules.places, self.long
            return shaft_places(path, armed.around, self.wish, wanted, count, fields=EYE, reach=far)
        px, py = path.point(np.array(wanted))
        found = [
            place
            for radii in ((self.short, self.long), (self.long, self.short))
            for place in circles_meet((px[0], py[0]), (px[1], py[1]), radii)
        ]
        x, y = (np.array([place[i] for place in found]) for i in (0, 1))
        return np.round(x / step) * step, np.round(y / step) * step, 4.0 * step

    def judge(self, armed: Armed, x: Array, y: Array) -> Sets | None:
        """Return the sets that reach, stand in the box clear of the parts, and keep a lever."""
        x, y = within(self.wish, x, y, EYE)
        self.tried += x.size
        low, high = wanted = self.arms.wanted
        wall, path = self.rules.wall, armed.turner.path()
        if not x.size or not pin_inside(path, armed.around, low, high, wall):
            return None
        kept = space.inside(armed.around, x, y, np.zeros(x.shape), wall)
        found = judge_rods(armed.swing, x, y)
        kept &= found.goes & (np.nan_to_num(found.angle) >= math.radians(flattest()))
        off = np.zeros(x.shape)
        if self.whole:
            # Over its stroke it goes as a crank of half of it would.
            half = np.full(x.shape, 0.5 * (self.long - self.short))
            ends = ends_by_crank(path, (half, self.short + half, x, y), wanted)
            off = np.maximum(np.abs(ends[0] - low), np.abs(ends[1] - high))
            kept &= np.nan_to_num(off, nan=np.inf) <= self.off
        else:
            px, py = path.point(np.concatenate([[low], armed.swing.q, [high]]))
            length = np.hypot(px - x[:, None], py - y[:, None])
            hand = self.rules.in_hand
            kept &= length.min(axis=-1) >= self.short + hand
            kept &= length.max(axis=-1) <= self.long - hand
        if not self.wish.beside and kept.any():
            away = np.zeros(x.shape)
            away[kept] = space.distance_to(armed.parts, x[kept], y[kept])
            kept &= away >= LINK_END + wall
        if not kept.any():
            return None
        values = {ACROSS: x, HEIGHT: y}
        if armed.arm is not None:
            values[self.arms.field] = np.full(x.shape, armed.arm)
        return Sets(values, found.angle, off, found.peak, np.hypot(x, y)).take(kept)


def flattest() -> float:
    """Return the least angle between rod and arm that is not yet impossible [deg]."""
    return limit("link_to_arm").no or 0.0


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


def why_none(design: Design, arms: Arms, refused: Sequence[str]) -> str:
    """Return why no place does."""
    section = design["actuator"]
    if refused:
        return (
            f"No place of its eye stands up to a full sizing for {what_is_wanted(design)}."
            f"{nearest(refused)}"
        )
    turner = arms.at(arms.lengths()[0]).turner
    low, high = arms.wanted
    stroke = 1e3 * section.stroke
    text = (
        f"No place of its eye was found at which a stroke of {stroke:.0f} mm from "
        f"{1e3 * section.shortest:.0f} mm gives {what_is_wanted(design)}, inside the box and "
        "clear of what is turned"
    )
    if arms.field:
        text += (
            f", with arms from {1e3 * arms.low:.0f} to {1e3 * arms.high:.0f} mm. Another stroke "
            "may do: about 1.4 times the arm suits 45°."
        )
    elif turner.coordinate_unit != "rad" and section.stroke < high - low:
        text += f". The stroke has to be {1e3 * (high - low):.0f} mm at least."
    else:
        text += ". An actuator of another length or stroke may do."
    return f"{text} Beside the parts (--beside) there are more places for the eye."
