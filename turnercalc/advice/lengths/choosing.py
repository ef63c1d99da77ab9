"""From candidates to suggestions: sized again in full, distinct, each with its trade."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from turnercalc.advice.lengths.wish import Promise, Suggestion
from turnercalc.checks.link_to_arm import ID as LINK_TO_ARM
from turnercalc.design import Design
from turnercalc.errors import TurnercalcError
from turnercalc.findings import Answer, worst
from turnercalc.loads import hardest
from turnercalc.sizing import Sizing, size

#: Questions that the lengths of turner and drive decide.
LENGTHS_DECIDE = frozenset(
    {"closes", "jam", "tilt", "tilt_ends", "as_built", "link_to_arm", "room"}
)
#: Two suggestions are distinct where some length differs by this share of it.
DISTINCT = 0.1
#: Lengths below this [m], or angles [rad], are compared as if they were this.
LEAST_LENGTH = 1e-3
#: Positions in a cycle: of a sizing whose figures are told, and of a first look.
FULL, COARSE = 360, 36


@dataclass(frozen=True)
class Candidate:
    """One set of lengths worth sizing: what it would be best in, and its settings."""

    id: str
    settings: Mapping[str, str]


TRADES = {
    "lowest_peak": "The easiest turn",
    "best_angle": "The best angle between link and arm",
    "most_compact": "The least room",
    "least_sensitive": "The least spoiled by marking errors",
    "lowest_force": "The smallest force",
    "nothing_added": "Nothing added to balance it",
}


def suggestions(
    design: Design,
    groups: Iterable[Sequence[Candidate]],
    refused: list[str] | None = None,
) -> tuple[Suggestion, ...]:
    """Return of each group the first candidate that works and differs from those before it.

    Each is sized in full. Works: no question that the lengths decide is answered no. Those that
    are fine come first, and before them nothing that is a no for another reason, such as the grip
    of runners on the floor. The last group is looked at where the others give nothing better.
    """
    found: list[Suggestion] = []
    *kinds, last = list(groups) or [()]
    for group in kinds:
        best = first_that_works(design, group, refused)
        if best is not None and not any(alike(best, one) for one in found):
            found.append(best)
    if not any(one.sizing.verdict is not Answer.NO for one in found):
        best = first_that_works(design, last, refused, coarsely_first=True)
        if best is not None and (not found or best.sizing.verdict is not Answer.NO):
            found.append(best)
    return told(sorted(found, key=rank_of))


def rank_of(one: Suggestion) -> tuple[bool, bool]:
    """Return what puts a suggestion behind others: a no elsewhere in the design, a doubt here."""
    return one.sizing.verdict is Answer.NO, one.answer is not Answer.FINE


def first_that_works(
    design: Design,
    candidates: Iterable[Candidate],
    refused: list[str] | None = None,
    *,
    coarsely_first: bool = False,
) -> Suggestion | None:
    """Return the first whose whole sizing says no nowhere; failing that, the first that works."""
    first = None
    for candidate in candidates:
        if coarsely_first and tried(design, candidate, COARSE, refused) is None:
            continue
        one = tried(design, candidate, FULL, refused)
        if one is not None and one.sizing.verdict is not Answer.NO:
            return one
        first = first or one
    return first


def tried(
    design: Design, candidate: Candidate, count: int = FULL, refused: list[str] | None = None
) -> Suggestion | None:
    """Return a candidate sized in full; None where it cannot be or does not work.

    Why it does not is added to `refused`.
    """
    try:
        changed = design.replace(dict(candidate.settings))
        sizing = size(changed, count=count)
    except TurnercalcError:
        return None
    answer = lengths_answer(sizing)
    if answer is Answer.NO or sizing.cycle is None:
        if refused is not None:
            refused += [
                finding.text
                for finding in sizing.findings
                if finding.id in LENGTHS_DECIDE and finding.answer is Answer.NO
            ][:1]
        return None
    promise = promise_of(sizing)
    if not math.isfinite(promise.peak):
        return None
    return Suggestion(candidate.id, candidate.settings, "", changed, sizing, promise, answer)


def lengths_answer(sizing: Sizing) -> Answer:
    """Return the verdict over the questions that the lengths decide."""
    return worst([f.answer for f in sizing.findings if f.id in LENGTHS_DECIDE and f.caps_verdict])


def promise_of(sizing: Sizing) -> Promise:
    """Return the figures of a sizing that a suggestion promises."""
    assert sizing.cycle is not None
    middle = sizing.cycle.levels.index("middle")
    angle = next((f.value for f in sizing.findings if f.id == LINK_TO_ARM), None)
    return Promise(
        low=sizing.ends.low,
        high=sizing.ends.high,
        peak=hardest(sizing.cycle, middle, sizing.told_direction).torque,
        link_to_arm=None if angle is None else math.radians(angle),
        in_hand=-sizing.closing.missing,
    )


def alike(one: Suggestion, other: Suggestion) -> bool:
    """Tell whether two sets of lengths are much the same, in whatever units they are written."""
    for path in set(one.settings) | set(other.settings):
        a, b = one.design.value(path), other.design.value(path)
        if not isinstance(a, int | float) or not isinstance(b, int | float):
            if a != b:
                return False
        elif abs(a - b) > DISTINCT * max(abs(a), abs(b), LEAST_LENGTH):
            return False
    return True


def told(found: Sequence[Suggestion]) -> tuple[Suggestion, ...]:
    """Return the suggestions with their trade in words, against the best of all in each thing."""
    if not found:
        return ()
    least_peak = min(one.promise.peak for one in found)
    angles = [one.promise.link_to_arm for one in found if one.promise.link_to_arm is not None]
    return tuple(
        Suggestion(
            one.id,
            one.settings,
            trade(one, least_peak, max(angles, default=None)),
            one.design,
            one.sizing,
            one.promise,
            one.answer,
        )
        for one in found
    )


def trade(one: Suggestion, least_peak: float, best_angle: float | None) -> str:
    """Return what a suggestion is best in and what it costs against the others."""
    unit = "N·m" if one.sizing.drive.position_unit == "rad" else "N"
    costs = []
    more = one.promise.peak / least_peak - 1.0 if least_peak > 0.0 else 0.0
    if more > 0.02:
        costs.append(f"the hardest turn takes {100 * more:.0f} % more than the easiest")
    angle = one.promise.link_to_arm
    if angle is not None and best_angle is not None and best_angle - angle > math.radians(1.0):
        costs.append(f"the link stands {math.degrees(best_angle - angle):.0f}° flatter to the arm")
    worst_one = [
        f for f in one.sizing.findings if f.id in LENGTHS_DECIDE and f.answer is Answer.MARGINAL
    ]
    costs += [f"{finding.title.lower()} is marginal" for finding in worst_one]
    if one.sizing.verdict is Answer.NO:
        costs.append(f"for another reason turnercalc size says no: {one.sizing.reason.title}")
    what = f"{TRADES.get(one.id, one.id)}: {one.promise.peak:.3g} {unit} at most"
    if angle is not None:
        what += f", link to arm {math.degrees(angle):.0f}°"
    return f"{what}; {'; '.join(costs)}." if costs else f"{what}."
