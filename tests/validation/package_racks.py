"""The package's own rack made from the bare numbers, for the tests that compare.

This is the only bridge between the numbers and the package; the outside opinions never see it.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from turnercalc import joints
from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.drives.crank_link import CrankLink
from turnercalc.turners import tilting_trays
from turnercalc.turners.base import LoadCase

from .rack_examples import RACKS
from .rack_numbers import FRICTIONLESS, PointMass, Rack, RackFriction, Spring

# The examples the package can describe: link on the lowest arm, no torsion spring.
COMPARED = {
    name: make
    for name, make in RACKS.items()
    if make().driven == 0 and not any(t.torsion_springs for t in make().trays)
}


def split_masses(rack: Rack) -> tuple[list[list[PointMass]], list[PointMass]]:
    """Masses that differ from tray to tray or are equal on all: egg rows, and the rest.

    The examples write the rows of eggs first, all at one height; what follows is on every tray.
    """
    shortest = min(len(tray.masses) for tray in rack.trays)
    common = 0
    while common < shortest and len({t.masses[-1 - common] for t in rack.trays}) == 1:
        common += 1
    if len({t.masses for t in rack.trays}) == 1:
        # All trays are loaded alike: the rows are the masses at the height of the first.
        height = rack.trays[0].masses[0].y
        common = sum(m.y != height for m in rack.trays[0].masses)
    rows = [list(tray.masses[: len(tray.masses) - common]) for tray in rack.trays]
    return rows, list(rack.trays[0].masses[len(rack.trays[0].masses) - common :])


def package_trays(
    rack: Rack, friction: RackFriction
) -> tuple[tilting_trays.TiltingTrays, LoadCase]:
    """The package's turner and load case for a rack; every row is counted in whole eggs."""
    rows, rest = split_masses(rack)
    places = sorted({m.x for tray in rows for m in tray})
    heights = {m.y for tray in rows for m in tray}
    assert len(heights) == 1
    egg = min(m.mass for tray in rows for m in tray if m.mass > 0)
    cells = np.zeros((len(rack.trays), len(places)), dtype=np.int64)
    for i, tray in enumerate(rows):
        for m in tray:
            cells[i, places.index(m.x)] = round(m.mass / egg)
            assert abs(m.mass - egg * round(m.mass / egg)) < 1e-12
    springs: list[Spring] = [s for tray in rack.trays for s in tray.springs]
    assert len(springs) == len(rack.trays[0].springs) <= 1
    weights = tuple(tilting_trays.PointMass(m.mass, m.x, m.y) for m in rest)
    trays = tilting_trays.TiltingTrays(
        count=len(rack.trays),
        row_places=tuple(places),
        eggs_per_row=int(cells.max()),
        egg_mass=egg,
        egg_height=heights.pop(),
        tray_mass=0.0,  # it is among the weights
        tray_height=0.0,
        arm_length=rack.arm_length,
        arm_angle=rack.arm_angle,
        wanted_tilt=np.radians(45.0),
        tie_bar_mass=rack.tie_bar_mass,
        pivot_diameter=2 * friction.pivots.radius,
        tie_pin_diameter=2 * friction.tie_bar_pins.radius,
        pivot_friction=_constant(friction.pivots.coefficient),
        tie_friction=_constant(friction.tie_bar_pins.coefficient),
        weights=weights,
        spring=tilting_trays.Spring(*_spring(springs[0])) if springs else None,
    )
    return trays, LoadCase("as_given", "as given", "as_given", True, cells)


def package_crank(rack: Rack, friction: RackFriction) -> CrankLink:
    """The package's crank and link for a rack."""
    assert friction.crank_pin == friction.arm_pin  # the package has one figure for both
    return CrankLink(
        crank=rack.crank.radius,
        link=rack.crank.length,
        across=rack.crank.shaft_x,
        height=rack.crank.shaft_y,
        branch=float(rack.crank.push_sense),
        link_mass=rack.crank.link_mass,
        pin_diameter=2 * friction.crank_pin.radius,
        friction=_constant(friction.crank_pin.coefficient),
    )


def package_cycle(
    rack: Rack, angles: NDArray[np.float64], friction: RackFriction = FRICTIONLESS
) -> TurnCycle:
    """The package's turn cycle of a rack at the given crank angles; one load, one friction."""
    turner, load = package_trays(rack, friction)
    drive = package_crank(rack, friction)
    return turn_cycle(turner, drive, [load], levels=("middle",), positions=angles)


def _constant(mu: float) -> joints.JointFriction:
    return joints.JointFriction(mu, mu, mu, mu)


def _spring(s: Spring) -> tuple[float, ...]:
    return (s.stiffness, s.free_length, s.part_x, s.part_y, s.fixed_x, s.fixed_y)
