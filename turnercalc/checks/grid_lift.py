"""Whether the eggs lift the grid as they roll up along its bars."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_grid import hardest_egg, on_grid
from turnercalc.checks.wording import judged
from turnercalc.findings import Answer, Finding
from turnercalc.loads import planned
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.tables import limit

ID = "grid_lift"
TITLE = "Grid stays down"
FIELDS = ("grid.weight", "grid.bar_friction", "guides.hold_down")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the grid's weight over what its eggs lift it with, at the highest friction."""
    grid = on_grid(evidence)
    if grid is None or evidence.cycle is None:
        return
    rule = limit("grid_lift")
    most = max(
        case.egg_count
        for case, counts in zip(evidence.cycle.loads, planned(evidence.cycle), strict=True)
        if counts
    )
    one = float(hardest_egg(grid, "high").lift)
    if math.isnan(one) or one <= 0.0:
        return
    lift, weight = most * one, grid.grid_mass * STANDARD_GRAVITY
    held = bool(evidence.design["guides"].hold_down)
    text = f"{most} eggs lift it with up to {lift:.1f} N as they roll; it weighs {weight:.1f} N"
    ratio = weight / lift
    if held:
        text += ", and the guides hold it down."
        yield judged(ID, TITLE, ratio, rule, text, answer=Answer.FINE, fields=FIELDS)
        return
    if rule.answer(ratio) is Answer.FINE:
        text += "."
    else:
        text += ". Guides that hold it down from above, smoother bars or more weight keep it."
    yield judged(ID, TITLE, ratio, rule, text, fields=FIELDS)
