"""How many eggs each motor carries, and what limits it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from turnercalc.advice.ranges import info_of
from turnercalc.advice.rows import Rows
from turnercalc.design import Design
from turnercalc.errors import TurnercalcError
from turnercalc.findings import Answer
from turnercalc.motors import MotorFile, MotorResult
from turnercalc.sizing import Sizing, size

#: What a builder makes more of, one turner after the other: field path and the word for it. The
#: first that a design has is the one that grows.
GROWS = (
    ("trays.count", "trays"),
    ("cradle.rows", "rows"),
    ("grid.cells", "cells"),
    ("bars.count", "bars"),
    ("drum.eggs_per_shelf", "eggs on each shelf"),
)
#: More than so many are not looked at.
MOST = 16
#: Positions of a cycle: as a sizing has them, so that what is told can be set and seen.
COUNT = 360


@dataclass(frozen=True)
class Carried:
    """What one motor carries in one way of filling.

    Attributes
    ----------
    motor : str
        Its name in the motor file.
    filling : str
        How eggs come and go; empty where the turner does not ask.
    count : int
        How many trays, rows, cells, bars or eggs on a shelf; 0 where not even the fewest.
    eggs : int
        Eggs in all when full.
    times_enough : float or None
        With so many [-]; None where it carries none.
    limited_by : str
        Id of what stands in the way of one more: a check of the motor, ``box``, ``refused`` or
        ``most`` where more was not looked at.
    why : str
        The same in a sentence.
    """

    motor: str
    filling: str
    count: int
    eggs: int
    times_enough: float | None
    limited_by: str
    why: str


@dataclass(frozen=True)
class Capacity(Rows):
    """What the motors of a file carry in one design.

    Attributes
    ----------
    design : Design
    field, thing : str
        What grows: field path, and the word for it.
    fewest : int
        Where counting began.
    box_holds : int
        The most that fit the box; 0 where not even the fewest do.
    box_eggs : int
        Eggs in all with so many.
    carried : tuple of Carried
        For each filling and motor, in the order of the file.
    """

    design: Design
    field: str
    thing: str
    fewest: int
    box_holds: int
    box_eggs: int
    carried: tuple[Carried, ...]

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


def grows(design: Design) -> tuple[str, str]:
    """Return what a builder makes more of: field path and word.

    Raises
    ------
    TurnercalcError
        Nothing of this design is counted.
    """
    values = design.values()
    for path, thing in GROWS:
        if values.get(path) is not None:
            return path, thing
    raise TurnercalcError(f"Nothing of {design.name} is counted that could be more or fewer.")


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
    progress: Callable[[int], None] | None = None,
) -> Capacity:
    """Return how many eggs each motor carries with the wanted factor, and what limits it.

    Parameters
    ----------
    design : Design
        Its count of trays, rows, cells, bars or eggs on a shelf is varied; loads of its own and
        the motor it names are left out.
    motor_file : MotorFile
    most : int
        Where to stop counting.
    progress : callable, optional
        Called with the sizings done.

    Raises
    ------
    TurnercalcError
        Nothing of the design is counted.
    """
    path, thing = grows(design)
    filled, words = fillings(design)
    fewest = 1 if info_of(design, path).phrase.low <= 1 else int(info_of(design, path).phrase.low)
    found: list[Carried] = []
    box = (0, 0)
    done = 0
    for word in words:
        steps: list[_Step] = []
        for step in counted(design, motor_file, (path, filled), word, range(fewest, most + 1)):
            steps.append(step)
            done += 1
            if progress is not None:
                progress(done)
            if step.sizing is not None and not any(carries(r) for r in step.sizing.motors):
                break
        fits = [step for step in steps if step.sizing is not None and in_box(step.sizing)]
        box = max([box, *((step.count, step.eggs) for step in fits)])
        found += [limit_of(row.motor.id, word, steps, thing) for row in motor_file if row.used]
    return Capacity(design, path, thing, fewest, *box, tuple(found))


def counted(
    design: Design,
    motor_file: MotorFile,
    fields: tuple[str, str],
    word: str,
    counts: range,
) -> Iterator[_Step]:
    """Yield the design with ever more of what is counted, until a file would refuse it."""
    path, filled = fields
    began = False
    for count in counts:
        changes: dict[str, object] = {path: str(count), "loads": [], "motor.have": None}
        if filled:
            changes[filled] = word
        try:
            sizing = size(design.replace(changes), motor_file, count=COUNT, stock_stages=False)
        except TurnercalcError as error:
            if not began and count != counts[-1]:
                continue  # one bar makes no lane, two make the first
            complaints = getattr(error, "complaints", ())
            yield _Step(count, 0, None, complaints[0].message if complaints else str(error))
            return
        began = True
        yield _Step(count, max(c.egg_count for c in sizing.turner.load_cases()), sizing, "")


def carries(result: MotorResult) -> bool:
    """Tell whether a motor turns it as strongly as wanted, by itself."""
    strength = result.finding("motor_strength")
    return (
        result.verdict in (Answer.FINE, Answer.MARGINAL)
        and strength is not None
        and strength.answer is Answer.FINE
    )


def in_box(sizing: Sizing) -> bool:
    """Tell whether what is turned has room in the box."""
    return not any(f.id in ROOM and f.answer is Answer.NO for f in sizing.findings)


#: Checks that say whether it fits the box.
ROOM = frozenset({"room", "floor_width", "shelf_length", "under_bars"})


def limit_of(motor: str, filling: str, steps: Sequence[_Step], thing: str) -> Carried:
    """Return the most that one motor carries without a gap from the fewest on, and why no more."""
    count, eggs, enough = 0, 0, None
    for step in steps:
        if step.sizing is None:
            return Carried(motor, filling, count, eggs, enough, "refused", step.refused)
        result = next(r for r in step.sizing.motors if r.motor.id == motor)
        if not carries(result):
            id_, why = stands_in_the_way(result)
            return Carried(motor, filling, count, eggs, enough, id_, why)
        count, eggs, enough = step.count, step.eggs, result.times_enough
    why = f"More than {count} {thing} were not looked at."
    return Carried(motor, filling, count, eggs, enough, "most", why)


def stands_in_the_way(result: MotorResult) -> tuple[str, str]:
    """Return the id and the sentence of what a motor fails in."""
    strength = result.finding("motor_strength")
    for finding in (result.deciding, strength):
        if finding is not None and finding.answer is not Answer.FINE:
            return finding.id, result.why or finding.text
    return "motor_strength", result.why
