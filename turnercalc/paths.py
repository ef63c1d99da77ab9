"""Paths: where a pin fixed to the moving part goes, as a function of the turner's coordinate.

A turner offers the path of its pin, a drive closes its loop on it; neither knows the other.
Frame as everywhere: x right, y up, angles anticlockwise positive, origin of the turner.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Protocol

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.mechanics.numeric import cos_sin

Array = NDArray[np.float64]
Vector = tuple[Array, Array]

#: A length or angle of one design, or of many along the first axis.
Number = float | Array


class Path(Protocol):
    """Anything a drive can close its loop on.

    `turning` is the rotation of the pin's body per unit of the coordinate: 1 for a part that
    swings, 0 for one that slides. A path on which loops of very many designs close at once, in
    closed form, says so with a class attribute ``many``.
    """

    @property
    def turning(self) -> float:
        """Rotation of the pin's body per unit of the coordinate."""
        ...

    def point(self, coordinate: ArrayLike) -> Vector:
        """Return the pin's place (x, y) [m]."""
        ...

    def tangent(self, coordinate: ArrayLike) -> Vector:
        """Return d(x, y)/dq [m per unit of q]."""
        ...

    def second(self, coordinate: ArrayLike) -> Vector:
        """Return d2(x, y)/dq2 [m per unit of q squared]."""
        ...


@dataclass(frozen=True)
class CirclePath:
    """A pin on an arm about a fixed pivot at the origin; q is the body's angle from level [rad].

    Attributes
    ----------
    radius : float or ndarray
        Pivot to pin [m].
    angle : float or ndarray
        Direction of the pin at q = 0, anticlockwise from +x [rad].
    """

    radius: Number
    angle: Number
    turning: float = 1.0

    many: ClassVar[bool] = True

    def point(self, coordinate: ArrayLike) -> Vector:
        """Return radius (cos(q + angle), sin(q + angle))."""
        cos, sin = cos_sin(np.asarray(coordinate, float) + self.angle)
        return self.radius * cos, self.radius * sin

    def tangent(self, coordinate: ArrayLike) -> Vector:
        """Return the point turned a quarter turn anticlockwise."""
        x, y = self.point(coordinate)
        return -y, x

    def second(self, coordinate: ArrayLike) -> Vector:
        """Return the point with its sign turned: the pull towards the pivot."""
        x, y = self.point(coordinate)
        return -x, -y


@dataclass(frozen=True)
class RaisedCirclePath:
    """A pin on a part that turns about a point straight above the origin, where nothing stands.

    Such a part rests on something round it: an arc on fixed rollers.

    Attributes
    ----------
    middle : float or ndarray
        Height of that point above the origin [m].
    radius : float or ndarray
        From there to the pin [m].
    angle : float or ndarray
        Direction from there to the pin at q = 0 [rad].
    """

    middle: Number
    radius: Number
    angle: Number
    turning: float = 1.0

    @property
    def circle(self) -> CirclePath:
        """The same path seen from the point it turns about."""
        return CirclePath(self.radius, self.angle)

    def point(self, coordinate: ArrayLike) -> Vector:
        """Return the circle's point, raised."""
        x, y = self.circle.point(coordinate)
        return x, y + self.middle

    def tangent(self, coordinate: ArrayLike) -> Vector:
        """Return the circle's own tangent."""
        return self.circle.tangent(coordinate)

    def second(self, coordinate: ArrayLike) -> Vector:
        """Return the circle's own second derivative."""
        return self.circle.second(coordinate)


@dataclass(frozen=True)
class LinePath:
    """A pin on a part that slides along a straight line; q is the distance along it [m].

    Attributes
    ----------
    across, height : float or ndarray
        The pin's place at q = 0 [m].
    angle : float or ndarray
        Direction of positive q, anticlockwise from +x [rad].
    """

    across: Number
    height: Number
    angle: Number = 0.0
    turning: float = 0.0

    def point(self, coordinate: ArrayLike) -> Vector:
        """Return start + q (cos(angle), sin(angle))."""
        q = np.asarray(coordinate, float)
        return self.across + q * np.cos(self.angle), self.height + q * np.sin(self.angle)

    def tangent(self, coordinate: ArrayLike) -> Vector:
        """Return the unit vector of the line."""
        q = np.asarray(coordinate, float)
        return np.cos(self.angle) + 0.0 * q, np.sin(self.angle) + 0.0 * q

    def second(self, coordinate: ArrayLike) -> Vector:
        """Return zeros: a straight line does not bend."""
        q = np.asarray(coordinate, float)
        return 0.0 * q, 0.0 * q


@dataclass(frozen=True)
class TrochoidPath:
    """A pin on a runner of radius `rolling` that rolls on a level floor without slipping.

    Origin: the contact point with the runner level. q is the runner's angle from level [rad],
    anticlockwise, so that the runner's middle goes to the left as q grows.

    Attributes
    ----------
    rolling : float or ndarray
        Radius of the arc that rolls [m].
    radius : float or ndarray
        From the arc's middle to the pin [m].
    angle : float or ndarray
        Direction from the arc's middle to the pin at q = 0 [rad].
    """

    rolling: Number
    radius: Number
    angle: Number
    turning: float = 1.0

    def point(self, coordinate: ArrayLike) -> Vector:
        """Return (-R q + radius cos(q + angle), R + radius sin(q + angle))."""
        q = np.asarray(coordinate, float)
        cos, sin = cos_sin(q + self.angle)
        return self.radius * cos - self.rolling * q, self.rolling + self.radius * sin

    def tangent(self, coordinate: ArrayLike) -> Vector:
        """Return (-R - radius sin(q + angle), radius cos(q + angle))."""
        cos, sin = cos_sin(np.asarray(coordinate, float) + self.angle)
        return -self.rolling - self.radius * sin, self.radius * cos

    def second(self, coordinate: ArrayLike) -> Vector:
        """Return radius (-cos(q + angle), -sin(q + angle))."""
        cos, sin = cos_sin(np.asarray(coordinate, float) + self.angle)
        return -self.radius * cos, -self.radius * sin
