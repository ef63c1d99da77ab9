"""What single error explains what was measured on the finished turner."""

from turnercalc.advice.diagnose.answer import (
    Adjustment,
    Diagnosis,
    Explanation,
    diagnose,
    gather,
)
from turnercalc.advice.diagnose.measured import Measured, read_count, read_ends, read_log

__all__ = [
    "Adjustment",
    "Diagnosis",
    "Explanation",
    "Measured",
    "diagnose",
    "gather",
    "read_count",
    "read_ends",
    "read_log",
]
