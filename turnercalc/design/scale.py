"""Lengths on the wrong scale: a tray of 4570 mm in a box of 760 mm is a slip of the pen."""

from __future__ import annotations

import re
from collections.abc import Iterator

from pydantic_core import PydanticCustomError

from turnercalc import units
from turnercalc.fields import FieldInfo

# Nothing of a turner is twice as long as the box is; a motor outside it still stands nearby.
_FARTHEST = 2.0
_SHORTEST = 0.002  # m
_SIZE = re.compile(r"(\d+(?:\.\d+)?)( ?)(mm|cm|m|inches|inch|in|ft|feet|\"|')(?![a-z])")


def wrong_scale(
    text: str, value: float, longest: float, info: FieldInfo
) -> tuple[str, tuple[str, ...]] | None:
    """Return message and likely texts for a length that cannot belong to the box.

    Parameters
    ----------
    text : str
        The length as written.
    value : float
        The same [m]; its sign says the side.
    longest : float
        Largest inside measurement of the box [m].
    info : FieldInfo
        Of the field.

    Returns
    -------
    tuple of str and tuple of str, or None
        None where the length may be right.
    """
    if abs(value) <= _FARTHEST * longest:
        return None
    meant = tuple(_that_fit(text, longest, info))
    question = f" Did you mean {' or '.join(meant)}?" if meant else ""
    box = units.show(longest, "length", "both")
    message = f"{text} is far more than the box has in any direction ({box}).{question}"
    return message, meant


def _that_fit(text: str, longest: float, info: FieldInfo) -> Iterator[str]:
    """Yield the same text with its decimal point moved, or with another unit, where it fits."""
    found = _SIZE.search(text)
    if found is None:
        return
    number, space, unit = found.groups()
    others = [f"{float(number) / 10:g}{space}{unit}"]
    others += [f"{number}{space or ' '}{other}" for other in ("mm", "cm", "in") if other != unit]
    for other in others:
        candidate = text[: found.start()] + other + text[found.end() :]
        try:
            value = info.phrase.read(candidate)
        except PydanticCustomError:
            continue
        if _SHORTEST <= abs(value) <= longest:
            yield candidate
