"""Gear pairs nearest to a wanted ratio, in one to three stages of teeth that shops keep."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.asked import above_zero, whole
from turnercalc.advice.rows import Listed
from turnercalc.errors import AskedError
from turnercalc.tables import smooth_teeth, stage_losses, stock_teeth

Array = NDArray[np.float64]

#: A single stage slows by no more than this, and no less: the wheels grow too unlike.
STEEPEST = 8.0
MOST_STAGES = 3
#: Farther off than this a train is not near the wanted ratio; within that it does as wanted.
NEAR, WITHIN = 0.1, 0.01
#: What a wheel can have at all; more wheels, or more trains, take too long in three stages.
FEWEST_TEETH, MOST_TEETH, MOST_WHEELS = 3, 1000, 40
MOST_TOLD = 50
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
    def near(self) -> bool:
        """Whether it comes near the wanted ratio at all."""
        return abs(self.off) <= NEAR

    @property
    def smallest(self) -> int:
        """Teeth of its smallest wheel."""
        return min(min(pair) for pair in self.pairs)

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


@dataclass(frozen=True)
class Trains(Listed[Train]):
    """The trains nearest to a ratio, fewest stages first and nearest first among those.

    Attributes
    ----------
    ratio : float
        As wanted [-].
    kind : str
        Of every stage.
    found : tuple of Train
    teeth : tuple of int
        The wheels there are.
    own : bool
        Whether they are the builder's own.
    smooth_from : int
        Fewest teeth that run as they should.
    note : str
        Why, in a sentence.
    """

    ratio: float
    kind: str
    found: tuple[Train, ...]
    teeth: tuple[int, ...]
    own: bool
    smooth_from: int
    note: str

    @property
    def near(self) -> tuple[Train, ...]:
        """Those that come near at all."""
        return tuple(train for train in self.found if train.near)

    @property
    def best(self) -> Train | None:
        """Within one in a hundred with the fewest stages, else the nearest; None: none is near."""
        if not self.near:
            return None
        close = [train for train in self.near if abs(train.off) <= WITHIN]
        if not close:
            return min(self.near, key=lambda train: abs(train.off))
        return min(close, key=lambda train: (len(train.pairs), abs(train.off)))

    @property
    def nearest(self) -> Train | None:
        """The nearest of all, near or not; None where no two wheels make a stage."""
        return min(self.found, key=lambda train: abs(math.log1p(train.off)), default=None)

    def rows(self) -> list[dict[str, Any]]:
        """Return one line for each train."""
        return [
            {
                "stages": len(train.pairs),
                "teeth": ", ".join(f"{a} to {b}" for a, b in train.pairs),
                "ratio": train.ratio,
                "off": train.off,
                "efficiency": train.efficiency,
                "near": train.near,
            }
            for train in self.found
        ]


def nearest_trains(
    ratio: float,
    kind: str = "spur",
    *,
    stages: int | None = None,
    count: int = 5,
    teeth: Sequence[int] | None = None,
    steepest: float = STEEPEST,
) -> Trains:
    """Return the trains nearest to a ratio, nearest first; equally near, the fewest teeth first.

    What is nearest need not be near: `Train.near` tells, and `Trains.best` is None where none is.

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
    AskedError
        The ratio is not above 0, or stages, count, teeth or the steepest stage are none.
    UnknownNameError
        For a kind without a stock list.
    """
    ratio = above_zero(ratio, "ratio of gears")
    steepest = above_zero(steepest, "steepest single stage")
    if steepest < 1.0:
        raise AskedError(f"steepest single stage: a number of 1 or more, not {steepest:g}")
    count = whole(count, "how many trains", 1, MOST_TOLD)
    if stages is not None:
        stages = whole(stages, "stages", 1, MOST_STAGES)
    stock = own_wheels(teeth) if teeth is not None else stock_teeth(kind)
    efficiency = stage_losses(kind).efficiency.middle
    singles = single_pairs(stock, steepest)
    numbers = [stages] if stages is not None else list(range(1, MOST_STAGES + 1))
    found: list[Train] = []
    for number in numbers:
        for pairs in nearest(ratio, singles, number, count):
            exact = math.prod(driven / motor for motor, driven in pairs)
            train = Train(kind, pairs, exact, exact / ratio - 1.0, efficiency**number)
            found.append(train)
    return Trains(ratio, kind, tuple(found), stock, teeth is not None, *smooth_teeth(kind))


def own_wheels(teeth: Any) -> tuple[int, ...]:
    """Return the builder's own numbers of teeth, each once, smallest first."""
    if isinstance(teeth, str) or not isinstance(teeth, Iterable):
        raise AskedError(f"teeth: a list of whole numbers such as [12, 20, 36], not {teeth!r}")
    found = {whole(one, "teeth of a wheel", FEWEST_TEETH, MOST_TEETH) for one in teeth}
    if not found:
        raise AskedError("teeth: at least one wheel, such as [12, 20, 36]")
    if len(found) > MOST_WHEELS:
        raise AskedError(f"teeth: {MOST_WHEELS} different wheels at most, not {len(found)}")
    return tuple(sorted(found))


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
