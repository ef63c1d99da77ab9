"""Rollers under the rim of a drum: what they carry, what they cost, and how far they grip.

Two rows of rollers carry the rim, one on either side, each the same angle A from straight below
the axle. A driven roller pulls along the rim, and that pull shifts weight from one row to the
other. Balance of the forces on the drum, with F along the rim at the driven row::

    N1 + N2 = (W - F sin A) / cos A            N1 - N2 = F cos A / sin A
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.tables import Range3

Array = NDArray[np.float64]

NOTHING = Range3(0.0, 0.0, 0.0)


def climbing_force(weight: ArrayLike, half_angle: ArrayLike) -> Array:
    """Return the pull along the rim at which a drum climbs out of its rollers [N].

    Parameters
    ----------
    weight : array_like
        That the rollers carry [N].
    half_angle : array_like
        From straight below the axle to either row of rollers [rad].

    Notes
    -----
    There the other row carries nothing any more: N2 = 0 where F = W sin A.
    """
    return np.asarray(np.asarray(weight, float) * np.sin(half_angle))


def gripping_force(
    weight: ArrayLike, half_angle: ArrayLike, grip: ArrayLike, *, both_driven: bool
) -> Array:
    """Return the pull along the rim at which driven rollers slip, in the worse direction [N].

    Parameters
    ----------
    weight, half_angle : array_like
        As for `climbing_force`.
    grip : array_like
        Friction coefficient of rim on roller [-].
    both_driven : bool
        Whether both rows are driven, or only one.

    Notes
    -----
    With one row driven, F = mu N1 and N1 = W/(2 cos A) -+ F cot 2A; the direction that takes
    weight off the driven row is the worse one. A drum that climbs out first does not slip: see
    `climbing_force`. With both driven, F1 = mu N1 and F2 = mu N2 give together
    mu W/(cos A (1 + mu2)).
    """
    w, angle, mu = (np.asarray(one, float) for one in (weight, half_angle, grip))
    if both_driven:
        return np.asarray(mu * w / (np.cos(angle) * (1.0 + mu * mu)))
    return np.asarray(mu * w / (2.0 * np.cos(angle) * (1.0 + mu * np.abs(1.0 / np.tan(2 * angle)))))


@dataclass(frozen=True)
class SupportRollers:
    """Two rows of rollers under a drum's rim.

    Attributes
    ----------
    rim_radius, roller_radius : float
        Of the rim that runs on them, and of one roller [m].
    half_angle : float
        From straight below the axle to either row [rad].
    axle_diameter : float
        Of a roller's own axle in its bearings [m].
    friction : JointFriction
        Of a roller's axle.
    rolling_arm : Range3
        Arm of rolling resistance of the rim on a roller [m].
    """

    rim_radius: float
    roller_radius: float
    half_angle: float
    axle_diameter: float = 0.0
    friction: JointFriction = FRICTIONLESS
    rolling_arm: Range3 = NOTHING

    def arm(self, levels: Sequence[str]) -> Array:
        """Return the friction torque at the drum for each newton of weight [m], shape (F, 1, 1).

        Every newton on a roller costs its axle's friction circle at the roller's speed, and the
        rolling arm at the speed of drum and roller together.
        """
        faster = self.rim_radius / self.roller_radius
        circle = self.friction.circle(self.axle_diameter, levels)
        at = {"none": 0.0, "starting": self.rolling_arm.high}
        arms = [at[level] if level in at else getattr(self.rolling_arm, level) for level in levels]
        rolling = np.array(arms)[:, None, None]
        return np.asarray((circle * faster + rolling * (1.0 + faster)) / np.cos(self.half_angle))


@dataclass(frozen=True)
class RollerResistance:
    """Friction of a drum on rollers, as a function of a force on the drum.

    Attributes
    ----------
    weight : ndarray
        [N].
    arm : ndarray
        Friction torque for each newton of weight [m].
    half_angle : float
        [rad].
    """

    weight: Array
    arm: Array
    half_angle: float

    def __call__(self, x: ArrayLike, y: ArrayLike) -> Array:
        """Return the friction torque at the axle [N·m]; `y` lifts the drum, `x` is not counted."""
        del x
        return np.asarray(self.arm * np.abs(self.weight - np.asarray(y, float)))

    def bearing_forces(self, x: ArrayLike, y: ArrayLike) -> Mapping[str, Array]:
        """Return the force on either row of rollers [N], shared alike."""
        del x
        carried = np.abs(self.weight - np.asarray(y, float))
        return {"support rollers": np.asarray(0.5 * carried / np.cos(self.half_angle))}
