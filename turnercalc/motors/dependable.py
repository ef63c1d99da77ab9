"""What of a listed torque may be counted on.

A rated torque counts in full; of a stall, pull-out or holding torque only the share of its
class; of a torque whose kind the listing does not say, that share too, until the seller is
asked. The builder's safety factor has no place here: it is charged once, in the matching.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from turnercalc.mechanics.thermal import ALLOWED_RISE
from turnercalc.motors.motor import Motor
from turnercalc.motors.traits import Traits

# Share of the rated torque in surroundings above 40 °C, from two published tables of makers of
# geared motors (makers withheld): windings allowed 60 K, and 100 K. IEC 60034-1 rates at 40 °C.
_AMBIENT_DEG_C = (40.0, 45.0, 50.0, 55.0, 60.0)
_AMBIENT_SHARE_60_K = (1.00, 0.94, 0.88, 0.83, 0.78)
_AMBIENT_SHARE_100_K = (1.00, 0.96, 0.92, 0.88, 0.85)


@dataclass(frozen=True)
class Dependable:
    """Torque that may be counted on.

    Attributes
    ----------
    torque : float or None
        [N·m], or [N] for a motor that moves in a line; None where no figure counts.
    source : str
        ``rated``, ``share of stall``, ``share of pull-out``, ``share of holding``,
        ``share of starting``, ``share of a figure of unsaid kind`` or empty.
    kindest : float or None
        The same if a figure of unsaid kind were a rated one [N·m].
    continuous : float or None
        What it may give for as long as it likes [N·m]; None where no rated figure is listed.
    listed : float or None
        The figure it comes from [N·m].
    share : float
        What of that figure counts [ratio].
    """

    torque: float | None
    source: str = ""
    kindest: float | None = None
    continuous: float | None = None
    listed: float | None = None
    share: float = 1.0

    @property
    def certain(self) -> bool:
        """Whether the listing says which kind of torque it is."""
        return self.kindest is None

    def scaled(self, factor: float) -> Dependable:
        """Return the same on another supply or in other surroundings."""

        def times(value: float | None) -> float | None:
            return None if value is None else value * factor

        return Dependable(
            times(self.torque),
            self.source,
            times(self.kindest),
            times(self.continuous),
            self.listed,
            self.share,
        )


def dependable(motor: Motor, traits: Traits) -> Dependable:
    """Return the torque of a motor that may be counted on.

    Of several figures the one that lets most be counted on decides: to know the stall torque
    besides the rated one never makes a motor weaker.
    """
    if traits.linear:
        return _force(motor, traits)
    share = traits.share_that_counts
    counted: list[tuple[float, str, float, float]] = []
    if motor.rated_torque is not None:
        whole = motor.rated_torque * traits.rated_share
        counted.append((whole, "rated", motor.rated_torque, traits.rated_share))
    stall = "share of stall" if traits.line == "straight" else "share of pull-out"
    for value, source in (
        (motor.stall_torque, stall),
        (motor.starting_torque, "share of starting"),
        (motor.holding_torque if traits.all_steppers else None, "share of holding"),
    ):
        if value is not None:
            counted.append((value * share, source, value, share))
    continuous = motor.rated_torque
    unnamed = motor.unnamed_torque
    best = max(counted, default=None)
    if unnamed is not None and (best is None or unnamed * share > best[0]):
        source = "share of a figure of unsaid kind"
        return Dependable(unnamed * share, source, unnamed, continuous, unnamed, share)
    if best is None:
        return Dependable(None)
    torque, source, listed, part = best
    return Dependable(torque, source, None, continuous, listed, part)


def _force(motor: Motor, traits: Traits) -> Dependable:
    if motor.force is None:
        return Dependable(None)
    share = traits.share_that_counts
    return Dependable(motor.force * share, "share of force", None, None, motor.force, share)


def ambient_share(ambient: float, insulation: str | None = None) -> float:
    """Return what of its rated torque a motor may give in warm surroundings.

    Parameters
    ----------
    ambient : float
        [degC]
    insulation : str or None
        Class by IEC 60085; None where it is not listed: the class that bears least is meant.

    Returns
    -------
    float
        1 to 40 °C; by the tables to 60 °C; 0 above, where no table was found. The milder table
        counts for windings that are allowed its 100 K.
    """
    if ambient > _AMBIENT_DEG_C[-1]:
        return 0.0
    rise = ALLOWED_RISE.get(insulation or "", min(ALLOWED_RISE.values()))
    shares = _AMBIENT_SHARE_100_K if rise >= 100.0 else _AMBIENT_SHARE_60_K
    return float(np.interp(ambient, _AMBIENT_DEG_C, shares))
