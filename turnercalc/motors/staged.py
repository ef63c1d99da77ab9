"""A motor with another stage behind it: the stock pair that makes it fit, and it alone."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from turnercalc.drives.stages import Stage, Stages
from turnercalc.findings import Answer
from turnercalc.motors.demand import Demand
from turnercalc.motors.matching import MotorResult, judge, judge_unless_refused
from turnercalc.tables import stage_losses

KIND = "chain"
#: The wheel on the motor's end; small ones are what shops sell for hobby shafts.
MOTOR_TEETH = 12
#: The wheels it drives, least first; all stand in the table of stock teeth.
DRIVEN_TEETH = (15, 18, 24, 36, 48, 60)
#: A stage helps against these and nothing else.
HELPED = frozenset({"motor_strength", "motor_corner", "motor_starting", "motor_speed", "motor_rms"})
#: Motors that are looked at again; nobody reads further down.
MOST_MOTORS = 40
_ORDER = (Answer.FINE, Answer.MARGINAL, Answer.UNKNOWN, Answer.NO)


@dataclass(frozen=True, eq=False)
class Staged:
    """A motor judged with a stock stage behind it.

    Attributes
    ----------
    kind : str
        Kind of stage, as in the stage table.
    motor_teeth, driven_teeth : int
        Of the wheel at the motor's end and the one it drives.
    result : MotorResult
        The motor, judged with it.
    """

    kind: str
    motor_teeth: int
    driven_teeth: int
    result: MotorResult

    @property
    def ratio(self) -> float:
        """Turns of the motor for one turn behind the stage [-]."""
        return self.driven_teeth / self.motor_teeth


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
    The pair is put at the driven end, as one more entry of the design file. Of the pairs that
    serve, the one with the best answer counts, and of those the one with the least ratio: it
    turns the eggs soonest.
    """
    behind = _Demands(stages, demand_behind)
    looked = [_looked_at(result, behind) for result in results[:MOST_MOTORS]]
    return (*looked, *results[MOST_MOTORS:])


class _Demands:
    """Demands behind other stages, each worked out once and only when it is asked for."""

    def __init__(self, stages: Stages, demand_behind: DemandBehind) -> None:
        self.stages = stages
        self._of = demand_behind
        self._known: dict[tuple[int, int], Demand] = {}

    def without(self) -> Demand:
        """Return what is asked with no stage at all."""
        return self._kept((0, 0), Stages(()))

    def behind(self, motor_teeth: int, driven_teeth: int) -> Demand:
        """Return what is asked with one more pair at the driven end."""
        extra = Stage.of_kind(stage_losses(KIND), driven_teeth / motor_teeth)
        stages = Stages((*self.stages.stages, extra))
        return self._kept((motor_teeth, driven_teeth), stages)

    def _kept(self, key: tuple[int, int], stages: Stages) -> Demand:
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
    """Return the stock pair with the best answer, if one is better than none."""
    best: Staged | None = None
    for motor_teeth, driven_teeth in pairs(_too_slow(result)):
        judged = judge_unless_refused(result.motor, demands.behind(motor_teeth, driven_teeth))
        if judged is None:
            continue  # no is never better than what the motor does without
        if best is None or _better(judged.verdict, best.result.verdict):
            best = Staged(KIND, motor_teeth, driven_teeth, judged)
        if judged.verdict is Answer.FINE:
            break
    if best is None or not _better(best.result.verdict, result.verdict):
        return None
    return best


def _better(one: Answer, other: Answer) -> bool:
    return _ORDER.index(one) < _ORDER.index(other)


def _too_slow(result: MotorResult) -> bool:
    found = result.deciding
    if found is None or found.id != "motor_speed" or found.value is None:
        return False
    return found.limit_fine is not None and found.value < found.limit_fine


def pairs(faster: bool = False) -> tuple[tuple[int, int], ...]:
    """Return stock pairs, motor's wheel first, the least ratio first; `faster` turns them round."""
    found = tuple((MOTOR_TEETH, teeth) for teeth in DRIVEN_TEETH)
    return tuple((b, a) for a, b in found) if faster else found
