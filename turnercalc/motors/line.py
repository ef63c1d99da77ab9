"""Torque-speed lines: how fast a motor turns under a torque, and where it stops.

One record for all classes, so that arrays of torques go through in one call:

* ``straight``: brushed motors. Speed falls in proportion to torque, to nothing at stall; where
  the load drives, it runs on past the free speed on the same line.
* ``induction``: shaded-pole and capacitor-run. The same slope near the working point, but the
  motor drops out at its largest torque instead of creeping.
* ``synchronous``: the speed of the mains up to the pull-out torque, either way.
* ``stepped``: steppers and servos. The speed the control commands, up to the largest torque.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.mechanics.ac_motor import speed_ratio_of_frequency
from turnercalc.mechanics.dc_motor import (
    line_at_voltage,
    speed_at_torque,
    stall_torque_from_rated,
)
from turnercalc.motors.motor import Motor
from turnercalc.motors.supply import SupplyMatch, listed_frequencies, supply_shares
from turnercalc.motors.traits import Traits

Array = NDArray[np.float64]

#: What a listing for a wide range of volts leaves open.
WHICH_VOLTS = "at which of its volts its figures hold (the highest was reckoned with)"


@dataclass(frozen=True)
class Line:
    """The torque-speed line of one motor on one supply, at its output shaft.

    Attributes
    ----------
    form : str
        ``straight``, ``induction``, ``synchronous`` or ``stepped``.
    free_speed : float
        Speed without load [rad/s].
    zero_torque : float
        Torque at which the line, drawn on, meets standstill [N·m]; infinite where the speed
        does not depend on the torque.
    most_torque : float
        Torque beyond which it stands [N·m].
    overruns : bool
        Whether a load that drives makes it run on past its free speed.
    """

    form: str
    free_speed: float
    zero_torque: float
    most_torque: float
    overruns: bool = True

    def speed(self, torque: ArrayLike) -> Array:
        """Return the speed under a torque.

        Parameters
        ----------
        torque : array_like
            Positive = the motor pushes [N·m].

        Returns
        -------
        ndarray
            Same shape [rad/s]; 0 where the motor stands. NaN in, NaN out.
        """
        t = np.asarray(torque, dtype=np.float64)
        if np.isinf(self.zero_torque):
            speed = np.full(t.shape, self.free_speed)
        else:
            speed = speed_at_torque(self.zero_torque, self.free_speed, t)
        if not self.overruns:
            speed = np.minimum(speed, self.free_speed)
        stands = t >= self.most_torque
        standing = np.where(stands, 0.0, np.maximum(speed, 0.0))
        result: Array = np.where(np.isnan(t), np.nan, standing)[()]
        return result

    def at_share(self, share: float) -> Line:
        """Return the line on another voltage, as a share of this one's.

        Straight lines scale both ends with the voltage, induction torque with its square, the
        pull-out of a synchronous motor with the voltage; a stepper is driven by current.
        """
        if self.form == "straight":
            torque, speed = line_at_voltage(self.zero_torque, self.free_speed, share, 1.0)
            return replace(
                self,
                free_speed=float(speed),
                zero_torque=float(torque),
                most_torque=self.most_torque * share,
            )
        factor = torque_share(self.form, share)
        return replace(
            self, zero_torque=self.zero_torque * factor, most_torque=self.most_torque * factor
        )

    def at_speed(self, speed: float) -> Line:
        """Return the line with another free speed, same torques."""
        return replace(self, free_speed=speed)


def torque_share(form: str, share: float) -> float:
    """Return what is left of the torque on a share of the voltage [ratio]."""
    return {"induction": share**2, "stepped": 1.0}.get(form, share)


@dataclass(frozen=True)
class SpeedRange:
    """What is known of a motor's free speed on one supply.

    Attributes
    ----------
    nominal : float
        As taken [rad/s].
    low, high : float
        Where it may lie, by what the listing leaves open [rad/s].
    doubt : str
        What it leaves open; empty where nothing.
    """

    nominal: float
    low: float
    high: float
    doubt: str = ""


def free_speed_range(
    motor: Motor, traits: Traits, match: SupplyMatch, hertz: float | None
) -> SpeedRange | None:
    """Return the free speed on a supply, or None where the listing gives no speed.

    A speed of which the listing does not say whether it is with or without load is taken as
    without; a mains speed that names no frequency as that of the builder's mains.
    """
    doubts: list[str] = []
    if motor.free_speed is not None:
        low = high = nominal = motor.free_speed
    elif motor.rated_speed is not None:
        nominal = motor.rated_speed / (1.0 - traits.speed_drop)
        low = high = nominal
    elif motor.unnamed_speed is not None:
        low = nominal = motor.unnamed_speed
        high = nominal
        if traits.line == "straight":
            high = nominal / (1.0 - traits.speed_drop)
            doubts.append("the load at which its speed was measured (taken as no load)")
    else:
        return None
    if traits.any_mains and match.current != "dc":
        ratio_low, ratio_high, doubt = _frequency_ratios(motor, hertz)
        low, high = low * ratio_low, high * ratio_high
        nominal = nominal * ratio_low if ratio_low == ratio_high else nominal
        doubts += [doubt] if doubt else []
    if traits.line == "straight":
        least, most = supply_shares(motor, traits, match)
        if least < most:
            doubts.append(WHICH_VOLTS)
        low, nominal, high = low * least, nominal * least, high * most
    return SpeedRange(nominal, low, high, "; ".join(doubts))


def _frequency_ratios(motor: Motor, hertz: float | None) -> tuple[float, float, str]:
    """Return by what the listed speed changes on the builder's mains: least, most, doubt."""
    bound = {r.hertz for r in motor.ratings if r.hertz is not None}
    listed = listed_frequencies(motor)
    if bound:
        if hertz is None:
            return 1.0, 1.2, "your mains frequency, which sets its speed"
        if hertz in bound:
            return 1.0, 1.0, ""
        ratio = float(speed_ratio_of_frequency(hertz, min(bound)))
        return ratio, ratio, ""
    if len(listed) == 1 and hertz is not None:
        ratio = float(speed_ratio_of_frequency(hertz, listed[0]))
        return ratio, ratio, ""
    if hertz is None and listed:
        return 1.0, 1.2, "your mains frequency, which sets its speed"
    return 5.0 / 6.0, 1.2, "the mains frequency its speed holds for"


