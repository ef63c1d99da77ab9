"""Moving parts with drives that the outside opinions and the package are all asked about.

All are invented. Positions are crank or shaft angles [rad], or eye to eye [m].
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, radians

import numpy as np
from numpy.typing import NDArray

from .turner_numbers import (
    Actuator,
    Bars,
    CrankLink,
    Drive,
    EggOnBars,
    Grid,
    Part,
    PointMass,
    Rocker,
    RollingEgg,
    Shaft,
    SlottedLever,
    Swing,
)

ROUND = (0.0, 2 * pi)


@dataclass(frozen=True)
class Example:
    """A part, its drive, and the positions between which the drive runs."""

    part: Part
    drive: Drive
    travel: tuple[float, float] = ROUND

    def positions(self, steps: int = 72) -> NDArray[np.float64]:
        """Positions of the drive; once round without repeating the end, or both ends."""
        return np.linspace(*self.travel, steps + 1)[: steps if self.travel == ROUND else None]


TRAY = Swing((PointMass(2.1, 0.012, 0.021), PointMass(0.7, -0.004, 0.002)), pin_x=0.080, pin_y=0.0)
CRADLE = Rocker(
    0.400, (PointMass(8.0, 0.010, 0.150), PointMass(2.5, 0.000, 0.060)), pin_x=0.0, pin_y=0.250
)
EGGS = tuple(
    RollingEgg(0.058, 0.0215, 1.1e-5, off_centre=0.0012, heavy_side=radians(side))
    for side in (-140.0, 10.0, 75.0)
)
GRID = Grid(0.45, EGGS, slope=radians(1.0))
SHELF = 12 * 0.058333
DRUM = Swing(
    tuple(
        PointMass(SHELF, 0.180 * np.cos(pi / 4 * i), 0.180 * np.sin(pi / 4 * i)) for i in range(4)
    ),
    pin_x=0.0,
    pin_y=-0.150,
)

EXAMPLES = {
    "tray by crank and link": Example(TRAY, CrankLink(0.055, 0.055, -0.19, 0.19, +1, 0.07)),
    "tray by slotted lever": Example(TRAY, SlottedLever(0.10, 0.02, -0.22, 0.0, 0.0, -1.48)),
    "tray by actuator": Example(TRAY, Actuator(0.075, -0.25, +1), (0.20, 0.30)),
    "tray by its shaft": Example(TRAY, Shaft(), (-0.8, 0.8)),
    "cradle by crank and link": Example(CRADLE, CrankLink(0.05, 0.25, 0.22, 0.25, +1, 0.09)),
    "cradle by actuator": Example(CRADLE, Actuator(0.30, 0.20, +1), (0.26, 0.34)),
    "grid by crank and link": Example(GRID, CrankLink(0.035, -0.20, 0.01, 0.20, +1, 0.05)),
    "grid by slotted lever": Example(GRID, SlottedLever(0.035, 0.0, -0.10, 0.0, -0.2, pi / 2)),
    "grid by actuator": Example(GRID, Actuator(-0.30, 0.01, +1), (0.25, 0.35)),
    "drum by its shaft": Example(DRUM, Shaft()),
    "drum by crank and link": Example(DRUM, CrankLink(0.10, 0.26, -0.10, 0.27, +1, 0.10)),
}

BARS = Bars(
    4,
    radius=0.0125,
    spacing=0.068,
    inertia=2.0e-5,
    eggs=(
        EggOnBars(RollingEgg(0.155, 0.02875, 5.0e-5, 0.0010, radians(20.0)), 0),
        EggOnBars(RollingEgg(0.148, 0.02650, 4.5e-5, 0.0015, radians(-70.0)), 1),
        EggOnBars(RollingEgg(0.170, 0.03150, 6.0e-5, 0.0005, radians(160.0)), 2),
    ),
)
