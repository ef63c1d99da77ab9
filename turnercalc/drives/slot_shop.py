"""A crank and slotted lever in the workshop: made, and seen from the side."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from turnercalc.drives.slot_loop import run_in_slot
from turnercalc.ingredients import Ingredients
from turnercalc.paths import Path
from turnercalc.pieces import Fastener, Fixed, Hole, Made, Piece, edge_round
from turnercalc.sight import BAR, DISC, Sight, through

if TYPE_CHECKING:
    from turnercalc.drives.slotted_lever import SlottedLever

Array = NDArray[np.float64]

SHAFT_SEEN = 0.004  # m, radius of a shaft whose thickness depends on the motor
END = 0.010  # m, what a slot goes on beyond the middle of the pin at its ends


def runner_size(drive: SlottedLever) -> float:
    """Return the width of what runs in the slot [m]."""
    return drive.roller_diameter if drive.follower == "roller" else drive.pin_diameter


def slot_ends(drive: SlottedLever, path: Path) -> tuple[float, float]:
    """Return how far the slot reaches from its foot, nearer and farther end [m]."""
    along = run_in_slot(path, drive.geometry, drive.positions((0.0, 0.0), 360)).along
    return float(np.nanmin(along)) - END, float(np.nanmax(along)) + END


def slot_made(drive: SlottedLever, ingredients: Ingredients) -> Made:
    """Return the crank, the shaft's hole, and what runs in the slot."""
    del ingredients
    pin, width = drive.pin_diameter or None, runner_size(drive)
    crank = Piece(
        "crank",
        "crank",
        holes=(Hole("shaft", 0.0, 0.0), Hole("crank pin", float(drive.crank), 0.0, pin)),
        edge=edge_round(pin),
        shape="disc",
        says="A disc or a strip. Bore it to the motor's shaft; a grub screw on the flat holds. "
        f"The slot in the turner is {1e3 * (width + drive.play):g} mm wide.",
        critical=("crank.radius",),
    )
    shaft = Fixed("crank shaft", float(drive.across), float(drive.height), measured_only=True)
    bought = [Fastener("crank pin or shoulder bolt", 1, pin, "crank")]
    if drive.follower == "roller":
        bought.append(Fastener("roller", 1, width, "on the crank pin"))
    return Made((crank,), (shaft,), tuple(bought))


def slot_sights(
    drive: SlottedLever, path: Path, position: Array, coordinate: Array
) -> tuple[Sight, ...]:
    """Return crank, slot, crank pin and shaft."""
    del coordinate
    run = run_in_slot(path, drive.geometry, np.asarray(position, float))
    low, high = slot_ends(drive, path)
    shaft, pin = (np.asarray(drive.across), np.asarray(drive.height)), (run.pin_x, run.pin_y)
    ends = [
        (run.pin_x + (at - run.along) * run.ex, run.pin_y + (at - run.along) * run.ey)
        for at in (low, high)
    ]
    return (
        through("slot", BAR, *ends),
        through("crank", BAR, shaft, pin),
        through("pin", DISC, pin, radius=0.5 * runner_size(drive)),
        through("shaft", DISC, shaft, radius=SHAFT_SEEN),
    )
