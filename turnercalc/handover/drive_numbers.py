"""What a design with a slotted lever or an actuator puts into the formulas of its drive."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from turnercalc import units
from turnercalc.checks.wording import place
from turnercalc.drives.linear_actuator import LinearActuator
from turnercalc.drives.slotted_lever import SlottedLever
from turnercalc.handover.cycle_record import hardest_load
from turnercalc.loads import hardest
from turnercalc.paths import CirclePath

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing

Numbers = tuple[Mapping[str, float], str, str]


class Hardest(NamedTuple):
    """The place in the cycle where the hardest planned load is hardest."""

    at: int
    load: int
    load_torque: float
    shaft: float
    where: str


def lever_numbers(sizing: Sizing) -> Numbers | None:
    """Return the letters of a slotted lever, where they belong and what they are compared with.

    None for a slot that does not point at the pivot, which the formulas are not for.
    """
    drive, path = sizing.drive, sizing.turner.path()
    if not isinstance(drive, SlottedLever) or not isinstance(path, CirclePath):
        return None
    if float(np.asarray(drive.off_line)) != 0.0 or sizing.cycle is None:
        return None
    found = _hardest(sizing)
    centres = float(np.arctan2(drive.height, drive.across))
    values = {
        "r": float(np.asarray(drive.crank)),
        "d": float(drive.distance),
        "t": _turned(float(sizing.cycle.motion.position[found.at]) - centres),
    }
    load = units.show(abs(found.load_torque), "torque")
    compare = (
        f"The load torque there is {load} with middle friction; "
        f"with that of slot and pin the shaft takes {units.show(found.shaft, 'torque')}."
    )
    return MappingProxyType(values), found.where, compare


def actuator_numbers(sizing: Sizing) -> Numbers | None:
    """Return the letters of an actuator across a pivot, where, and what they are compared with."""
    drive, path = sizing.drive, sizing.turner.path()
    if not isinstance(drive, LinearActuator) or not isinstance(path, CirclePath):
        return None
    if sizing.cycle is None:
        return None
    found = _hardest(sizing)
    arm = float(sizing.cycle.motion.coordinate[found.at]) + float(np.asarray(path.angle))
    values = {
        "p": float(np.hypot(drive.across, drive.height)),
        "q": float(np.asarray(path.radius)),
        "u": _turned(arm - float(np.arctan2(drive.height, drive.across))),
        "T": found.load_torque,
    }
    compare = (
        "Positive pushes. With the friction of both eyes and the actuator's own weight its motor "
        f"gives {units.show(found.shaft, 'force')} there."
    )
    return MappingProxyType(values), found.where, compare


def _hardest(sizing: Sizing) -> Hardest:
    cycle = sizing.cycle
    assert cycle is not None
    way, middle = sizing.told_direction, cycle.levels.index("middle")
    at, load = hardest(cycle, middle, way).position, hardest_load(sizing)
    rises = float(cycle.motion.rate[at]) * (1.0, -1.0)[way] > 0.0
    told = place(sizing.turner, float(cycle.motion.coordinate[at]), rises)
    return Hardest(
        at=at,
        load=load,
        load_torque=float(cycle.load_torque[load, middle, way, at]),
        shaft=float(cycle.shaft_torque[load, middle, way, at]),
        where=f"{cycle.loads[load].name}, hardest at {told}",
    )


def _turned(angle: float) -> float:
    """Return an angle between minus and plus half a turn [rad]."""
    return float(np.arctan2(np.sin(angle), np.cos(angle)))
