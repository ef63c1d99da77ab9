"""A motor with more stages behind it: the stock train that makes it fit, and it alone.

The trains tried here are the only ones that are offered anywhere to make a motor fit.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import product

from turnercalc.drives.stages import Stage, Stages
from turnercalc.findings import Answer
from turnercalc.motors.demand import Demand
from turnercalc.motors.matching import MotorResult, judge, judge_unless_refused
from turnercalc.tables import stage_losses, stock_teeth

KIND = "chain"
#: Ratios for which a stock pair is tried, and those for which two one behind the other are.
RATIOS = (1.25, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0)
TWO_STAGES = ((3.0, 4.0), (4.0, 5.0))
#: Decimals of a logarithm to which two ratios are one.
SAME = 11
#: A stage helps against these and nothing else.
HELPED = frozenset(
    {
        "motor_strength",
        "motor_corner",
        "motor_starting",
        "motor_speed",
        "motor_rms",
        "motor_holding",
    }
)
#: Motors that are looked at again; nobody reads further down.
MOST_MOTORS = 40
_ORDER = (Answer.FINE, Answer.MARGINAL, Answer.UNKNOWN, Answer.NO)

#: Teeth at the motor's end and driven, of each stage.
Pairs = tuple[tuple[int, int], ...]


@dataclass(frozen=True, eq=False)
class Staged:
    """A motor judged with stock stages behind it.

    Attributes
    ----------
    kind : str
        Kind of stage, as in the stage table.
    pairs : tuple of (int, int)
        Teeth at the motor's end and driven, the motor's stage first.
    result : MotorResult
        The motor, judged with them.
    """

    kind: str
    pairs: Pairs
    result: MotorResult

    @property
    def ratio(self) -> float:
        """Turns of the motor for one turn behind the stages [-]."""
        return math.prod(driven / motor for motor, driven in self.pairs)


DemandBehind = Callable[[Stages], Demand]


def with_stages(
    results: Sequence[MotorResult], stages: Stages, demand_behind: DemandBehind
) -> tuple[MotorResult, ...]:
    """Add to each motor that does not fit the stock stage that would make it, if one does.

    Where the design has stages, the motor is also judged without them.

    Parameters
    ----------
    results : sequence of MotorResult
        Best first.
    stages : Stages
        Those of the design, motor first.
    demand_behind : callable
        What is asked of the motor behind other stages.

    Notes
    -----
    The pairs are put at the driven end, as more entries of the design file. The best answer
    counts, then the fewest stages; where a motor is only marginal with them, the one that makes
    it strongest, up to what is wanted; then the least ratio: it turns the eggs soonest.
    """
    behind = _Demands(stages, demand_behind)
    looked = [_looked_at(result, behind) for result in results[:MOST_MOTORS]]
    return (*looked, *results[MOST_MOTORS:])


class _Demands:
    """Demands behind other stages, each worked out once and only when it is asked for."""

    def __init__(self, stages: Stages, demand_behind: DemandBehind) -> None:
        self.stages = stages
        self._of = demand_behind
        self._known: dict[Pairs, Demand] = {}

    def without(self) -> Demand:
        """Return what is asked with no stage at all."""
        return self._kept((), Stages(()))

    def behind(self, pairs: Pairs) -> Demand:
        """Return what is asked with more pairs at the driven end."""
        losses = stage_losses(KIND)
        extra = [Stage.of_kind(losses, driven / motor) for motor, driven in pairs]
        return self._kept(pairs, Stages((*self.stages.stages, *extra)))

    def _kept(self, key: Pairs, stages: Stages) -> Demand:
        if key not in self._known:
            self._known[key] = self._of(stages)
        return self._known[key]


def _looked_at(result: MotorResult, demands: _Demands) -> MotorResult:
    staged = _stage_for(result, demands) if _could_help(result) else None
    alone = None
    if demands.stages.stages and result.line is not None:
        alone = judge(result.motor, demands.without())
    if staged is None and alone is None:
        return result
    return replace(result, staged=staged, without_stages=alone)


def _could_help(result: MotorResult) -> bool:
    deciding = result.deciding
    return (
        result.line is not None
        and result.verdict in (Answer.NO, Answer.MARGINAL)
        and deciding is not None
        and deciding.id in HELPED
    )


def _stage_for(result: MotorResult, demands: _Demands) -> Staged | None:
    """Return the stock train with the best answer, if one is better than none."""
    found: list[tuple[tuple[float, ...], Staged]] = []
    for pairs in (*trains(), *(trains(faster=True) if _too_slow(result) else ())):
        demand = demands.behind(pairs)
        judged = judge_unless_refused(result.motor, demand)
        if judged is None:
            continue  # no is never better than what the motor does without
        found.append((_key(judged, pairs, demand.safety_factor), Staged(KIND, pairs, judged)))
        if judged.verdict is Answer.FINE:
            break
    best = min(found, key=lambda one: one[0], default=None)
    if best is None or not _better(best[1].result.verdict, result.verdict):
        return None
    return best[1]


def _key(judged: MotorResult, pairs: Pairs, wanted: float) -> tuple[float, ...]:
    """Return how good a motor is behind a train, best smallest."""
    enough = judged.times_enough or 0.0
    return (_ORDER.index(judged.verdict), len(pairs), -min(enough, wanted))


def _better(one: Answer, other: Answer) -> bool:
    return _ORDER.index(one) < _ORDER.index(other)


def _too_slow(result: MotorResult) -> bool:
    found = result.deciding
    if found is None or found.id != "motor_speed" or found.value is None:
        return False
    return found.limit_fine is not None and found.value < found.limit_fine


@cache
def trains(kind: str = KIND, *, faster: bool = False) -> tuple[Pairs, ...]:
    """Return the stock trains that are tried, the fewest stages and the least ratio first.

    `faster` turns the single pairs round, for a motor that is too slow; two are not tried then.
    """
    if faster:
        return tuple(((driven, motor),) for ((motor, driven),) in trains(kind)[: len(RATIOS)])
    single = tuple((stock_pair(ratio, kind),) for ratio in RATIOS)
    double = tuple((stock_pair(one, kind), stock_pair(two, kind)) for one, two in TWO_STAGES)
    return (*single, *double)


@cache
def stock_pair(ratio: float, kind: str = KIND) -> tuple[int, int]:
    """Return the pair of stock wheels nearest to a ratio; of those, with the fewest teeth."""
    wheels = stock_teeth(kind)

    def off(pair: tuple[int, int]) -> tuple[float, int]:
        motor, driven = pair
        return round(abs(math.log(driven / motor / ratio)), SAME), motor + driven

    return min(product(wheels, wheels), key=off)
