"""What comes out of a sweep."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.rows import html_table

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]

#: Designs that a notebook shows.
SHOWN = 12


@dataclass(frozen=True, eq=False)
class Sweep:
    """What came out of a sweep, everything on one axis of designs.

    Attributes
    ----------
    varied : mapping
        Field path -> value of every design [SI, or words].
    closes : ndarray of bool
        The mask of designs that go through.
    why : ndarray of int
        For each design the number of its reason; 0 where it goes through.
    reasons : tuple of str
        The reasons by number.
    low, high : ndarray
        Ends of the swing [rad or m]; NaN where it does not go through.
    peak : ndarray, shape (design, direction)
        Hardest shaft torque or push over the loads, in the directions of `ways` [N·m or N];
        infinite where friction jams it.
    friction : str
        With how much friction: ``none`` leaves the weight of the link out too.
    verdict, times_enough : tuple or None
        Of full sizings, where they were asked for.
    unit : str
        ``rad`` or ``m``, of the ends.
    force_unit : str
        ``N·m`` or ``N``, of the peak.
    shape : tuple of int
        Of the grid; one number where the values stand side by side.
    ways : tuple of str
        The directions: ``anticlockwise`` and ``clockwise``, or ``out`` and ``in`` of a rod.
    both_ways : bool
        Whether the drive has to run in both, so that the harder one counts.
    """

    varied: Mapping[str, tuple[Any, ...] | Array]
    closes: Mask
    why: NDArray[np.intp]
    reasons: tuple[str, ...]
    low: Array
    high: Array
    peak: Array
    friction: str
    verdict: tuple[str, ...] | None = None
    times_enough: Array | None = None
    unit: str = "rad"
    force_unit: str = "N·m"
    shape: tuple[int, ...] = ()
    ways: tuple[str, str] = ("anticlockwise", "clockwise")
    both_ways: bool = False

    def __len__(self) -> int:
        return len(self.closes)

    @property
    def better(self) -> Array:
        """The peak that counts, shape (design,): of the better direction, or of the harder one.

        The harder one counts for a drive that has to run both ways.
        """
        return np.asarray(self.peak.max(axis=1) if self.both_ways else self.peak.min(axis=1))

    @property
    def way(self) -> NDArray[np.object_]:
        """The direction of the peak that counts, in words; empty where there is none."""
        told = np.where(np.isnan(self.peak), np.inf, self.peak)
        at = told.argmax(axis=1) if self.both_ways else told.argmin(axis=1)
        named = np.array(self.ways, dtype=object)[at]
        return np.where(np.isfinite(self.better), named, "")

    @property
    def way_name(self) -> str:
        """What that direction is called."""
        return "harder_direction" if self.both_ways else "better_direction"

    @property
    def jams(self) -> Mask:
        """Where friction jams it although it closes, so that no peak counts."""
        return np.asarray(self.closes & np.isinf(self.better))

    @property
    def peak_names(self) -> tuple[str, str, str]:
        """What the peak that counts and those of both directions are called, units behind."""
        what, unit = ("torque", "Nm") if self.force_unit == "N·m" else ("push", "N")
        of = "peak_shaft_torque" if what == "torque" else "peak_push"
        return (f"{of}_{unit}", *(f"{of}_{way}_{unit}" for way in self.ways))  # type: ignore[return-value]

    def reason_of(self, design: int) -> str:
        """Return why a design does not go through; empty where it does."""
        return self.reasons[int(self.why[design])]

    def to_arrays(self) -> dict[str, Any]:
        """Return every column as an array, keys with their unit in SI."""
        found: dict[str, Any] = {path: np.asarray(values) for path, values in self.varied.items()}
        counts, *each = self.peak_names
        reason = np.array(self.reasons, dtype=object)[self.why]
        found |= {
            "closes": self.closes,
            f"low_end_{self.unit}": self.low,
            f"high_end_{self.unit}": self.high,
            counts: self.better,
            each[0]: self.peak[:, 0],
            each[1]: self.peak[:, 1],
            self.way_name: self.way,
            "reason": np.where(self.jams, "friction jams it", reason),
        }
        if self.verdict is not None:
            found["verdict"] = np.array(self.verdict, dtype=object)
            found["times_enough"] = self.times_enough
        return found

    def to_dict(self) -> dict[str, list[Any]]:
        """Return the same as plain lists; None for what is not a number."""
        return {
            name: [
                None if isinstance(value, float) and not np.isfinite(value) else value
                for value in np.asarray(values).tolist()
            ]
            for name, values in self.to_arrays().items()
        }

    def _repr_html_(self) -> str:
        """Return a table of the first designs, for a notebook."""
        more = f"<p>{len(self):,} designs, {int(self.closes.sum()):,} go through.</p>"
        first = {name: values[:SHOWN].tolist() for name, values in self.to_arrays().items()}
        return html_table(first) + more
