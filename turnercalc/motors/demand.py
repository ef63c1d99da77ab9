"""What is asked of a motor: everything at its own output shaft, after the stages outside it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.fields import Supply

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Demand:
    """What a motor has to do.

    Torques are those the motor feels: positive = the motor pushes, negative = the load drives.
    For a motor that moves in a line (`linear`) read stroke for angle, force for torque and
    m/s for rad/s throughout.

    Attributes
    ----------
    angle : ndarray, shape (P,)
        Angle of the motor's shaft through one full drive cycle, ascending [rad].
    torque : ndarray, shape (load, direction, P)
        Planned loads at middle friction [N·m].
    corner_torque : ndarray, shape (load, direction, P)
        Planned loads from rest at high friction, static coefficients [N·m].
    inertia_torque : ndarray, shape (direction, P)
        Torque for each (rad/s)² of motor speed [N·m·s²].
    load_names : tuple of str
        One for each load.
    better_direction : int
        0 anticlockwise, 1 clockwise: the one with the smaller worst peak.
    both_directions_needed : bool
        True for to and fro.
    moves_per_cycle : int
        2 for round and round.
    move_spans : tuple of (int, int)
        First and last index into `angle` of each single move; the last may run past the end
        of the cycle, which then goes on from its start.
    holding_torque : float
        Largest torque the load can put on the resting motor where it parks, at lowest
        friction [N·m].
    holding_anywhere : float
        The same wherever it may come to rest [N·m].
    speed_min, speed_max : float
        Slowest and fastest the motor's shaft should turn [rad/s].
    safety_factor : float
        Times enough that the builder wants [ratio].
    interval_s : float
        From the start of one move to the start of the next [s].
    supply : Supply
        What there is to run a motor from.
    stands : str
        ``inside the box`` or ``outside the box``.
    box_temperature : float
        [degC]
    stopped_by : str
        park switch, end switches, timer or counted steps.
    stages_ratio : float
        Turns of the motor's shaft for one of the driving shaft.
    side_load : float or None
        Largest force square to the motor's shaft [N]; None where it is not known.
    room_temperature : float or None
        The warmest the room gets [degC]; None where the design does not say.
    linear : bool
        True where the drive wants a motor that moves in a line.
    runs_whole_stroke : float or None
        Where such a motor runs from one of its own ends to the other: the stroke that the design
        says it has [m]; None where end switches stop it before.
    drawn_stroke : float or None
        Stroke of such a motor that the design is drawn with [m].
    rest_points : bool
        Whether the drive has rest points, on which a motor that does not hold could be parked.
    """

    angle: Array
    torque: Array
    corner_torque: Array
    inertia_torque: Array
    load_names: tuple[str, ...]
    better_direction: int
    both_directions_needed: bool
    moves_per_cycle: int
    move_spans: tuple[tuple[int, int], ...]
    holding_torque: float
    holding_anywhere: float
    speed_min: float
    speed_max: float
    safety_factor: float
    interval_s: float
    supply: Supply
    stands: str
    box_temperature: float
    stopped_by: str
    stages_ratio: float
    side_load: float | None
    linear: bool = False
    room_temperature: float | None = None
    runs_whole_stroke: float | None = None
    drawn_stroke: float | None = None
    rest_points: bool = True

    @property
    def travel(self) -> float:
        """From the first position to the last [rad], or [m] for a motor that moves in a line."""
        return float(self.angle[-1] - self.angle[0])

    @property
    def turns_through(self) -> float:
        """What the motor's shaft turns before it is turned back [rad]; infinite: it goes on."""
        if self.moves_per_cycle != 1 or not self.both_directions_needed:
            return float("inf")
        return float(self.angle[-1] - self.angle[0])

    @property
    def inside(self) -> bool:
        """Whether the motor stands inside the warm box."""
        return self.stands.startswith("inside")

    def indices(self, span: tuple[int, int]) -> NDArray[np.intp]:
        """Return the indices into `angle` of one move."""
        return np.arange(span[0], span[1] + 1) % self.angle.size

    def places(self, span: tuple[int, int]) -> Array:
        """Return the angles of one move, going on past the end of the cycle [rad]."""
        turn = self.angle.size * (self.angle[1] - self.angle[0])
        beyond = np.arange(span[0], span[1] + 1) // self.angle.size
        return np.asarray(self.angle[self.indices(span)] + turn * beyond)

    def directions(self, chosen_freely: bool) -> tuple[int, ...]:
        """Return the directions that count.

        Parameters
        ----------
        chosen_freely : bool
            Whether the motor can be made to turn the better way; else the harder way counts.
        """
        if self.both_directions_needed or not chosen_freely:
            return tuple(range(self.torque.shape[1]))
        return (self.better_direction,)

    def running_torque(self, speed: float) -> Array:
        """Return the planned torque at a motor speed, shape (load, direction, P) [N·m]."""
        return self.torque + self.inertia_torque * speed**2

    def hardest(
        self, directions: tuple[int, ...], speed: float = 0.0
    ) -> tuple[float, str, int, int]:
        """Return the hardest planned torque [N·m], its load, direction and position."""
        torque = self.running_torque(speed)[:, directions, :]
        return self._peak(torque, directions)

    def hardest_corner(self, directions: tuple[int, ...]) -> tuple[float, str, int, int]:
        """Return the hardest start [N·m], its load, direction and position."""
        return self._peak(self.corner_torque[:, directions, :], directions)

    def _peak(self, torque: Array, directions: tuple[int, ...]) -> tuple[float, str, int, int]:
        load, direction, position = np.unravel_index(int(np.argmax(torque)), torque.shape)
        name = self.load_names[int(load)] if self.load_names else ""
        peak = max(float(torque.max()), 0.0)
        return peak, name, directions[int(direction)], int(position)
