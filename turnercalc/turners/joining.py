"""How equal bars are joined so that they all turn: belts from bar to bar, one round all, motors.

Torques at the bars have the bar axis first; positive is against the move. A belt or chain that
lets through a share eta of the work loses 1/eta - 1 of what it hands on, whichever way the work
goes (load-proportional loss).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.mechanics.friction import belt_slip_torque, capstan_ratio
from turnercalc.tables import Range3

Array = NDArray[np.float64]

LOSSLESS = Range3(1.0, 1.0, 1.0)
#: A belt goes half round where it ends; one that runs over all bars is pressed onto the others.
HALF_ROUND, PRESSED = np.pi, np.pi / 3.0


@dataclass(frozen=True)
class Belt:
    """A belt that drives by its grip.

    Attributes
    ----------
    pull : float
        Of each strand at rest [N].
    radius : float
        Of what it runs on [m].
    friction : Range3
        Coefficient of the belt on it [-].
    """

    pull: float
    radius: float
    friction: Range3

    def grip(self, wrap: float) -> float:
        """Return the torque at which it slips, at its lowest friction [N·m].

        An elastic belt keeps the sum of its two pulls, 2 P, so the slack side falls to
        2 P/(1 + e^(f wrap)) before it slips.
        """
        slack = 2.0 * self.pull / (1.0 + capstan_ratio(wrap, self.friction.low))
        return float(belt_slip_torque(slack, self.radius, wrap, self.friction.low))


@dataclass(frozen=True)
class Joining:
    """How the bars are joined, so that they all turn.

    Attributes
    ----------
    bar_to_bar : bool
        Every bar drives the next one, from the driven bar outward both ways; else one belt or
        chain drives every bar.
    one_each : bool
        Every bar has a motor of its own; the hardest bar counts.
    efficiency : Range3
        Share of the work that one belt or chain lets through.
    end_pull : float
        What it pulls the bars at both ends inward with, both strands together [N].
    inner_pull : float
        What it presses every other bar down with [N].
    belt : Belt or None
        None where it cannot slip.

    Notes
    -----
    The belts to both neighbours of an inner bar run side by side, so that their pulls cancel.
    """

    bar_to_bar: bool = False
    one_each: bool = False
    efficiency: Range3 = LOSSLESS
    end_pull: float = 0.0
    inner_pull: float = 0.0
    belt: Belt | None = None

    def pulls(self, bars: int) -> tuple[Array, Array]:
        """Return the pull on every bar (x, y) [N]."""
        x, y = np.zeros(bars), np.full(bars, -self.inner_pull)
        x[0], x[-1] = self.end_pull, -self.end_pull
        y[0] = y[-1] = 0.0
        return x, y

    def carried(self, torques: Array, driven: int, efficiency: Array) -> Array:
        """Return what turning each bar asks with everything that hangs on it [N·m].

        At the driven bar that is all there is: where every bar hinders and each drives the next
        one, ``sum T_j / eta^j``, j belts from the driven bar.
        """
        torques = np.asarray(torques, float)
        if self.one_each:
            return torques
        lost = 1.0 / np.asarray(efficiency, float) - 1.0
        shape = np.broadcast_shapes(torques[0].shape, lost.shape)
        carried = np.array(np.broadcast_to(torques, (len(torques), *shape)))
        if not self.bar_to_bar:
            every = carried.sum(axis=0)
            carried[driven] = every + lost * np.abs(every)
            return carried
        for row in (range(driven), range(len(torques) - 1, driven, -1)):
            for bar in row:
                nearer = bar + 1 if bar < driven else bar - 1
                carried[nearer] = carried[nearer] + with_loss(carried[bar], lost)
        return carried

    def together(self, torques: Array, driven: int, efficiency: Array) -> Array:
        """Return what turning all bars asks of the shaft of the motor [N·m]."""
        carried = self.carried(torques, driven, efficiency)
        return np.asarray(carried.max(axis=0) if self.one_each else carried[driven])

    def grips(self, torques: Array, driven: int, efficiency: Array) -> float | None:
        """Return how many times the hardest belt grips what it has to drive; None: no belt slips.

        Infinite where nothing is asked.
        """
        if self.belt is None:
            return None
        carried = np.abs(self.carried(torques, driven, efficiency)).reshape(len(torques), -1)
        asked = carried.max(axis=-1)
        wraps = np.full(len(torques), HALF_ROUND)
        if self.bar_to_bar:
            # Each belt is asked what hangs on its farther bar, and what it loses itself.
            asked = asked / float(np.min(efficiency))
            asked[driven] = 0.0
        else:
            wraps[1:-1] = PRESSED
        grip = np.array([self.belt.grip(float(wrap)) for wrap in wraps])
        with np.errstate(divide="ignore"):
            return float(np.min(np.where(asked > 0.0, grip / asked, np.inf)))


#: Bars that are turned together without any loss and pull.
ON_ONE_SHAFT = Joining()


def with_loss(torque: Array, lost: Array) -> Array:
    """Return what a belt asks for a torque that it hands on."""
    return np.asarray(torque + lost * np.abs(torque))
