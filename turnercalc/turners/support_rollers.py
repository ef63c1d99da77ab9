"""Rollers under the rim of a drum: what they carry, what they cost, and how far they grip.

Two rows of rollers carry the rim, one on either side, each the same angle A from straight below
the axle. A driven roller pulls along the rim, and that pull shifts weight from one row to the
other. Balance of the forces on the drum, with F along the rim at the driven row::

    N1 + N2 = (W - F sin A) / cos A            N1 - N2 = F cos A / sin A

F is what the drum takes to turn, so the losses hang on the load torque and on the way it turns.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.tables import Range3

Array = NDArray[np.float64]

NOTHING = Range3(0.0, 0.0, 0.0)


class Rows(NamedTuple):
    """Which rows of rollers a motor turns, seen in the cross-section."""

    left: bool
    right: bool


NEITHER, BOTH = Rows(left=False, right=False), Rows(left=True, right=True)
LEFT, RIGHT = Rows(left=True, right=False), Rows(left=False, right=True)


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
    turned : tuple of Rows
        Which rows the motor turns; more than one where it is not known, and then the costliest
        counts. Rows that nobody turns are dragged round by a drum that is turned at its axle.
    """

    rim_radius: float
    roller_radius: float
    half_angle: float
    axle_diameter: float = 0.0
    friction: JointFriction = FRICTIONLESS
    rolling_arm: Range3 = NOTHING
    turned: tuple[Rows, ...] = (NEITHER,)

    def arms(self, levels: Sequence[str]) -> Array:
        """Return the arm of rolling resistance at friction levels [m], shape (F, 1, 1)."""
        at = {"none": 0.0, "starting": self.rolling_arm.high}
        arms = [at[level] if level in at else getattr(self.rolling_arm, level) for level in levels]
        return np.asarray(arms, float)[:, None, None]

    def resistance(
        self,
        weight: Array,
        lean: float,
        torque: ArrayLike,
        sense: ArrayLike,
        levels: Sequence[str],
    ) -> RollerResistance:
        """Return what the rollers cost a drum.

        Parameters
        ----------
        weight : ndarray
            Of the drum and its eggs [N].
        lean : float
            How far the box stands out of level, anticlockwise [rad].
        torque : array_like
            Load torque of the drum without friction, positive where turning it anticlockwise
            takes it [N·m].
        sense : array_like
            Sign of the drum's speed.
        levels : sequence of str
            Friction levels.
        """
        return RollerResistance(
            rollers=self,
            down=weight * np.cos(lean),
            aside=-weight * np.sin(lean),
            torque=np.asarray(torque, float),
            sense=np.asarray(sense, float),
            circle=self.friction.circle(self.axle_diameter, levels),
            rolling=self.arms(levels),
        )


class Presses(NamedTuple):
    """What one row of rollers does to the rim [N].

    Attributes
    ----------
    normal : ndarray
        Towards the axle of the drum; below zero, the drum has climbed off it.
    along : ndarray
        Along the rim, anticlockwise.
    """

    normal: Array
    along: Array

    @property
    def whole(self) -> Array:
        """What the rollers' own axles carry [N]."""
        return np.hypot(np.maximum(self.normal, 0.0), self.along)


