"""Which of my motors: every motor of a file behind every stock stage, with every crank."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Any

from turnercalc import drives, turners
from turnercalc.advice.asked import need_design, need_motors
from turnercalc.advice.gears import Train
from turnercalc.advice.lengths import Suggestion, Wish, find_lengths
from turnercalc.advice.rows import Rows
from turnercalc.building import build, stages_of
from turnercalc.cycle import turn_cycle
from turnercalc.demanding import asked_of_shaft, behind
from turnercalc.design import Design
from turnercalc.drives.stages import Stage, Stages
from turnercalc.errors import UnknownNameError
from turnercalc.findings import Answer
from turnercalc.motors import Demand, MotorFile, MotorResult, MotorRow, rank, trains
from turnercalc.sizing import Sizing, size
from turnercalc.swing import ends
from turnercalc.tables import stage_losses

#: A longer name of a motor is set by its first words.
LONG_NAME = 40
#: What works as it stands or with another crank comes before what works with another turner.
_BEST_FIRST = (
    (Answer.FINE, False),
    (Answer.MARGINAL, False),
    (Answer.FINE, True),
    (Answer.MARGINAL, True),
)


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
        Lengths to take instead; None: those of the design.
    settings : mapping
        All of it as ``--set`` takes it.
    why : str
        The motor's one reason, in a sentence.
    why_as_it_is : str
        Its reason with nothing changed; empty where nothing is, or where it is the same.
    rebuilt : tuple of str
        Sections of the turner itself, and not of its drive, that the lengths change.
    build : Answer or None
        The verdict over the whole build, sized with these settings; None where the motor does not
        do, so that it was not sized.
    build_why : str
        What decides that, where it is not fine.
    falls_short : bool
        Whether anything known of the motor is less than fine; False where it may yet prove fine.
    """

    motor: str
    verdict: Answer
    times_enough: float | None
    longest_move: float | None
    train: Train | None
    lengths: Suggestion | None
    settings: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    why: str = ""
    why_as_it_is: str = ""
    rebuilt: tuple[str, ...] = ()
    build: Answer | None = None
    build_why: str = ""
    falls_short: bool = False

    @property
    def works(self) -> bool:
        """Whether the motor does, fine or marginally."""
        return self.verdict in (Answer.FINE, Answer.MARGINAL)


@dataclass(frozen=True)
class Matches(Rows):
    """Every motor of a file in the best way it can be used, best first.

    Attributes
    ----------
    design : Design
    matches : tuple of Match
    stuck : str
        Why the design as drawn turns with no motor; empty where it does.
    nothing_else : str
        Why there are no other lengths either; empty where there are, or none were looked for.
    """

    design: Design
    matches: tuple[Match, ...]
    stuck: str = ""
    nothing_else: str = ""

    def __iter__(self) -> Iterator[Match]:
        return iter(self.matches)

    def __len__(self) -> int:
        return len(self.matches)

    def __getitem__(self, index: int) -> Match:
        return self.matches[index]

    @property
    def works(self) -> tuple[Match, ...]:
        """Those whose motor does."""
        return tuple(one for one in self.matches if one.works)

    def rows(self) -> list[dict[str, Any]]:
        """Return one line for each motor; times in s, settings as text."""
        return [
            {
                "motor": one.motor,
                "verdict": one.verdict.value,
                "build": None if one.build is None else one.build.value,
                "times_enough": one.times_enough,
                "longest_move_s": one.longest_move,
                "set": " ".join(f'{path}="{text}"' for path, text in one.settings.items()),
                "why": one.why,
            }
            for one in self.matches
        ]


@dataclass(frozen=True)
class _Way:
    """One way to use motors: a crank, and what it asks of its shaft."""

    lengths: Suggestion | None
    design: Design
    asked: Demand
    rebuilt: tuple[str, ...]


@dataclass(frozen=True)
class _Found:
    """One motor in one way, with its row of the file."""

    match: Match
    row: MotorRow
    key: tuple[float, ...]


