"""How the checks say figures, and how a limit of the table becomes part of a finding."""

from __future__ import annotations

import math
from collections.abc import Iterable

from turnercalc.findings import SEVERITY, Answer, Finding
from turnercalc.tables import Limit
from turnercalc.turners.base import Turner
from turnercalc.turners.wording import wording_of


def degrees(angle: float, digits: int = 1) -> str:
    """Return an angle [rad] in degrees, without an idle zero behind the point."""
    text = f"{math.degrees(angle):.{digits}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return f"{'0' if text == '-0' else text}°"


def millimetres(length: float, digits: int = 0) -> str:
    """Return a length [m] in millimetres."""
    text = f"{1e3 * length:.{digits}f}"
    return f"{'0' if float(text) == 0.0 else text} mm"


def amount(turner: Turner, value: float, digits: int = 1) -> str:
    """Return an amount of a turner's coordinate [rad or m], without a side."""
    if turner.coordinate_unit == "rad":
        return degrees(value, digits)
    return millimetres(value, digits)


def place(turner: Turner, coordinate: float, rises: bool) -> str:
    """Return a place in the cycle as a person by the box would say it.

    Parameters
    ----------
    turner : Turner
        For its words.
    coordinate : float
        [rad or m].
    rises : bool
        Whether the coordinate is on its way up there.
    """
    words = wording_of(turner)
    how_far = amount(turner, abs(coordinate), 0)
    if how_far in ("0°", "0 mm"):
        return words.middle
    above = coordinate > 0.0
    way = words.away if rises == above else words.back
    return f"{how_far} {words.high if above else words.low}, {way}"


def seconds(time: float) -> str:
    """Return a time [s] as people say it."""
    if time < 10.0:
        return f"{time:.1f} s"
    return f"{time:.0f} s" if time < 120.0 else f"{time / 60.0:.0f} min"


def between(low: str, high: str) -> str:
    """Return a range in words, its unit only once where both ends share it."""
    if low == high:
        return low
    number, _, unit = low.partition(" ")
    return f"{number} to {high}" if unit and high.endswith(f" {unit}") else f"{low} to {high}"


def rpm(speed: float) -> str:
    """Return a speed [rad/s] in turns a minute."""
    return f"{speed * 30.0 / math.pi:.3g} rpm"


def newton_metres(torque: float) -> str:
    """Return a torque [N·m]."""
    return f"{torque:.2f} N·m"


def gravities(share: float) -> str:
    """Return an acceleration in multiples of g, never rounded down to nothing."""
    if share < 0.001:
        return "less than 0.001 g"
    return f"{share:.2f} g" if share >= 0.0095 else f"{share:.3f} g"


def worst(answers: Iterable[Answer]) -> Answer:
    """Return the worst of some answers; an unknown is worse than fine and better than marginal."""
    return max(answers, key=lambda answer: SEVERITY[answer], default=Answer.FINE)


def worse(one: Answer, other: Answer) -> bool:
    """Return whether one answer is worse than another."""
    return SEVERITY[one] > SEVERITY[other]


def judged(
    check: str,
    title: str,
    value: float | None,
    limit: Limit,
    text: str,
    *,
    answer: Answer | None = None,
    fields: tuple[str, ...] = (),
    ask: str = "",
) -> Finding:
    """Return a finding about a value in the unit of its limit.

    Parameters
    ----------
    check, title, text, fields, ask
        As in `Finding`.
    value : float or None
        In the unit of the limit; None is unknown.
    limit : Limit
        Where fine ends and no begins.
    answer : Answer, optional
        Where more than this one figure decides; else the limit answers.
    """
    return Finding(
        id=check,
        title=title,
        answer=answer or limit.answer(value),
        text=text,
        value=value,
        unit=limit.unit,
        limit_fine=limit.fine,
        limit_no=limit.no,
        reason=limit.reason,
        source=source_of(limit),
        fields=fields,
        ask=ask,
    )


def source_of(limit: Limit) -> str:
    """Return a limit's source, with how it came to us where it was not read."""
    return limit.source if limit.how in ("read", limit.source) else f"{limit.source} ({limit.how})"
