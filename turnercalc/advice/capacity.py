"""How many eggs each motor carries, how many the box holds, and what limits the smaller of both."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from turnercalc import turners
from turnercalc.advice.asked import need_design, need_motors, whole
from turnercalc.advice.ranges import info_of
from turnercalc.advice.rows import Rows
from turnercalc.design import Design
from turnercalc.errors import TurnercalcError
from turnercalc.findings import Answer
from turnercalc.motors import MotorFile, MotorResult, MotorRow
from turnercalc.sizing import Sizing, size
from turnercalc.turners.base import Growing

#: Motors are looked at up to so many, and always up to what the box holds; a box of which not
#: all is known is not looked at further.
MOST = 12
#: Where a box that never fills is left alone.
CEILING = 60
#: So many counts refused one after the other, and there is no more: of pairs every other is.
REFUSED_IN_A_ROW = 2
#: Positions of a cycle: as a sizing has them, so that what is told can be set and seen.
COUNT = 360
#: What stands in `Carried.limited_by` besides the id of a check.
REFUSED, NOT_LOOKED_AT, NOT_JUDGED = "refused", "most", "unknown"


@dataclass(frozen=True)
class Carried:
    """What can be put in with one motor, in one way of filling.

    Attributes
    ----------
    motor : str
        Its name in the motor file.
    filling : str
        How eggs come and go; empty where the turner does not ask.
    count : int
        How many trays, rows, cells, bars, shelves or eggs on a shelf the motor carries with the
        wanted factor and the box has room for; 0 where not even the fewest.
    eggs : int
        Eggs in all with so many.
    times_enough : float or None
        With so many [-]; None where it carries none.
    limited_by : str
        Id of what stands in the way of one more: a check of the motor or of the room, ``refused``
        where a design file would not take it, ``most`` where more was not looked at, ``unknown``
        for a motor that cannot be judged.
    why : str
        The same in a sentence.
    fails_at : int
        The count of which that is said; 0 where more was not looked at.
    motor_count, motor_eggs : int
        What the motor carries whether the box has room for it or not.
    motor_more : bool
        Whether it might carry more than was looked at.
    motor_why : str
        Why the motor carries no more; empty where more was not looked at.
    box_limits : bool
        Whether it is the room and not the motor that limits.
    """

    motor: str
    filling: str
    count: int
    eggs: int
    times_enough: float | None
    limited_by: str
    why: str
    fails_at: int
    motor_count: int
    motor_eggs: int
    motor_more: bool
    motor_why: str
    box_limits: bool


@dataclass(frozen=True)
class Capacity(Rows):
    """What the motors of a file carry in one design, and what its box holds.

    Attributes
    ----------
    design : Design
    field, thing : str
        What grows: field path, and the word for it.
    grows : Growing
        The same, with the word for one.
    fewest : int
        Where counting began.
    box_holds : int or None
        The most that have room, whatever the motors; 0 where not even the fewest do, None where
        no count was found that has none.
    box_eggs : int or None
        Eggs in all with so many.
    box_why : str
        Why there is no room for more, or why that is not known.
    box_full_at : int
        The count of which that is said; 0 where it is not known.
    stuck : str
        Why nothing turns at all, whatever the motor; empty where it does.
    carried : tuple of Carried
        For each filling and motor, in the order of the file.
    """

    design: Design
    field: str
    thing: str
    grows: Growing
    fewest: int
    box_holds: int | None
    box_eggs: int | None
    box_why: str
    box_full_at: int
    stuck: str
    carried: tuple[Carried, ...]

    @property
    def impossible(self) -> dict[str, str]:
        """The fillings that no count of this design takes, whatever the motor: why not, by word."""
        found = {}
        for word in dict.fromkeys(one.filling for one in self.carried):
            own = [one for one in self.carried if one.filling == word]
            if all(one.limited_by == REFUSED and not one.motor_count for one in own):
                found[word] = own[0].why
        return found

    def rows(self) -> list[dict[str, Any]]:
        """Return one line for each filling and motor."""
        return [vars(one).copy() for one in self.carried]


@dataclass(frozen=True)
class _Step:
    """One count: its sizing, or why there is none."""

    count: int
    eggs: int
    sizing: Sizing | None
    refused: str


@dataclass(frozen=True)
class _Box:
    """What has room: the most (None: no end was found), and what is in the way of more."""

    holds: _Step | None
    full_at: int
    id: str
    why: str
    endless: bool


def grows(design: Design, field: str = "") -> Growing:
    """Return what a builder makes more of.

    Parameters
    ----------
    design : Design
    field : str
        One of what the turner offers, as field path or in its words; empty for the usual.

    Raises
    ------
    TurnercalcError
        Nothing of this design is counted, or not this.
    """
    offered = turners.kinds()[design.turner].grows
    if not offered:
        raise TurnercalcError(f"Nothing of {design.name} is counted that could be more or fewer.")
    wanted = field.strip().casefold()
    for one in offered:
        if wanted in ("", one.field, one.thing, one.field.rpartition(".")[2]):
            return one
    names = " or ".join(f'"{one.thing}"' for one in offered)
    raise TurnercalcError(f'"{field}" is not counted in {design.name}. What is: {names}.')


def fillings(design: Design) -> tuple[str, tuple[str, ...]]:
    """Return the field that says how eggs come and go, and its words; empty where there is none."""
    for path in design.values():
        if path.endswith(".filled"):
            return path, info_of(design, path).choices
    return "", ("",)


def capacity(
    design: Design,
    motor_file: MotorFile,
    *,
    most: int = MOST,
    of: str = "",
    progress: Callable[[int], None] | None = None,
) -> Capacity:
    """Return how many eggs each motor carries with the wanted factor, and what limits it.

    Parameters
    ----------
    design : Design
        Its count of trays, rows, cells, bars, shelves or eggs on a shelf is varied; loads of its
        own and the motor it names are left out.
    motor_file : MotorFile
    most : int
        How far motors are looked at beyond what the box holds.
    of : str
        What is counted, where the turner offers several: see `grows`.
    progress : callable, optional
        Called with the sizings done.

    Raises
    ------
    AskedError
        `most` is no whole number above 0.
    TurnercalcError
        Nothing of the design is counted.
    """
    need_design(design)
    need_motors(motor_file)
    most = whole(most, "how far motors are looked at")
    growing = grows(design, of)
    filled, words = fillings(design)
    fewest = max(int(info_of(design, growing.field).phrase.low), 1)
    counts = range(fewest, max(most, fewest) + 1)
    tell = _counting(progress)
    found: list[Carried] = []
    boxes: list[_Box] = []
    stuck: list[str] = []
    for word in words:
        given = {filled: word} if filled else {}
        steps = counted(design, motor_file, growing, given, counts, tell)
        box = box_of(steps, growing)
        assert box is not None, "counted goes on until the box is full"
        boxes.append(box)
        stuck.append(stuck_by(steps))
        looked_at = max(counts[-1], steps[0].count, _count(box.holds))
        steps = tuple(step for step in steps if step.count <= looked_at)
        found += [limit_of(row, word, steps, box, growing) for row in motor_file]
    largest = max(boxes, key=_held)
    known = not largest.endless
    held = largest.holds
    return Capacity(
        design=design,
        field=growing.field,
        thing=growing.thing,
        grows=growing,
        fewest=fewest,
        box_holds=(held.count if held else 0) if known else None,
        box_eggs=(held.eggs if held else 0) if known else None,
        box_why=largest.why,
        box_full_at=largest.full_at if known else 0,
        stuck=stuck[0] if all(stuck) else "",
        carried=tuple(found),
    )


def _counting(progress: Callable[[int], None] | None) -> Callable[[], None]:
    """Return what is called once for each sizing."""
    numbers = iter(range(1, 1_000_000))
    return lambda: progress(next(numbers)) if progress is not None else None


def _held(box: _Box) -> float:
    return float("inf") if box.endless else box.holds.count if box.holds else 0.0


def counted(
    design: Design,
    motor_file: MotorFile,
    growing: Growing,
    given: dict[str, str],
    counts: range,
    tell: Callable[[], None],
) -> tuple[_Step, ...]:
    """Return the design with ever more of what is counted: `counts`, and on until the box is full.

    How far it goes hangs on the box, on friction and on `counts`, never on the motors.
    """
    steps: list[_Step] = []
    own = design.values().get(growing.field)
    begins_by = max(counts[-1], own if isinstance(own, int) else 1)
    for count in range(counts.start, max(CEILING, counts[-1]) + 1):
        step = _step(design, motor_file, {growing.field: str(count), **given})
        tell()
        began = any(one.sizing is not None for one in steps)
        if step.sizing is None and not began and count < begins_by:
            continue  # one bar makes no lane, two make the first
        steps.append(step)
        if step.sizing is None and not began:
            break
        if box_of(steps, growing) is not None and (count >= counts[-1] or _over(steps)):
            break
    return tuple(steps)


def _over(steps: Sequence[_Step]) -> bool:
    """Tell whether no motor whatever could turn more than this."""
    if _refused_at_end(steps) >= REFUSED_IN_A_ROW:
        return True
    last = steps[-1].sizing
    return last is not None and any(f.id == "jam" and f.answer is Answer.NO for f in last.findings)


def _refused_at_end(steps: Sequence[_Step]) -> int:
    return next((n for n, step in enumerate(reversed(steps)) if step.sizing), len(steps))


def _step(design: Design, motor_file: MotorFile, changes: dict[str, str]) -> _Step:
    count = int(next(iter(changes.values())))
    try:
        changed = design.replace({**changes, "loads": [], "motor.have": None})
        sizing = size(changed, motor_file, count=COUNT, stock_stages=False)
    except TurnercalcError as error:
        complaints = getattr(error, "complaints", ())
        return _Step(count, 0, None, complaints[0].message if complaints else str(error))
    return _Step(count, max(c.egg_count for c in sizing.turner.load_cases()), sizing, "")


def room(sizing: Sizing, growing: Growing) -> tuple[Answer, str]:
    """Return whether what is turned has room: fine, no or unknown, and the id that says so."""
    # A check may tell more than one thing, each with an id that begins with its own.
    found = [f for f in sizing.findings if f.id.startswith(growing.room)]
    for answer in (Answer.NO, Answer.UNKNOWN):
        for finding in found:
            if finding.answer is answer:
                return answer, finding.id
    return (Answer.FINE if found else Answer.UNKNOWN), ""


def box_of(steps: Sequence[_Step], growing: Growing) -> _Box | None:
    """Return the most that have room, and why no more; None where that takes more steps."""
    holds: _Step | None = None
    refused: list[_Step] = []
    for step in steps:
        if step.sizing is None:
            refused.append(step)
            if holds is None or len(refused) == REFUSED_IN_A_ROW:
                return _Box(holds, refused[0].count, REFUSED, refused[0].refused, endless=False)
            continue
        answer, id_ = room(step.sizing, growing)
        if answer is Answer.NO:
            if refused:
                return _Box(holds, refused[0].count, REFUSED, refused[0].refused, endless=False)
            return _Box(holds, step.count, id_, _text(step.sizing, id_), endless=False)
        holds, refused = step, []
        if answer is Answer.UNKNOWN and step.count >= MOST:
            why = _text(step.sizing, id_) or "It is not known what has room in the box."
            return _Box(holds, 0, NOT_LOOKED_AT, why, endless=True)
    if steps[-1].count >= CEILING:
        return _Box(holds, 0, NOT_LOOKED_AT, _not_looked_at(steps, growing), endless=True)
    return None


def _text(sizing: Sizing, id_: str) -> str:
    """Return what a check says, and what it asks."""
    found = next((f for f in sizing.findings if f.id == id_), None)
    return f"{found.text} {found.ask}".strip() if found else ""


def stuck_by(steps: Sequence[_Step]) -> str:
    """Return why no motor could turn it, however few: the drive does not go through."""
    sized = [step.sizing for step in steps if step.sizing is not None]
    if not sized:
        return steps[0].refused
    if any(sizing.cycle is not None for sizing in sized):
        return ""
    return stuck_text(sized[0])


def stuck_text(sizing: Sizing) -> str:
    """Return what keeps a drive from going through."""
    closes = next((f for f in sizing.findings if f.id == "closes"), sizing.reason)
    return closes.text


def carries(result: MotorResult) -> bool:
    """Tell whether a motor turns it as strongly as wanted, by itself."""
    strength = result.finding("motor_strength")
    return (
        result.verdict in (Answer.FINE, Answer.MARGINAL)
        and strength is not None
        and strength.answer is Answer.FINE
    )


def limit_of(
    row: MotorRow, filling: str, steps: Sequence[_Step], box: _Box, growing: Growing
) -> Carried:
    """Return the most that one motor carries in the box, and the most that it carries at all."""
    carried = [step for step in steps if _carried(row, step)]
    held = box.holds.count if box.holds else 0
    inside = [step for step in carried if box.endless or step.count <= held]
    best, alone = (found[-1] if found else None for found in (inside, carried))
    fails = _failing(row, steps, alone)
    by_box = bool(carried or not fails) and not box.endless and _count(best) == held
    at, id_, why = box.full_at, box.id, box.why
    if not by_box:
        none = (0, NOT_LOOKED_AT, _not_looked_at(steps, growing))
        at, id_, why = _failing(row, steps, best) or none
    result = _result(row, best) if best else None
    return Carried(
        motor=row.motor.id,
        filling=filling,
        count=_count(best),
        eggs=best.eggs if best else 0,
        times_enough=result.times_enough if result else None,
        limited_by=id_,
        why=why,
        fails_at=at,
        motor_count=_count(alone),
        motor_eggs=alone.eggs if alone else 0,
        motor_more=not fails,
        motor_why=fails[2] if fails else "",
        box_limits=by_box,
    )


def _count(step: _Step | None) -> int:
    return step.count if step else 0


def _not_looked_at(steps: Sequence[_Step], growing: Growing) -> str:
    return f"More than {growing.named(steps[-1].count)} were not looked at."


def _result(row: MotorRow, step: _Step) -> MotorResult | None:
    """Return what one row of the file does in one step; None where nothing moves."""
    motors = step.sizing.motors if step.sizing else ()
    return next((result for result in motors if result.row is row), None)


def _carried(row: MotorRow, step: _Step) -> bool:
    result = _result(row, step)
    return result is not None and carries(result)


def _failing(
    row: MotorRow, steps: Sequence[_Step], after: _Step | None
) -> tuple[int, str, str] | tuple[()]:
    """Return where a motor fails next, the id and the sentence of it; empty: nowhere."""
    later = [step for step in steps if step.sizing and step.count > _count(after)]
    for step in later:
        if not _carried(row, step):
            return step.count, *in_the_way(row, step)
    if later or after:
        return ()
    return steps[-1].count, REFUSED, steps[-1].refused


def in_the_way(row: MotorRow, step: _Step) -> tuple[str, str]:
    """Return the id and the sentence of what a motor fails in."""
    result = _result(row, step)
    if result is None:
        assert step.sizing is not None
        return "closes", stuck_text(step.sizing)
    if result.verdict is Answer.UNKNOWN:
        deciding = result.deciding
        asked = deciding.ask if deciding and deciding.ask not in result.why else ""
        return NOT_JUDGED, f"{result.why} {asked}".strip()
    strength = result.finding("motor_strength")
    for finding in (result.deciding, strength):
        if finding is not None and finding.answer is not Answer.FINE:
            return finding.id, finding.text
    return "motor_strength", result.why
