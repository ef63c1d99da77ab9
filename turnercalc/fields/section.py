"""The base of every section of a design file, and what a model knows of its fields."""

from __future__ import annotations

import types
import typing
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel, ConfigDict, model_validator

from turnercalc.errors import UnknownNameError
from turnercalc.fields.phrases import Phrase

#: What a section's `assume` and `check` get: its own fields, and those of every section, in SI.
Given = Mapping[str, Any]
Context = Mapping[str, Mapping[str, Any]]
#: What `check` yields: the field, what is wrong with it, and what would be accepted.
Trouble = tuple[str, str, tuple[str, ...]]

_BLANKS = frozenset(
    {"", "-", "--", "–", "—", "?", "n/a", "na", "unknown", "not known", "none given"}
)


class Section(BaseModel):
    """One ``[section]`` of a design file: frozen, and no field that it does not know.

    A field that is left blank (``"-"``, ``"unknown"``) counts as left out.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True)

    @model_validator(mode="before")
    @classmethod
    def _leave_out_blanks(cls, given: Any) -> Any:
        if not isinstance(given, dict):
            return given
        return {name: value for name, value in given.items() if not is_blank(value)}


def is_blank(value: object) -> bool:
    """Tell whether a text says that nothing is known."""
    return isinstance(value, str) and value.strip().lower() in _BLANKS


@dataclass(frozen=True)
class FieldInfo:
    """What can be asked and said about one field.

    Attributes
    ----------
    name : str
        Its path, such as ``crank.radius``.
    kind : str
        Name of its field type, such as ``height from pivot``.
    example : str
        A text it accepts.
    help : str
        What is wanted, as a question mode would ask it.
    choices : tuple of str
        The words it accepts, where there are only so many.
    required : bool
        True where nothing is taken for granted.
    phrase : Phrase
        Reads and writes it.
    """

    name: str
    kind: str
    example: str
    help: str
    choices: tuple[str, ...]
    required: bool
    phrase: Phrase


def field_info(model: type[BaseModel], name: str) -> FieldInfo:
    """Return what is known of one field of a model.

    Parameters
    ----------
    model : type
        A `Section`, or a model made of them.
    name : str
        Field, or path with dots through nested models.

    Raises
    ------
    UnknownNameError
        Where the model has no such field, or the field is no phrase.
    """
    first, _, rest = name.partition(".")
    field = model.model_fields.get(first)
    if field is None:
        message = f"there is no field {first!r}; there are {', '.join(model.model_fields)}"
        raise UnknownNameError(message)
    if rest:
        nested = next(_models(field.annotation), None)
        if nested is None:
            message = f"{first!r} has no fields of its own"
            raise UnknownNameError(message)
        inner = field_info(nested, rest)
        return FieldInfo(name, *list(vars(inner).values())[1:])
    phrase = next(_phrases(field.metadata, field.annotation), None)
    if phrase is None:
        message = f"{first!r} is no field that is read from words"
        raise UnknownNameError(message)
    help_text = field.description or phrase.help
    examples = field.examples or [phrase.fitting_example()]
    return FieldInfo(
        name, phrase.kind, str(examples[0]), help_text, phrase.choices, field.is_required(), phrase
    )


def field_infos(model: type[BaseModel], prefix: str = "") -> Iterator[FieldInfo]:
    """Yield what is known of every field of a model, nested models included, in file order."""
    for name, field in model.model_fields.items():
        nested = next(_models(field.annotation), None)
        if nested is not None:
            yield from field_infos(nested, f"{prefix}{name}.")
        elif next(_phrases(field.metadata, field.annotation), None) is not None:
            info = field_info(model, name)
            yield FieldInfo(f"{prefix}{name}", *list(vars(info).values())[1:])


def _phrases(metadata: list[Any], annotation: Any) -> Iterator[Phrase]:
    """Yield the phrases of a field; in ``Length | None`` they sit inside the union."""
    yield from (item for item in metadata if isinstance(item, Phrase))
    for argument in typing.get_args(annotation):
        yield from _phrases(list(getattr(argument, "__metadata__", ())), argument)


def _models(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
        return
    if typing.get_origin(annotation) in (typing.Union, types.UnionType):
        for argument in typing.get_args(annotation):
            yield from _models(argument)
