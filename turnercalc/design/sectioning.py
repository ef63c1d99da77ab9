"""What the models of sections share: words that a table knows, and constant defaults.

A section's model may have three hooks besides its fields:

``assume(given, context)``
    yields an `Assumed` for everything it takes for granted; its text is read like the file's.
``check(given, context)``
    yields (field, message, accepted texts) for what does not fit together.
``idle(given)``
    names the fields that do not matter with what is said, so that none of them is "unknown".

`given` holds the section's own values in SI, `context` those of all sections that stand once.
A section that may stand several times has ``repeats: ClassVar[bool] = True``.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from turnercalc.fields import Given
from turnercalc.findings import Assumed
from turnercalc.tables.assuming import assumed_default


def as_it_is(value: Any, system: str, digits: int) -> str:
    """Write a word as the word it is."""
    del system, digits
    return str(value)


def constants(section: str, given: Given, names: tuple[str, ...]) -> Iterable[Assumed]:
    """Yield the constant defaults of the fields that are not given."""
    for name in names:
        if given.get(name) is None:
            yield assumed_default(f"{section}.{name}")
