"""Whether the bars touch the eggs at their middle height."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_grid import contacts, on_grid
from turnercalc.checks.wording import degrees, judged, millimetres
from turnercalc.findings import Answer, Finding
from turnercalc.tables import limit
from turnercalc.turners.sliding_grid import SlidingGrid

ID = "grid_bar_height"
TITLE = "Bar height"
FIELDS = ("grid.bar_top", "grid.bar_bottom", "eggs.smallest", "eggs.largest")


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield where the bars touch the eggs, judged by the size that is touched worst."""
    grid = on_grid(evidence)
    if grid is None:
        return
    rule = limit("grid_bar_contact")
    found = contacts(grid)
    missed = next((size for size, angle in found.items() if math.isnan(angle)), None)
    if missed is not None:
        radius = _radii(grid)[missed]
        over = grid.bars.bottom >= 2.0 * radius
        how = "pass over" if over else "pass under"
        text = f"The bars {how} the {missed} egg: they have to be as high as half an egg."
        yield judged(ID, TITLE, 90.0, rule, text, fields=FIELDS)
        return
    size, angle = max(found.items(), key=lambda item: abs(item[1]))
    value = math.degrees(abs(angle))
    text = "They touch eggs of every size at their middle height."
    if rule.answer(value) is not Answer.FINE:
        text = _text(grid, size, angle)
    elif value >= 0.5:
        side = "above" if angle > 0.0 else "below"
        text = f"They touch the {size} egg {degrees(abs(angle), 0)} {side} its middle height."
    yield judged(ID, TITLE, value, rule, text, fields=FIELDS)


def _radii(grid: SlidingGrid) -> dict[str, float]:
    return {
        "smallest": grid.smallest_radius or grid.egg_radius,
        "typical": grid.egg_radius,
        "largest": grid.largest_radius or grid.egg_radius,
    }


def _text(grid: SlidingGrid, size: str, angle: float) -> str:
    radius = _radii(grid)[size]
    middle = f"the middle of the {size} egg is {millimetres(radius, 1)} up"
    if angle > 0.0:
        told = (
            f"their middle is {millimetres(0.5 * (grid.bars.bottom + grid.bars.top), 1)} up"
            if grid.bars.round
            else f"they begin only {millimetres(grid.bars.bottom, 1)} up"
        )
        return (
            f"The bars are too high: {told} and {middle}. They press it down on the floor, "
            f"{degrees(angle, 0)} above its middle, so that it rolls hard or jams."
        )
    told = (
        f"their middle is {millimetres(0.5 * (grid.bars.bottom + grid.bars.top), 1)} up"
        if grid.bars.round
        else f"they end {millimetres(grid.bars.top, 1)} up"
    )
    return (
        f"The bars are too low: {told} and {middle}. They lift it, {degrees(-angle, 0)} below its "
        "middle, it climbs over them, and eggs knock together above them."
    )
