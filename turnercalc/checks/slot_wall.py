"""Whether a slot leaves enough of its arm, and what has to pass it on the other side."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import judged, millimetres, source_of
from turnercalc.findings import Answer, Finding
from turnercalc.parts.poses import poses
from turnercalc.parts.slots import nearest_pass, thinnest_wall
from turnercalc.parts.workshop import made_for
from turnercalc.pieces import Piece, Reshapes, edge_round
from turnercalc.tables import limit

ID = "slot_wall"
TITLE = "Slot"
TIE_BAR, PIN = "tie bar", "pin"
FIELDS = ("arm.length", "slot.roller_diameter", "crank.radius")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the least wall beside the slot, and a note where the tie bar passes the crank pin."""
    if evidence.cycle is None or not isinstance(evidence.drive, Reshapes):
        return
    made = made_for(evidence.turner, evidence.drive, evidence.ingredients)
    wall, rule = thinnest_wall(made.pieces), limit("slot_wall")
    if wall is None:
        return
    if wall.left < 0.0:
        text = (
            f"The slot and the hole of the {wall.hole} run into each other in the {wall.piece}: "
            f"{millimetres(-wall.left)} too near. Put the hole beyond the slot, or use an arm of "
            "its own for the slot."
        )
    else:
        text = (
            f"{millimetres(wall.left)} of the {wall.piece} left between the slot and the hole of "
            f"the {wall.hole}"
        )
    yield judged(ID, TITLE, 1e3 * wall.left, rule, text, fields=FIELDS)
    yield from _passing(evidence, next((p for p in made.pieces if p.id == "tie_bar"), None))


def _passing(evidence: Evidence, bar: Piece | None) -> Iterator[Finding]:
    """Yield a note where tie bar and crank pin would meet on the same side of the arm."""
    if bar is None or evidence.cycle is None:
        return
    seen = {one.name: one for one in poses(evidence.turner, evidence.drive, evidence.cycle.motion)}
    if TIE_BAR not in seen or PIN not in seen:
        return
    rule = limit("clearance")
    half = max(bar.edge, edge_round(None))
    apart = nearest_pass(seen[TIE_BAR], seen[PIN]) - half
    if rule.fine is None or 1e3 * apart >= rule.fine:
        return
    yield Finding(
        id="slot_layers",
        title="Tie bar",
        answer=Answer.NOTE,
        text=f"Seen from the side the tie bar, {millimetres(2.0 * half)} wide, passes the crank "
        "pin or lies on it. Put it on the far side of the arm from the crank, and let the crank "
        "pin end inside the slot.",
        value=1e3 * apart,
        unit=rule.unit,
        limit_fine=rule.fine,
        reason=rule.reason,
        source=source_of(rule),
        fields=("arm.length", "tie_bar.pin_diameter"),
    )
