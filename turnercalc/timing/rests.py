"""Where the eggs spend the day: at the ends, or near level."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turnercalc.mechanics.motion import share_of_time_beyond, times_along

Array = NDArray[np.float64]

#: A rest that falls short of the threshold by such a part of it is no worse than one on it.
AS_GOOD_AS = 1e-3


def share_beyond(
    coordinate: ArrayLike,
    position: ArrayLike,
    speed: ArrayLike,
    rests: tuple[float, ...],
    threshold: float,
    interval: float,
) -> float:
    """Return the share of the day spent further from level than a threshold [-].

    Parameters
    ----------
    coordinate, position, speed : array_like, shape (P,)
        One move from side to side: where the turner and the drive are, and how fast the drive
        goes there [rad or m, rad or m, rad/s or m/s].
    rests : tuple of float
        Coordinates at which it rests, each for the same share of the day.
    threshold : float
        Distance from level [rad or m].
    interval : float
        From the start of one move to the start of the next [s].
    """
    time = times_along(position, np.abs(np.asarray(speed, float)))
    moving = float(time[-1])
    if not np.isfinite(moving) or moving > interval or not rests:
        return float("nan")
    tilt = np.abs(np.asarray(coordinate, float))
    beyond = float(share_of_time_beyond(tilt, time, threshold))
    resting = np.mean([abs(rest) > threshold * (1.0 - AS_GOOD_AS) for rest in rests])
    return float((beyond * moving + resting * (interval - moving)) / interval)
