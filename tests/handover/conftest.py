"""The example and what a builder may change about it, sized once for all tests here."""

from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest

from turnercalc.advice import Advice, advise
from turnercalc.design import read_design
from turnercalc.motors import read_motors
from turnercalc.sizing import Sizing, size

EXAMPLES = Path(__file__).parents[2] / "examples"
RACK = EXAMPLES / "larder-rack.toml"
MOTORS = EXAMPLES / "motors.csv"

#: Name -> settings that lead to another kind of page, and whether there is a motor file.
CASES: Mapping[str, tuple[Mapping[str, str], bool]] = {
    "as it is": ({}, True),
    "no motor file": ({}, False),
    "mirror pairs": ({"trays.filled": "in mirror pairs"}, True),
    "does not close": ({"link.length": "150 mm"}, True),
    "with a chain": (
        {"gearing": '[{kind = "chain", motor_teeth = 12, driven_teeth = 24}]'},
        True,
    ),
    "either way": ({"motor.have": "turntable"}, True),
    "to and fro": (
        {"crank.runs": "to and fro", "crank.first_angle": "90 deg", "crank.last_angle": "270 deg"},
        True,
    ),
    "by timer": ({"motor.stopped_by": "timer"}, True),
    "half known": (
        {"trays.lowest_pivot": "unknown", "eggs.cell_wall": "unknown", "motor.have": "spur 6"},
        True,
    ),
    "too tight": ({"trays.egg_floor": "60 mm above pivot"}, True),
    "jams": ({"pivots.friction": "1.5 to 2", "pivots.diameter": "60 mm"}, True),
    "jams always": ({"pivots.friction": "2", "pivots.diameter": "120 mm"}, True),
    "seldom": ({"turning.turns_per_day": "2", "turning.tilt": "25 deg each side"}, True),
}


class Case(NamedTuple):
    """One result and what helps."""

    sizing: Sizing
    advice: Advice


@cache
def _case(name: str) -> Case:
    settings, with_motors = CASES[name]
    motors = read_motors(MOTORS) if with_motors else None
    sizing = size(read_design(RACK, settings), motors)
    return Case(sizing, advise(sizing, motors))


@pytest.fixture(scope="session")
def case() -> Callable[[str], Case]:
    return _case
