"""Whether a roller turns the drum by its rim, or slips on it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_drum import on_drum
from turnercalc.checks.wording import judged
from turnercalc.findings import Answer, Finding
from turnercalc.loads import planned
from turnercalc.tables import limit
from turnercalc.turners.drum_sections import BOTH_SIDES
from turnercalc.turners.rotating_drum import RotatingDrum
from turnercalc.turners.support_rollers import climbing_force, gripping_force

ID = "roller_grip"
TITLE = "Roller grip"
FIELDS = ("rollers.grip", "rollers.press", "rollers.spacing", "drum.filled")
FRICTION_ROLLER = "friction roller"

Array = NDArray[np.float64]


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield what the rim takes at the roller, with high friction, against the least grip."""
    kinds = [stage.kind for stage in evidence.stages.stages]
    cycle, drum = evidence.cycle, on_drum(evidence)
    if drum is None or cycle is None or FRICTION_ROLLER not in kinds:
        return
    rollers, rule = evidence.ingredients.sections.get("rollers"), limit("roller_grip")
    carries = drum.rollers is not None
    if rollers is None or (not carries and rollers.press is None):
        yield judged(
            ID,
            TITLE,
            None,
            rule,
            "Not known whether the friction roller slips on the rim.",
            fields=FIELDS,
            ask="Say in [rollers] what roller and rim are like, and how hard it is pressed on.",
        )
        return
    pulls = np.nanmax(np.abs(cycle.shaft_torque[:, cycle.levels.index("high")]), axis=(1, 2))
    pulls = pulls / (0.5 * rollers.rim)
    cells = np.stack([case.cells for case in cycle.loads]).astype(float)
    grips, climbs = _gripped(drum, rollers, cells)
    least = np.minimum(grips, climbs)
    hard = [i for i in np.flatnonzero(planned(cycle)) if pulls[i] > 0.0]
    if not hard:
        return
    worst = min(hard, key=lambda i: float(least[i] / pulls[i]))
    times = float(least[worst] / pulls[worst])
    text = (
        f"{grips[worst]:.3g} N of grip for {pulls[worst]:.3g} N at the rim: {times:.1f} times "
        f"({cycle.loads[worst].name})."
    )
    if rule.answer(times) is not Answer.FINE:
        if climbs[worst] < grips[worst]:
            text = (
                f"With {cycle.loads[worst].name} the heavy side nearly stands over a roller: "
                f"{pulls[worst]:.3g} N at the rim, and at {climbs[worst]:.3g} N the drum climbs "
                "out. Rollers further apart hold it."
            )
        else:
            text += " Both rows driven, more press, or a drum filled in balance."
    yield judged(ID, TITLE, times, rule, text, fields=FIELDS)


def _gripped(drum: RotatingDrum, rollers: Any, cells: Array) -> tuple[Array, Array]:
    """Return the pull at which the roller slips, and at which the drum climbs out, by load [N]."""
    weight = drum.weight(cells).reshape(-1)
    grip = rollers.grip.low
    if drum.rollers is None:
        return np.full(weight.shape, grip * rollers.press), np.full(weight.shape, np.inf)
    angle = drum.rollers.half_angle
    both = rollers.driven == BOTH_SIDES
    return (
        gripping_force(weight, angle, grip, both_driven=both),
        climbing_force(weight, angle),
    )
