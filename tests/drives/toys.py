"""The simplest turner there can be: weights that move along paths, for any drive to push.

Its potential is the sum of weight times height, so a drive is tested without any real turner.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turnercalc.paths import CirclePath, LinePath, Path, TrochoidPath
from turnercalc.turners.base import LoadCase, Outline

Array = NDArray[np.float64]
G = 9.80665

FULL = LoadCase("full", "full", "full", True, np.ones(1, int))


@dataclass(frozen=True)
class Weights:
    """Weights on paths, with a pin on another path.

    Losses: a share of the size of the bearing force, which is weight and drive force together,
    and a constant.
    """

    pin: Path
    weights: tuple[tuple[float, Path], ...]
    travel: tuple[float, float] = (-0.6, 0.6)
    rubs: float = 0.0
    drags: float = 0.0
    extra_inertia: float = 0.0
    endless: bool = False
    coordinate_unit: str = "rad"

    rests_on_pin = True
    dimensions = MappingProxyType(dict[str, str]())
    origin_height = None
    origin_from_left = None
    origin_field = ""
    stack = ((0.0, 0.0),)

    def path(self) -> Path:
        return self.pin

    def potential(self, coordinate: Any) -> Array:
        return sum(G * mass * path.point(coordinate)[1] for mass, path in self.weights)

    def load_torque(self, cells: Array, coordinate: Any, sense: Any) -> Array:
        del cells, sense
        return np.asarray(
            sum(G * mass * path.tangent(coordinate)[1] for mass, path in self.weights)
        )[None, None, None]

    def inertia(self, cells: Array, coordinate: Any) -> tuple[Array, Array]:
        del cells
        total, slope = np.asarray(self.extra_inertia), np.zeros(())
        for mass, path in self.weights:
            tx, ty = path.tangent(coordinate)
            kx, ky = path.second(coordinate)
            total = total + mass * (tx * tx + ty * ty)
            slope = slope + 2.0 * mass * (tx * kx + ty * ky)
        return total[None, None, None], slope[None, None, None]

    def resistance(
        self, cells: Array, coordinate: Any, sense: Any, levels: Sequence[str]
    ) -> Rubbing:
        del cells, coordinate, sense
        share = np.array(
            [{"none": 0.0, "low": 0.5, "high": 1.5}.get(level, 1.0) for level in levels]
        )
        down = G * sum(mass for mass, _ in self.weights)
        return Rubbing(self.rubs * share[:, None, None], self.drags * share[:, None, None], down)

    def load_cases(self) -> tuple[LoadCase, ...]:
        return (FULL,)

    def outlines(self) -> tuple[Outline, ...]:
        return (Outline("egg", np.array([0.1, -0.1]), np.array([0.0, 0.0])),)

    def path_of(self, across: Any, height: Any) -> Path:
        if isinstance(self.pin, LinePath):
            return LinePath(across, height, self.pin.angle)
        return CirclePath(np.hypot(across, height), np.arctan2(height, across))


@dataclass(frozen=True)
class Rubbing:
    """Losses of the toy."""

    share: Array
    drag: Array
    down: float

    def __call__(self, x: Any, y: Any) -> Array:
        return np.asarray(self.share * np.hypot(x, np.asarray(y) - self.down) + self.drag)

    def bearing_forces(self, x: Any, y: Any) -> Mapping[str, Array]:
        return {"bearing": np.hypot(x, np.asarray(y) - self.down)}


def swinging(
    arm: float = 0.08, angle: float = 0.0, across: float = 0.012, height: float = 0.03, **more: Any
) -> Weights:
    """A part on a pivot: 2 kg a little off it, and a pin."""
    weight = CirclePath(np.hypot(across, height), np.arctan2(height, across))
    return Weights(CirclePath(arm, angle), ((2.0, weight),), **more)


def sliding(slope: float = 0.1, **more: Any) -> Weights:
    """A part of 1.5 kg that slides up a slope."""
    more = {"travel": (-0.03, 0.03), "coordinate_unit": "m"} | more
    return Weights(LinePath(0.0, 0.0, slope), ((1.5, LinePath(0.0, 0.0, slope)),), **more)


def rolling(radius: float = 0.4, pin: float = -0.15, **more: Any) -> Weights:
    """A cradle of 8 kg on arc runners, its pin straight below the arc's middle."""
    heavy = TrochoidPath(radius, np.hypot(0.01, 0.25), np.arctan2(-0.25, 0.01))
    path = TrochoidPath(radius, abs(pin), np.copysign(0.5 * np.pi, pin))
    return Weights(path, ((8.0, heavy),), **({"travel": (-0.35, 0.35)} | more))
