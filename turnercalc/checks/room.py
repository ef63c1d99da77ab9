"""Whether everything that moves has room, over the whole swing."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import judged, millimetres, worst
from turnercalc.drives.wording import wording_of
from turnercalc.findings import Answer, Finding
from turnercalc.parts.clearances import Clearances, Gaps
from turnercalc.tables import limit

ID = "room"
TITLE = "Room"

Gap = tuple[str, float]


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the room on all sides and between neighbours, and what of it is not known."""
    room = evidence.clearances
    if room is None:
        return
    parts = wording_of(evidence.drive).parts
    walls, neighbours = limit("clearance"), limit("neighbour_gap")
    gaps = [*_around(room.turner, ""), *_around(room.drive, f" for {parts}")]
    answers = [walls.answer(1e3 * gap) for _, gap in gaps]
    if room.neighbours is not None:
        gaps.append(("between trays", room.neighbours))
        answers.append(neighbours.answer(1e3 * room.neighbours))
    if gaps:
        where, least = min(gaps, key=lambda gap: gap[1])
        answer = worst(answers)
        every = _all(room, parts, evidence.kind.measured_from.named)
        text = every if answer is Answer.FINE else _tight(every, where, least)
        decides = neighbours if where == "between trays" else walls
        yield judged(
            ID,
            TITLE,
            1e3 * least,
            decides,
            text,
            answer=answer,
            fields=(
                "box.width",
                "box.height",
                evidence.turner.origin_field,
                *evidence.own_fields("pitch"),
            ),
        )
    if evidence.turner.origin_height is None:
        yield Finding(
            id="room_in_height",
            title="Head and floor room",
            answer=Answer.UNKNOWN,
            text="Nobody said how high it stands, so head room and floor room are not known.",
            fields=(evidence.turner.origin_field,),
            ask=f"Measure {evidence.turner.origin_field} above the box floor.",
        )


def _around(gaps: Gaps | None, whose: str) -> list[Gap]:
    """Return the known gaps around one thing."""
    if gaps is None:
        return []
    named = {
        "at the left wall": gaps.left,
        "at the right wall": gaps.right,
        "above": gaps.above,
        "below": gaps.below,
    }
    return [(f"{where}{whose}", gap) for where, gap in named.items() if gap is not None]


def _all(room: Clearances, drive: str, origin: str) -> str:
    """Return every gap in one line."""
    parts = []
    left, right = room.turner.left, room.turner.right
    if left is not None and right is not None:
        if abs(left - right) < 1e-3:
            parts.append(f"{millimetres(min(left, right))} each side")
        else:
            parts.append(f"{millimetres(left)} left, {millimetres(right)} right")
    for where, gap in (("above", room.turner.above), ("below", room.turner.below)):
        if gap is not None:
            parts.append(f"{millimetres(gap)} {where}")
    if room.neighbours is not None:
        parts.append(f"{millimetres(room.neighbours)} between trays")
    if room.drive is not None and room.drive.known:
        parts.append(f"{millimetres(min(room.drive.known))} for {drive}")
    text = ", ".join(parts)
    return f"{text}, {origin} in the middle of the box." if room.centred else f"{text}."


def _tight(every: str, where: str, least: float) -> str:
    """Return the tightest place and what it wants."""
    if least < 0.0:
        return f"It does not fit: {millimetres(-least)} too little {where} ({every[:-1]})."
    return f"Only {millimetres(least)} {where} ({every[:-1]})."
