"""A linear actuator in the workshop: its eye on the frame, and what is seen from the side."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from turnercalc.ingredients import Ingredients
from turnercalc.paths import Path
from turnercalc.pieces import Fastener, Fixed, Made
from turnercalc.sight import BAR, DISC, Sight, through

if TYPE_CHECKING:
    from turnercalc.drives.linear_actuator import LinearActuator

Array = NDArray[np.float64]

TUBE_SEEN = 0.85  # share of the shortest length that is shown as the tube


def actuator_made(drive: LinearActuator, ingredients: Ingredients) -> Made:
    """Return the place of the fixed eye, and what to buy."""
    del ingredients
    pin = drive.pin_diameter or None
    eye = Fixed("actuator eye", float(drive.across), float(drive.height), pin, measured_only=True)
    stroke, shortest = (f"{1e3 * float(x):g} mm" for x in (drive.stroke, drive.shortest))
    where = f"frame to turner; {stroke} stroke, {shortest} eye to eye when in"
    bought = (
        Fastener("linear actuator", 1, None, where),
        Fastener("pin or shoulder bolt", 2, pin, "both eyes of the actuator"),
        Fastener("lock nut", 2, pin, "pins of the actuator"),
    )
    return Made((), (eye,), bought)


def actuator_sights(
    drive: LinearActuator, path: Path, position: Array, coordinate: Array
) -> tuple[Sight, ...]:
    """Return tube, rod and both eyes."""
    del position
    eye = (np.asarray(drive.across, float), np.asarray(drive.height, float))
    x, y = path.point(coordinate)
    length = np.hypot(x - eye[0], y - eye[1])
    share = TUBE_SEEN * float(drive.shortest) / length
    tube_end = (eye[0] + share * (x - eye[0]), eye[1] + share * (y - eye[1]))
    radius = 0.5 * drive.pin_diameter
    return (
        through("tube", BAR, eye, tube_end),
        through("rod", BAR, tube_end, (x, y)),
        through("pin", DISC, (x, y), radius=radius),
        through("pivot", DISC, eye, radius=radius),
    )
