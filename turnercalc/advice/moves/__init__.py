"""Moves: things a builder can change. One file each, found by looking at the folder.

A new move is one file here that offers ``propose(sizing)``: an iterable of `Proposal`, each a set
of settings as ``--set`` takes them. Whether it helps is found out by sizing it again.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from turnercalc.paths import CirclePath
from turnercalc.sizing import Sizing


@dataclass(frozen=True)
class Proposal:
    """One thing that could be changed.

    Attributes
    ----------
    id : str
        For scripts, such as ``fill_in_mirror_pairs``.
    settings : mapping
        Field path -> text, as ``--set`` takes it.
    say : str
        What to do, as one sentence to the builder.
    parts : int
        How many things that is to make: of two that lead equally far, the one with fewer counts.
    """

    id: str
    settings: Mapping[str, str]
    say: str
    parts: int = 1


Move = Callable[[Sizing], Iterable[Proposal]]


@cache
def moves() -> tuple[Move, ...]:
    """Return the ``propose`` of every move."""
    modules = (import_module(f"{__name__}.{info.name}") for info in iter_modules(__path__))
    return tuple(module.propose for module in modules if hasattr(module, "propose"))


def proposals(sizing: Sizing) -> Iterator[Proposal]:
    """Yield everything that could be changed about a design."""
    for propose in moves():
        yield from propose(sizing)


def together(chain: Sequence[Proposal]) -> Proposal:
    """Return several proposals as one, made one after the other."""
    settings = {path: text for one in chain for path, text in one.settings.items()}
    return Proposal(
        "+".join(one.id for one in chain),
        settings,
        " ".join(one.say for one in chain),
        sum(one.parts for one in chain),
    )


def millimetres(length: float) -> str:
    """Return a length as a builder marks it: to half a millimetre."""
    return f"{round(2e3 * length) / 2:g} mm"


def from_pivot(height: float) -> str:
    """Return a height as a file says it."""
    return f"{millimetres(abs(height))} {'below' if height < 0 else 'above'} pivot"


def across_text(sizing: Sizing, across: float) -> str:
    """Return a place across [m] as this turner's file says it, to half a millimetre."""
    phrase = sizing.kind.measured_from.across
    return str(phrase.write(round(2e3 * across) / 2e3, "metric", 6))


def height_text(sizing: Sizing, height: float) -> str:
    """Return a height [m] as this turner's file says it, to half a millimetre."""
    phrase = sizing.kind.measured_from.height
    return str(phrase.write(round(2e3 * height) / 2e3, "metric", 6))


def in_box(sizing: Sizing, across: float, height: float, radius: float) -> bool:
    """Tell whether a circle is inside the box, as far as the turner's place is known [m]."""
    box, turner = sizing.design["box"], sizing.turner
    left = 0.5 * box.width if turner.origin_from_left is None else turner.origin_from_left
    sides = [left + across, box.width - left - across]
    if turner.origin_height is not None:
        up = turner.origin_height + height
        sides += [up, box.height - up]
    return bool(min(sides) >= radius)


def each_side(sizing: Sizing) -> float | None:
    """Return how far a part on a pivot shall swing to each side [rad]; None for any other."""
    low, high = sizing.turner.travel
    swings = isinstance(sizing.turner.path(), CirclePath) and low == -high
    return high if swings and high < 0.5 * math.pi else None
