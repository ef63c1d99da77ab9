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

from collections.abc import Iterable, Mapping
from typing import Any

from turnercalc.errors import UnitError, UnknownNameError
from turnercalc.fields import Phrase
from turnercalc.findings import Assumed
from turnercalc.tables import table
from turnercalc.tables.assuming import assumed_default

Given = Mapping[str, Any]
Context = Mapping[str, Mapping[str, Any]]
Trouble = tuple[str, str, tuple[str, ...]]


def words_of_table(name: str, kind: str, example: str, question: str) -> Phrase:
    """Return the phrase of a name that a table has to know.

    Parameters
    ----------
    name : str
        Of the table.
    kind, example, question : str
        As in `Phrase`.
    """

    def read(text: str) -> str:
        try:
            row = table(name).row(text)
        except UnknownNameError as error:
            raise UnitError(str(error), text=text, choices=(example,)) from None
        return row.text(table(name).key)

    return Phrase(kind, read, as_it_is, example, question)


def as_it_is(value: Any, system: str, digits: int) -> str:
    """Write a word as the word it is."""
    del system, digits
    return str(value)


def constants(section: str, given: Given, names: tuple[str, ...]) -> Iterable[Assumed]:
    """Yield the constant defaults of the fields that are not given."""
    for name in names:
        if given.get(name) is None:
            yield assumed_default(f"{section}.{name}")
