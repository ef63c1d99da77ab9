"""What a call asks for, looked at before anything is computed: refusals in words."""

from __future__ import annotations

import math
import operator
from collections.abc import Mapping
from typing import Any

from turnercalc.advice.ranges import info_of
from turnercalc.design import Design
from turnercalc.errors import AskedError
from turnercalc.motors import MotorFile


def need_design(value: object) -> None:
    """Refuse what is no design, such as the name of a file."""
    if not isinstance(value, Design):
        raise AskedError(
            f"A design as read_design gives it is needed, not {type(value).__name__}: "
            'turnercalc.read_design("my-rack.toml").'
        )


def need_motors(value: object) -> None:
    """Refuse what is no motor file."""
    if not isinstance(value, MotorFile):
        raise AskedError(
            f"Motors as read_motors gives them are needed, not {type(value).__name__}: "
            'turnercalc.read_motors("motors.csv").'
        )


def whole(value: Any, what: str, least: int = 1, most: int | None = None) -> int:
    """Return a whole number, or raise AskedError: ``builds: a whole number of 1 or more``."""
    span = f"of {least} or more" if most is None else f"from {least} to {most}"
    try:
        number = operator.index(value)
    except TypeError:
        number = None
    if number is None or isinstance(value, bool) or number < least or number > (most or math.inf):
        raise AskedError(f"{what}: a whole number {span}, not {value!r}")
    return number


def above_zero(value: Any, what: str) -> float:
    """Return a finite number above 0, or raise AskedError."""
    number = as_number(value)
    if number is None or not number > 0.0:
        raise AskedError(f"{what}: a number above 0, not {value!r}")
    return number


def not_below_zero(value: Any, what: str) -> float:
    """Return a finite number of 0 or more, or raise AskedError."""
    number = as_number(value)
    if number is None or not number >= 0.0:
        raise AskedError(f"{what}: a number of 0 or more, not {value!r}")
    return number


def as_number(value: Any) -> float | None:
    """Return a finite number; None for anything else, texts among them."""
    if isinstance(value, str | bytes | bool):
        return None
    try:
        number = float(value)
    except (TypeError, ValueError):
        return None
    return number if math.isfinite(number) else None


def spans(design: Design, within: Mapping[str, Any], what: str) -> None:
    """Refuse spans of fields that the design has not, or that do not rise.

    Raises
    ------
    UnknownNameError
        There is no such field; the nearest is named.
    AskedError
        A span is no pair of numbers, or its low end does not come first.
    """
    for path, span in within.items():
        info_of(design, path)
        ends = span if isinstance(span, tuple | list) else ()
        numbers = [as_number(value) for value in ends]
        if len(numbers) != 2 or numbers[0] is None or numbers[1] is None:
            raise AskedError(f"{what} of {path}: lowest and highest value in SI, not {span!r}")
        if numbers[0] > numbers[1]:
            raise AskedError(f"{what} of {path}: the low end comes first, not {span!r}")
