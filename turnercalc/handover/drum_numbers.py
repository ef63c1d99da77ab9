"""The numbers that a drum puts into its formulas."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np

from turnercalc.checks.wording import place
from turnercalc.handover.cycle_record import cycle_of, hardest_load
from turnercalc.loads import hardest
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.turners.rotating_drum import RotatingDrum

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing


def drum_numbers(sizing: Sizing) -> tuple[Mapping[str, float], str, str] | None:
    """Return letters with values, where they belong to, and what the whole calculation gives.

    The hardest planned load where it is hardest, and a run of half the shelves; None for a
    design without a drum.
    """
    drum = sizing.turner
    if not isinstance(drum, RotatingDrum) or sizing.cycle is None:
        return None
    cycle, way = cycle_of(sizing), sizing.told_direction
    middle, load = cycle.levels.index("middle"), hardest_load(sizing)
    at = hardest(cycle, middle, way).position
    cells = cycle.loads[load].cells[None].astype(float)
    moment_x, moment_y = (float(part.item()) for part in drum.mass_moment(cells))
    mass = float(drum.weight(cells).item()) / STANDARD_GRAVITY
    q = float(cycle.motion.coordinate[at])
    rises = float(cycle.motion.rate[at]) * (1.0, -1.0)[way] > 0.0
    values = {
        "m": drum.egg_mass * drum.eggs_per_shelf,
        "R": float(np.asarray(drum.shelf_radius)),
        "N": float(drum.shelves),
        "n": float(drum.shelves // 2),
        "M": mass,
        "g": STANDARD_GRAVITY,
        "x": moment_x / mass,
        "y": moment_y / mass,
        "q": q + drum.lean,
    }
    if drum.rollers is not None:
        values |= {
            "W": mass * STANDARD_GRAVITY,
            "A": drum.rollers.half_angle,
            "f": sizing.ingredients.sections["rollers"].grip.low,
        }
    where = f"{cycle.loads[load].name}, hardest at {place(drum, q, rises)}; half the shelves filled"
    whole = float(cycle.load_torque[load, middle, way, at])
    compare = f"With middle friction the whole calculation gives {abs(whole):.3g} N·m at the drum."
    return MappingProxyType(values), where, compare
