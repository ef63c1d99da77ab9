"""Slide a grid as far as the eggs have to be turned, and turn them by half."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from turnercalc.advice.moves import Proposal, millimetres
from turnercalc.sizing import Sizing
from turnercalc.turners.sliding_grid import SlidingGrid

HALF_TURN = math.pi
#: A stroke so near to the wanted one needs no other crank [m].
NEAR = 0.0005


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the crank, or the end switches, that give the wanted turn, and those of a half turn."""
    grid = sizing.turner
    if not isinstance(grid, SlidingGrid):
        return
    for turn in dict.fromkeys((grid.egg_turn, HALF_TURN)):
        asked = {} if turn == grid.egg_turn else {"turning.egg_turn": "180 deg"}
        wanted = grid.stroke - grid.travel_per_turn(grid.egg_radius) * (grid.egg_turn - turn)
        name = "right_stroke" if not asked else "half_a_turn"
        yield from _drives(sizing, name, asked, float(wanted))


def _drives(
    sizing: Sizing, name: str, asked: Mapping[str, str], wanted: float
) -> Iterator[Proposal]:
    """Yield what of the drive has to change for a stroke."""
    crank, actuator = sizing.design.get("crank"), sizing.design.get("actuator")
    lead = "Turn the eggs by half: " if asked else ""
    if crank is not None and crank.runs == "round and round":
        # Nearly in line with the slide, a crank of r slides the grid by 2 r.
        now = sizing.ends.total if math.isfinite(sizing.ends.total) else 2.0 * crank.radius
        if asked or abs(now - wanted) > NEAR:
            radius = millimetres(crank.radius * wanted / now)
            say = f"{lead}make the crank {radius} from shaft to pin."
            yield Proposal(name, {**asked, "crank.radius": radius}, say[0].upper() + say[1:])
    if actuator is not None:
        switched = "between end switches"
        moved = {} if actuator.runs == switched else {"actuator.runs": switched}
        for stop in ("stop_in", "stop_out"):
            if getattr(actuator, stop) is not None:
                moved[f"actuator.{stop}"] = "none"
        if moved or asked:
            say = f"{lead}let two end switches stop the grid {millimetres(wanted)} apart."
            yield Proposal(name, {**asked, **moved}, say[0].upper() + say[1:])