def which_motor(
    design: Design, motor_file: MotorFile, *, kind: str = "chain", other_lengths: bool = True
) -> Matches:
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

    Raises
    ------
    DesignError, CombinationError
        The design cannot be built.
    UnknownNameError
        No stock list has stages of this kind.
    """
    need_design(design)
    need_motors(motor_file)
    plain = design.replace({"motor.have": None})
    stages: list[Train | None] = [None, *stock_trains(kind)]
    suggested, nothing_else = other_ways(plain) if other_lengths else ((), "")
    drawn = way_of(plain, None)
    ways = [way for way in (drawn, *(way_of(plain, one) for one in suggested)) if way is not None]
    best: dict[int, _Found] = {}
    as_it_is: dict[int, str] = {}
    for way in ways:
        for train in [None] if way.asked.linear else stages:
            for result in judged(way, motor_file, train):
                found = found_of(way, train, result, motor_file)
                if way.lengths is None and train is None:
                    as_it_is[found.row.line] = found.match.why
                known = best.get(found.row.line)
                if known is None or found.key < known.key:
                    best[found.row.line] = found
    told = [confirmed(plain, motor_file, found) for found in best.values()]
    told.sort(key=lambda found: found.key)
    stuck = "" if drawn is not None else why_stuck(plain)
    matches = tuple(with_plain_reason(one, as_it_is) for one in told)
    return Matches(design, matches or not_turned(motor_file, stuck), stuck, nothing_else)


def other_ways(design: Design) -> tuple[tuple[Suggestion, ...], str]:
    """Return other lengths, or why there are none."""
    found = find_lengths(design, Wish(count=2))
    return found.suggestions, found.why_none


def stock_trains(kind: str) -> Iterator[Train]:
    """Yield the stock trains that a sizing tries too: slower ones, then single faster ones."""
    stock = (*trains(kind), *trains(kind, faster=True))
    efficiency = stage_losses(kind).efficiency.middle
    for pairs in stock:
        ratio = math.prod(driven / motor for motor, driven in pairs)
        yield Train(kind, pairs, ratio, 0.0, efficiency ** len(pairs))


def way_of(design: Design, lengths: Suggestion | None) -> _Way | None:
    """Return what a design, or other lengths for it, asks of its shaft; None if it is stuck."""
    one = design if lengths is None else lengths.design
    built = build(one)
    swing = ends(built.turner, built.drive)
    if not built.drive.closing(built.turner.path()).closes or swing.total != swing.total:
        return None
    loads = built.turner.load_cases()
    cycle = turn_cycle(built.turner, built.drive, loads)
    starting = turn_cycle(built.turner, built.drive, loads, levels=("starting",))
    asked = asked_of_shaft(one, built, cycle, starting, swing)
    return _Way(lengths, one, asked, rebuilt_by(lengths))


def rebuilt_by(lengths: Suggestion | None) -> tuple[str, ...]:
    """Return the sections of the turner itself that other lengths change."""
    if lengths is None:
        return ()
    own = turners.kinds()[lengths.design.turner]
    of_drive = {*drives.kinds()[lengths.design.drive].sections, *own.pin_sections}
    changed = dict.fromkeys(path.partition(".")[0] for path in lengths.settings)
    return tuple(section for section in changed if section not in of_drive)


def why_stuck(design: Design) -> str:
    """Return why nothing turns a design as it is drawn."""
    sizing = size(design)
    return next((f for f in sizing.findings if f.id == "closes"), sizing.reason).text


def not_turned(motor_file: MotorFile, stuck: str) -> tuple[Match, ...]:
    """Return every motor of a file for a design that none can turn."""
    return tuple(
        Match(row.motor.id, Answer.NO, None, None, None, None, why=stuck) for row in motor_file
    )


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


def found_of(way: _Way, train: Train | None, result: MotorResult, motor_file: MotorFile) -> _Found:
    """Return what one motor does in one way."""
    assert result.row is not None
    settings = {} if way.lengths is None else dict(way.lengths.settings)
    if train is not None:
        settings |= train.settings(len(way.design.gearing) + 1)
    settings["motor.have"] = name_of(result.row, motor_file)
    match = Match(
        motor=result.motor.id,
        verdict=result.verdict,
        times_enough=result.times_enough,
        longest_move=result.longest_move,
        train=train,
        lengths=way.lengths,
        settings=MappingProxyType(settings),
        why=why_of(result),
        rebuilt=way.rebuilt,
        falls_short=result.falls_short,
    )
    return _Found(match, result.row, key_of(match, way.design))


def name_of(row: MotorRow, motor_file: MotorFile) -> str:
    """Return a motor's name; of a long one the first words, where they name no other."""
    words = row.motor.id.split()
    if len(row.motor.id) <= LONG_NAME:
        return row.motor.id
    begun = (" ".join(words[: at + 1]) for at in range(len(words)))
    return next((name for name in begun if names(name, row, motor_file)), row.motor.id)


