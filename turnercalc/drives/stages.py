"""Stages between the gearmotor and the driving shaft: chain, belt, gears, worm, friction roller.

A gearmotor's listed torque already contains its own gearbox; these are the external stages only.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.mechanics.gearing import back_driven_efficiency, torque_before_stage
from turnercalc.mechanics.screws import thread_back_efficiency
from turnercalc.tables import Range3, StageLosses

Array = NDArray[np.float64]

#: Which end of a stage's efficiency goes with a friction level: much friction, little efficiency.
EFFICIENCY_AT = {"low": "high", "middle": "middle", "high": "low", "starting": "low"}


@dataclass(frozen=True)
class Stage:
    """One external stage.

    Attributes
    ----------
    kind : str
        Its name in the stage table.
    ratio : float
        Turns of its motor side per turn of its load side [-].
    efficiency : Range3
        Share of the work that arrives when the motor drives [-].
    no_load_drag : float
        Torque it takes at its motor side without load [N·m].
    lead_angle : float or None
        Of the thread of a worm or screw [rad], whose loss is not in proportion to its load; None
        for everything else.
    """

    kind: str
    ratio: float
    efficiency: Range3
    no_load_drag: float = 0.0
    lead_angle: float | None = None

    @classmethod
    def of_kind(
        cls,
        losses: StageLosses,
        ratio: float,
        efficiency: Range3 | None = None,
        lead_angle: float | None = None,
    ) -> Stage:
        """Make a stage of a kind of the table, with the table's figures unless others are given."""
        return cls(
            losses.kind,
            ratio,
            efficiency or losses.efficiency,
            losses.no_load_drag or 0.0,
            lead_angle if lead_angle is not None else losses.lead_angle,
        )

    def back_efficiency(self, efficiency: ArrayLike) -> Array:
        """Return what of a load's torque arrives at the motor side when the load drives [-].

        Zero or less: the stage holds its load, and the motor has to push although the load would
        help. By the exact form of an inclined thread for worms and screws, else by the rule of a
        loss in proportion to the load.
        """
        eta = np.asarray(efficiency, float)
        if self.lead_angle is None:
            return np.asarray(back_driven_efficiency(eta))
        return np.asarray(thread_back_efficiency(eta, self.lead_angle))

    def holds(self, level: str = "low") -> bool:
        """Tell whether a load cannot turn it back at a friction level."""
        eta = getattr(self.efficiency, EFFICIENCY_AT[level])
        return bool(self.back_efficiency(eta) <= 0.0)

    def motor_side(self, torque: ArrayLike, efficiency: ArrayLike) -> Array:
        """Return the torque at the motor side for a torque at the load side [N·m].

        Positive: the motor pushes.
        """
        eta = np.asarray(efficiency, float)
        carried = torque_before_stage(torque, self.ratio, eta, self.back_efficiency(eta))
        return np.asarray(carried + self.no_load_drag)


@dataclass(frozen=True)
class Stages:
    """All external stages, motor first; none at all is a ratio of 1 without loss."""

    stages: tuple[Stage, ...] = ()

    @property
    def ratio(self) -> float:
        """Turns of the gearmotor's own shaft per turn of the driving shaft [-]."""
        return float(np.prod([stage.ratio for stage in self.stages]))

    @property
    def efficiency(self) -> Range3:
        """Efficiency of all stages together when the motor drives [-]."""
        every = [stage.efficiency for stage in self.stages]
        return Range3(
            float(np.prod([e.low for e in every])),
            float(np.prod([e.middle for e in every])),
            float(np.prod([e.high for e in every])),
        )

    def holds(self, level: str = "low") -> bool:
        """Tell whether any of them cannot be turned back by a load at a friction level."""
        return any(stage.holds(level) for stage in self.stages)

    def motor_torque(self, shaft_torque: ArrayLike, levels: Sequence[str]) -> Array:
        """Return the torque at the gearmotor's own shaft [N·m], positive: the motor pushes.

        Parameters
        ----------
        shaft_torque : array_like, shape (..., friction, direction, position)
            At the driving shaft [N·m].
        levels : sequence of str
            The friction axis; much friction goes with little efficiency.
        """
        torque = np.asarray(shaft_torque, float)
        for stage in reversed(self.stages):
            at = [getattr(stage.efficiency, EFFICIENCY_AT[level]) for level in levels]
            torque = stage.motor_side(torque, np.array(at)[:, None, None])
        return torque

    def held_torque(self, shaft_torque: ArrayLike) -> Array:
        """Return what a torque at the resting shaft asks of the resting motor [N·m], >= 0.

        With the least friction: no drag, the best efficiency, each stage holding back what its
        own friction holds.
        """
        torque: Array = np.abs(np.asarray(shaft_torque, float))
        for stage in reversed(self.stages):
            back = np.maximum(stage.back_efficiency(stage.efficiency.high), 0.0)
            torque = torque * back / stage.ratio
        return torque
