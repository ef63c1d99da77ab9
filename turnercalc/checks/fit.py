"""Whether the largest egg fits into its seat."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import judged, millimetres
from turnercalc.eggs.seats import CELLS
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit

ID = "fit"
TITLE = "Largest egg"
FIELDS = ("eggs.cell_room", "eggs.largest")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the room a cell leaves around the largest egg; other seats take eggs of any size."""
    seating = evidence.ingredients.seating
    if seating.seat.held_by != CELLS or seating.play is None:
        return
    rule = limit("cell_play")
    play = seating.play
    text = f"{millimetres(play, 1)} of play for the largest in its cell."
    if play < 0.0:
        text = f"The largest egg is {millimetres(-play, 1)} broader than its cell."
    elif rule.answer(1e3 * play) is not Answer.FINE:
        text = f"The largest egg has only {millimetres(play, 1)} of play in its cell."
    yield judged(ID, TITLE, 1e3 * play, rule, text, fields=FIELDS)
