"""The ends of the swing, and how they move when a hole is drilled a millimetre off."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.drives.base import Drive, Motion
from turnercalc.turners.base import Turner

Array = NDArray[np.float64]

POLISHING_STEPS = 6
FULL_TURN = 2.0 * np.pi
#: Steps that do not come back within so many moves are near enough everywhere.
MOST_RESTS = 72
SAME_PLACE = 1e-6  # rad
MILLIMETRE = 1e-3


@dataclass(frozen=True)
class Ends:
    """The two ends of the swing.

    Attributes
    ----------
    low, high : float
        Lowest and highest coordinate of the cycle [rad or m]. For a tray, low is the right side
        down (negative) and high the left side down.
    low_position, high_position : float
        Drive positions at which they are reached [rad or m].
    rests : bool
        Whether both are rest points of the drive, where it holds by itself.
    """

    low: float
    high: float
    low_position: float
    high_position: float
    rests: bool

    @property
    def total(self) -> float:
        """The whole swing [rad or m]."""
        return self.high - self.low


def ends(turner: Turner, drive: Drive, count: int = 360) -> Ends:
    """Return the ends of the swing to rounding error; NaN where the drive does not close.

    A part that is turned round and round has no ends; those of one move are taken.
    """
    path = turner.path()
    motion = drive.close(path, drive.positions(turner.travel, count))
    if not motion.closes.all():
        return Ends(np.nan, np.nan, np.nan, np.nan, rests=False)
    if turner.endless and motion.round_and_round:
        return Ends(*turner.travel, *turner.travel, rests=False)
    (low, at_low, rest_low), (high, at_high, rest_high) = (
        _polish(turner, drive, motion, int(index))
        for index in (motion.coordinate.argmin(), motion.coordinate.argmax())
    )
    return Ends(low, high, at_low, at_high, rests=rest_low and rest_high)


def egg_turn(turner: Turner, move: float) -> float | None:
    """Return how far a typical egg is turned in one move [rad]; None where nobody says.

    Eggs held on a part that swings turn as it does. A turner whose eggs turn otherwise says in
    `egg_turns` how far they turn per unit of its coordinate [-, or rad/m], or by a method
    `egg_turn_in` how far in a move, where that is not in proportion.
    """
    told = getattr(turner, "egg_turn_in", None)
    if told is not None:
        return float(told(abs(move)))
    turns = getattr(turner, "egg_turns", 1.0 if turner.coordinate_unit == "rad" else None)
    return None if turns is None else abs(turns * move)


def egg_turn_of(turner: Turner, move: ArrayLike, breadth: ArrayLike) -> Array | None:
    """Return how far eggs of a breadth [m] are turned in moves [rad or m]; None where nobody says.

    A turner that turns eggs of different sizes differently says so in a method `egg_turn_of`.
    """
    told = getattr(turner, "egg_turn_of", None)
    if told is not None:
        return np.asarray(told(move, breadth), float)
    turns = egg_turn(turner, 1.0)
    return None if turns is None else np.asarray(turns * np.abs(move), float)


def rests(turner: Turner, swing: Ends) -> tuple[float, ...]:
    """Return the drive positions at which it rests after a move, each once, in a turn's order.

    A part that goes on the same way round comes to rest a step further every time, until it is
    back where it began; of steps that never come back the first `MOST_RESTS` are given.
    """
    if not turner.endless:
        return tuple(sorted({swing.low_position, swing.high_position}))
    step, found = swing.total, [0.0]
    while len(found) < MOST_RESTS:
        at = (len(found) * step) % FULL_TURN
        if min(at, FULL_TURN - at) < SAME_PLACE:
            break
        found.append(at)
    return tuple(sorted(swing.low_position + at for at in found))


def _polish(turner: Turner, drive: Drive, motion: Motion, index: int) -> tuple[float, float, bool]:
    """Return an end's coordinate, position and whether the drive stands still there.

    Newton on q' = 0 from the nearest position; an end of an arc stays where it is.
    """
    position = float(motion.position[index])
    at_arc_end = not motion.round_and_round and index in (0, motion.position.size - 1)
    if at_arc_end:
        still = abs(float(motion.rate[index])) < 1e-6
        return float(motion.coordinate[index]), position, still
    here = motion
    for _ in range(POLISHING_STEPS):
        here = drive.close(turner.path(), np.array([position]))
        position -= float(here.rate[0] / here.second[0])
    here = drive.close(turner.path(), np.array([position]))
    return float(here.coordinate[0]), position % (2.0 * np.pi), True


def lengths(turner: Turner, drive: Drive) -> Mapping[str, float]:
    """Return the lengths that decide the ends: field path -> length [m]."""
    return {path: float(getattr(owner, name)) for owner, name, path in _dimensions(turner, drive)}


def _dimensions(turner: Turner, drive: Drive) -> Iterator[tuple[Any, str, str]]:
    for owner in (turner, drive):
        for name, path in owner.dimensions.items():
            yield owner, name, path


def ends_with(turner: Turner, drive: Drive, changes: Mapping[str, float]) -> Ends:
    """Return the ends with lengths changed: field path -> change [m]."""
    changed: dict[int, Any] = {id(turner): turner, id(drive): drive}
    for owner, name, path in _dimensions(turner, drive):
        if path in changes:
            old = changed[id(owner)]
            changed[id(owner)] = replace(old, **{name: getattr(old, name) + changes[path]})
    return ends(changed[id(turner)], changed[id(drive)], count=90)


@dataclass(frozen=True)
class EndSensitivity:
    """How far the ends move when one length is a millimetre more.

    Attributes
    ----------
    field : str
        Field path of the length.
    low, high : float
        Change of the lowest and the highest coordinate per metre [rad/m or -].
    """

    field: str
    low: float
    high: float


def sensitivities(turner: Turner, drive: Drive, step: float = 0.1e-3) -> tuple[EndSensitivity, ...]:
    """Return how the ends move with each length, by central differences of +-`step` [m]."""
    found = []
    for path in lengths(turner, drive):
        more = ends_with(turner, drive, {path: step})
        less = ends_with(turner, drive, {path: -step})
        found.append(
            EndSensitivity(
                path, (more.low - less.low) / (2 * step), (more.high - less.high) / (2 * step)
            )
        )
    return tuple(found)


@dataclass(frozen=True)
class AsBuilt:
    """The range in which each end comes out with marking errors and play.

    Attributes
    ----------
    least, most : float
        Of the smaller end and of the larger end, to each side [rad or m].
    marking : float
        Error taken for every marked length [m].
    play : float
        Play of the drive's pins together [m].
    play_swing : float
        Free movement of the part from that play [rad or m].
    total_least, total_most : float
        Of the whole swing [rad or m]: marking errors either way, and play takes from it.
    """

    least: float
    most: float
    marking: float
    play: float
    play_swing: float
    total_least: float = np.nan
    total_most: float = np.nan


def as_built(turner: Turner, drive: Drive, play: float, marking: float = MILLIMETRE) -> AsBuilt:
    """Return how far the ends come out when every length is marked to +-`marking` [m].

    The errors of different marks are independent, so their effects add by the root of the sum
    of squares; play acts like an error of the length that the drive names.
    """
    nominal = ends(turner, drive)
    found = sensitivities(turner, drive)
    loose = next((s for s in found if s.field == drive.play_like), None)
    spread_low = float(np.sqrt(sum((s.low * marking) ** 2 for s in found)))
    spread_high = float(np.sqrt(sum((s.high * marking) ** 2 for s in found)))
    play_low = abs(loose.low) * play / 2 if loose else 0.0
    play_high = abs(loose.high) * play / 2 if loose else 0.0
    sides = (abs(nominal.low), abs(nominal.high))
    if turner.endless:
        sides = (nominal.total, nominal.total)
    spreads = (spread_low + play_low, spread_high + play_high)
    spread = float(np.sqrt(sum(((s.high - s.low) * marking) ** 2 for s in found)))
    return AsBuilt(
        least=min(side - spread for side, spread in zip(sides, spreads, strict=True)),
        most=max(side + spread for side, spread in zip(sides, spreads, strict=True)),
        marking=marking,
        play=play,
        play_swing=2 * max(play_low, play_high),
        total_least=nominal.total - spread - 2 * max(play_low, play_high),
        total_most=nominal.total + spread,
    )
