"""Time: seconds a move, timer settings, counts, drift of a bare timer, gentleness, rests."""

from turnercalc.timing.drift import Drift
from turnercalc.timing.gentleness import Gentleness, gentleness
from turnercalc.timing.limits import SpeedLimits, speed_limits
from turnercalc.timing.plan import Timing, plan_timing

__all__ = [
    "Drift",
    "Gentleness",
    "SpeedLimits",
    "Timing",
    "gentleness",
    "plan_timing",
    "speed_limits",
]
