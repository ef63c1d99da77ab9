"""Linear actuator: a rod that grows between a fixed eye and the pin of the moving part.

The position of the drive is the extension: how far the rod has come out [m]. The length from eye
to eye is the shortest length and the extension together.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.drives.actuator_shop import actuator_made, actuator_sights
from turnercalc.drives.bar import push_through_bar
from turnercalc.drives.base import Closing, Motion, Reaction
from turnercalc.drives.crank_loop import WIDEST_SWING, Crank, close_on
from turnercalc.drives.wording import Wording
from turnercalc.ingredients import Ingredients
from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.mechanics.constants import STANDARD_GRAVITY
from turnercalc.paths import CirclePath, LinePath, Number, Path
from turnercalc.pieces import Made
from turnercalc.sight import Sight

Array = NDArray[np.float64]

#: Rounding that an end stop may overrun without being out of reach [m].
ROUNDING = 1e-12


WORDING = Wording(
    shaft="the rod",
    ways=("out", "in"),
    moving="as the rod goes",
    head="rod",
    bar="rod",
    parts="the actuator's eyes",
    goes_through="The rod goes from end to end",
    stays="the rod does not go from end to end",
    set_by="the actuator or its fixed eye",
    ends_set_by="The stops of the rod and its fixed eye",
    squarer="A fixed eye from which the rod stands more square to the arm helps.",
    at_rest="A rod has no rest point: it is held by its own screw, or not at all.",
    can_rest=False,
    play=("actuator.eye_play",),
    pins=("actuator.pin_diameter", "actuator.bearing"),
    lengths=("actuator.eye_across", "actuator.eye_height"),
)


@dataclass(frozen=True)
class LinearActuator:
    """An actuator between a fixed eye and a pin that follows a path.

    Attributes
    ----------
    shortest : float or ndarray
        Eye to eye with the rod all the way in [m].
    stroke : float
        How far the rod can come out [m].
    across, height : float or ndarray
        Fixed eye from the turner's origin: right and up are positive [m].
    whole_stroke : bool
        Whether it runs from one of its own ends to the other; else between end switches.
    stop_in, stop_out : float or None
        Extensions at which end switches stop it [m]; None: not set yet, see `assemble`.
    branch : float or ndarray
        +1 where growing longer drives the coordinate up, -1 where down; `assemble` finds it.
    weight_mass : float
        Of the whole actuator; half of it rides on either eye [kg].
    pin_diameter : float
        Of the pins in both eyes [m].
    friction : JointFriction
        Of both eyes.
    play : float
        Loose fit of both eyes together [m].
    wanted : tuple of float or None
        Range of the coordinate that the end switches were set for [rad or m].
    """

    shortest: Number
    stroke: float
    across: Number
    height: Number
    whole_stroke: bool = True
    stop_in: float | None = None
    stop_out: float | None = None
    branch: Number = 1.0
    weight_mass: float = 0.0
    pin_diameter: float = 0.0
    friction: JointFriction = FRICTIONLESS
    play: float = 0.0
    wanted: tuple[float, float] | None = None

    position_unit = "m"
    wording = WORDING
    both_ways = True
    play_field = "actuator.eye_play"
    play_like = "actuator.shortest"

    @property
    def dimensions(self) -> Mapping[str, str]:
        """Lengths that decide the ends of the swing: those of the eyes, and where it stops."""
        ends = (
            {"stroke": "actuator.stroke"}
            if self.whole_stroke
            else {"stop_in": "actuator.stop_in", "stop_out": "actuator.stop_out"}
        )
        return MappingProxyType(
            {
                "shortest": "actuator.shortest",
                "across": "actuator.eye_across",
                "height": "actuator.eye_height",
                **ends,
            }
        )

    @property
    def pin_mass(self) -> float:
        """Half the actuator."""
        return 0.5 * self.weight_mass

    @property
    def stops(self) -> tuple[float, float]:
        """Least and greatest extension of a move [m]."""
        if self.whole_stroke or self.stop_in is None or self.stop_out is None:
            return 0.0, self.stroke
        return self.stop_in, self.stop_out

    @property
    def pin_sizes(self) -> Mapping[str, tuple[float, str]]:
        """The pins of its eyes: name -> diameter [m] and the field that says it."""
        size = (self.pin_diameter, "actuator.pin_diameter")
        return {"fixed eye": size, "moving eye": size}

    def made(self, ingredients: Ingredients) -> Made:
        """Return the place of the fixed eye, and what to buy."""
        return actuator_made(self, ingredients)

    def sights(self, path: Path, position: Array, coordinate: Array) -> tuple[Sight, ...]:
        """Return tube, rod and both eyes, as seen from the side."""
        return actuator_sights(self, path, position, coordinate)

    def positions(self, travel: tuple[float, float], count: int = 360) -> Array:
        """Return extensions from one stop to the other [m], the designs on leading axes."""
        del travel
        first, last = self.stops
        # linspace would put the positions of many designs on the first axis.
        return np.asarray(first + (last - first) * np.linspace(0.0, 1.0, count), float)

    def length(self, position: ArrayLike) -> Array:
        """Return the length from eye to eye at an extension [m]."""
        return np.asarray(self.shortest + np.asarray(position, float))

    def eye_distance(self, path: Path, coordinate: ArrayLike) -> Array:
        """Return how far the eyes are apart at a coordinate [m]."""
        x, y = path.point(coordinate)
        return np.asarray(np.hypot(x - self.across, y - self.height))

    def assemble(
        self,
        path: Path,
        travel: tuple[float, float] | None = None,
        *,
        endless: bool = False,
        turns_back: bool = True,
    ) -> LinearActuator:
        """Return the actuator bolted on, and its end switches set where nobody has set them.

        Set switches are put at the ends of the wanted travel. One that runs its whole stroke can
        be bolted on in two ways; the one that strays less from q = 0 is kept.
        """
        del endless, turns_back
        if travel is not None and not self.whole_stroke and self.stop_in is None:
            low, high = self.eye_distance(path, np.asarray(travel)) - float(self.shortest)
            return replace(
                self,
                stop_in=float(min(low, high)),
                stop_out=float(max(low, high)),
                branch=1.0 if high >= low else -1.0,
                wanted=travel,
            )
        stray = []
        for branch in (1.0, -1.0):
            q = replace(self, branch=branch)._coordinate(path, self.positions((0.0, 0.0), 73))
            stray.append(float(np.where(np.isnan(q), np.inf, np.abs(q)).max()))
        return replace(self, branch=1.0 if stray[0] <= stray[1] else -1.0)

    def _coordinate(self, path: Path, position: Array) -> Array:
        """Return the coordinate at an extension: a crank of no radius and a link that grows."""
        length = self.length(position)
        eye = Crank(0.0, length, self.across, self.height)
        return close_on(path, eye, np.zeros_like(length), self.branch).coordinate

    def trace(self, path: Path, position: ArrayLike) -> tuple[Array, Array, Array]:
        """Return the coordinate and its two derivatives by the extension.

        NaN where the eyes cannot be so far apart, and beyond the stroke.

        Notes
        -----
        With u from the fixed eye to the pin, L its length, t = dp/dq and k = d2p/dq2::

            u.u = L2        q' = L / (u.t)        q'' = (1 - (t.t + u.k) q'2) / (u.t)
        """
        extension = np.asarray(position, float)
        q = self._coordinate(path, extension)
        within = (extension >= -ROUNDING) & (extension <= self.stroke + ROUNDING)
        q = np.where(within, q, np.nan)
        ux, uy = self.along(path, q)
        tx, ty = path.tangent(q)
        kx, ky = path.second(q)
        with np.errstate(divide="ignore", invalid="ignore"):
            lever = ux * tx + uy * ty
            rate = self.length(extension) / lever
            second = (1.0 - (tx * tx + ty * ty + ux * kx + uy * ky) * rate**2) / lever
        return q, rate, second

    def along(self, path: Path, coordinate: ArrayLike) -> tuple[Array, Array]:
        """Return the vector from the fixed eye to the driven pin [m]."""
        x, y = path.point(coordinate)
        return np.asarray(x - self.across), np.asarray(y - self.height)

    def close(self, path: Path, position: ArrayLike) -> Motion:
        """Bolt the eyes on at the given extensions [m]."""
        extension = np.asarray(position, float)
        coordinate, rate, second = self.trace(path, extension)
        ux, uy = self.along(path, coordinate)
        tx, ty = path.tangent(coordinate)
        return Motion(
            position=extension,
            coordinate=coordinate,
            rate=rate,
            second=second,
            closes=np.isfinite(coordinate),
            round_and_round=False,
            bar_x=ux,
            bar_y=uy,
            bar_rate=(ux * ty - uy * tx) * rate / (ux * ux + uy * uy),
        )

    def closing(self, path: Path) -> Closing:
        """Say whether its stroke reaches from end to end, and what is missing if not."""
        toggles = self._toggles(path)
        if toggles is not None:
            return toggles
        first, last = self.stops
        shortest, longest = first + float(self.shortest), last + float(self.shortest)
        nearest_apart, farthest_apart = self._apart(path)
        by_eyes = max(nearest_apart - shortest, longest - farthest_apart)
        by_rod = -np.inf if self.whole_stroke else max(-first, last - self.stroke)
        missing = max(by_eyes, by_rod)
        if missing <= ROUNDING:
            text = (
                f"The rod works from {_mm(first)} to {_mm(last)} of its {_mm(self.stroke)} "
                f"stroke, {_mm(shortest)} to {_mm(longest)} from eye to eye."
            )
            return Closing(closes=True, kind="actuator", missing=min(missing, 0.0), text=text)
        text = (
            f"The rod has to work from {_mm(shortest)} to {_mm(longest)} from eye to eye; it can "
            f"from {_mm(float(self.shortest))} to {_mm(float(self.shortest) + self.stroke)}"
        )
        if by_eyes > ROUNDING:
            most = f" to {_mm(farthest_apart)}" if np.isfinite(farthest_apart) else " or more"
            text += f", and its eyes can be {_mm(nearest_apart)}{most} apart"
        ways = self._ways(shortest, longest, nearest_apart, farthest_apart)
        text += f": {_mm(missing)} too much."
        text += "".join(f" What would just do: {field} of {_mm(at)}." for field, at in ways.items())
        return Closing(closes=False, kind="actuator", missing=missing, nearest=ways, text=text)

    def _apart(self, path: Path) -> tuple[float, float]:
        """Return how near and how far apart the path can bring the eyes at all [m]."""
        if isinstance(path, CirclePath):
            pivot, arm = float(np.hypot(self.across, self.height)), float(path.radius)
            return abs(pivot - arm), pivot + arm
        if isinstance(path, LinePath):
            dx, dy = self.across - path.across, self.height - path.height
            return float(abs(np.sin(path.angle) * dx - np.cos(path.angle) * dy)), np.inf
        distance = self.eye_distance(path, np.linspace(-WIDEST_SWING, WIDEST_SWING, 481))
        return float(distance.min()), float(distance.max())

    def _ways(
        self, shortest: float, longest: float, nearest_apart: float, farthest_apart: float
    ) -> dict[str, float]:
        """Return the single changes of the actuator that would just do: field path -> length."""
        own, stroke = float(self.shortest), self.stroke
        if self.whole_stroke:
            ways = {}
            if own + stroke > farthest_apart and own >= nearest_apart:
                ways["actuator.stroke"] = farthest_apart - own
            low, high = nearest_apart, farthest_apart - stroke
        else:
            ways = {"actuator.stroke": longest - own} if own <= shortest else {}
            low, high = longest - stroke, shortest
        if low <= high:
            ways["actuator.shortest"] = min(max(own, low), high)
        return ways

    def _toggles(self, path: Path) -> Closing | None:
        """Return what is wrong where rod and arm come into line within the wanted travel."""
        if self.wanted is None:
            return None
        q = np.linspace(*self.wanted, 481)
        apart = self.eye_distance(path, q)
        over = max(float(apart.max()) - max(apart[0], apart[-1]), 0.0)
        under = max(min(apart[0], apart[-1]) - float(apart.min()), 0.0)
        missing = max(over, under)
        if missing <= ROUNDING:
            return None
        at = float(apart.max() if over > under else apart.min())
        if path.turning:
            text = (
                f"Rod and arm come into line within the wanted travel, with the rod {_mm(at)} from "
                "eye to eye: there it cannot turn the arm, and past it it drives the other way. "
                "Move the fixed eye so that the rod stands more square to the arm."
            )
        else:
            text = (
                "The rod comes to stand square to the travel within it, with the rod "
                f"{_mm(at)} from eye to eye: there it cannot move the pin, and past it it drives "
                "the other way. Move the fixed eye so that the rod lies more along the travel."
            )
        return Closing(closes=False, kind="toggles", missing=missing, text=text)

    def weight_torque(self, motion: Motion, path: Path) -> Array:
        """Return d(potential of the half on the driven pin)/d(extension) [N]."""
        _, climb = path.tangent(motion.coordinate)
        return np.asarray(self.pin_mass * STANDARD_GRAVITY * climb * motion.rate)

    def react(
        self,
        motion: Motion,
        path: Path,
        load: ArrayLike,
        direction: ArrayLike,
        levels: Sequence[str],
        start: Reaction | None = None,
    ) -> Reaction:
        """Return the rod's force for a load torque at the coordinate, and what both eyes cost."""
        return push_through_bar(
            motion,
            path,
            load,
            direction,
            circle=self.friction.circle(self.pin_diameter, levels),
            half_weight=self.pin_mass * STANDARD_GRAVITY,
            foot_turns=0.0,
            names=("fixed eye", "moving eye"),
            start=start,
        )


def _mm(length: float) -> str:
    """Return a length [m] in millimetres, for a sentence."""
    return f"{1e3 * length:.4g} mm"
