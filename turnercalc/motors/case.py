"""One motor against one demand: everything the checks of a motor look at."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from turnercalc.mechanics.motion import rms_of_ramps, times_along
from turnercalc.motors.demand import Demand
from turnercalc.motors.dependable import Dependable, ambient_share, dependable
from turnercalc.motors.line import (
    WHICH_VOLTS,
    Line,
    SpeedRange,
    free_speed_range,
    line_of,
    torque_share,
)
from turnercalc.motors.motor import Motor, StartDirection
from turnercalc.motors.supply import (
    SupplyMatch,
    match_supply,
    on_supply,
    supply_share,
    supply_shares,
)
from turnercalc.motors.traits import Traits, traits_of

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Move:
    """One single move in one direction, over all planned loads.

    Attributes
    ----------
    span : (int, int)
        First and last index into the demand's angles; gone through backwards clockwise.
    direction : int
        0 anticlockwise, 1 clockwise.
    shortest, longest : float
        [s]; infinite where it stalls.
    """

    span: tuple[int, int]
    direction: int
    shortest: float
    longest: float


@dataclass(frozen=True, eq=False)
class Case:
    """One motor against one demand.

    Attributes
    ----------
    listed : Motor
        As the listing has it.
    motor : Motor
        With the figures of the supply it would run on.
    traits : Traits
    demand : Demand
    match : SupplyMatch
    speeds : SpeedRange or None
        None where the listing gives no speed and the motor is not stepped.
    counted : Dependable
    line : Line or None
        None where torque or speed is unknown.
    start_direction : StartDirection
    directions : tuple of int
        Directions that count.
    hardest, hardest_corner : tuple
        Torque [N·m], load, direction, position.
    """

    listed: Motor
    motor: Motor
    traits: Traits
    demand: Demand
    match: SupplyMatch
    speeds: SpeedRange | None
    counted: Dependable
    line: Line | None
    start_direction: StartDirection
    directions: tuple[int, ...]
    hardest: tuple[float, str, int, int]
    hardest_corner: tuple[float, str, int, int]

    @property
    def unit(self) -> str:
        """Unit symbol of its torques."""
        return "N" if self.demand.linear else "N·m"

    @property
    def sag(self) -> float:
        """What is left of the torque on the lowest supply reckoned with [ratio]."""
        return torque_share(self.traits.line, self.traits.supply_low)

    @property
    def times_enough(self) -> float | None:
        """Dependable torque over the hardest planned torque, or None."""
        return self.times_of(self.counted.torque)

    @property
    def kindest_times(self) -> float | None:
        """The same if a torque of unsaid kind were a rated one."""
        return self.times_of(self.counted.kindest)

    def times_of(self, torque: float | None) -> float | None:
        """Return a torque over the hardest planned one; infinite where nothing is asked."""
        if torque is None:
            return None
        return torque / self.hardest[0] if self.hardest[0] > 0.0 else float("inf")

    @property
    def starting_torque(self) -> float | None:
        """Torque it starts against at nominal supply [N·m], or None."""
        at_hand = torque_share(self.traits.line, supply_share(self.motor, self.traits, self.match))
        if self.motor.starting_torque is not None:
            listed = self.motor.starting_torque * at_hand
            # What a brushed motor gives running it gives at standstill all the more.
            brushed = self.traits.line == "straight" and self.traits.certain
            return max(listed, self.counted.torque or 0.0) if brushed else listed
        if self.counted.torque is None:
            return None
        if self.traits.starting_share is not None:
            return self.counted.torque * self.traits.starting_share
        # A brushed motor gives most at standstill; unlisted, it is at least what counts.
        stall = self.motor.stall_torque
        return max(0.0 if stall is None else stall * at_hand, self.counted.torque)

    @property
    def corner(self) -> float | None:
        """What it gives from rest on a low supply over the hardest start, or None."""
        if self.counted.torque is None or self.starting_torque is None:
            return None
        least = min(self.counted.torque, self.starting_torque) * self.sag
        return least / self.hardest_corner[0] if self.hardest_corner[0] > 0.0 else float("inf")

    # -- moves in time ---------------------------------------------------------------------

    @cached_property
    def _runs(self) -> tuple[tuple[Array, Array], ...]:
        """Torque [N·m] and time [s] along each single move, shape (load, direction, P)."""
        if self.line is None:
            return ()
        torque = self.demand.running_torque(self.line.free_speed)[:, self.directions, :]
        speed = self.line.speed(torque)
        found = []
        for span in self.demand.move_spans:
            at = self.demand.indices(span)
            time = times_along(self.demand.places(span), speed[..., at])
            found.append((torque[..., at], time))
        return tuple(found)

    @cached_property
    def moves(self) -> tuple[Move, ...]:
        """Every single move in every direction that counts, with its times over the loads."""
        return tuple(
            Move(span, way, float(np.min(time[:, row, -1])), float(np.max(time[:, row, -1])))
            for span, (_, time) in zip(self.demand.move_spans, self._runs, strict=False)
            for row, way in enumerate(self.directions)
        )

    @property
    def longest_move(self) -> float | None:
        """Longest time of any single move [s]; infinite where it stalls, None where unknown."""
        return max((move.longest for move in self.moves), default=None)

    def move_times(self) -> tuple[tuple[float, float], ...]:
        """Return shortest and longest time of each single move over the planned loads [s]."""
        return tuple(
            (float(np.min(time[..., -1])), float(np.max(time[..., -1]))) for _, time in self._runs
        )

    def rms_torque(self) -> float | None:
        """Return the largest root mean square of the torque over one move in time [N·m].

        Over the move alone: the pause after it cools the motor but never carries the load.
        None where the motor does not get through.
        """
        worst = 0.0
        for torque, time in self._runs:
            if not np.all(np.isfinite(time[..., -1])):
                return None
            worst = max(worst, float(np.max(rms_of_ramps(torque, time))))
        return worst


def build_case(motor: Motor, demand: Demand) -> Case:
    """Bring a motor and a demand together."""
    traits = traits_of(motor)
    match = match_supply(motor, traits, demand.supply)
    hertz = demand.supply.frequency
    at_hand = on_supply(motor, match, hertz)
    counted = _counted(at_hand, traits, match, demand)
    speeds = _speeds(at_hand, traits, match, demand)
    counted = _faded(counted, traits, speeds)
    line = None
    if speeds is not None and counted.torque is not None:
        share = supply_share(at_hand, traits, match)
        line = line_of(at_hand, traits, speeds.nominal, counted.torque, share)
    start = motor.start_direction or traits.start_direction
    if traits.certain and traits.line == "straight":
        start = StartDirection.REVERSIBLE  # swapping the two wires turns it round
    directions = demand.directions(start is StartDirection.REVERSIBLE)
    running = speeds.nominal if speeds is not None else 0.0
    return Case(
        listed=motor,
        motor=at_hand,
        traits=traits,
        demand=demand,
        match=match,
        speeds=speeds,
        counted=counted,
        line=line,
        start_direction=start,
        directions=directions,
        hardest=demand.hardest(directions, running),
        hardest_corner=demand.hardest_corner(directions),
    )


def _counted(motor: Motor, traits: Traits, match: SupplyMatch, demand: Demand) -> Dependable:
    counted = dependable(motor, traits)
    share = supply_share(motor, traits, match)
    if share < 1.0:
        counted = counted.scaled(torque_share(traits.line, share))
    if demand.inside:
        counted = counted.scaled(ambient_share(demand.box_temperature, motor.insulation))
    return counted


def _faded(counted: Dependable, traits: Traits, speeds: SpeedRange | None) -> Dependable:
    """Return what a stepper gives at its speed.

    Up to its corner speed the winding's current, and so its torque, is the full one; above, the
    time for the current to rise runs out and the torque falls as the speed grows (D. W. Jones,
    Stepping Motor Physics, Univ. of Iowa; the corner of each class from memory).
    """
    corner = traits.corner_speed
    if corner is None or speeds is None or not traits.all_steppers or speeds.nominal <= corner:
        return counted
    return counted.scaled(corner / speeds.nominal)


def _speeds(motor: Motor, traits: Traits, match: SupplyMatch, demand: Demand) -> SpeedRange | None:
    if traits.linear:
        return _travel_speeds(motor, traits, match)
    found = free_speed_range(motor, traits, match, demand.supply.frequency)
    if traits.line != "stepped":
        return found
    # The control decides how fast a stepped motor goes: as fast as is wanted, if it can.
    fastest = found.high if found is not None else _usual_speed(traits)
    if fastest is None:
        return None
    speed = min(fastest, demand.speed_max)
    if traits.all_steppers and traits.corner_speed is not None:
        # No control would run it past its corner unless the moves would get too long.
        speed = min(speed, max(traits.corner_speed, demand.speed_min))
    return SpeedRange(speed, speed, speed)


def _travel_speeds(motor: Motor, traits: Traits, match: SupplyMatch) -> SpeedRange | None:
    """Return how fast an actuator moves: its motor slows with the volts as any brushed one."""
    speed = motor.travel_speed
    if speed is None:
        return None
    least, most = supply_shares(motor, traits, match)
    return SpeedRange(speed * least, speed * least, speed * most, WHICH_VOLTS * (least < most))


def _usual_speed(traits: Traits) -> float | None:
    speeds = [c.speed_high for c in traits.classes if c.speed_high is not None]
    return min(speeds) if speeds else None
