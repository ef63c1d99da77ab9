"""Gear pairs nearest to a wanted ratio, in one to three stages of teeth that shops keep."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from turnercalc.tables import stage_losses, stock_teeth

Array = NDArray[np.float64]

#: A single stage slows by no more than this, and no less: the wheels grow too unlike.
STEEPEST = 8.0
MOST_STAGES = 3
#: Decimals of a logarithm to which two ratios are one.
SAME = 11


@dataclass(frozen=True)
class Train:
    """Stages one behind the other.

    Attributes
    ----------
    kind : str
        Of every stage.
    pairs : tuple of (int, int)
        Teeth at the motor's end and driven, the motor's stage first.
    ratio : float
        Turns of the motor for one turn behind them [-].
    off : float
        Ratio over the wanted one, less 1 [-].
    efficiency : float
        Share of the work that gets through, middle figure [-].
    """

    kind: str
    pairs: tuple[tuple[int, int], ...]
    ratio: float
    off: float
    efficiency: float

    @property
    def teeth(self) -> int:
        """Teeth of all wheels together: what it costs in size."""
        return sum(a + b for a, b in self.pairs)

    def settings(self, first: int = 1) -> dict[str, str]:
        """Return the stages as settings, as ``--set`` takes them."""
        found = {}
        for number, (motor, driven) in enumerate(self.pairs, start=first):
            found[f"gearing.{number}.kind"] = self.kind
            found[f"gearing.{number}.motor_teeth"] = str(motor)
            found[f"gearing.{number}.driven_teeth"] = str(driven)
        return found


def nearest_trains(
    ratio: float,
    kind: str = "spur",
    *,
    stages: int | None = None,
    count: int = 5,
    teeth: Sequence[int] | None = None,
    steepest: float = STEEPEST,
) -> tuple[Train, ...]:
    """Return the trains nearest to a ratio, nearest first; equally near, the fewest teeth first.

    Parameters
    ----------
    ratio : float
        Turns of the motor for one turn behind the train, above 0.
    kind : str
        Kind of stage whose teeth shops keep: ``spur``, ``chain`` or ``toothed belt``.
    stages : int, optional
        1 to 3; by default the best of each number, fewest stages first.
    count : int
        How many of each number of stages.
    teeth : sequence of int, optional
        In place of the stock list.
    steepest : float
        Most that one stage may slow down, or speed up.

    Raises
    ------
    ValueError
        For a ratio of 0 or less, or a number of stages that is none of these.
    UnknownNameError
        For a kind without a stock list.
    """
    if not ratio > 0.0 or not math.isfinite(ratio):
        raise ValueError(f"a ratio is a number above 0, not {ratio:g}")
    if stages is not None and stages not in range(1, MOST_STAGES + 1):
        raise ValueError(f"1 to {MOST_STAGES} stages are looked at, not {stages}")
    stock = tuple(sorted(teeth)) if teeth is not None else stock_teeth(kind)
    efficiency = stage_losses(kind).efficiency.middle
    singles = single_pairs(stock, steepest)
    numbers = [stages] if stages is not None else list(range(1, MOST_STAGES + 1))
    found: list[Train] = []
    for number in numbers:
        for pairs in nearest(ratio, singles, number, count):
            exact = math.prod(driven / motor for motor, driven in pairs)
            train = Train(kind, pairs, exact, exact / ratio - 1.0, efficiency**number)
            found.append(train)
    return tuple(found)


def single_pairs(stock: Sequence[int], steepest: float) -> dict[Fraction, tuple[int, int]]:
    """Return the pair with the fewest teeth for every ratio one stage can have, rising."""
    best: dict[Fraction, tuple[int, int]] = {}
    low, high = Fraction(1.0 / steepest), Fraction(steepest)
    for motor, driven in itertools.product(stock, stock):
        # low <= driven / motor <= high, in whole numbers
        if low.numerator * motor > driven * low.denominator:
            continue
        if driven * high.denominator > high.numerator * motor:
            continue
        exact = Fraction(driven, motor)
        if exact not in best or motor + driven < sum(best[exact]):
            best[exact] = (motor, driven)
    return {exact: best[exact] for exact in sorted(best, key=float)}


def nearest(
    ratio: float, singles: dict[Fraction, tuple[int, int]], stages: int, count: int
) -> Iterator[tuple[tuple[int, int], ...]]:
    """Yield the sets of pairs whose product is nearest, in rising order of the stages' ratios.

    For every choice of all stages but one, the last is looked up among the sorted ratios, so that
    nothing is left out.
    """
    pairs = list(singles.values())
    values = np.log([float(exact) for exact in singles])
    teeth = np.array([motor + driven for motor, driven in pairs])
    heads, picks = products(values, stages - 1)
    wanted = math.log(ratio) - heads
    # As many on either side as are asked for: no nearer one of any head is left out.
    beside = np.arange(-count - 1, count + 1)
    last = np.clip(np.searchsorted(values, wanted)[:, None] + beside, 0, len(values) - 1)
    off = np.round(values[last] - wanted[:, None], SAME).ravel()
    cost = (teeth[picks].sum(axis=1)[:, None] + teeth[last]).ravel()
    told: set[float] = set()
    for flat in np.lexsort((cost, off, np.abs(off))).tolist():
        if off[flat] in told:
            continue  # the same ratio with more teeth
        told.add(off[flat])
        head, column = divmod(flat, last.shape[1])
        yield tuple(pairs[i] for i in sorted((*picks[head].tolist(), int(last[head, column]))))
        if len(told) == count:
            return


def products(values: Array, stages: int) -> tuple[Array, NDArray[np.intp]]:
    """Return every sum of so many logarithms, and which they are."""
    if stages == 0:
        return np.zeros(1), np.zeros((1, 0), dtype=np.intp)
    if stages == 1:
        return values, np.arange(len(values))[:, None]
    one, other = np.triu_indices(len(values))
    return values[one] + values[other], np.stack([one, other], axis=1)
