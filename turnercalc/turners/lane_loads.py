"""Load cases of rolling bars, in lanes: which eggs are in, and how their heavy sides stand.

Every egg adds rolling loss to its two bars, but where nests are deep an egg on one side of a bar
alone can load its journals more than eggs on both, whose sideways pushes cancel. What a bar asks
is convex in how full its two lanes are, and the shaft's torque is a sum over bars with fixed
weights; so the hardest of all fillings has every lane full or empty, and a walk from lane to lane
finds it. The tests compare it with every filling.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from turnercalc.turners.base import LoadCase
from turnercalc.turners.heavy_sides import IN_LINE, PHASES, PHASES_OF
from turnercalc.turners.rolling_bars import RollingBars
from turnercalc.turners.tray_loads import slug

Lanes = NDArray[np.int64]
Array = NDArray[np.float64]

_SIDES = ("left", "right")
#: Friction at which a hardest filling is looked for; the motor is judged at these.
_JUDGED_AT = ("middle", "starting")


def lane_load_cases(
    bars: RollingBars,
    eggs_per_lane: int,
    *,
    planned: str = IN_LINE,
    given: Iterable[tuple[str, Sequence[int]]] = (),
) -> tuple[LoadCase, ...]:
    """Return every load case of rolling bars.

    Parameters
    ----------
    bars : RollingBars
        Whose cases they are.
    eggs_per_lane : int
        In a full lane.
    planned : str
        How the heavy sides of the eggs are planned to stand: ``in line`` or ``scattered``; the
        other is computed too.
    given : iterable of (name, eggs)
        The builder's own cases: eggs in each lane, left lane first.
    """

    def standing(name: str, family: str, eggs: Lanes) -> Iterator[LoadCase]:
        return _with_phases(name, family, eggs, planned, right_first=bars.turns_back)

    lanes = bars.lanes
    whole = np.full(lanes, eggs_per_lane)
    place = np.arange(lanes)
    first, *others = standing("all lanes full", "all lanes full", whole)
    empty = "all lanes empty"
    cases = [first, LoadCase(slug(empty), empty, empty, True, _empty(lanes)), *others]
    for name, eggs in given:
        cases += standing(name, name, np.asarray(eggs, int))
    for some in range(1, lanes):
        for side, filled in (("left", place < some), ("right", place >= lanes - some)):
            name = f"{side} lanes only, {some} of {lanes}"
            cases += standing(name, f"{side} lanes only", whole * filled)
    for full in sorted({hardest_filling(bars, eggs_per_lane, level) for level in _JUDGED_AT}):
        if not all(full):
            numbers = ", ".join(str(i + 1) for i in np.flatnonzero(full))
            name = f"lanes {numbers} only, the hardest order"
            cases += standing(name, "hardest order of filling", whole * full)
    return tuple(cases)


def hardest_filling(bars: RollingBars, eggs_per_lane: int, level: str) -> tuple[bool, ...]:
    """Return which lanes are full where the shaft's torque is largest at a friction level."""
    asked = _asked_by_bar(bars, eggs_per_lane, level)
    if bars.joining.one_each:
        hardest = int(asked.max(axis=(1, 2)).argmax())
        left, right = np.unravel_index(int(asked[hardest].argmax()), (2, 2))
        sides = {hardest - 1: bool(left), hardest: bool(right)}
        return tuple(sides.get(lane, True) for lane in range(bars.lanes))
    far = np.abs(np.arange(bars.count) - bars.driven_bar) if bars.joining.bar_to_bar else 1
    share = float(bars.share_let_through((level,)).item())
    return _walk(asked * (share ** -np.asarray(far * np.ones(bars.count)))[:, None, None])


def _asked_by_bar(bars: RollingBars, eggs_per_lane: int, level: str) -> Array:
    """Return what a bar asks with its left and its right lane empty or full, (bar, 2, 2) [N·m].

    Half way through a move, with every heavy side against it.
    """
    asked = np.zeros((bars.count, 2, 2))
    odd = np.arange(bars.lanes) % 2
    for left in (0, 1):
        for right in (0, 1):
            # A bar between an odd lane on its left and an even one on its right, or the reverse.
            for fill in ((left, right), (right, left)):
                cells = _empty(bars.lanes)
                cells[:, 0] = eggs_per_lane * np.where(odd == 1, *fill)
                torque = bars.bar_torques(cells[None].astype(float), 0.0, 1.0, (level,))
                even_bars = np.arange(bars.count) % 2 == 0
                mine = even_bars if fill == (left, right) else ~even_bars
                if left == right:
                    mine = np.ones(bars.count, bool)
                asked[mine, left, right] = torque.reshape(bars.count)[mine]
    return asked


def _walk(asked: Array) -> tuple[bool, ...]:
    """Return the lanes that are full in the hardest filling, from lane to lane.

    Keeps for each state of the last lane the most that the bars so far can ask, and how.
    """
    most: dict[int, tuple[float, tuple[bool, ...]]] = {
        state: (float(asked[0, 0, state]), (bool(state),)) for state in (0, 1)
    }
    for bar in asked[1:-1]:
        most = {
            state: max(
                (total + float(bar[before, state]), (*lanes, bool(state)))
                for before, (total, lanes) in most.items()
            )
            for state in (0, 1)
        }
    ends = [(total + float(asked[-1, state, 0]), lanes) for state, (total, lanes) in most.items()]
    return max(ends)[1]


def _empty(lanes: int) -> Lanes:
    return np.zeros((lanes, len(PHASES)), dtype=int)


def _with_phases(
    name: str, family: str, eggs: Lanes, planned: str, *, right_first: bool
) -> Iterator[LoadCase]:
    """Yield one filling with the heavy sides of its eggs in every way they may stand.

    Both sides are as hard, each in its own direction. The first of a family speaks for it, so
    the one comes first that hinders in the direction that is shown: clockwise to and fro.
    """
    for standing, phases in PHASES_OF.items():
        both = list(zip(_SIDES, phases, strict=True))
        for side, phase in reversed(both) if right_first else both:
            cells = _empty(len(eggs))
            cells[:, PHASES.index(phase)] = eggs
            full_name = f"{name}, heavy sides {standing} ({side})"
            own = f"{family}, heavy sides {standing}"
            yield LoadCase(slug(full_name), full_name, own, standing == planned, cells)
