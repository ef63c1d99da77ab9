"""What a number without a unit could have meant, and what would follow from each meaning."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from pydantic_core import PydanticCustomError

from turnercalc.fields import FieldInfo, Range3

Values = Mapping[str, Mapping[str, Any]]

#: From a field path, a text it could have, and the values known so far (section -> field -> SI)
#: to what would follow, in words: ``the trays would tip 45.6 degrees each side``.
Consequence = Callable[[str, str, Values], str]


def explain_meanings(
    path: str,
    choices: Iterable[str],
    info: FieldInfo,
    values: Values,
    consequence: Consequence | None,
) -> tuple[str, tuple[str, ...]]:
    """Drop the meanings that break the design, and say what follows from the others.

    Parameters
    ----------
    path : str
        Field path.
    choices : iterable of str
        Texts the number could stand for.
    info : FieldInfo
        Of the field.
    values : mapping
        What is known of the design so far.
    consequence : callable or None
        Says what would follow from one of the texts; empty where it cannot say.

    Returns
    -------
    tuple of str and tuple of str
        A sentence, empty where nothing can be said, and the texts that remain.
    """
    longest = longest_inside(values)
    fitting: list[str] = []
    too_long: list[str] = []
    for choice in choices:
        try:
            value = info.phrase.read(choice)
        except PydanticCustomError:
            continue
        is_length = info.phrase.quantity == "length" and longest is not None
        most = value.high if isinstance(value, Range3) else value
        (too_long if is_length and abs(most) > longest else fitting).append(choice)
    parts = []
    for choice in fitting:
        follows = consequence(path, choice, values) if consequence else ""
        if follows:
            parts.append(f"as {choice} {follows}")
    if too_long:
        parts.append(f"as {' or '.join(too_long)} it would not fit the box")
    sentence = "; ".join(parts)
    sentence = sentence[:1].upper() + sentence[1:] + "." if sentence else ""
    return sentence, tuple(fitting or choices)


def longest_inside(values: Values) -> float | None:
    """Return the largest inside measurement of the box [m], or None where one is not known."""
    box = values.get("box", {})
    sizes = [box.get(name) for name in ("width", "height", "depth")]
    known = [size for size in sizes if isinstance(size, float)]
    return max(known) if len(known) == len(sizes) else None
