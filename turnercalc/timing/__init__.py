"""Time: seconds a move, timer settings, counts, drift of a bare timer, gentleness, rests."""

from turnercalc.timing.continuous import Continuous
from turnercalc.timing.drift import Drift, Side
from turnercalc.timing.gentleness import Gentleness, gentleness
from turnercalc.timing.limits import SpeedLimits, speed_limits
from turnercalc.timing.moves import RunDown, Way
from turnercalc.timing.plan import Timing, plan_timing
from turnercalc.timing.power_cut import PowerCut
from turnercalc.timing.running import Running, plan_running
from turnercalc.timing.timers import Setting

__all__ = [
    "Continuous",
    "Drift",
    "Gentleness",
    "PowerCut",
    "RunDown",
    "Running",
    "Setting",
    "Side",
    "SpeedLimits",
    "Timing",
    "Way",
    "gentleness",
    "plan_running",
    "plan_timing",
    "speed_limits",
]
