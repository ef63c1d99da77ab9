"""The one change that helps most, found by sizing every proposal again.

Every proposal is looked at coarsely; the best few are then sized in full, so that what is
promised is what ``--set`` delivers. Where only the motor's strength is in question, the coarse
look is at the hardest planned turn alone. Where no single change leads to something that is fine,
several are put together, one after the other.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial
from math import isfinite, isinf
from typing import Any

from turnercalc.advice.moves import Proposal, proposals, together
from turnercalc.advice.rows import Rows
from turnercalc.building import alike, build
from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.design import Design
from turnercalc.drives.base import Drive
from turnercalc.errors import TurnercalcError
from turnercalc.findings import Answer
from turnercalc.loads import hardest
from turnercalc.motors import MotorFile
from turnercalc.sizing import Sizing, size
from turnercalc.turners.base import Turner

COARSE = 90  # positions in a cycle while sifting
FULL = 360  # and in a sizing whose figures are told
STRENGTH = frozenset({"motor_strength", "motor_corner"})
#: Changes that are told; and so many are sized in full at most to find as many that work.
KEPT, LOOKED_AT = 3, 6
STEPS = 3  # changes put together at most
BEGUN = 2  # changes from which it is gone on
WORTH = 1.05  # a change that gives less than this many times more is no advice
_RANK = {
    Answer.FINE: 2,
    Answer.NOTE: 2,
    Answer.MARGINAL: 1,
    Answer.UNKNOWN: 1,  # caps the verdict at marginal
    Answer.NO: 0,
}


@dataclass(frozen=True)
class Change:
    """One change, and what it brings.

    Attributes
    ----------
    id, settings, say
        As in the proposal.
    verdict_after : Answer
        What the sizing then says.
    peak_after : float or None
        Hardest planned shaft torque then, in the direction that counts [N·m or N].
    times_enough_after : float or None
        Of the chosen motor then.
    move_time_after : float or None
        Longest move then [s].
    motor_after : str or None
        The motor it is then judged with.
    still : str
        Where it then is not fine, why, as a sentence; else empty.
    gained : tuple of str
        Titles of the questions that are answered better then than before.
    """

    id: str
    settings: Mapping[str, str]
    say: str
    verdict_after: Answer
    peak_after: float | None
    times_enough_after: float | None
    move_time_after: float | None
    motor_after: str | None = None
    still: str = ""
    gained: tuple[str, ...] = ()


@dataclass(frozen=True)
class Advice(Rows):
    """What to change, best first; nothing where nothing helps or nothing is wrong.

    Attributes
    ----------
    changes : tuple of Change
        At most one of each kind. Those that lead to something that works come first, and before
        them several changes together where no single one leads so far; the others only make it
        better.
    """

    changes: tuple[Change, ...]

    def rows(self) -> list[dict[str, Any]]:
        """Return one line for each change; torque in N·m (N for a rod), time in s."""
        return [
            {
                "id": one.id,
                "say": one.say,
                "set": " ".join(f'{path}="{text}"' for path, text in one.settings.items()),
                "verdict_after": one.verdict_after.value,
                "peak_after": one.peak_after,
                "times_enough_after": one.times_enough_after,
                "move_time_after_s": one.move_time_after,
                "motor_after": one.motor_after,
                "still": one.still,
                "gained": "; ".join(one.gained),
            }
            for one in self.changes
        ]

    @property
    def works(self) -> bool:
        """Whether the first of them leads to something that works."""
        return bool(self.changes) and self.changes[0].verdict_after is not Answer.NO


def advise(sizing: Sizing, motor_file: MotorFile | None = None) -> Advice:
    """Return the changes that help a design that is not fine, best first.

    Parameters
    ----------
    sizing : Sizing
        As it stands.
    motor_file : MotorFile, optional
        The file it was sized with.
    """
    if sizing.verdict is Answer.FINE:
        return Advice(())
    offered = tuple(proposals(sizing))
    full = best_steps(sizing, motor_file, offered)
    changes = [change_of(proposal, sizing, trial) for proposal, trial in full]
    reached = max((_RANK[trial.verdict] for _, trial in full), default=0)
    if reached < _RANK[Answer.FINE]:
        begun = full or best_steps(sizing, motor_file, offered, gets_on)
        ways = BEGUN if reached == _RANK[Answer.NO] else 1
        changes = [*several(sizing, begun[:ways], motor_file, reached), *changes]
    return Advice(tuple(changes))


def best_steps(
    sizing: Sizing,
    motor_file: MotorFile | None,
    offered: Iterable[Proposal],
    helpful: Callable[[Sizing, Sizing], bool] | None = None,
) -> list[tuple[Proposal, Sizing]]:
    """Return the proposals that help most, at most one of each kind, with their full sizings."""
    helpful = helpful or helps
    look = partial(coarse_score, helpful=helpful)
    # What frees a jammed drive changes more than its torque.
    jams = sizing.chosen is not None and sizing.chosen.jammed
    if sizing.reason.id in STRENGTH and not jams:
        look = partial(hardest_turn, now=coarse_cycle(sizing.turner, sizing.drive))
    looked = ((look(sizing, proposal, motor_file), proposal) for proposal in offered)
    sifted = [(found, proposal) for found, proposal in looked if found is not None]
    best = first_of_each_kind(proposal for _, proposal in sorted(sifted, key=_by_score))
    full: list[tuple[tuple[float, ...], tuple[Proposal, Sizing]]] = []
    working = 0
    for proposal in best[:LOOKED_AT]:
        trial = try_out(sizing, proposal, motor_file, None)
        if trial is not None and helpful(sizing, trial):
            full.append((full_score(proposal, trial), (proposal, trial)))
            working += trial.verdict is not Answer.NO
        if working == KEPT:
            break
    return [one for _, one in sorted(full, key=_by_score)][:KEPT]


def several(
    sizing: Sizing,
    begun: Iterable[tuple[Proposal, Sizing]],
    motor_file: MotorFile | None,
    reached: int,
) -> list[Change]:
    """Return several changes together that lead farther than was reached; none where none do.

    Each goes on from the one before, with what helps most then, until all is fine. What is told
    is the sizing of all of them made at once; of two that lead equally far, the one with fewer.
    """
    best: list[Change] = []
    for first, trial in begun:
        for chain in going_on(first, trial, motor_file):
            every = together(chain)
            at_once = try_out(sizing, every, motor_file, None)
            if at_once is None or _RANK[at_once.verdict] <= reached:
                continue
            reached = _RANK[at_once.verdict]
            best = [change_of(every, sizing, at_once)]
        if best:
            break
    return best


def going_on(
    first: Proposal, trial: Sizing, motor_file: MotorFile | None
) -> Iterator[list[Proposal]]:
    """Yield two changes and more together, each time the verdict gets better by one more."""
    # Of other motors of the file nothing was asked in the trial.
    chain, now = [first], size(trial.design, motor_file, stock_stages=False, like=trial)
    while now.verdict is not Answer.FINE and len(chain) < STEPS:
        done = {part for one in chain for part in one.id.split("+")}
        after = next_steps(now, motor_file, done)
        if not after:
            return
        better = _RANK[after[0][1].verdict] > _RANK[now.verdict]
        chain.append(after[0][0])
        now = after[0][1]
        if better:
            yield list(chain)


def next_steps(
    sizing: Sizing, motor_file: MotorFile | None, done: set[str]
) -> list[tuple[Proposal, Sizing]]:
    """Return what helps most after other changes, of other kinds than those.

    What changes a field that decides the reason is looked at first, and the rest where none of
    that helps: so it is quick.
    """
    offered = [one for one in proposals(sizing) if one.id not in done]
    direct = [one for one in offered if not set(sizing.reason.fields).isdisjoint(one.settings)]
    rest = [one for one in offered if one not in direct]
    return best_steps(sizing, motor_file, direct) or best_steps(sizing, motor_file, rest)


def coarse_score(
    sizing: Sizing,
    proposal: Proposal,
    motor_file: MotorFile | None,
    *,
    helpful: Callable[[Sizing, Sizing], bool],
) -> tuple[float, ...] | None:
    """Return the score of a coarse sizing; None where it cannot be built or does not help."""
    trial = try_out(sizing, proposal, motor_file, COARSE)
    return score(trial) if trial is not None and helpful(sizing, trial) else None


def coarse_cycle(turner: Turner, drive: Drive) -> TurnCycle:
    """Return the planned turns at middle friction, at few positions."""
    loads = [case for case in turner.load_cases() if case.planned]
    return turn_cycle(turner, drive, loads, levels=("middle",), count=COARSE)


def hardest_turn(
    sizing: Sizing, proposal: Proposal, motor_file: MotorFile | None, *, now: TurnCycle
) -> tuple[float, ...] | None:
    """Return how many times enough the motor would be, from the hardest planned turn alone.

    None where the proposal does not close or brings nothing worth telling. The coarse cycle as
    it stands `now` is taken over where turner and drive stay as they are.
    """
    named = proposal.settings.get("motor.have")
    if named is not None and motor_file is not None:
        row = motor_file.row(named)
        found = next(result for result in sizing.motors if result.row is row)
        return (capped(found.times_enough or 0.0, sizing),)
    try:
        built = build(sizing.design.replace(dict(proposal.settings)))
    except TurnercalcError:
        return None
    if not built.drive.closing(built.turner.path()).closes:
        return None
    stays = alike(built.turner, sizing.turner) and alike(built.drive, sizing.drive)
    cycle = now if stays else coarse_cycle(built.turner, built.drive)
    counts = max if built.drive.both_ways else min
    shaft = counts(hardest(cycle, 0, way).torque for way in (0, 1))
    motor = float(built.stages.motor_torque([[[shaft]]], ("middle",)).item())
    if not isfinite(motor):
        return None  # friction jams it
    if sizing.chosen is None or not sizing.chosen.dependable or motor <= 0.0:
        return (-motor,)
    enough = sizing.chosen.dependable / motor
    worth = enough > WORTH * (times_enough(sizing) or 0.0)
    return (capped(enough, sizing),) if worth else None


def capped(enough: float, sizing: Sizing) -> float:
    """Return times enough, where more than half as much again as wanted is no better."""
    return min(enough, 1.5 * float(sizing.design["motor"].safety_factor))


def _by_score(pair: tuple[tuple[float, ...], object]) -> tuple[float, ...]:
    return tuple(-part for part in pair[0])


def try_out(
    sizing: Sizing, proposal: Proposal, motor_file: MotorFile | None, count: int | None
) -> Sizing | None:
    """Return the sizing of a proposal, or None where it cannot be built.

    What the proposal leaves as it is, is taken over from the sizing.
    """
    try:
        design = sizing.design.replace(dict(proposal.settings))
        # With no motor named, any motor of the file may then be the best.
        named = design["motor"].have is not None
        motors = only_needed(sizing, design, motor_file) if named else motor_file
        return size(design, motors, count=count or FULL, stock_stages=False, like=sizing)
    except TurnercalcError:
        return None


def only_needed(sizing: Sizing, design: Design, motor_file: MotorFile | None) -> MotorFile | None:
    """Return the motor file with only the motor that a trial is judged by."""
    if motor_file is None or sizing.chosen is None:
        return motor_file
    named = design["motor"].have
    row = motor_file.row(named) if named else sizing.chosen.row
    return replace(motor_file, rows=(row,) if row else ())


def score(sizing: Sizing) -> tuple[float, ...]:
    """Return how good a sizing is, most important first.

    The verdict, then how many of its questions are not fine, then times enough (more than half
    as much again as wanted is no better), then a small torque.
    """
    open_questions = sum(
        finding.answer in (Answer.NO, Answer.MARGINAL) for finding in sizing.findings
    )
    return (
        _RANK[sizing.verdict],
        -open_questions,
        capped(times_enough(sizing) or 0.0, sizing),
        -(peak(sizing) or 0.0),
    )


def full_score(proposal: Proposal, sizing: Sizing) -> tuple[float, ...]:
    """Return the score of a proposal among others: of one verdict, fewer things to make first."""
    verdict, *rest = score(sizing)
    return (verdict, -float(proposal.parts), *rest)


def helps(before: Sizing, after: Sizing) -> bool:
    """Tell whether a change is worth telling.

    A better verdict is. With the same verdict it has to answer what stood in the way, or to bring
    clearly more torque where strength was in question, and to make nothing else worse. What
    friction jams helps nobody.
    """
    if isinf(peak(after) or 0.0):
        return False
    if _RANK[after.verdict] != _RANK[before.verdict]:
        return _RANK[after.verdict] > _RANK[before.verdict]
    now = {finding.id: _RANK[finding.answer] for finding in (*after.findings, after.reason)}
    then = {finding.id: _RANK[finding.answer] for finding in (*before.findings, before.reason)}
    if any(rank < then.get(id_, rank) for id_, rank in now.items() if id_ not in STRENGTH):
        return False
    if before.reason.id not in STRENGTH:
        return now.get(before.reason.id, 0) > then[before.reason.id]
    return (times_enough(after) or 0.0) > WORTH * (times_enough(before) or 0.0)


def gets_on(before: Sizing, after: Sizing) -> bool:
    """Tell whether a change takes away what stood in the way, whatever then stands there.

    By itself it is no advice; others after it may make it one.
    """
    answers = {finding.id: finding.answer for finding in (*after.findings, after.reason)}
    return not isinf(peak(after) or 0.0) and answers.get(before.reason.id) is not Answer.NO


def first_of_each_kind(best_first: Iterable[Proposal]) -> list[Proposal]:
    """Return the best proposal of each kind."""
    kept: dict[str, Proposal] = {}
    for proposal in best_first:
        kept.setdefault(proposal.id, proposal)
    return list(kept.values())


def times_enough(sizing: Sizing) -> float | None:
    """Return the chosen motor's dependable torque over the hardest planned motor torque."""
    return sizing.chosen.times_enough if sizing.chosen else None


