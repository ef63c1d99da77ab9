"""Which of my motors: every motor of a file behind every stock stage, with every crank."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from turnercalc.advice.gears import Train, nearest_trains
from turnercalc.advice.lengths import Suggestion, Wish, find_lengths
from turnercalc.building import build, stages_of
from turnercalc.demanding import asked_of_shaft, behind
from turnercalc.design import Design
from turnercalc.drives.stages import Stage, Stages
from turnercalc.errors import TurnercalcError
from turnercalc.findings import Answer
from turnercalc.motors import Demand, MotorFile, MotorResult, rank
from turnercalc.sizing import Sizing, size
from turnercalc.tables import stage_losses

#: Ratios for which the nearest stock pair is tried, one stage and two.
RATIOS = (1.5, 2.0, 3.0, 4.0, 6.0, 8.0, 12.0, 20.0)
_RANK = {Answer.FINE: 0, Answer.MARGINAL: 1, Answer.NO: 2, Answer.UNKNOWN: 3}


@dataclass(frozen=True)
class Match:
    """One motor in the best way it can be used.

    Attributes
    ----------
    motor : str
        Its name in the motor file.
    verdict : Answer
        Of the motor: fine, marginal, no or unknown.
    times_enough : float or None
    longest_move : float or None
        Longest turn [s].
    train : Train or None
        Stages to add behind it; None: as the design has it.
    lengths : Suggestion or None
        Crank and link to take instead; None: those of the design.
    settings : mapping
        All of it as ``--set`` takes it.
    why : str
        The motor's one reason.
    """

    motor: str
    verdict: Answer
    times_enough: float | None
    longest_move: float | None
    train: Train | None
    lengths: Suggestion | None
    settings: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    why: str = ""


@dataclass(frozen=True)
class _Way:
    """One way to use motors: a crank, and what it asks of its shaft."""

    lengths: Suggestion | None
    design: Design
    sizing: Sizing
    asked: Demand


def which_motor(
    design: Design, motor_file: MotorFile, *, kind: str = "chain", other_lengths: bool = True
) -> tuple[Match, ...]:
    """Return every motor of a file in the best way it can be used, best first.

    Parameters
    ----------
    design : Design
        The motor it names is left out of account.
    motor_file : MotorFile
    kind : str
        Kind of stage that may be added: ``chain``, ``toothed belt`` or ``spur``.
    other_lengths : bool
        Whether crank and link may be changed, as `find_lengths` suggests.

    Notes
    -----
    Best: the better verdict, then the fewest things to change, then strong enough without being
    far too big. Every match that is told was sized again in full with its settings.
    """
    trains = [None, *stock_trains(kind)]
    best: dict[str, tuple[tuple[float, ...], Match, _Way]] = {}
    for way in ways(design, other_lengths=other_lengths):
        for train in trains if turns_a_shaft(way) else [None]:
            for result in judged(way, motor_file, train):
                match = match_of(way, train, result)
                key = key_of(match, design)
                if match.motor not in best or key < best[match.motor][0]:
                    best[match.motor] = key, match, way
    ordered = sorted(best.values(), key=lambda found: found[0])
    return tuple(confirmed(design, motor_file, match, way.sizing) for _, match, way in ordered)


def turns_a_shaft(way: _Way) -> bool:
    """Tell whether stages could be added at all."""
    return not way.asked.linear


def stock_trains(kind: str) -> Iterator[Train]:
    """Yield the stock train nearest to each ratio, with the fewest stages that come near."""
    for ratio in RATIOS:
        found = nearest_trains(ratio, kind, stages=1 if ratio <= 8.0 else 2, count=1)
        yield from found


def ways(design: Design, *, other_lengths: bool) -> Iterator[_Way]:
    """Yield the design as it stands where it goes through, and with other lengths."""
    suggested: list[Suggestion | None] = [None]
    if other_lengths:
        suggested += find_lengths(design, Wish(count=2)).suggestions
    for lengths in suggested:
        one = design if lengths is None else lengths.design
        try:
            sizing = size(one) if lengths is None else lengths.sizing
        except TurnercalcError:
            continue
        if sizing.cycle is None or sizing.starting is None:
            continue
        asked = asked_of_shaft(one, build(one), sizing.cycle, sizing.starting, sizing.ends)
        yield _Way(lengths, one, sizing, asked)


def judged(way: _Way, motor_file: MotorFile, train: Train | None) -> tuple[MotorResult, ...]:
    """Return every motor behind the design's own stages and a train, judged."""
    own = stages_of(way.design)
    added = () if train is None else tuple(stage_of(train, at) for at in range(len(train.pairs)))
    return rank(motor_file, behind(way.asked, Stages((*own.stages, *added))))


def stage_of(train: Train, at: int) -> Stage:
    """Return one stage of a train."""
    motor, driven = train.pairs[at]
    losses = stage_losses(train.kind)
    return Stage.of_kind(losses, driven / motor, losses.efficiency)


def match_of(way: _Way, train: Train | None, result: MotorResult) -> Match:
    """Return what one motor does in one way."""
    settings = {} if way.lengths is None else dict(way.lengths.settings)
    if train is not None:
        settings |= train.settings(len(way.design.gearing) + 1)
    settings["motor.have"] = result.motor.id
    return Match(
        motor=result.motor.id,
        verdict=result.verdict,
        times_enough=result.times_enough,
        longest_move=result.longest_move,
        train=train,
        lengths=way.lengths,
        settings=MappingProxyType(settings),
        why=result.why,
    )


def key_of(match: Match, design: Design) -> tuple[float, ...]:
    """Return how good a match is, best smallest."""
    wanted = float(design["motor"].safety_factor)
    changes = 2.0 * (match.lengths is not None)
    changes += 0.0 if match.train is None else len(match.train.pairs)
    enough = match.times_enough or 0.0
    works = match.verdict in (Answer.FINE, Answer.MARGINAL)
    return (
        _RANK[match.verdict],
        changes if works else 0.0,
        -min(enough, wanted),
        max(1.0, enough / (2.0 * wanted)) if works else 0.0,
        0.0 if works else changes,
    )


def confirmed(design: Design, motor_file: MotorFile, match: Match, like: Sizing) -> Match:
    """Return a match that works with the figures of a full sizing with its settings."""
    if match.verdict not in (Answer.FINE, Answer.MARGINAL):
        return match
    only = replace(motor_file, rows=(motor_file.row(match.motor),))
    changed = design.replace(dict(match.settings))
    sizing = size(changed, only, stock_stages=False, like=like)
    chosen = sizing.chosen
    if chosen is None:
        return match
    return replace(
        match,
        verdict=chosen.verdict,
        times_enough=chosen.times_enough,
        longest_move=chosen.longest_move,
        why=chosen.why,
    )
