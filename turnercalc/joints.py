"""Friction in joints, as a builder can know it: a range while moving, and from rest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

#: The friction axis of every cycle.
LEVELS = ("low", "middle", "high")


@dataclass(frozen=True)
class JointFriction:
    """The friction coefficient of one kind of joint.

    Attributes
    ----------
    low, middle, high : float
        Coefficient while moving [-].
    starting : float
        Highest coefficient from rest [-]; never below `high`.
    """

    low: float
    middle: float
    high: float
    starting: float

    def at(self, levels: Sequence[str]) -> Array:
        """Return the coefficients of the named levels along the friction axis, shape (F, 1, 1).

        Levels are ``none``, ``low``, ``middle``, ``high`` and ``starting``.
        """
        values = [0.0 if level == "none" else getattr(self, level) for level in levels]
        return np.array(values, float)[:, None, None]

    def circle(self, diameter: ArrayLike, levels: Sequence[str]) -> Array:
        """Return the radius of the friction circle, r sin(atan mu) [m], shape (F, 1, 1).

        A journal of radius r under the force F resists its turning with F times this radius
        (Beer and Johnston, Vector Mechanics, section 8.6 on journal bearings, from memory).
        """
        mu = self.at(levels)
        return np.asarray(0.5 * np.asarray(diameter, float) * mu / np.hypot(1.0, mu))


FRICTIONLESS = JointFriction(0.0, 0.0, 0.0, 0.0)
