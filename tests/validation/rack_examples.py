"""Racks that the outside opinions and the package are all asked about.

All are invented. Each exercises something of its own; the names say what.
"""

from __future__ import annotations

from math import pi, radians

import numpy as np
from numpy.typing import NDArray

from .rack_numbers import (
    CrankLink,
    Journal,
    PointMass,
    Rack,
    RackFriction,
    Spring,
    TorsionSpring,
    Tray,
)


def rows(
    egg_mass: float, counts: tuple[int, ...], spacing: float, height: float
) -> tuple[PointMass, ...]:
    """Rows of eggs along the tilt axis, left row first, centred on the pivot."""
    middle = (len(counts) - 1) / 2
    return tuple(
        PointMass(n * egg_mass, (i - middle) * spacing, height) for i, n in enumerate(counts)
    )


def top_heavy_four() -> Rack:
    """Four full trays with the eggs above the pivots, no tie-bar weight, no link weight."""
    tray = Tray((*rows(0.058, (8,) * 7, 0.048, 0.035), PointMass(0.9, 0.0, 0.008)))
    crank = CrankLink(0.0707107, 0.0707107, -0.200, 0.200, +1)
    return Rack((tray,) * 4, 0.140, 0.100, 0.0, crank)


def bottom_heavy_three() -> Rack:
    """Three trays that hang below their pivots, with a heavy tie bar and link."""
    tray = Tray((*rows(0.0583, (6,) * 6, 0.050, -0.012), PointMass(0.68, 0.0, -0.020)))
    crank = CrankLink(0.050, 0.0495, -0.200, 0.200, +1, link_mass=0.08)
    return Rack((tray,) * 3, 0.130, 0.070, 0.0, crank, tie_bar_mass=0.25)


def slanted_arm_with_counterweight() -> Rack:
    """Two trays, arm pointing down to the left, counterweight on the other side of the pivot."""
    weight = PointMass(0.9, 0.085, 0.040)
    tray = Tray((*rows(0.088, (5,) * 5, 0.060, 0.018), PointMass(1.1, 0.0, -0.004), weight))
    crank = CrankLink(0.060, 0.037, -0.200, 0.190, -1, link_mass=0.12)
    return Rack((tray,) * 2, 0.160, 0.095, radians(-150.0), crank, tie_bar_mass=0.18)


def lopsided_three() -> Rack:
    """Three trays, of which two have eggs on the right only and one has none."""
    empty = PointMass(0.68, 0.003, -0.004)
    right = Tray((*rows(0.0583, (0, 0, 0, 6, 6, 6), 0.050, 0.010), empty))
    crank = CrankLink(0.050, 0.0495, -0.200, 0.200, +1, link_mass=0.08)
    return Rack((right, Tray((empty,)), right), 0.130, 0.070, 0.0, crank, tie_bar_mass=0.25)


def sprung_pair() -> Rack:
    """Two top-heavy trays, the lower with an extension spring that goes slack on the way."""
    masses = (*rows(0.0583, (6,) * 6, 0.050, 0.022), PointMass(0.68, 0.0, 0.004))
    spring = Spring(180.0, 0.100, -0.080, 0.015, -0.095, -0.110)
    crank = CrankLink(0.055, 0.060, -0.180, 0.194, +1, link_mass=0.06)
    trays = (Tray(masses, (spring,)), Tray(masses))
    return Rack(trays, 0.150, 0.080, radians(10.0), crank, tie_bar_mass=0.10)


def sprung_at_the_pivot() -> Rack:
    """Three trays, the middle one with a torsion spring, the link on the highest arm."""
    masses = (*rows(0.0583, (6,) * 6, 0.050, 0.022), PointMass(0.68, 0.0, 0.004))
    sprung = Tray(masses, torsion_springs=(TorsionSpring(0.9, radians(8.0)),))
    crank = CrankLink(0.050, 0.0495, 0.060, 0.200, +1, link_mass=0.08)
    trays = (Tray(masses), sprung, Tray(masses))
    return Rack(trays, 0.130, 0.070, 0.0, crank, tie_bar_mass=0.15, driven=2)


def to_and_fro_arc() -> Rack:
    """A crank longer than the arm, which could not go round; it runs over an arc."""
    tray = Tray((*rows(0.011, (10,) * 9, 0.032, 0.012), PointMass(0.30, 0.0, 0.002)))
    crank = CrankLink(0.080, 0.000, -0.150, 0.152, +1, link_mass=0.05)
    return Rack((tray,) * 3, 0.090, 0.060, 0.0, crank, tie_bar_mass=0.08)


def one_tray_pulled_from_above() -> Rack:
    """One tray of goose eggs, the shaft above it, the arm pointing left, a short link."""
    tray = Tray((*rows(0.155, (4, 4, 4, 4), 0.072, -0.006), PointMass(1.4, 0.002, -0.015)))
    crank = CrankLink(0.052, -0.060, 0.153, 0.150, +1, link_mass=0.09)
    return Rack((tray,), 0.0, 0.085, radians(180.0), crank)


WHOLE_TURN = (0.0, 2 * pi)
RACKS = {
    rack.__name__: rack
    for rack in (
        top_heavy_four,
        bottom_heavy_three,
        slanted_arm_with_counterweight,
        lopsided_three,
        sprung_pair,
        sprung_at_the_pivot,
        to_and_fro_arc,
        one_tray_pulled_from_above,
    )
}
ARCS = {"to_and_fro_arc": (radians(-33.0), radians(33.0))}


def crank_angles(name: str, steps: int = 72) -> NDArray[np.float64]:
    """Crank angles of a rack: once round without repeating the end, or its arc with both ends."""
    if name in ARCS:
        return np.linspace(*ARCS[name], steps + 1)
    return np.arange(steps) * 2 * pi / steps


FRICTION = RackFriction(
    pivots=Journal(0.0040, 0.30),
    crank_pin=Journal(0.0030, 0.20),
    arm_pin=Journal(0.0030, 0.20),
    tie_bar_pins=Journal(0.0030, 0.25),
)
