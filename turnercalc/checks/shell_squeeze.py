"""Whether foam and net press too hard on a shell."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_drum import on_drum
from turnercalc.checks.wording import judged
from turnercalc.eggs.holders import NET
from turnercalc.findings import Answer, Finding
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.tables import limit

ID = "shell_squeeze"
TITLE = "Squeeze"
FIELDS = ("drum.squeeze",)


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the force on the shell of the largest egg: the press, and its own weight on top."""
    if on_drum(evidence) is None or evidence.ingredients.seating.seat.held_by != NET:
        return
    press, rule = evidence.ingredients.sections["drum"].squeeze, limit("shell_squeeze")
    if press is None:
        yield judged(
            ID,
            TITLE,
            None,
            rule,
            "Not known whether foam and net press too hard on the shells.",
            fields=FIELDS,
            ask="Measure drum.squeeze on the largest egg with a kitchen scale.",
        )
        return
    force = press.high + evidence.ingredients.lot.largest.mass * STANDARD_GRAVITY
    text = f"{force:.2g} N at most on the largest shell, its own weight included."
    if rule.answer(force) is not Answer.FINE:
        text = (
            f"{force:.2g} N on the largest shell, its own weight included; {rule.fine:g} N is "
            "gentle. Softer foam or a looser net, as long as the eggs stay held."
        )
    yield judged(ID, TITLE, force, rule, text, fields=FIELDS)
