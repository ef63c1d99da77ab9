"""Sets of lengths tried one by one, for drives whose sets are few or cannot be arrays."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from turnercalc.advice.lengths.choosing import Candidate
from turnercalc.advice.lengths.wish import Wish
from turnercalc.advice.lengths.writing import setting_of
from turnercalc.advice.many import hardest_loads
from turnercalc.building import build
from turnercalc.checks.link_to_arm import link_to_arm
from turnercalc.cycle import turn_cycle
from turnercalc.design import Design
from turnercalc.drives.base import Drive
from turnercalc.errors import TurnercalcError
from turnercalc.loads import hardest
from turnercalc.swing import ends
from turnercalc.tables import limit
from turnercalc.turners.base import Turner

COUNT = 72
#: Of each kind that are sized in full until one does.
SIZED = 3
#: Further sets that are sized where none of those does.
FOR_WANT_OF_BETTER = 8
EASY = 1.25
#: What stands for the angle between link and arm where there is no link [rad].
NO_LINK = 0.5 * math.pi


@dataclass(frozen=True)
class Tried:
    """One set of lengths as it comes out.

    Attributes
    ----------
    values : mapping
        Field path -> SI.
    off : float
        How far an end is from the wanted one [rad or m].
    peak : float
        Hardest planned shaft torque or push, middle friction, the better direction.
    angle : float
        Least angle between link and arm [rad]; a right angle where there is no link.
    """

    values: Mapping[str, float]
    off: float
    peak: float
    angle: float


def try_each(
    design: Design, sets: Iterable[Mapping[str, float]], wanted: tuple[float, float]
) -> Iterator[Tried]:
    """Yield every set that can be built and goes through."""
    for values in sets:
        try:
            built = build(design.replace(dict(values), si=True))
        except TurnercalcError:
            continue
        turner, drive = built.turner, built.drive
        if not drive.closing(turner.path()).closes:
            continue
        # Where link and arm come in line the rate has no bound: such a set is judged, not mended.
        with np.errstate(invalid="ignore", divide="ignore"):
            tried = try_one(turner, drive, values, wanted)
        if tried is not None:
            yield tried


def try_one(
    turner: Turner, drive: Drive, values: Mapping[str, float], wanted: tuple[float, float]
) -> Tried | None:
    """Return how one set comes out; None where it has no ends."""
    low, high = wanted
    swing = ends(turner, drive, count=COUNT)
    if not np.isfinite(swing.total):
        return None
    loads = hardest_loads(turner, swing.low, swing.high)
    cycle = turn_cycle(turner, drive, loads, levels=("middle",), count=COUNT)
    torques = [hardest(cycle, 0, way).torque for way in (0, 1)]
    peak = max(torques) if drive.both_ways else min(torques)
    angle = np.nanmin(link_to_arm(cycle.motion, turner.path()), initial=NO_LINK)
    off = max(abs(swing.low - low), abs(swing.high - high))
    return Tried(values, off, peak, float(angle))


def groups(
    design: Design,
    found: Sequence[Tried],
    wish: Wish,
    *,
    room: Mapping[int, float],
    easiest: str = "lowest_peak",
    per_off: float = 0.03 / math.radians(1.0),
    arm: str = "",
) -> Iterator[list[Candidate]]:
    """Yield for each kind the sets worth sizing in full, best first; last those for want of better.

    Parameters
    ----------
    room : mapping
        Number of a set in `found` -> how much room it takes.
    easiest : str
        What the set with the smallest peak is called.
    per_off : float
        Share of the peak that a unit away from the wanted ends has to save.
    arm : str
        Field of the arm, the longest of which an error of a millimetre spoils least; empty: none.
    """
    if not found:
        return
    rule = math.radians(limit("link_to_arm").fine or 0.0)
    flattest = min(rule, max(one.angle for one in found) - math.radians(1.0))
    good = [i for i, one in enumerate(found) if one.angle >= flattest]
    least = min(found[i].peak for i in good)
    easy = [i for i in good if found[i].peak <= EASY * least]
    orders = {
        easiest: sorted(good, key=lambda i: found[i].peak * (1.0 + per_off * found[i].off)),
        "best_angle": sorted(easy, key=lambda i: (-found[i].angle, found[i].peak)),
        "most_compact": sorted(easy, key=lambda i: (room[i], found[i].peak)),
    }
    if arm:
        longest = sorted(easy, key=lambda i: (-found[i].values[arm], found[i].peak))
        orders["least_sensitive"] = longest
    if all(one.angle == NO_LINK for one in found):
        del orders["best_angle"]
    for kind, order in orders.items():
        yield [Candidate(kind, settings(design, found[i].values, wish)) for i in order[:SIZED]]
    rest = orders[easiest][SIZED:]
    every = max(1, len(rest) // FOR_WANT_OF_BETTER)
    yield [Candidate(easiest, settings(design, found[i].values, wish)) for i in rest[::every]]


def settings(design: Design, values: Mapping[str, Any], wish: Wish) -> dict[str, str]:
    """Return values as settings."""
    return {path: setting_of(design, path, value, wish.system) for path, value in values.items()}
