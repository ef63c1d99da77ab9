"""A crank and slotted lever in the workshop: made, and seen from the side."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from turnercalc.drives.slot_loop import run_in_slot
from turnercalc.ingredients import Ingredients
from turnercalc.paths import CirclePath, Path
from turnercalc.pieces import Fastener, Fixed, Hole, Made, Piece, edge_round, strip
from turnercalc.sight import BAR, DISC, Sight, through

if TYPE_CHECKING:
    from turnercalc.drives.slotted_lever import SlottedLever

Array = NDArray[np.float64]

SHAFT_SEEN = 0.004  # m, radius of a shaft whose thickness depends on the motor
SPARE = 0.002  # m, between the pin and the end of its slot
WALL = 0.008  # m, left beside a slot (common practice, no source)
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


def slot_cut(drive: SlottedLever, made: Made, path: Path) -> Made:
    """Return a turner's pieces with the slot in its arm, in place of the hole for a pin."""
    if not isinstance(path, CirclePath):
        return made
    return replace(made, pieces=tuple(_with_slot(one, drive, path) for one in made.pieces))


def _with_slot(piece: Piece, drive: SlottedLever, path: CirclePath) -> Piece:
    if not any(hole.driven for hole in piece.holes):
        return piece
    wide = runner_size(drive) + drive.play
    run = run_in_slot(path, drive.geometry, drive.positions((0.0, 0.0), 360)).along
    reach = float(np.nanmin(run)) - SPARE, float(np.nanmax(run)) + SPARE
    way = np.exp(1j * float(path.angle + drive.angle))
    ends = [complex((along + 1j * drive.off_line) * way) for along in reach]
    # Where a tie bar joins several arms its pins stay, and one arm has the slot besides.
    kept = [hole for hole in piece.holes if piece.count > 1 or not hole.driven]
    cut = [
        Hole(f"slot, {which} end", at.real, at.imag, wide, slot=True)
        for which, at in zip(("near", "far"), ends, strict=True)
    ]
    holes = (*kept, *cut)
    edge = max(piece.edge, 0.5 * wide + WALL)
    one = " One of them has the slot." if piece.count > 1 else ""
    says = f"{piece.says}{one} Saw out the slot between its two end holes, {1e3 * wide:g} mm wide."
    return replace(piece, holes=holes, edge=edge, size=(*strip(holes, edge), None), says=says)


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
