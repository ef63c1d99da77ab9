"""Both ends of the swing in the turner's own words."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from turnercalc.turners.wording import wording_of

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing

_DEGREES = 180.0 / math.pi


def each_end(sizing: Sizing) -> tuple[str, str] | None:
    """Return the highest and the lowest end: ``44.4° left side down``, ``44.4° right side down``.

    None where the drive does not close, and where both ends are to the same side.
    """
    ends, words = sizing.ends, wording_of(sizing.turner)
    if not math.isfinite(ends.total) or ends.low * ends.high >= 0.0:
        return None
    if sizing.turner.coordinate_unit == "rad":
        high, low = f"{_DEGREES * ends.high:.1f}°", f"{-_DEGREES * ends.low:.1f}°"
    else:
        high, low = f"{1e3 * ends.high:.1f} mm", f"{-1e3 * ends.low:.1f} mm"
    return f"{high} {words.high}", f"{low} {words.low}"


def ends_told(sizing: Sizing) -> str:
    """Return both ends in one phrase, or why there are none."""
    ends = sizing.ends
    if not math.isfinite(ends.total):
        return sizing.reason.text.rstrip(".")
    both = each_end(sizing)
    if both is not None:
        return ", ".join(both)
    if sizing.turner.coordinate_unit == "rad":
        return f"{_DEGREES * ends.total:.1f}° from end to end"
    return f"{1e3 * ends.total:.1f} mm from end to end"
