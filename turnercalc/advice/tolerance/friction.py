"""What friction adds to the peaks of builds, without computing every one of them in full.

The peak without friction is known of every build. What friction adds to it hardly changes with a
length that comes out a millimetre off, so a few builds computed in full tell how, and a few more
tell how well that holds.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.many import free_peaks, peaks_with_friction
from turnercalc.building import Built
from turnercalc.cycle import frictionless, turn_cycle
from turnercalc.drives.base import Drive
from turnercalc.turners.base import LoadCase, Turner

Array = NDArray[np.float64]

#: Loose eggs change sides at one tilt; with coarse steps of the crank the peak there is missed.
POSITIONS = 360
#: Builds computed in full, to fit and to look whether it fits.
FITTED, LOOKED_AT = 96, 32
#: Below this share of the peak, what friction adds is no base for a ratio.
NEXT_TO_NOTHING = 1e-6


@dataclass(frozen=True)
class FrictionFit:
    """How what friction adds to a peak changes with the lengths.

    Attributes
    ----------
    meant, scale : mapping
        Field path -> length as meant, and how far it comes out [m].
    slopes : ndarray, shape (1 + 2 x lengths, load x direction)
        Share by which friction adds more: always, for an error as large as its scale, and for
        its square.
    error : float
        Root mean square of what the hardest peak of a build is off, as a share of it; NaN where
        friction jams builds that were looked at.
    """

    meant: Mapping[str, float]
    scale: Mapping[str, float]
    slopes: Array
    error: float

    def factor(self, lengths: Mapping[str, Array], shape: tuple[int, int]) -> Array:
        """Return by what the friction of the meant lengths is to be multiplied.

        Shape (build, load, direction), for ``shape`` (load, direction).
        """
        terms = terms_of(lengths, self.meant, self.scale)
        return np.asarray(1.0 + (terms @ self.slopes).reshape(len(terms), *shape))


def terms_of(
    lengths: Mapping[str, Array], meant: Mapping[str, float], scale: Mapping[str, float]
) -> Array:
    """Return 1, every error over its scale, and its square, shape (build, 1 + 2 x lengths)."""
    errors = np.stack([(lengths[path] - meant[path]) / scale[path] for path in meant], axis=-1)
    return np.concatenate([np.ones((len(errors), 1)), errors, errors**2], axis=-1)


def fit_friction(
    built: Built,
    lengths: Mapping[str, Array],
    meant: Mapping[str, float],
    scale: Mapping[str, float],
    loads: Sequence[LoadCase],
    way: Sequence[int],
) -> FrictionFit:
    """Return how friction changes with the lengths, from builds computed in full.

    Parameters
    ----------
    built : Built
        As meant.
    lengths : mapping
        Field path -> length in `FITTED` and then `LOOKED_AT` builds [m].
    meant, scale : mapping
        As in `FrictionFit`; of every length that varies.
    loads : sequence of LoadCase
        The hard ones.
    way : sequence of int
        Directions that count.
    """
    turner, drive = built.turner, built.drive
    free = free_peaks(turner, drive, lengths, loads, POSITIONS, anew=False)
    full = peaks_with_friction(turner, drive, lengths, loads, count=POSITIONS)
    base = friction_adds(turner, drive, loads)
    shape = base.shape
    usable = np.abs(base) > NEXT_TO_NOTHING * np.abs(full[:FITTED]).max()
    with np.errstate(divide="ignore", invalid="ignore"):
        share = np.where(usable, (full - free) / base - 1.0, 0.0).reshape(len(full), -1)
    terms = terms_of(lengths, meant, scale)
    sound = np.flatnonzero(np.isfinite(share[:FITTED]).all(axis=-1))
    slopes: Array = np.zeros((terms.shape[1], share.shape[1]))
    if sound.size > 2 * terms.shape[1]:
        slopes = np.asarray(np.linalg.lstsq(terms[sound], share[sound], rcond=None)[0])
    fit = FrictionFit(meant, scale, slopes, np.nan)
    told = (free + base * fit.factor(lengths, shape))[FITTED:][:, :, list(way)].max(axis=(1, 2))
    true = full[FITTED:][:, :, list(way)].max(axis=(1, 2))
    with np.errstate(invalid="ignore"):
        off = told / true - 1.0 if np.isfinite(true).all() else np.array([np.nan])
    return FrictionFit(meant, scale, slopes, float(np.sqrt(np.mean(off**2))))


def friction_adds(turner: Turner, drive: Drive, loads: Sequence[LoadCase]) -> Array:
    """Return what friction and the link's weight add to the peaks of the kernel.

    With nominal lengths, shape (load, direction) [N·m or N]; infinite where friction jams it.
    """
    cycle = turn_cycle(turner, drive, loads, levels=("middle",), count=POSITIONS)
    rubbed = cycle.shaft_torque[:, 0].max(axis=-1)
    added = np.where(np.isnan(rubbed), np.inf, rubbed) - bare_peaks(turner, drive, loads)
    return np.asarray(added)


def bare_peaks(turner: Turner, drive: Drive, loads: Sequence[LoadCase]) -> Array:
    """Return the peaks of the kernel for one design, shape (load, direction)."""
    cells = np.stack([case.cells for case in loads]).astype(float)
    position = drive.positions(turner.travel, POSITIONS)
    torque = frictionless(turner, drive, cells, position)[3][:, 0, 0]
    return np.stack([torque.max(axis=-1), -torque.min(axis=-1)], axis=-1)
