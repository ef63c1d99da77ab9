"""Crank and link: a crank on the gearmotor's shaft, a link, and the pin of the moving part."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.drives.bar import push_through_bar
from turnercalc.drives.base import Closing, Motion, Passing, Reaction
from turnercalc.drives.crank_loop import (
    Crank,
    close_on,
    closing_on,
    follow_on,
    reach_on,
    straying,
)
from turnercalc.ingredients import Ingredients
from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.paths import Number, Path
from turnercalc.pieces import Fastener, Fixed, Hole, Made, Piece, edge_round, strip
from turnercalc.sight import BAR, DISC, Sight, through

Array = NDArray[np.float64]

#: Positions that decide how it is put together, how alike leaves it in doubt, and those that
#: decide then.
FEW, DOUBTFUL, ONCE_ROUND = 8, 0.25, 73
#: Positions on an arc that decide whether it goes through.
ON_AN_ARC = 1440
#: Radius by which a shaft is shown whose thickness depends on the motor [m].
SHAFT_SEEN = 0.004


@dataclass(frozen=True)
class CrankLink:
    """A crank at a fixed place, joined by a link to a pin that follows a path.

    Attributes
    ----------
    crank, link : float or ndarray
        Crank radius and link length between its holes [m].
    across, height : float or ndarray
        Crank centre from the turner's origin: right and up are positive [m].
    branch : float or ndarray
        Which way the linkage is put together, see `mechanics.four_bar`; `assemble` finds it.
    link_mass : float
        Mass of the link; half of it rides on the crank pin, half on the driven pin [kg].
    pin_diameter : float
        Of both pins of the link [m].
    friction : JointFriction
        Of both pins of the link.
    arc : tuple of float or None
        First and last crank angle where the crank runs to and fro [rad]; None: round and round.
    play : float
        Loose fit of both pins of the link together [m].
    """

    crank: Number
    link: Number
    across: Number
    height: Number
    branch: Number = 1.0
    link_mass: float = 0.0
    pin_diameter: float = 0.0
    friction: JointFriction = FRICTIONLESS
    arc: tuple[float, float] | None = None
    play: float = 0.0

    position_unit = "rad"
    play_field = "link.pin_play"
    play_like = "link.length"
    dimensions = MappingProxyType(
        {
            "crank": "crank.radius",
            "link": "link.length",
            "across": "crank.across",
            "height": "crank.height",
        }
    )

    @property
    def both_ways(self) -> bool:
        """True where the crank runs to and fro."""
        return self.arc is not None

    @property
    def pin_mass(self) -> float:
        """Half the link."""
        return 0.5 * self.link_mass

    @property
    def pin_sizes(self) -> Mapping[str, tuple[float, str]]:
        """Its pins: name -> diameter [m] and the field that says it."""
        size = (self.pin_diameter, "link.pin_diameter")
        return {"crank pin": size, "link pin": size}

    def positions(self, travel: tuple[float, float], count: int = 360) -> Array:
        """Return crank angles: one turn without its last point, or the arc with both ends."""
        del travel
        if self.arc is None:
            return np.asarray(np.arange(count) * (2.0 * np.pi / count))
        return np.asarray(np.linspace(*self.arc, count), float)

    @property
    def geometry(self) -> Crank:
        """The fixed lengths as the loop solvers take them."""
        return Crank(self.crank, self.link, self.across, self.height)

    def assemble(
        self,
        path: Path,
        travel: tuple[float, float] | None = None,
        *,
        endless: bool = False,
        turns_back: bool = True,
    ) -> CrankLink:
        """Return the drive put together so that the part swings about level.

        Both ways of putting it together are closed once round; the one that strays less from
        q = 0 is kept. Builders bolt it together with the tray level, so this is what they get.
        A few positions decide unless both ways stray about alike at those.
        """
        del travel, endless, turns_back
        one, other = straying(path, self.geometry, self.positions((0.0, 0.0), FEW))
        if (np.abs(one - other) <= DOUBTFUL * np.maximum(one, other)).any():
            one, other = straying(path, self.geometry, self.positions((0.0, 0.0), ONCE_ROUND))
        keep: Array = np.where(one <= other, 1.0, -1.0)
        return replace(self, branch=keep if keep.ndim > 1 else float(keep[0]))

    def trace(self, path: Path, position: ArrayLike) -> tuple[Array, Array, Array]:
        """Return the coordinate and its two derivatives by the crank angle."""
        closed = close_on(path, self.geometry, np.asarray(position, float), self.branch)
        return closed.coordinate, closed.rate, closed.second

    def follow(self, path: Path, position: ArrayLike) -> tuple[Array, Array]:
        """Return the coordinate and its rate by the crank angle."""
        return follow_on(path, self.geometry, np.asarray(position, float), self.branch)

    def close(self, path: Path, position: ArrayLike) -> Motion:
        """Close the loop on a path at the given crank angles [rad]."""
        theta = np.asarray(position, float)
        closed = close_on(path, self.geometry, theta, self.branch)
        tx, ty = path.tangent(closed.coordinate)
        rx, ry = self.crank * np.cos(theta), self.crank * np.sin(theta)
        vx, vy = tx * closed.rate + ry, ty * closed.rate - rx
        turning = closed.bar_x * vy - closed.bar_y * vx
        return Motion(
            position=theta,
            coordinate=closed.coordinate,
            rate=closed.rate,
            second=closed.second,
            closes=np.isfinite(closed.coordinate),
            round_and_round=self.arc is None,
            bar_x=closed.bar_x,
            bar_y=closed.bar_y,
            bar_rate=turning / (closed.bar_x**2 + closed.bar_y**2),
        )

    def closing(self, path: Path) -> Closing:
        """Say whether the crank gets round, or over its arc, and what is missing if not."""
        return closing_on(path, self.geometry, self._all_angles())

    def passing(self, path: Path, closes: NDArray[np.bool_]) -> NDArray[np.intp]:
        """Say for each of many designs whether it goes through, see `drives.base.passing_of`."""
        shortest, longest = reach_on(path, self.geometry, self._all_angles())
        short, long = shortest - self.link, self.link - longest
        wrong = np.where(short >= long, Passing.TOO_SHORT, Passing.TOO_LONG)
        wrong = np.where(shortest > longest, Passing.NO_BAR, wrong)
        found = np.where(np.maximum(short, long) <= 0.0, Passing.THROUGH, wrong).reshape(-1)
        stays = (found == Passing.THROUGH) & ~closes
        return np.where(stays, Passing.STAYS, found).astype(np.intp)

    def _all_angles(self) -> Array | None:
        """Return the angles of its arc, finely; None where it goes round."""
        return None if self.arc is None else self.positions((0.0, 0.0), ON_AN_ARC)

    def crank_pin(self, position: ArrayLike) -> tuple[Array, Array]:
        """Return the crank pin's place from the turner's origin [m]."""
        theta = np.asarray(position, float)
        return (
            self.across + self.crank * np.cos(theta),
            self.height + self.crank * np.sin(theta),
        )

    def sights(self, path: Path, position: Array, coordinate: Array) -> tuple[Sight, ...]:
        """Return crank, link, their pins and the shaft, as seen from the side."""
        shaft = (np.asarray(self.across), np.asarray(self.height))
        pin, driven = self.crank_pin(position), path.point(coordinate)
        return (
            through("crank", BAR, shaft, pin),
            through("link", BAR, pin, driven),
            through("pin", DISC, pin, driven, radius=0.5 * self.pin_diameter),
            through("shaft", DISC, shaft, radius=SHAFT_SEEN),
        )

    def made(self, ingredients: Ingredients) -> Made:
        """Return crank, link, the shaft's hole, and what joins them."""
        section = ingredients.sections["link"]
        pin = self.pin_diameter or None
        edge = edge_round(pin)
        ends = (Hole("crank pin", 0.0, 0.0, pin), Hole("link pin", float(self.link), 0.0, pin))
        crank = Piece(
            "crank",
            "crank",
            holes=(Hole("shaft", 0.0, 0.0), Hole("crank pin", float(self.crank), 0.0, pin)),
            edge=edge,
            shape="disc",
            says="A disc or a strip. Bore it to the motor's shaft; a grub screw on the flat holds.",
            critical=("crank.radius",),
        )
        link = Piece(
            "link",
            "link",
            holes=ends,
            edge=edge,
            size=(*strip(ends, edge), section.thickness),
            material=section.material or "",
            says="Give it a threaded end, so that the ends of the swing can be trimmed.",
            critical=("link.length",),
        )
        shaft = Fixed("crank shaft", float(self.across), float(self.height), measured_only=True)
        bought = (
            Fastener("pin or shoulder bolt", 2, pin, "both ends of the link"),
            Fastener("washer", 4, pin, "either side of the link"),
            Fastener("lock nut", 2, pin, "pins of the link"),
        )
        return Made((crank, link), (shaft,), bought)

    def weight_torque(self, motion: Motion, path: Path) -> Array:
        """Return d(potential of the link)/d(crank angle) [N·m], half the link at either pin."""
        _, climb = path.tangent(motion.coordinate)
        crank_climb = self.crank * np.cos(motion.position)
        return self.pin_mass * STANDARD_GRAVITY * (climb * motion.rate + crank_climb)

    def react(
        self,
        motion: Motion,
        path: Path,
        load: ArrayLike,
        direction: ArrayLike,
        levels: Sequence[str],
        start: Reaction | None = None,
    ) -> Reaction:
        """Return the link's forces for a load torque at the coordinate, and its pins' losses."""
        return push_through_bar(
            motion,
            path,
            load,
            direction,
            circle=self.friction.circle(self.pin_diameter, levels),
            half_weight=self.pin_mass * STANDARD_GRAVITY,
            foot_turns=1.0,
            names=("crank pin", "link pin"),
            start=start,
        )
