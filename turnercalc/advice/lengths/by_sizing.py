"""Lengths that no formula gives at once: sets on a grid sized, then those around the best."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from turnercalc.advice.lengths.choosing import Candidate, promise_of, told
from turnercalc.advice.lengths.each import settings
from turnercalc.advice.lengths.wish import Lengths, Suggestion, Wish
from turnercalc.design import Design
from turnercalc.errors import TurnercalcError
from turnercalc.findings import Answer, Finding
from turnercalc.sizing import size

COARSE = 36
#: Sets that are sized at most.
MOST = 90
#: And around the best of them.
AROUND = 30
_WORSE = {Answer.FINE: 0, Answer.NOTE: 0, Answer.UNKNOWN: 0, Answer.MARGINAL: 1, Answer.NO: 10}


#: Field path -> SI, or a thing that a field holds.
Values = Mapping[str, Any]


@dataclass(frozen=True)
class Looked:
    """One set, coarsely sized: its values, how far from fine it is, and its peak."""

    values: Values
    faults: int
    peak: float
    room: float
    blocking: tuple[Finding, ...]


def find_by_sizing(
    design: Design,
    wish: Wish,
    sets: Sequence[Values],
    decided: frozenset[str],
    room: str,
    around: Callable[[Values], Sequence[Values]],
) -> Lengths:
    """Return the best of many sets by sizing each of them.

    Parameters
    ----------
    sets : sequence of mapping
        Field path -> SI. Thinned out evenly where there are more than `MOST`.
    decided : frozenset of str
        Ids of the checks that these fields decide.
    room : str
        The field by which a set takes more room.
    around : callable
        The sets next to one, a step away.
    """
    thinned = [sets[i * len(sets) // MOST] for i in range(MOST)] if len(sets) > MOST else sets
    allowed = [values for values in thinned if keeps_to(values, wish)]
    looked = [one for values in allowed if (one := look(design, values, decided, room)) is not None]
    looked += finer(design, wish, looked, around, decided, room)
    working = [one for one in looked if not one.blocking]
    if not working:
        return Lengths((), why_none(looked, allowed), len(looked))
    found: list[Suggestion] = []
    for group in groups(design, working, wish):
        for candidate in group:
            suggestion = sized(design, candidate, decided)
            if any(suggestion and dict(candidate.settings) == dict(o.settings) for o in found):
                break
            if suggestion is not None:
                found.append(suggestion)
                break
    ordered = sorted(found, key=lambda one: one.answer is not Answer.FINE)
    return Lengths(told(ordered)[: wish.count], "", len(looked))


def finer(
    design: Design,
    wish: Wish,
    looked: Sequence[Looked],
    around: Callable[[Values], Sequence[Values]],
    decided: frozenset[str],
    room: str,
) -> list[Looked]:
    """Return the sets around the best, going on from each that is better still."""
    if not looked:
        return []
    found: list[Looked] = []
    seen = [dict(one.values) for one in looked]
    best = min(looked, key=how_good)
    while len(found) < AROUND:
        near = [dict(one) for one in around(best.values) if dict(one) not in seen]
        seen += near
        more = [
            one
            for values in near
            if keeps_to(values, wish) and (one := look(design, values, decided, room)) is not None
        ]
        found += more
        nearest = min(more, key=how_good, default=best)
        if how_good(nearest) >= how_good(best):
            break
        best = nearest
    return found


def how_good(one: Looked) -> tuple[int, float]:
    """Return what is least for the best set: its faults, then its peak."""
    return one.faults, one.peak


def look(design: Design, values: Values, decided: frozenset[str], room: str) -> Looked | None:
    """Return how one set does, coarsely; None where it cannot be built."""
    try:
        sizing = size(design.replace(dict(values), si=True), count=COARSE)
    except TurnercalcError:
        return None
    if sizing.cycle is None:
        return None
    answers = [finding for finding in sizing.findings if finding.id in decided]
    faults = sum(_WORSE[finding.answer] for finding in answers)
    blocking = tuple(finding for finding in answers if finding.answer is Answer.NO)
    return Looked(values, faults, promise_of(sizing).peak, values[room], blocking)


def groups(design: Design, working: Sequence[Looked], wish: Wish) -> Iterator[list[Candidate]]:
    """Yield the sets worth sizing in full: those with the fewest doubts first, then by kind."""
    fewest = min(one.faults for one in working)
    good = [one for one in working if one.faults == fewest]
    bare = [one for one in good if all(isinstance(part, float) for part in one.values.values())]
    orders = {
        "lowest_peak": sorted(good, key=lambda one: (one.peak, one.room)),
        "most_compact": sorted(good, key=lambda one: (one.room, one.peak)),
    }
    if len(bare) < len(good):
        orders["nothing_added"] = sorted(bare, key=lambda one: (one.peak, one.room))
    for kind, order in orders.items():
        yield [Candidate(kind, settings(design, one.values, wish)) for one in order[:3]]


def sized(design: Design, candidate: Candidate, decided: frozenset[str]) -> Suggestion | None:
    """Return a candidate sized in full; None where it does not work after all."""
    changed = design.replace(dict(candidate.settings))
    sizing = size(changed)
    answers = [finding.answer for finding in sizing.findings if finding.id in decided]
    if Answer.NO in answers or sizing.cycle is None:
        return None
    answer = Answer.MARGINAL if Answer.MARGINAL in answers else Answer.FINE
    return Suggestion(
        candidate.id, candidate.settings, "", changed, sizing, promise_of(sizing), answer
    )


def keeps_to(values: Values, wish: Wish) -> bool:
    """Tell whether the lengths of a set keep to the wish."""
    return all(
        low - 1e-9 <= value <= high + 1e-9
        for field, value in values.items()
        if isinstance(value, float)
        for low, high in [wish.range_of(field, -1e9, 1e9)]
    )


def steps(low: float, high: float, step: float, count: int) -> list[float]:
    """Return about so many values from low to high in whole steps."""
    if high < low:
        return []
    number = max(1, count - 1)
    return list(
        dict.fromkeys(
            round((low + (high - low) * i / number) / step) * step for i in range(number + 1)
        )
    )


def why_none(looked: Sequence[Looked], allowed: Sequence[object]) -> str:
    """Return why no set does: what stands in the way of the one that comes nearest."""
    if not allowed:
        return "No set of sizes lies within what you allow."
    if not looked:
        return "None of the sizes looked at can be built at all: see turnercalc size."
    nearest = min(looked, key=lambda one: (one.faults, one.peak))
    texts = " ".join(finding.text for finding in nearest.blocking)
    return f"No set of sizes works. The one that comes nearest: {texts}"