def names(name: str, row: MotorRow, motor_file: MotorFile) -> bool:
    """Tell whether a name means this row of a motor file and no other."""
    try:
        return motor_file.row(name) is row
    except UnknownNameError:
        return False


def why_of(result: MotorResult) -> str:
    """Return a motor's one reason with its figures, and what to ask where it is unknown."""
    deciding = result.deciding
    if deciding is None:
        return result.why
    asked = deciding.ask if deciding.answer is Answer.UNKNOWN else ""
    return f"{deciding.text} {'' if asked in deciding.text else asked}".strip()


def key_of(match: Match, design: Design) -> tuple[float, ...]:
    """Return how good a match is, best smallest."""
    wanted = float(design["motor"].safety_factor)
    changes = 2.0 * (match.lengths is not None)
    changes += 0.0 if match.train is None else len(match.train.pairs)
    enough = match.times_enough or 0.0
    if match.works:
        oversize = max(1.0, enough / (2.0 * wanted))
        place = _BEST_FIRST.index((match.verdict, bool(match.rebuilt)))
        return (place, changes, float(match.falls_short), -min(enough, wanted), oversize)
    if match.verdict is Answer.UNKNOWN:
        return (len(_BEST_FIRST) + 1.0, changes)
    return (float(len(_BEST_FIRST)), float(bool(match.rebuilt)), -min(enough, wanted), changes)


def confirmed(design: Design, motor_file: MotorFile, found: _Found) -> _Found:
    """Return a match that works with the figures of a full sizing with its settings."""
    match = found.match
    if not match.works:
        return found
    only = replace(motor_file, rows=(found.row,))
    sizing = size(design.replace(dict(match.settings)), only, stock_stages=False)
    chosen = sizing.chosen
    assert chosen is not None, "the file has this one motor"
    match = replace(
        match,
        verdict=chosen.verdict,
        times_enough=chosen.times_enough,
        longest_move=chosen.longest_move,
        why=why_of(chosen),
        falls_short=chosen.falls_short,
        build=sizing.verdict,
        build_why=build_reason(sizing),
    )
    return replace(found, match=match, key=key_of(match, design))


def build_reason(sizing: Sizing) -> str:
    """Return what besides the motor makes a build no better than it is; empty: nothing does."""
    if sizing.verdict is Answer.FINE:
        return ""
    alike = [sizing.verdict]
    if sizing.verdict is Answer.MARGINAL:
        alike.append(Answer.UNKNOWN)
    for answer in alike:
        for finding in sizing.findings:
            if finding.answer is answer and finding.caps_verdict:
                return f"{finding.title}: {finding.text} {finding.ask}".strip()
    return ""


def with_plain_reason(found: _Found, as_it_is: Mapping[int, str]) -> Match:
    """Return a match with the motor's reason as the design is drawn, where that is another."""
    match, plain = found.match, as_it_is.get(found.row.line, "")
    changed = match.train is not None or match.lengths is not None
    if not changed or plain == match.why:
        return match
    return replace(match, why_as_it_is=plain)
