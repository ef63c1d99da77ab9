"""Crank and slotted lever: the crank pin slides or rolls in a slot of the moving part itself."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.drives.base import Closing, Motion, Reaction
from turnercalc.drives.slot_loop import Slotted, crank_pin, run_in_slot
from turnercalc.drives.slot_shop import slot_cut, slot_made, slot_sights
from turnercalc.drives.wording import Wording
from turnercalc.ingredients import Ingredients
from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.mechanics.numeric import nan_unless
from turnercalc.mechanics.slotted_lever import lever_fastest_rates, lever_swing, lever_time_ratio
from turnercalc.paths import CirclePath, Number, Path
from turnercalc.pieces import Made
from turnercalc.sight import Sight

Array = NDArray[np.float64]

FULL_TURN = 2.0 * np.pi

#: What may run in the slot, in a builder's words.
FOLLOWERS = ("plain pin", "sliding block", "roller")


WORDING = Wording(
    bar="",
    parts="the crank",
    goes_through="The slot takes the lever to and fro",
    stays="the lever does not go to and fro",
    set_by="the crank or the motor's place",
    ends_set_by="The slot's angle and the place of the shaft",
    squarer="",
    at_rest="At a rest point the crank stands square to the slot, and no weight can turn it.",
    play=("slot.play",),
    pins=("slot.follower", "slot.friction"),
    lengths=("crank.radius", "slot.angle"),
)


class Contact(NamedTuple):
    """What one newton across the slot brings with it, on the face it presses.

    Attributes
    ----------
    along
        Force along the slot [-].
    couple
        Moment on the lever about the crank pin's middle, anticlockwise [m].
    pin
        Force on the crank pin [-].
    loss
        Power lost per unit of shaft speed [m/rad].
    """

    along: Array
    couple: Array
    pin: Array
    loss: Array


@dataclass(frozen=True)
class SlottedLever:
    """A crank at a fixed place whose pin runs in a straight slot of the moving part.

    Attributes
    ----------
    crank : float or ndarray
        Crank radius [m].
    across, height : float or ndarray
        Crank centre from the turner's origin: right and up are positive [m].
    angle : float or ndarray
        How the slot is mounted: against the arm of a part that swings, against the square to
        the travel of one that slides, anticlockwise [rad].
    off_line : float or ndarray
        How far the slot's middle line passes the pivot, on its anticlockwise side [m].
    follower : str
        One of `FOLLOWERS`.
    pin_diameter : float
        Of the pin that slides in the slot, or that block or roller turn on [m].
    roller_diameter : float
        Of the roller [m].
    friction : JointFriction
        Of pin or block in the slot, and of block or roller on their pin.
    arc : tuple of float or None
        First and last crank angle where the crank runs to and fro [rad]; None: round and round.
    play : float
        How much wider the slot is than what runs in it [m].
    """

    crank: Number
    across: Number
    height: Number
    angle: Number = 0.0
    off_line: Number = 0.0
    follower: str = FOLLOWERS[0]
    pin_diameter: float = 0.0
    roller_diameter: float = 0.0
    friction: JointFriction = FRICTIONLESS
    arc: tuple[float, float] | None = None
    play: float = 0.0

    position_unit = "rad"
    wording = WORDING
    pin_mass = 0.0
    play_field = "slot.play"
    play_like = "slot.off_line"
    dimensions = MappingProxyType(
        {
            "crank": "crank.radius",
            "across": "crank.across",
            "height": "crank.height",
            "off_line": "slot.off_line",
        }
    )

    @property
    def both_ways(self) -> bool:
        """True where the crank runs to and fro."""
        return self.arc is not None

    @property
    def geometry(self) -> Slotted:
        """The fixed lengths as the loop takes them."""
        return Slotted(self.crank, self.across, self.height, self.angle, self.off_line)

    @property
    def distance(self) -> Array:
        """From the turner's origin, the pivot of a part that swings, to the crank's centre [m]."""
        return np.asarray(np.hypot(self.across, self.height))

    @property
    def pin_sizes(self) -> Mapping[str, tuple[float, str]]:
        """Its pin: name -> diameter [m] and the field that says it."""
        return {"crank pin": (self.pin_diameter, "slot.pin_diameter")}

    def made(self, ingredients: Ingredients) -> Made:
        """Return the crank, the shaft's hole, and what runs in the slot."""
        return slot_made(self, ingredients)

    def reshape(self, made: Made, path: Path) -> Made:
        """Return what is made for a part that swings, its slot cut into the arm."""
        return slot_cut(self, made, path)

    def sights(self, path: Path, position: Array, coordinate: Array) -> tuple[Sight, ...]:
        """Return crank, slot, crank pin and shaft, as seen from the side."""
        return slot_sights(self, path, position, coordinate)

    def positions(self, travel: tuple[float, float], count: int = 360) -> Array:
        """Return crank angles: one turn without its last point, or the arc with both ends."""
        del travel
        if self.arc is None:
            return np.asarray(np.arange(count) * (FULL_TURN / count))
        return np.asarray(np.linspace(*self.arc, count), float)

    def assemble(
        self,
        path: Path,
        travel: tuple[float, float] | None = None,
        *,
        endless: bool = False,
        turns_back: bool = True,
    ) -> SlottedLever:
        """Return the drive as it is: a slot goes over its pin in one way only."""
        del path, travel, endless, turns_back
        return self

    def goes_round(self, path: Path) -> NDArray[np.bool_]:
        """Say where the crank would take a lever right round instead of to and fro."""
        swings = isinstance(path, CirclePath) and self.arc is None
        return np.asarray(swings & (self.distance <= self.crank + np.abs(self.off_line)))

    def trace(self, path: Path, position: ArrayLike) -> tuple[Array, Array, Array]:
        """Return the coordinate and its two derivatives by the crank angle.

        NaN where the lever would go right round.
        """
        run = run_in_slot(path, self.geometry, np.asarray(position, float))
        stays = ~self.goes_round(path)
        return (
            nan_unless(stays, run.coordinate),
            nan_unless(stays, run.rate),
            nan_unless(stays, run.second),
        )

    def close(self, path: Path, position: ArrayLike) -> Motion:
        """Put the crank pin into the slot at the given crank angles [rad]."""
        theta = np.asarray(position, float)
        coordinate, rate, second = self.trace(path, theta)
        return Motion(
            position=theta,
            coordinate=coordinate,
            rate=rate,
            second=second,
            closes=np.isfinite(coordinate),
            round_and_round=self.arc is None,
        )

    def closing(self, path: Path) -> Closing:
        """Say whether the lever goes to and fro, and what is missing if not."""
        if not isinstance(path, CirclePath):
            near, far = self.slot_span(path)
            text = f"The yoke goes through; its slot has to be {_mm(far - near)} long and the pin."
            return Closing(closes=True, kind="scotch_yoke", missing=-np.inf, text=text)
        if self.arc is not None:
            return self._closing_on_arc()
        distance, crank = float(self.distance), float(self.crank)
        off = abs(float(self.off_line))
        missing = crank + off - distance
        if missing < 0.0:
            text = (
                f"The pivot is {_mm(-missing)} outside the crank's circle: the slotted lever "
                "goes to and fro."
            )
            return Closing(closes=True, kind="slotted_lever", missing=missing, text=text)
        text = (
            f"The crank of {_mm(crank)} reaches round the pivot, which is only "
            f"{_mm(distance)} from its shaft: the lever would go right round instead of to and "
            f"fro. Keep the crank shorter than {_mm(distance - off)}, or the shaft farther away."
        )
        nearest = {"crank.radius": distance - off} if distance > off else {}
        return Closing(
            closes=False, kind="goes_right_round", missing=missing, nearest=nearest, text=text
        )

    def _closing_on_arc(self) -> Closing:
        """Say whether the pin stays clear of the pivot all over the crank's arc."""
        near = self._nearest_to_pivot()
        off = abs(float(self.off_line))
        text = (
            f"The pin comes no nearer to the pivot than {_mm(near)}."
            if near > off
            else "The pin comes to the pivot: there the slot cannot turn the lever."
        )
        return Closing(closes=near > off, kind="slotted_lever", missing=off - near, text=text)

    def _nearest_to_pivot(self) -> float:
        """Return how near the crank pin comes to the turner's origin on its arc [m]."""
        assert self.arc is not None
        first, last = sorted(self.arc)
        towards = float(np.arctan2(-self.height, -self.across))
        # The direction towards the pivot, as the first angle not before the arc's beginning.
        towards += FULL_TURN * np.ceil((first - towards) / FULL_TURN)
        if towards <= last:
            return float(abs(self.distance - self.crank))
        ends = np.array([first, last])
        x, y, _, _ = crank_pin(self.geometry, ends)
        return float(np.hypot(x, y).min())

    def slot_span(self, path: Path) -> tuple[float, float]:
        """Return how near and how far the pin's middle comes along the slot [m].

        From the pivot of a part that swings; from the driven pin of one that slides. The slot
        has to be that long, and half of what runs in it longer at either end.
        """
        theta = self.positions((0.0, 0.0), 1440)
        along = run_in_slot(path, self.geometry, theta).along
        return float(along.min()), float(along.max())

    @property
    def swing(self) -> Array:
        """The whole swing of a lever whose crank goes round [rad]."""
        return lever_swing(self.crank, self.distance)

    @property
    def time_ratio(self) -> Array:
        """Time of the slow swing over time of the fast one at a steady shaft speed [-]."""
        return lever_time_ratio(self.crank, self.distance)

    @property
    def fastest_rates(self) -> tuple[Array, Array]:
        """Largest lever speed over shaft speed, on the slow swing and on the fast return [-]."""
        return lever_fastest_rates(self.crank, self.distance)

    def weight_torque(self, motion: Motion, path: Path) -> Array:
        """Return zeros: a bare crank pin weighs next to nothing."""
        del path
        return np.zeros_like(motion.position)

    def react(
        self,
        motion: Motion,
        path: Path,
        load: ArrayLike,
        direction: ArrayLike,
        levels: Sequence[str],
        start: Reaction | None = None,
    ) -> Reaction:
        """Return the force across the slot for a load torque, and its friction.

        Notes
        -----
        N presses along n, T along e, both at the crank pin, and M is the couple that goes with
        them. By virtual work of the moving part::

            N (n . t) + T (e . t) + M = load         t = d(slot at the crank pin)/dq

        T and M are proportional to the size of N and depend on the face it presses, so the
        answer needs no iteration. Where they outweigh the lever of N, friction jams the pin.
        """
        del start
        run = run_in_slot(path, self.geometry, motion.position)
        needed = np.asarray(load, float)
        turns = 1.0 - path.turning * motion.rate
        side = np.where(needed * run.lever_n >= 0.0, 1.0, -1.0)
        touch = self._contact(run.slip, turns, side, np.asarray(direction, float), levels)
        lever = side * run.lever_n + touch.along * run.lever_e + path.turning * touch.couple
        with np.errstate(divide="ignore", invalid="ignore"):
            size = needed / lever
        size = np.where(size >= 0.0, size, np.nan)
        across, along = side * size, touch.along * size
        return Reaction(
            x=along * run.ex - across * run.ey,
            y=along * run.ey + across * run.ex,
            loss=touch.loss * size,
            pins={"crank pin": touch.pin * size},
            at=(run.pin_x, run.pin_y),
            couple=touch.couple * size,
        )

    def _contact(
        self, slip: Array, turns: Array, side: Array, way: Array, levels: Sequence[str]
    ) -> Contact:
        """Return what one newton on a face brings with it.

        Parameters
        ----------
        slip : ndarray
            Speed of the crank pin outwards along the slot per unit of shaft speed [m/rad].
        turns : ndarray
            Rotation of the crank against the lever per unit of shaft speed [-].
        side : ndarray
            +1 where the pin presses the face on the anticlockwise side of the slot, -1 else.
        way : ndarray
            Sign of the shaft's speed.
        """
        mu = self.friction.at(levels)
        circle = self.friction.circle(self.pin_diameter, levels)
        if self.follower == "plain pin":
            # The pin is part of the crank: where it touches it slides along and turns at once.
            radius = 0.5 * self.pin_diameter
            rubs = slip - side * radius * turns
            along = mu * np.sign(way * rubs)
            couple = -side * radius * along
            return Contact(along, couple, np.hypot(1.0, mu) + 0.0 * along, mu * np.abs(rubs))
        if self.follower == "sliding block":
            # The block keeps the lever's angle: it slides along, and the pin turns in it.
            pin = np.hypot(1.0, mu)
            along = mu * np.sign(way * slip)
            couple = circle * pin * np.sign(way * turns)
            loss = mu * np.abs(slip) + circle * pin * np.abs(turns)
            return Contact(along, couple, pin + 0.0 * along, loss)
        # A roller turns by slip/radius against the lever; only its pin rubs.
        radius = 0.5 * self.roller_diameter
        pin = 1.0 / np.sqrt(1.0 - (circle / radius) ** 2)
        rubs = turns - side * slip / radius
        couple = circle * pin * np.sign(way * rubs)
        along = -side * couple / radius
        return Contact(along, couple, pin + 0.0 * along, circle * pin * np.abs(rubs))


def _mm(length: float) -> str:
    """Return a length [m] in millimetres, for a sentence."""
    return f"{1e3 * length:.4g} mm"
