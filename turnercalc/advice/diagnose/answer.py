"""The diagnosis: which single errors explain everything, in words, and what to adjust first."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from turnercalc.advice.diagnose.ends import (
    Curve,
    EndError,
    as_meant,
    best_setting,
    curves,
    explain_ends,
)
from turnercalc.advice.diagnose.measured import Measured, read_count, read_ends, read_log
from turnercalc.advice.diagnose.running import (
    RunError,
    count_as_meant,
    current_as_meant,
    explain_count,
    explain_current,
    explain_time,
    time_as_meant,
)
from turnercalc.advice.diagnose.words import adjusting, end_words, run_words
from turnercalc.errors import TurnercalcError
from turnercalc.sizing import Sizing
from turnercalc.swing import lengths
from turnercalc.turners.wording import wording_of
from turnercalc.units import parse


@dataclass(frozen=True)
class Explanation:
    """One error that alone explains what was measured.

    Attributes
    ----------
    about : tuple of str
        What it explains: ``ends``, ``time``, ``count``, ``current``.
    id : str
        For scripts: a field path, or what it is, such as ``level`` or ``time.voltage``.
    error, least, most : float
        Its size and the range that agrees, SI; range and size are the same where there is none.
    text : str
        In a sentence.
    """

    about: tuple[str, ...]
    id: str
    error: float
    least: float
    most: float
    text: str


@dataclass(frozen=True)
class Adjustment:
    """What to adjust first.

    Attributes
    ----------
    field : str
        Field path.
    by : float
        Longer is positive [m].
    to : float
        The length to set on paper [m].
    high, low : float or None
        Both ends then, counted positive; None where only the distance between them is known
        [rad or m].
    total : float
        From end to end then [rad or m].
    text : str
        In a sentence.
    """

    field: str
    by: float
    to: float
    high: float | None
    low: float | None
    total: float
    text: str


@dataclass(frozen=True)
class Diagnosis:
    """What was found.

    Attributes
    ----------
    off : tuple of str
        What is not as it should be: ``ends``, ``time``, ``count``, ``current``.
    right : tuple of str
        What is.
    explanations : tuple of Explanation
        Every single error that explains all that is off; best fit first.
    partly : tuple of Explanation
        Where nothing single explains all: what explains one of them.
    adjustment : Adjustment or None
        Where the ends are off.
    not_judged : tuple of str
        What was measured and cannot be compared, each with the reason.
    log_read, log_passed_over : tuple of str
        Columns of the log that were read and that were not.
    """

    off: tuple[str, ...]
    right: tuple[str, ...]
    explanations: tuple[Explanation, ...]
    partly: tuple[Explanation, ...]
    adjustment: Adjustment | None
    not_judged: tuple[str, ...] = ()
    log_read: tuple[str, ...] = ()
    log_passed_over: tuple[str, ...] = ()

    @property
    def unexplained(self) -> bool:
        """Whether something is off that nothing single explains."""
        return bool(self.off) and not self.explanations


def diagnose(
    sizing: Sizing, measured: Measured, found: tuple[Curve, ...] | None = None
) -> Diagnosis:
    """Return every single error that explains what was measured.

    Parameters
    ----------
    sizing : Sizing
        The design as drawn, with the motor that was built in.
    measured : Measured
    found : tuple of Curve, optional
        `ends.curves` of the same sizing, to be used again for many measurements.

    Notes
    -----
    An error explains the ends where both come within a degree (or a millimetre) of what was
    read. Two things that are off at once need one cause for both: more load or another supply
    for time and current. A wrong length is no cause of a wrong count.
    """
    judged = dict(_judged(sizing, measured))
    off = tuple(name for name, good in judged.items() if good is False)
    right = tuple(name for name, good in judged.items() if good)
    not_judged = tuple(_NOT_JUDGED[name] for name, good in judged.items() if good is None)
    curved = found if found is not None else (curves(sizing) if "ends" in off else ())
    each = {name: _explanations(name, sizing, measured, curved) for name in off}
    if len(off) <= 1:
        whole = tuple(each[off[0]]) if off else ()
        partly: tuple[Explanation, ...] = ()
    else:
        whole = _common(each)
        partly = () if whole else tuple(one for several in each.values() for one in several)
    adjustment = _adjustment(sizing, measured, curved) if "ends" in off else None
    columns = measured.read, measured.passed_over
    return Diagnosis(off, right, whole, partly, adjustment, not_judged, *columns)


def gather(
    sizing: Sizing,
    *,
    ends: str | None = None,
    move: str | None = None,
    count: str | None = None,
    current: str | None = None,
    log: str | None = None,
) -> Measured:
    """Return measurements from the texts a builder gives; what is said apart goes over the log.

    Raises
    ------
    UnitError
        A text cannot be read, with what would be accepted.
    TurnercalcError
        Nothing was measured.
    """
    kind = "angle" if sizing.turner.coordinate_unit == "rad" else "length"
    sides = wording_of(sizing.turner).sides
    found = read_log(log, kind, sides) if log is not None else Measured()
    if ends is not None:
        high, low, total = read_ends(ends, kind, sides)
        found = replace(found, high=high, low=low, total=total)
    if count is not None:
        turns, hours = read_count(count)
        found = replace(found, turns=turns, hours=hours)
    if move is not None:
        found = replace(found, move_time=parse(move, "time"))
    if current is not None:
        found = replace(found, current=parse(current, "current"))
    if not found.anything:
        message = (
            "Nothing to explain: give what you measured, such as "
            '--ends "50 deg left, 40 deg right", --move "6.2 s", --count "21 in 24 h", '
            '--current "0.8 A", or a --log.'
        )
        raise TurnercalcError(message)
    return found


_NOT_JUDGED = {
    "time": "The time of a move cannot be compared: it needs a motor with speed and torque (-m).",
    "current": "The current cannot be compared: the motor's listing does not say enough.",
    "ends": "The ends cannot be compared: as drawn it does not go through its cycle.",
}


def _judged(sizing: Sizing, measured: Measured) -> Iterator[tuple[str, bool | None]]:
    if measured.any_end:
        known = math.isfinite(sizing.ends.total)
        yield "ends", as_meant(sizing, measured) if known else None
    if measured.move_time is not None:
        yield "time", time_as_meant(sizing, measured.move_time)
    if measured.turns is not None and measured.hours is not None:
        yield "count", count_as_meant(sizing, measured.turns, measured.hours)
    if measured.current is not None:
        yield "current", current_as_meant(sizing, measured.current)


def _explanations(
    name: str, sizing: Sizing, measured: Measured, found: tuple[Curve, ...]
) -> list[Explanation]:
    if name == "ends":
        errors = sorted(explain_ends(sizing, measured, found), key=lambda one: one.misfit)
        return [_of_end(one, sizing) for one in errors]
    if name == "time" and measured.move_time is not None:
        return [_of_run(one) for one in explain_time(sizing, measured.move_time)]
    if name == "count" and measured.turns is not None and measured.hours is not None:
        return [_of_run(one) for one in explain_count(sizing, measured.turns, measured.hours)]
    if measured.current is not None:
        return [_of_run(one) for one in explain_current(sizing, measured.current)]
    return []


def _of_end(one: EndError, sizing: Sizing) -> Explanation:
    id_ = one.field if one.kind == "length" else f"{one.kind}.{one.field}".rstrip(".")
    return Explanation(("ends",), id_, one.error, one.least, one.most, end_words(one, sizing))


def _of_run(one: RunError) -> Explanation:
    return Explanation(
        (one.about,), f"{one.about}.{one.kind}", one.value, one.value, one.value, run_words(one)
    )


#: Causes that show in several readings at once, and how well their sizes must agree.
_SHARED = ("load", "voltage", "frequency")
_AGREE = 0.25


def _common(each: dict[str, list[Explanation]]) -> tuple[Explanation, ...]:
    """Return causes that explain everything that is off, with sizes that agree."""
    found = []
    for cause in _SHARED:
        parts = [
            next((one for one in several if one.id.partition(".")[2] == cause), None)
            for several in each.values()
        ]
        known = [one for one in parts if one is not None]
        if len(known) < len(parts):
            continue
        sizes = [one.error for one in known]
        if max(sizes) - min(sizes) <= _AGREE * max(sizes):
            about = tuple(name for one in known for name in one.about)
            found.append(Explanation(about, cause, sizes[0], min(sizes), max(sizes), known[0].text))
    return tuple(found)


def _adjustment(sizing: Sizing, measured: Measured, found: tuple[Curve, ...]) -> Adjustment | None:
    best = best_setting(sizing, measured, found)
    if best is None:
        return None
    to = lengths(sizing.turner, sizing.drive)[best.field] + best.by
    text = adjusting(best, sizing)
    return Adjustment(best.field, best.by, to, best.high, best.low, best.total, text)
