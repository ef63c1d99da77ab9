"""A rotating drum in the workshop: its axle, arm and marks, made and seen from the side."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from turnercalc.ingredients import Ingredients
from turnercalc.pieces import Fastener, Fixed, Hole, Made, Piece, edge_round, strip
from turnercalc.sight import BAR, DISC, Sight, through

if TYPE_CHECKING:
    from turnercalc.turners.rotating_drum import RotatingDrum

Array = NDArray[np.float64]

WEIGHT_SEEN = 0.010  # m, radius at which a counterweight is shown


def drum_made(drum: RotatingDrum, ingredients: Ingredients) -> Made:
    """Return the end plates with the places of the shelves, the axle's hole, and an arm."""
    del ingredients
    axle = drum.axle_diameter or None
    radius = float(drum.shelf_radius)
    turns = [0.5 * math.pi + 2.0 * math.pi * n / drum.shelves for n in range(drum.shelves)]
    shelves = tuple(
        Hole(f"shelf {n}", radius * math.cos(turn), radius * math.sin(turn))
        for n, turn in enumerate(turns, start=1)
    )
    plate = Piece(
        "end_plate",
        "end plate",
        2,
        (Hole("axle", 0.0, 0.0, axle), *shelves),
        edge_round(axle),
        shape="disc",
        template=False,
        says=f"{drum.shelves} shelves every {360.0 / drum.shelves:g}°, shelf 1 straight above the "
        "axle, the others anticlockwise from it. Drill both plates together.",
    )
    pieces = [plate]
    if float(np.max(np.asarray(drum.arm_length))) > 0.0:
        x, y = (float(value) for value in drum.path().point(0.0))
        holes = (Hole("axle", 0.0, 0.0, axle), Hole("arm pin", x, y, driven=True))
        edge = edge_round(axle)
        pieces.append(
            Piece(
                "arm",
                "arm",
                1,
                holes,
                edge,
                (*strip(holes, edge), None),
                says="Fixed to the drum so that it stands like this with shelf 1 on top.",
                critical=("arm.length",),
            )
        )
    return Made(
        tuple(pieces),
        (Fixed("axle", 0.0, 0.0, axle),),
        (Fastener("bearing", drum.bearing_count, axle, "axle"),) if axle else (),
    )


def drum_sights(drum: RotatingDrum, coordinate: Array) -> tuple[Sight, ...]:
    """Return the spokes of the shelves, the arm, the counterweight and the axle."""
    q = np.asarray(coordinate, float)
    radius = float(drum.shelf_radius)
    turns = [0.5 * np.pi + 2.0 * np.pi * n / drum.shelves for n in range(drum.shelves)]
    middle = (0.0 * q, 0.0 * q)
    seen = [
        through(
            "shelf 1" if n == 0 else "shelf",
            BAR,
            middle,
            drum.path_of(radius * np.cos(turn), radius * np.sin(turn)).point(q),
        )
        for n, turn in enumerate(turns)
    ]
    if float(np.max(np.asarray(drum.arm_length))) > 0.0:
        seen.append(through("arm", BAR, middle, drum.path().point(q)))
    if drum.counterweight is not None:
        weight = drum.counterweight
        turn = 0.5 * np.pi + 2.0 * np.pi * (weight.shelf - 1.0) / drum.shelves
        place = drum.path_of(weight.radius * np.cos(turn), weight.radius * np.sin(turn)).point(q)
        seen.append(through("counterweight", DISC, place, radius=WEIGHT_SEEN))
    seen.append(through("pivot", DISC, (0.0, 0.0), radius=0.5 * drum.axle_diameter or 0.003))
    return tuple(seen)
