"""Which sections a design file has: the common ones, those of its turner and those of its drive."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Annotated, Any, TypeVar

from pydantic import Field, create_model

from turnercalc import drives, turners
from turnercalc.design.common import COMMON
from turnercalc.drives.base import DriveKind
from turnercalc.fields import FROM_PIVOT, Context, Given, Origin, Phrase, Section, Trouble
from turnercalc.findings import Assumed
from turnercalc.turners.base import TurnerKind

Kind = TypeVar("Kind", TurnerKind, DriveKind)

_BEFORE = ("box", "eggs", "turning")
_AFTER = ("gearing", "motor")


@dataclass(frozen=True)
class Schema:
    """All that a file of one turner and one drive may say.

    Attributes
    ----------
    sections : mapping
        Section name -> the model that reads it, in the order of a well-kept file.
    required : frozenset of str
        Sections that must be there.
    repeated : frozenset of str
        Sections that may stand several times.
    """

    sections: Mapping[str, type[Section]]
    required: frozenset[str]
    repeated: frozenset[str]

    def field_names(self, section: str) -> tuple[str, ...]:
        """Return the fields of a section, in file order."""
        return tuple(self.sections[section].model_fields)


def schema_for(turner: TurnerKind | None, drive: DriveKind | None) -> Schema:
    """Assemble the sections of a turner and a drive; of the common ones alone where both are None.

    A section that a turner or a drive names like a common one stands in its place, or adds to it
    where it has ``extends: ClassVar[bool] = True``.
    """
    sections: dict[str, type[Section]] = {name: COMMON[name] for name in _BEFORE}
    required = {"box", "eggs", "turning", "motor"}
    if turner is not None:
        sections.update({name: _standing(name, own) for name, own in turner.sections.items()})
        required |= set(turner.sections) - set(turner.optional_sections)
        if drive is None or not drive.holds_pin:
            required -= set(turner.pin_sections)
    if drive is not None:
        origin = turner.measured_from if turner is not None else FROM_PIVOT
        sections.update(
            {name: measured_from(origin, model) for name, model in drive.sections.items()}
        )
        required |= set(drive.sections)
    sections.update({name: COMMON[name] for name in _AFTER if name not in sections})
    repeated = {name for name, model in sections.items() if getattr(model, "repeats", False)}
    if turner is not None:
        sections["loads"] = turner.load_entry
        repeated.add("loads")
    return Schema(MappingProxyType(sections), frozenset(required - repeated), frozenset(repeated))


@cache
def measured_from(origin: Origin, model: type[Section]) -> type[Section]:
    """Return a drive's section with its places measured from what the turner measures from.

    A drive knows no turner, so it names the pivot, as trays do; the words of a drum's file are
    the axle, those of a cradle's the contact.
    """
    ours = {
        FROM_PIVOT.height.kind: origin.height,
        FROM_PIVOT.across.kind: origin.across,
    }
    changed: dict[str, Any] = {}
    for name, info in model.model_fields.items():
        phrase = next((part for part in info.metadata if isinstance(part, Phrase)), None)
        if phrase is None or ours.get(phrase.kind, phrase) is phrase:
            continue
        own = ours[phrase.kind]
        said = (info.description or "").replace(FROM_PIVOT.words, origin.words)
        changed[name] = (Annotated[float, own], Field(description=said, examples=[own.example]))
    if not changed:
        return model
    restated: type[Section] = create_model(
        model.__name__, __base__=model, __doc__=model.__doc__, **changed
    )
    return restated


def _standing(name: str, own: type[Section]) -> type[Section]:
    """Return the model of a section: a turner's own, or the common one with its additions."""
    return extended(own, COMMON[name]) if getattr(own, "extends", False) else own


@cache
def extended(own: type[Section], common: type[Section]) -> type[Section]:
    """Return a common section with fields added, or said otherwise, by a turner.

    Where `own` has an attribute ``instead``, the fields it names do not matter with this turner:
    nothing is taken for granted for them and none of them is unknown.
    """
    instead: tuple[str, ...] = getattr(own, "instead", ())

    def hooks(name: str) -> list[Callable[..., Iterable[Any]]]:
        found = (getattr(model, name, None) for model in (common, own))
        return [hook for hook in found if hook is not None]

    def assume(cls: type[Section], given: Given, context: Context) -> Iterable[Assumed]:
        del cls
        for hook in hooks("assume"):
            for one in hook(given, context):
                if one.field.rpartition(".")[2] not in instead:
                    yield one

    def check(cls: type[Section], given: Given, context: Context) -> Iterable[Trouble]:
        del cls
        for hook in hooks("check"):
            yield from hook(given, context)

    def idle(cls: type[Section], given: Given) -> tuple[str, ...]:
        del cls
        return (*instead, *(name for hook in hooks("idle") for name in hook(given)))

    body = {
        "__module__": own.__module__,
        "__doc__": own.__doc__,
        "assume": classmethod(assume),
        "check": classmethod(check),
        "idle": classmethod(idle),
    }
    return type(own.__name__, (own, common), body)


def guess_turner(section_names: Iterable[str]) -> TurnerKind | None:
    """Return the turner most of whose own sections are in a file, or None."""
    return _most_named(turners.kinds().values(), set(section_names))


def guess_drive(section_names: Iterable[str], turner: TurnerKind | None) -> DriveKind | None:
    """Return the drive most of whose sections are in a file, else the turner's usual one."""
    known = drives.kinds()
    guess = _most_named(known.values(), set(section_names))
    if guess is None and turner is not None:
        guess = next((known[id_] for id_ in turner.drives if id_ in known), None)
    return guess


def fitting_drives(turner: TurnerKind) -> tuple[DriveKind, ...]:
    """Return the drives that make sense for a turner."""
    known = drives.kinds()
    return tuple(known[id_] for id_ in turner.drives if id_ in known)


def _most_named(kinds: Iterable[Kind], names: set[str]) -> Kind | None:
    scored = [(len(names & set(kind.sections)), kind) for kind in kinds]
    best = max(scored, key=lambda pair: pair[0], default=None)
    return best[1] if best is not None and best[0] else None
