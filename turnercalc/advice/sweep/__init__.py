"""Sweeps: any fields over any values, arrays in and arrays out.

Lengths that decide the ends go through array kernels, a block of designs at a time and blocks on
every core (`blocks`). Any other field builds each design by itself (`singly`). A design that does
not go through, or cannot be, has NaN and its reason; nothing is left out and nothing is made up.
"""

from turnercalc.advice.sweep.result import Sweep
from turnercalc.advice.sweep.running import sweep

__all__ = ["Sweep", "sweep"]
