"""Whether the floor turns the eggs, or the grid drags them along."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_grid import hardest_egg, on_grid
from turnercalc.checks.wording import judged
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit
from turnercalc.turners.sliding_grid import SlidingGrid

ID = "grid_drag"
TITLE = "Eggs roll"
FIELDS = ("floor.surface", "floor.friction", "grid.bar_friction", "grid.bar_surface")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the floor's grip over what rolling takes, and what jams the eggs."""
    grid = on_grid(evidence)
    if grid is None:
        return
    rule = limit("grid_grip")
    middle, high = hardest_egg(grid, "middle"), hardest_egg(grid, "high")
    if math.isnan(float(middle.push)):
        yield judged(ID, TITLE, 0.0, rule, _jams(grid, grid.bar_friction.middle), fields=FIELDS)
        return
    needed, has = float(middle.grip), grid.floor_friction.middle
    ratio = has / needed if needed > 0.0 else math.inf
    worst_needed = float(high.grip)
    jams = math.isnan(worst_needed)
    corner = jams or worst_needed > grid.floor_friction.low
    answer = rule.answer(ratio)
    if answer is Answer.FINE and corner:
        answer = Answer.MARGINAL
    value = ratio if math.isfinite(ratio) else None
    text = _text(grid, ratio, needed, worst_needed, answer)
    yield judged(ID, TITLE, value, rule, text, answer=answer, fields=FIELDS)


def _text(
    grid: SlidingGrid, ratio: float, needed: float, worst_needed: float, answer: Answer
) -> str:
    if answer is Answer.NO:
        return (
            f"The floor drags the eggs: rolling takes a friction of {needed:.2f}, and this floor "
            f"has {grid.floor_friction.middle:.2g}. They slide along with the grid and are not "
            "turned. A rougher floor or smoother bars turn them."
        )
    if answer is Answer.FINE:
        if math.isinf(ratio):
            return "Nothing resists their rolling."
        return f"The floor grips {ratio:.1f} times what it takes to roll them."
    if ratio >= (limit("grid_grip").fine or 0.0):
        worst = (
            _jams(grid, grid.bar_friction.high)
            if math.isnan(worst_needed)
            else f"On a slippery day ({grid.floor_friction.low:.2g} where {worst_needed:.2f} is "
            "needed) the grid drags them."
        )
        return f"The floor grips {ratio:.1f} times what it takes to roll them. {worst}"
    return (
        f"The floor grips only {ratio:.1f} times what it takes to roll them. A rougher floor or "
        "smoother bars help."
    )


def _jams(grid: SlidingGrid, friction: float) -> str:
    where = ""
    if max(abs(float(grid.bars.contact(grid.egg_radius))), 0.0) > math.radians(1.0):
        where = " where the bars touch them"
    return (
        f"With a friction of {friction:.2g} on the bars the eggs jam between bar and floor"
        f"{where}: the bar rubs them down harder than it pushes them round. Smoother bars let "
        "them roll."
    )
