"""A rack as a builder's file tells it, and everything computed about it, for tests of judgement."""

from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import numpy as np

from turnercalc.building import build
from turnercalc.checks.evidence import Evidence
from turnercalc.design import Design
from turnercalc.design.reader import read_design
from turnercalc.findings import Answer
from turnercalc.motors import Line, Motor, MotorResult, Move
from turnercalc.sizing import gather_evidence
from turnercalc.swing import Ends
from turnercalc.timing import plan_timing

RACK = """
turnercalc = 1
name       = "Quarry Lane pigeon loft: three trays in a steel locker"
turner     = "tilting trays"
drive      = "crank and link"
drawn_from = "the door side"

[box]
width  = "440 mm"
height = "800 mm"
depth  = "420 mm"

[eggs]
kind      = "chicken"
weighed   = "10 eggs = 590 g"
typical   = "57.5 x 43.5 mm"
largest   = "61 x 45.8 mm"
lie       = "big end up"
held_by   = "cells"
cell_room = "47 mm"
cell_wall = "25 mm"

[turning]
tilt          = "45 deg each side"
turns_per_day = 24
last_day      = 18

[trays]
count        = 3
pitch        = "135 mm"
lowest_pivot = "310 mm above the box floor"
rows         = 6
eggs_per_row = 6
row_spacing  = "50 mm"
width        = "310 mm"
empty_weight = "700 g"
balance      = "4 mm below pivot"
egg_floor    = "16 mm below pivot"
underside    = "22 mm below pivot"

[pivots]
diameter = "8 mm"
bearing  = "steel in nylon"

[crank]
radius = "50 mm"
runs   = "round and round"
across = "49.5 mm right of pivot"
height = "200 mm below pivot"

[link]
length       = "200 mm"
weight       = "80 g"
pin_diameter = "6 mm"

[arm]
length = "70 mm"
points = "right"

[tie_bar]
weight       = "250 g"
pin_diameter = "6 mm"

[motor]
supply     = "12 V"
stands     = "outside the box"
stopped_by = "park switch"
"""


@cache
def _design(settings: tuple[tuple[str, object], ...]) -> Design:
    return read_design(RACK, dict(settings))


@cache
def _evidence(settings: tuple[tuple[str, object], ...]) -> Evidence:
    design = _design(settings)
    return gather_evidence(design, build(design), None, 360)


def evidence(settings: Mapping[str, object] | None = None) -> Evidence:
    """Return everything computed about the rack, with some lines of its file said otherwise."""
    return _evidence(tuple(sorted((settings or {}).items())))


def with_ends(found: Evidence, left_deg: float, right_deg: float) -> Evidence:
    """Return evidence with other ends of the swing, in degrees down on either side."""
    low, high = -np.radians(right_deg), np.radians(left_deg)
    return replace(found, ends=Ends(low, high, 4.7, 1.6, rests=True))


def driven_by(
    found: Evidence,
    rpm: float,
    stall_torque: float = np.inf,
    directions: tuple[int, ...] | None = None,
) -> Evidence:
    """Return evidence with a motor on a straight line from free speed to stall, chosen."""
    demand = found.demand
    assert demand is not None
    assert found.cycle is not None
    line = Line("straight", rpm * np.pi / 30.0, stall_torque, stall_torque)
    chosen = MotorResult(
        motor=Motor(id="test"),
        row=None,
        verdict=Answer.FINE,
        times_enough=2.0,
        corner=2.0,
        dependable=None,
        dependable_from="rated",
        line=line,
        directions=(found.better_direction,) if directions is None else directions,
        findings=(),
        moves=(),
        average_heat_in_box=0.0,
        why="",
        deciding=None,
    )
    chosen = replace(chosen, moves=moves(found, chosen))
    built = build(found.design)
    timing = plan_timing(found.design, built, found.cycle, demand, chosen)
    return replace(found, chosen=chosen, timing=timing)


def moves(found: Evidence, chosen: MotorResult) -> tuple[Move, ...]:
    """Return the times of each move, summed step by step with the mean slowness."""
    demand, line = found.demand, chosen.line
    assert demand is not None
    assert line is not None
    told = []
    for span in demand.move_spans:
        for way in chosen.directions:
            torque = demand.running_torque(line.free_speed)[:, way]
            with np.errstate(divide="ignore"):  # a motor that stands never arrives
                slowness = 1.0 / line.speed(torque[..., demand.indices(span)])
            steps = 0.5 * (slowness[..., 1:] + slowness[..., :-1]) * np.diff(demand.places(span))
            whole = steps.sum(axis=-1)
            told.append(Move(span, way, float(whole.min()), float(whole.max())))
    return tuple(told)
