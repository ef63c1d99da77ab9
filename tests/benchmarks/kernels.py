"""The contenders of the benchmarks, each written out so that a reader can judge the comparison."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from statistics import median
from time import perf_counter

import numpy as np
from numpy.typing import NDArray

from tests.racks import school_like_rack
from turnercalc.cycle import frictionless
from turnercalc.drives.crank_link import CrankLink
from turnercalc.turners.tilting_trays import TiltingTrays

Array = NDArray[np.float64]
GRAVITY = 9.80665


@dataclass(frozen=True)
class Designs:
    """Lengths of many racks that close [m], and crank angles [rad]."""

    crank: Array
    link: Array
    arm: Array
    across: Array
    height: Array
    angle: Array

    @classmethod
    def draw(cls, count: int, positions: int = 72, seed: int = 1) -> "Designs":
        """Return `count` racks around an ordinary one."""
        rng = np.random.default_rng(seed)
        link = rng.uniform(0.19, 0.21, count)
        return cls(
            crank=rng.uniform(0.040, 0.050, count),
            link=link,
            arm=rng.uniform(0.068, 0.075, count),
            across=rng.uniform(0.045, 0.055, count),
            height=-link,
            angle=np.arange(positions) * (2.0 * np.pi / positions),
        )


def bare_closed_form(
    designs: Designs, moment_across: float, moment_up: float, tie_bar: float
) -> tuple[Array, Array, Array, Array]:
    """Return tilt, its two derivatives and the torque: numpy and nothing else, one design a row.

    The arm's direction by the cosine rule, derivatives by the loop equation, gravity by virtual
    work on the trays' first moments and the tie bar at the arm pin.
    """
    r, b, a, cx, cy = (
        values[:, None]
        for values in (designs.crank, designs.link, designs.arm, designs.across, designs.height)
    )
    rx, ry = r * np.cos(designs.angle), r * np.sin(designs.angle)
    ax, ay = cx + rx, cy + ry
    distance2 = ax * ax + ay * ay
    q = np.arctan2(ay, ax) + np.arccos((a * a + distance2 - b * b) / (2 * a * np.sqrt(distance2)))
    cos, sin = np.cos(q), np.sin(q)
    ux, uy = a * cos - ax, a * sin - ay
    lever = a * (uy * cos - ux * sin)
    rate = (uy * rx - ux * ry) / lever
    vx, vy = ry - a * sin * rate, a * cos * rate - rx
    rate2 = rate * rate
    bend = ux * (rx - a * cos * rate2) + uy * (ry - a * sin * rate2)
    second = -(bend + vx * vx + vy * vy) / lever
    torque = (GRAVITY * (moment_across + tie_bar * a) * cos - GRAVITY * moment_up * sin) * rate
    return q, rate, second, torque


def our_rack(designs: Designs) -> tuple[TiltingTrays, CrankLink]:
    """Return the same designs as a turner and a drive with the designs on the first axis."""
    shape = (-1, 1, 1, 1, 1)
    turner, drive = school_like_rack()
    turner = replace(turner, arm_length=designs.arm.reshape(shape))
    drive = replace(
        drive,
        crank=designs.crank.reshape(shape),
        link=designs.link.reshape(shape),
        across=designs.across.reshape(shape),
        height=designs.height.reshape(shape),
        branch=1.0,
    )
    return turner, drive


def our_kernel(
    turner: TiltingTrays, drive: CrankLink, designs: Designs
) -> tuple[Array, Array, Array, Array]:
    """Return the same four arrays from the package's kernel, for full trays."""
    cells = np.stack([turner.cases[0].cells]).astype(float)
    results = frictionless(turner, drive, cells, designs.angle)
    return tuple(values[:, 0, 0, 0] for values in results)  # type: ignore[return-value]


def first_moments(turner: TiltingTrays) -> tuple[float, float]:
    """Return the first moments of the full trays, across and up [kg·m]."""
    cells = turner.cases[0].cells
    eggs = turner.egg_mass * cells
    across = float((eggs * np.array(turner.row_places)).sum())
    up = (
        float(eggs.sum() * turner.egg_height) + turner.count * turner.tray_mass * turner.tray_height
    )
    return across, up


def ratio(
    contender: Callable[[], object], reference: Callable[[], object], rounds: int = 15
) -> float:
    """Return the contender's time over the reference's, the median of paired rounds."""
    contender()
    reference()
    found = []
    for _ in range(rounds):
        start = perf_counter()
        reference()
        middle = perf_counter()
        contender()
        found.append((perf_counter() - middle) / (middle - start))
    return median(found)
