"""Whether the floor is wide enough for runners that walk from side to side."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.wording import judged, millimetres
from turnercalc.findings import Answer, Finding
from turnercalc.parts.runners import RunnerRoom, runner_room
from turnercalc.tables import limit
from turnercalc.turners.rocking_cradle import RockingCradle

ID = "floor_width"
TITLE = "Floor"
FIELDS = ("box.width", "cradle.from_left_wall", "cradle.runner_radius", "cradle.runner_width")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the floor that the runners roll over, and how near their ends come to a wall."""
    cradle, ends = evidence.turner, evidence.ends
    if not isinstance(cradle, RockingCradle) or math.isnan(ends.total):
        return
    rule = limit("clearance")
    room = runner_room(cradle, (ends.low, ends.high))
    if room is None:
        text = "Not known how much floor the runners need: their width is not given."
        ask = "Measure a runner straight across, from end to end of its arc."
        yield judged(ID, TITLE, None, rule, text, fields=("cradle.runner_width",), ask=ask)
        return
    box = evidence.ingredients.sections["box"]
    middle = 0.5 * box.width if cradle.origin_from_left is None else cradle.origin_from_left
    left, right = middle - room.reach_left, box.width - middle - room.reach_right
    gap = min(left, right)
    where = "either wall" if abs(left - right) < 1e-3 else f"the {_side(left, right)} wall"
    text = f"{_walks(room)}the runners' ends stay {millimetres(gap)} from {where}."
    if rule.answer(1e3 * gap) is Answer.NO:
        text = f"{_walks(room)}the runners run {millimetres(-gap)} into {where}."
    elif rule.answer(1e3 * gap) is Answer.MARGINAL:
        text = f"{_walks(room)}the runners' ends come within {millimetres(gap)} of {where}."
    yield judged(ID, TITLE, 1e3 * gap, rule, text[0].upper() + text[1:], fields=FIELDS)


def _side(left: float, right: float) -> str:
    return "left" if left < right else "right"


def _walks(room: RunnerRoom) -> str:
    """Return the floor that is rolled over, with how far the contact walks to either side."""
    if room.touched <= 0.0:
        return ""
    left, right = room.touched_left, room.touched_right
    ways = (
        f"{millimetres(left)} to either side"
        if abs(left - right) < 1e-3
        else f"{millimetres(left)} to the left, {millimetres(right)} to the right"
    )
    return f"It rolls over {millimetres(room.touched)} of floor, {ways}, which has to be flat; "
