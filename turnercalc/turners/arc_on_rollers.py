"""An arc on fixed rollers: a cradle whose runners rest on two rollers that stay where they are.

The arc turns about its own middle as a tray does about a pivot, only that nothing stands there.
Origin and q as for the rocking cradle: the lowest point of the level runners, anticlockwise
positive.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.mechanics.numeric import cos_sin
from turnercalc.paths import RaisedCirclePath
from turnercalc.turners.rocking_cradle import RockingCradle, arms

Array = NDArray[np.float64]

#: What the presses of the two rollers are called among the forces on the pins.
LEFT, RIGHT = "left roller", "right roller"


@dataclass(frozen=True)
class ArcOnRollers(RockingCradle):
    """A cradle on two fixed rollers; the rest as for `RockingCradle`.

    Attributes
    ----------
    roller_angle : float
        Direction of either roller from straight below the arc's middle [rad].
    roller_radius : float
        [m].
    axle_diameter : float
        What the rollers turn on [m].
    axle_friction : JointFriction
        Of the rollers on their axles.
    """

    roller_angle: float = np.pi / 6
    roller_radius: float = 0.01
    axle_diameter: float = 0.0
    axle_friction: JointFriction = FRICTIONLESS

    rolls_on_floor = False

    @property
    def stands_at(self) -> float:
        """Direction of either roller from straight below the arc's middle [rad]."""
        return self.roller_angle

    def path(self) -> RaisedCirclePath:
        """Return the path of the driven pin."""
        return self.path_of(self.pin_across, self.pin_height)

    def path_of(self, across: ArrayLike, height: ArrayLike) -> RaisedCirclePath:
        """Return the circle of a point of the cradle about the arc's middle."""
        above = np.asarray(height, float) - self.runner_radius
        return RaisedCirclePath(
            self.runner_radius, np.hypot(across, above), np.arctan2(above, np.asarray(across))
        )

    def load_torque(self, cells: Array, coordinate: ArrayLike, sense: ArrayLike) -> Array:
        """Return dV/dq of cradle and eggs [N·m].

        V = M g (a sin t + (h - R) cos t) with t the tilt from true level, the box's lean included.
        """
        q = np.asarray(coordinate, float)
        _, eggs, across, height = self.moments(cells)
        across = across + eggs * self.shift(q, sense)
        cos, sin = cos_sin(q + self.lean)
        return np.asarray(STANDARD_GRAVITY * (across * cos - height * sin))

    def inertia(self, cells: Array, coordinate: ArrayLike) -> tuple[Array, Array]:
        """Return the inertia about the arc's middle [kg·m2]; it does not change with the tilt."""
        del coordinate
        total = self.about_arc(cells)
        return total, np.zeros_like(total)

    def accelerations(
        self, cells: Array, coordinate: ArrayLike, rate: ArrayLike, second: ArrayLike
    ) -> tuple[Array, Array]:
        """Return mass times the acceleration of the centre of mass (x, y) per shaft speed squared.

        `rate` and `second` are the derivatives of the coordinate by the shaft's position.
        """
        q, first, bend = (np.asarray(v, float) for v in (coordinate, rate, second))
        _, _, across, height = self.moments(cells)
        cos, sin = cos_sin(q)
        turned_x, turned_y = across * cos - height * sin, across * sin + height * cos
        return (
            np.asarray(-turned_y * bend - turned_x * first**2),
            np.asarray(turned_x * bend - turned_y * first**2),
        )

    def resistance(
        self, cells: Array, coordinate: ArrayLike, sense: ArrayLike, levels: Sequence[str]
    ) -> RollerResistance:
        """Return what the rollers cost as a function of the drive's force."""
        del coordinate
        weight = STANDARD_GRAVITY * self.moments(cells)[0]
        rolling = arms(self.rolling_arm, levels)
        # What an axle and the rolling itself take of a roller has to come along its rim.
        rim = rolling + self.axle_friction.circle(self.axle_diameter, levels)
        rim = rim / self.roller_radius
        return RollerResistance(
            pressing=weight * np.cos(self.lean),
            sliding=weight * np.sin(self.lean),
            angle=self.roller_angle,
            arm=rolling + rim * self.runner_radius,
            lag=np.asarray(sense, float) * np.arctan(rim),
        )


@dataclass(frozen=True)
class RollerResistance:
    """Losses at both rollers as a function of the force on the driven pin.

    A roller turns R/r times as fast as the arc and the other way round, so that the two turn
    against each other 1 + R/r times as fast: the loss per newton at a roller is the arm of
    rolling resistance times that, and the friction circle of its axle times R/r.

    Attributes
    ----------
    pressing, sliding : ndarray
        Weight down, and to the left, seen in the box [N].
    angle : float
        Direction of either roller from straight below the arc's middle [rad].
    arm : ndarray
        Loss per newton of press [m].
    lag : ndarray
        Angle by which the force of a roller misses the arc's middle, because the roller is
        dragged along its rim; signed as the arc turns [rad].
    """

    pressing: Array
    sliding: Array
    angle: float
    arm: Array
    lag: Array

    def presses(self, x: ArrayLike, y: ArrayLike) -> tuple[Array, Array]:
        """Return the press of the left and the right roller [N]; negative, the arc lifts off.

        The forces of both rollers, each turned by the lag from the line to the arc's middle,
        balance weight and drive; the press is what of a force points at the arc's middle.
        """
        down, along = self.pressing - np.asarray(y), np.asarray(x) - self.sliding
        left, right = self.lag - self.angle, self.lag + self.angle
        share = np.cos(self.lag) / np.sin(2.0 * self.angle)
        return (
            np.asarray((down * np.sin(right) - along * np.cos(right)) * share),
            np.asarray((along * np.cos(left) - down * np.sin(left)) * share),
        )

    def __call__(self, x: ArrayLike, y: ArrayLike) -> Array:
        """Return the moment that both rollers cost [N·m]; nothing where the arc is lifted off."""
        left, right = self.presses(x, y)
        return np.asarray(self.arm * (np.maximum(left, 0.0) + np.maximum(right, 0.0)))

    def bearing_forces(self, x: ArrayLike, y: ArrayLike) -> Mapping[str, Array]:
        """Return the press on either roller [N]; negative, the arc lifts off."""
        left, right = self.presses(x, y)
        return {LEFT: left, RIGHT: right}