@dataclass(frozen=True)
class RollerResistance:
    """Friction of a drum on rollers, as a function of a force on the drum.

    A roller turns R/r times as fast as the drum and the other way round. Each contact costs its
    press times the arm of rolling resistance at the speed of drum and roller together, and each
    roller what its axle carries times the friction circle at the roller's own speed. What the
    rim has to give a row that is dragged comes off its pull, what a driven row loses does not:
    the motor pays that before the rim.

    Attributes
    ----------
    rollers : SupportRollers
        Radii, places, and who turns them.
    down, aside : ndarray
        The weight across the box and along it, down and to the right [N].
    torque : ndarray
        Load torque without friction [N·m].
    sense : ndarray
        Sign of the drum's speed.
    circle, rolling : ndarray
        Friction circle of a roller's axle, and arm of rolling resistance [m].
    """

    rollers: SupportRollers
    down: Array
    aside: Array
    torque: Array
    sense: Array
    circle: Array
    rolling: Array

    @property
    def dragged(self) -> Array:
        """What a dragged row takes along the rim for each newton on it [-].

        Moments about its axle, T r = N f + c hypot(N, T), solved for T/N.
        """
        r, f, c = self.rollers.roller_radius, self.rolling, self.circle
        return np.asarray((r * f + c * np.sqrt(r * r + f * f - c * c)) / (r * r - c * c))

    def presses(self, rows: Rows, x: ArrayLike, y: ArrayLike) -> tuple[Presses, Presses]:
        """Return what the left and the right row do to the rim under a force (x, y) on it [N]."""
        down, aside = self.down - np.asarray(y, float), self.aside + np.asarray(x, float)
        if rows == NEITHER:
            return self._dragged(down, aside)
        if rows == BOTH:
            return self._shared(down, aside)
        way = 1.0 if rows.right else -1.0
        driven, other = self._pulled(down, way * aside, way * self.torque, way * self.sense)
        driven, other = (Presses(one.normal, way * one.along) for one in (driven, other))
        return (other, driven) if rows.right else (driven, other)

    def _pulled(
        self, down: Array, aside: Array, torque: Array, sense: Array
    ) -> tuple[Presses, Presses]:
        """Return the driven and the other row, the driven one on the right.

        With k the share a dragged row takes and f the arm of rolling resistance, moments about
        the axle give the driven row's pull, T1 = Q/R + s (N1 + N2) f/R + s k N2, and T2 = -s k N2.
        Put into the balance of forces, two equations for N1 and N2 are left::

            (N1 + N2) cos A + (T1 - T2) sin A = down
            (N2 - N1) sin A + (T1 + T2) cos A = -aside
        """
        pull, drag = torque / self.rollers.rim_radius, sense * self.dragged
        flat = sense * self.rolling / self.rollers.rim_radius
        sine, cosine = np.sin(self.rollers.half_angle), np.cos(self.rollers.half_angle)
        up_driven, up_other = cosine + flat * sine, cosine + (flat + 2.0 * drag) * sine
        side_driven, side_other = flat * cosine - sine, flat * cosine + sine
        up, side = down - pull * sine, -aside - pull * cosine
        all_ = up_driven * side_other - up_other * side_driven
        driven = (up * side_other - up_other * side) / all_
        other = (up_driven * side - up * side_driven) / all_
        along = pull + flat * (driven + other) + drag * other
        return Presses(driven, along), Presses(other, -drag * other)

    def _shared(self, down: Array, aside: Array) -> tuple[Presses, Presses]:
        """Return the left and the right row where both pull.

        Statics leaves open how they share; each is taken to pull half. Then N1 + N2 = W/cos A,
        the most it can be.
        """
        sine, cosine = np.sin(self.rollers.half_angle), np.cos(self.rollers.half_angle)
        both = down / cosine
        pull = (self.torque + self.sense * self.rolling * both) / self.rollers.rim_radius
        more = (pull * cosine + aside) / sine
        along = np.asarray(0.5 * pull)
        return Presses(0.5 * (both - more), along), Presses(0.5 * (both + more), along)

    def _dragged(self, down: Array, aside: Array) -> tuple[Presses, Presses]:
        """Return the left and the right row where the drum is turned at its axle."""
        sine, cosine = np.sin(self.rollers.half_angle), np.cos(self.rollers.half_angle)
        drag = self.sense * self.dragged
        both = (down + drag * aside) / (cosine * (1.0 + drag * drag))
        more = (aside - drag * both * cosine) / sine
        left, right = 0.5 * (both - more), 0.5 * (both + more)
        return Presses(left, -drag * left), Presses(right, -drag * right)

    def _cost(self, rows: Rows, x: ArrayLike, y: ArrayLike) -> Array:
        """Return the loss of both rows for each radian of the drum [N·m]."""
        faster = self.rollers.rim_radius / self.rollers.roller_radius
        return np.asarray(
            sum(
                self.rolling * (1.0 + faster) * np.maximum(row.normal, 0.0)
                + self.circle * faster * row.whole
                for row in self.presses(rows, x, y)
            )
        )

    def __call__(self, x: ArrayLike, y: ArrayLike) -> Array:
        """Return the friction torque at the axle [N·m] under a force [N] on the drum."""
        costs = [self._cost(rows, x, y) for rows in self.rollers.turned]
        return np.asarray(np.maximum.reduce(costs))

    def bearing_forces(self, x: ArrayLike, y: ArrayLike) -> Mapping[str, Array]:
        """Return the force on the axles of the row that bears more [N]."""
        rows = [row.whole for rows in self.rollers.turned for row in self.presses(rows, x, y)]
        return {"support rollers": np.maximum.reduce(np.broadcast_arrays(*rows))}