def peak(sizing: Sizing) -> float | None:
    """Return the hardest planned shaft torque in the direction that counts, middle friction."""
    if sizing.cycle is None:
        return None
    middle = sizing.cycle.levels.index("middle")
    return hardest(sizing.cycle, middle, sizing.told_direction).torque


def change_of(proposal: Proposal, before: Sizing, after: Sizing) -> Change:
    """Return a change with what its full sizing brought."""
    return Change(
        id=proposal.id,
        settings=proposal.settings,
        say=proposal.say,
        verdict_after=after.verdict,
        peak_after=peak(after),
        times_enough_after=times_enough(after),
        move_time_after=after.chosen.longest_move if after.chosen else None,
        motor_after=after.chosen.motor.id if after.chosen else None,
        still=still_open(after),
        gained=gained(before, after),
    )


def still_open(sizing: Sizing) -> str:
    """Return what is still in the way, and what to ask where it is not known; empty: nothing."""
    if sizing.verdict is Answer.FINE:
        return ""
    reason = sizing.reason
    return f"{reason.text} {reason.ask if reason.answer is Answer.UNKNOWN else ''}".strip()


def gained(before: Sizing, after: Sizing) -> tuple[str, ...]:
    """Return the titles of the questions about the turner that are answered better than before."""
    then = {finding.id: _RANK[finding.answer] for finding in before.findings}
    return tuple(
        finding.title
        for finding in after.findings
        if _RANK[finding.answer] > then.get(finding.id, _RANK[Answer.FINE])
    )
