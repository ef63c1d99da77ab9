"""Fields that hold one of a few words."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping
from typing import Annotated

from turnercalc.errors import UnitError, UnknownNameError
from turnercalc.fields.phrases import Phrase
from turnercalc.tables import table

_DROPPED = re.compile(r"\b(?:the|a|an|is|are|it)\b|[^a-z0-9]+")


def word_key(text: str) -> str:
    """Return a text without case, spaces, hyphens, commas and articles."""
    return _DROPPED.sub("", " ".join(re.split(r"[\s_-]+", text.lower())))


def _as_it_is(value: object, system: str, digits: int) -> str:
    del system, digits
    return str(value)


def Choice(  # noqa: N802 - reads as a type in the models
    *values: str,
    also: Mapping[str, str] | None = None,
    kind: str = "choice",
    help: str = "",  # noqa: A002 - the word the command line uses
) -> Phrase:
    """Return the phrase of one of several words.

    Case, spaces, hyphens, commas and articles do not matter.

    Parameters
    ----------
    *values : str
        The words, as they are stored.
    also : mapping of str to str
        Other words people use, and the value each stands for.
    kind : str
        Name of the field type.
    help : str
        What is asked.
    """
    by_key = {word_key(word): value for word, value in (also or {}).items()}
    by_key |= {word_key(value): value for value in values}

    def read(text: str) -> str:
        found = by_key.get(word_key(text))
        if found is not None:
            return found
        near = difflib.get_close_matches(word_key(text)[:80], by_key, n=1, cutoff=0.7)
        quoted = " or ".join(f'"{value}"' for value in values)
        guess = f' Did you mean "{by_key[near[0]]}"?' if near else ""
        message = f'"{text}" is none of the words that fit here: {quoted}.{guess}'
        ordered = dict.fromkeys([by_key[near[0]], *values] if near else values)
        raise UnitError(message, text=text, choices=tuple(ordered))

    return Phrase(
        kind=kind,
        reader=read,
        writer=_as_it_is,
        example=values[0],
        help=help or f"One of: {'; '.join(values)}.",
        choices=values,
    )


def words_of_table(
    name: str, kind: str, example: str, question: str, *, as_written: bool = False
) -> Phrase:
    """Return the phrase of a name that a table has to know.

    Parameters
    ----------
    name : str
        Of the table.
    kind, example, question : str
        As in `Phrase`.
    as_written : bool
        Whether it stays as the builder wrote it; else it is called as the table does.
    """

    def read(text: str) -> str:
        try:
            row = table(name).row(text)
        except UnknownNameError as error:
            raise UnitError(str(error), text=text, choices=(example,)) from None
        return text.strip() if as_written else row.text(table(name).key)

    return Phrase(kind, read, _as_it_is, example, question)


_YES_NO = {
    "yes": True, "y": True, "true": True, "on": True, "ja": True,
    "no": False, "n": False, "false": False, "off": False, "none": False,
}  # fmt: skip


def _read_yes_no(text: str) -> bool:
    value = _YES_NO.get(word_key(text))
    if value is None:
        message = f'"{text}": yes or no?'
        raise UnitError(message, text=text, choices=("yes", "no"))
    return value


def _write_yes_no(value: object, system: str, digits: int) -> str:
    del system, digits
    return "yes" if value else "no"


class _YesNoPhrase(Phrase):
    def read(self, given: object, *, si: bool = False) -> bool:
        if isinstance(given, bool):
            return given
        return bool(super().read(given, si=si))


YES_NO = _YesNoPhrase(
    kind="yes or no",
    reader=_read_yes_no,
    writer=_write_yes_no,
    example="yes",
    help="Yes or no.",
    choices=("yes", "no"),
)


def _read_name(text: str) -> str:
    name = " ".join(text.split())
    if not name:
        message = "Nothing is written here."
        raise UnitError(message, text=text)
    return name


NAME = Phrase(
    kind="name",
    reader=_read_name,
    writer=_as_it_is,
    example="Oak Lane school",
    help="A name of your own.",
)

Name = Annotated[str, NAME]
BoolWords = Annotated[bool, YES_NO]

__all__ = ["NAME", "YES_NO", "BoolWords", "Choice", "Name", "word_key", "words_of_table"]