def line_of(
    motor: Motor, traits: Traits, free_speed: float, dependable: float, share: float = 1.0
) -> Line:
    """Return the torque-speed line.

    Parameters
    ----------
    motor : Motor
        With the figures of the supply it runs on.
    traits : Traits
    free_speed : float
        On that supply [rad/s].
    dependable : float
        Torque that may be counted on [N·m]; sets the slope where neither a stall torque nor two
        speeds are listed.
    share : float
        Supply over the nearest nominal [ratio]; already in `free_speed`.
    """
    most = _most_torque(motor, traits, dependable) * torque_share(traits.line, min(share, 1.0))
    # A worm that is known to hold is not driven by its load, so it cannot run ahead either.
    overruns = traits.line in ("straight", "induction") and motor.holds_when_off is not True
    if traits.line in ("synchronous", "stepped"):
        return Line(traits.line, free_speed, np.inf, most, False)
    zero = most if traits.line == "straight" else np.inf
    listed = motor.rated_torque, motor.rated_speed, motor.free_speed
    if all(value is not None for value in listed) and motor.stall_torque is None:
        drawn = float(stall_torque_from_rated(*listed))  # type: ignore[arg-type]
        if np.isfinite(drawn):
            zero = drawn * (share if traits.line == "straight" else 1.0)
            most = zero if traits.line == "straight" else most
    elif traits.line == "induction":
        zero = dependable / traits.speed_drop
    return Line(traits.line, free_speed, zero, most, overruns)


def _most_torque(motor: Motor, traits: Traits, dependable: float) -> float:
    """Return the torque at which it stands, where none is listed from the share that counts."""
    if motor.stall_torque is not None:
        return motor.stall_torque
    if traits.line == "straight":
        return dependable / max(traits.speed_drop, 1e-6)
    return dependable
