"""Judge the build: how it comes out when nothing is made or known exactly."""

from turnercalc.advice.tolerance.errors import Source, read_half_known
from turnercalc.advice.tolerance.judged import Judged, Spread
from turnercalc.advice.tolerance.sampling import judge_build

__all__ = ["Judged", "Source", "Spread", "judge_build", "read_half_known"]
