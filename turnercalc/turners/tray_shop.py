"""Tilting trays in the workshop: what is made, and what is seen from the side."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from turnercalc.ingredients import Ingredients
from turnercalc.pieces import Fastener, Fixed, Hole, Made, Piece, edge_round, strip
from turnercalc.sight import BAR, DISC, Sight, through

if TYPE_CHECKING:
    from turnercalc.turners.tilting_trays import TiltingTrays

Array = NDArray[np.float64]

#: Radius at which a counterweight is shown, whose size nobody said [m].
WEIGHT_SEEN = 0.012


def trays_made(rack: TiltingTrays, ingredients: Ingredients) -> Made:
    """Return trays, arms and tie bar, the pivots' holes, and what joins them."""
    armed = "arm" in ingredients.sections
    pieces = [_tray(rack, ingredients), *((_arm(rack),) if armed else ())]
    bought = [
        Fastener("pivot pin", 2 * rack.count, rack.pivot_diameter, "both ends of every tray"),
        Fastener("washer", 2 * rack.count, rack.pivot_diameter, "between tray and wall"),
    ]
    if armed and rack.count > 1:
        pin = rack.tie_pin_diameter
        pieces.append(_tie_bar(rack))
        bought += [
            Fastener("pin or shoulder bolt", rack.count, pin, "arms and tie bar"),
            Fastener("lock nut", rack.count, pin, "pins of the tie bar"),
        ]
    marked = {
        "trays.pitch": rack.pitch,
        "trays.lowest_pivot": rack.lowest_pivot,
        "trays.from_left_wall": rack.origin_from_left,
    }
    return Made(
        tuple(pieces),
        tuple(
            Fixed(f"pivot {n}", across, up, rack.pivot_diameter)
            for n, (across, up) in enumerate(rack.stack, start=1)
        ),
        tuple(bought),
        MappingProxyType({path: value for path, value in marked.items() if value is not None}),
    )


def _tray(rack: TiltingTrays, ingredients: Ingredients) -> Piece:
    trays = ingredients.sections["trays"]
    side = "below" if trays.egg_floor < 0.0 else "above"
    return Piece(
        "tray",
        "tray",
        rack.count,
        size=(trays.width, None, None),
        shape="sheet",
        template=False,
        says=f"{trays.rows} rows {1e3 * trays.row_spacing:g} mm apart, {trays.eggs_per_row} eggs "
        f"in each. The eggs stand {1e3 * abs(trays.egg_floor):g} mm {side} the pivot: a few mm "
        "count for the torque.",
    )


def _arm(rack: TiltingTrays) -> Piece:
    x, y = (float(value) for value in rack.path().point(0.0))
    holes = (
        Hole("pivot", 0.0, 0.0, rack.pivot_diameter),
        Hole("arm pin", x, y, rack.tie_pin_diameter, driven=True),
    )
    edge = edge_round(max(rack.pivot_diameter, rack.tie_pin_diameter))
    return Piece(
        "arm",
        "arm",
        rack.count,
        holes,
        edge,
        (*strip(holes, edge), None),
        says="Fixed to its tray so that it stands like this when the tray is level.",
        critical=("arm.length",),
    )


def _tie_bar(rack: TiltingTrays) -> Piece:
    pin = rack.tie_pin_diameter
    holes = tuple(
        Hole(f"arm pin {n}", 0.0, up, pin) for n, (_, up) in enumerate(rack.stack, start=1)
    )
    edge = edge_round(pin)
    return Piece(
        "tie_bar",
        "tie bar",
        1,
        holes,
        edge,
        (*strip(holes, edge), None),
        says="Drill it together with a batten that carries the pivots' holes: the distances must "
        "be the same.",
    )


def tray_sights(rack: TiltingTrays, coordinate: Array) -> tuple[Sight, ...]:
    """Return arms, tie bar, counterweights, spring and pivots, as seen from the side."""
    q = np.asarray(coordinate, float)
    at = [up for _, up in rack.stack]
    seen: list[Sight] = []
    if np.any(np.asarray(rack.arm_length) > 0.0):
        arm_x, arm_y = rack.path().point(q)
        seen += [through("arm", BAR, (0.0 * q, 0.0 * q + h), (arm_x, arm_y + h)) for h in at]
        if rack.count > 1:
            seen.append(through("tie bar", BAR, (arm_x, arm_y + at[0]), (arm_x, arm_y + at[-1])))
    for weight in rack.weights:
        x, y = rack.path_of(weight.across, weight.height).point(q)
        seen += [through("counterweight", DISC, (x, y + h), radius=WEIGHT_SEEN) for h in at]
    if rack.spring is not None:
        frame = (rack.spring.frame_across, rack.spring.frame_height)
        seen.append(through("spring", BAR, rack.spring.eye(q), frame))
    pivots = ((0.0, h) for h in at)
    seen.append(through("pivot", DISC, *pivots, radius=0.5 * rack.pivot_diameter))
    return tuple(seen)
