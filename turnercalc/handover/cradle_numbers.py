"""The numbers that a cradle puts into its formulas."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np

from turnercalc.checks.wording import place
from turnercalc.handover.cycle_record import cycle_of, hardest_load
from turnercalc.loads import hardest
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.turners.arc_on_rollers import ArcOnRollers
from turnercalc.turners.rocking_cradle import RockingCradle

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing


def cradle_numbers(sizing: Sizing) -> tuple[Mapping[str, float], str, str] | None:
    """Return letters with values, where they belong to, and what the whole calculation gives.

    The hardest planned load where it is hardest, the eggs in the middle of their seats; None for
    a design without a cradle.
    """
    cradle = sizing.turner
    if not isinstance(cradle, RockingCradle) or sizing.cycle is None:
        return None
    cycle, way = cycle_of(sizing), sizing.told_direction
    middle, load = cycle.levels.index("middle"), hardest_load(sizing)
    at = hardest(cycle, middle, way).position
    motion = cycle.motion
    cells = cycle.loads[load].cells[None].astype(float)
    mass, _, across, height = (float(np.squeeze(part)) for part in cradle.moments(cells))
    q, radius = float(motion.coordinate[at]), float(cradle.runner_radius)
    rises = float(motion.rate[at]) * (1.0, -1.0)[way] > 0.0
    torque = float(cycle.load_torque[load, middle, way, at])
    values = {
        "M": mass,
        "g": STANDARD_GRAVITY,
        "R": radius,
        "h": radius + height / mass,
        "a": round(across / mass, 9),
        "q": q,
    }
    if motion.bar_x is not None and motion.bar_y is not None and cradle.rolls_on_floor:
        pin_x, pin_y = (float(part) for part in cradle.path().point(q))
        values |= {
            "Q": torque,
            "X": pin_x + radius * q,
            "Y": pin_y,
            "b": float(np.arctan2(motion.bar_y[at], motion.bar_x[at])),
        }
    if isinstance(cradle, ArcOnRollers):
        left, right = (float(f[load, middle, way, at]) for f in _presses(sizing))
        values |= {
            "B": cradle.roller_angle,
            "W": (left + right) * float(np.cos(cradle.roller_angle)),
            "H": (right - left) * float(np.sin(cradle.roller_angle)),
        }
    where = f"{cycle.loads[load].name}, hardest at {place(cradle, q, rises)}"
    compare = (
        f"With loose eggs and middle friction the whole calculation gives {torque:.3g} N·m at the "
        "cradle."
    )
    return MappingProxyType(values), where, compare


def _presses(sizing: Sizing) -> tuple[np.ndarray, ...]:
    forces = cycle_of(sizing).pin_forces
    return tuple(forces[name] for name in forces if name.endswith("roller"))
