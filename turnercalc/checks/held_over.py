"""Whether foam and net hold the eggs where a shelf is upside down."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_drum import on_drum
from turnercalc.checks.wording import judged
from turnercalc.eggs.holders import NET
from turnercalc.findings import Answer, Finding
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.tables import limit

ID = "held_over"
TITLE = "Held upside down"
FIELDS = ("drum.squeeze", "eggs.held_by", "eggs.friction")
SOURCE = "balance of forces with Coulomb friction on both sides of an egg"


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield how well an egg is held, against what its weight asks on its side and overhead.

    Notes
    -----
    Foam and net press on an egg with P from both sides. On a shelf that stands upright its weight
    W pulls along them, and 2 mu P holds it: rolling between two still sides is no easier, for the
    egg rolls on one and slides on the other with twice the way. Overhead it comes off the foam
    where W is more than P.
    """
    if on_drum(evidence) is None:
        return
    rule = limit("held_press")
    seating, lot = evidence.ingredients.seating, evidence.ingredients.lot
    if seating.seat.held_by != NET:
        yield _falls_out(seating.seat.held_by)
        return
    press = evidence.ingredients.sections["drum"].squeeze
    if press is None:
        yield judged(
            ID,
            TITLE,
            None,
            rule,
            "Not known: nobody said how hard foam and net press on an egg.",
            fields=FIELDS,
            ask="Lay an egg between the foam and a kitchen scale, press until it sits as it does "
            "in the drum, and read drum.squeeze.",
        )
        return
    mu = seating.seat.mu.low
    pairs = [(press.low, lot.smallest), (press.high, lot.largest)]
    if press.low == press.high:
        pairs.append((press.low, lot.typical))
    share, pressed, weight = min(
        (2.0 * mu * one / (egg.mass * STANDARD_GRAVITY), one, egg.mass * STANDARD_GRAVITY)
        for one, egg in pairs
    )
    text = f"Pressed with {pressed:.2g} N, friction alone holds {share:.1f} times an egg's weight."
    answer = rule.answer(share)
    if answer is not Answer.FINE:
        text = (
            f"Pressed with {pressed:.2g} N an egg of {weight:.2g} N is held {share:.1f} times by "
            f"friction: it creeps as its shelf goes over. {0.5 * weight / mu:.2g} N would hold it."
        )
    if pressed < weight:
        answer = Answer.NO
        text = (
            f"Pressed with {pressed:.2g} N an egg of {weight:.2g} N comes off the foam overhead "
            f"and drops back in every turn. {0.5 * weight / mu:.2g} N would hold it."
        )
    yield judged(ID, TITLE, share, rule, text, answer=answer, fields=FIELDS)


def _falls_out(held_by: str) -> Finding:
    return Finding(
        id=ID,
        title=TITLE,
        answer=Answer.NO,
        text=f"{held_by.capitalize()} hold eggs from below only, and on a drum some shelf is "
        "always upside down: foam behind the eggs and a net over them hold them all round.",
        reason="Round an axle the shelves point every way at once.",
        source=SOURCE,
        fields=("eggs.held_by",),
    )
