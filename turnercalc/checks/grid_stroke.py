"""Whether the grid slides as far as the wanted turn of the eggs asks."""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnercalc.checks.evidence import Evidence
from turnercalc.checks.on_grid import on_grid
from turnercalc.checks.wording import between, degrees, judged, millimetres
from turnercalc.findings import Answer, Finding
from turnercalc.swing import lengths
from turnercalc.tables import limit
from turnercalc.turners.sliding_grid import SlidingGrid

ID = "grid_stroke"
TITLE = "Stroke"
#: Half way through the stroke may be so far from where the builder measured it [m].
OFF_MIDDLE = 0.005


def judge(evidence: Evidence) -> Iterator[Finding]:
    """Yield the stroke beside the wanted one, and what the eggs turn as it is built."""
    grid = on_grid(evidence)
    if grid is None or math.isnan(evidence.ends.total):
        return
    stroke, wanted = evidence.ends.total, grid.egg_turn
    turn = grid.turns_of(stroke)[1]
    rule = limit("grid_turn_off")
    off = math.degrees(abs(turn - wanted))
    text = f"{millimetres(stroke, 1)}, of which {_play(grid)}."
    if rule.answer(off) is not Answer.FINE:
        text = (
            f"{millimetres(stroke, 1)} turn a typical egg {degrees(turn, 0)}; for "
            f"{degrees(wanted, 0)} it takes {millimetres(grid.stroke, 1)}, of which {_play(grid)}."
        )
    fields = ("turning.egg_turn", *lengths(evidence.turner, evidence.drive))
    yield judged(ID, TITLE, off, rule, text, fields=fields)
    yield from _as_built(evidence, grid, fields)
    yield from _middle(evidence, fields)


def _play(grid: SlidingGrid) -> str:
    if grid.runs_by_itself:
        return "nothing is lost to play: the floor leans, and the eggs lie on the lower bars"
    return f"{millimetres(grid.play, 1)} are the play of an egg in its cell"


def _middle(evidence: Evidence, fields: tuple[str, ...]) -> Iterator[Finding]:
    """Yield a note where half way through the stroke is not where places are measured from."""
    middle = 0.5 * (evidence.ends.high + evidence.ends.low)
    if abs(middle) <= OFF_MIDDLE:
        return
    side = "right" if middle > 0.0 else "left"
    yield Finding(
        id="grid_middle",
        title="Middle",
        answer=Answer.NOTE,
        text=f"Half way through its stroke the pin is {millimetres(abs(middle))} {side} of where "
        "it is measured from: measure there again, or the room at the sides is not as told.",
        value=1e3 * middle,
        unit="mm",
        reason="Places are measured from the pin half way through its stroke.",
        source="definition",
        fields=fields,
    )


def _as_built(evidence: Evidence, grid: SlidingGrid, fields: tuple[str, ...]) -> Iterator[Finding]:
    built = evidence.as_built
    if built is None or math.isnan(built.total_least + built.total_most):
        return
    turns = [grid.turns_of(stroke)[1] for stroke in (built.total_least, built.total_most)]
    rule = limit("grid_turn_off")
    off = math.degrees(max(abs(turn - grid.egg_turn) for turn in turns))
    text = (
        f"A typical egg turns {between(degrees(turns[0], 0), degrees(turns[1], 0))} with "
        f"{millimetres(built.marking)} marking errors and {millimetres(built.play, 1)} pin play."
    )
    yield judged("grid_as_built", "As built", off, rule, text, fields=fields)
