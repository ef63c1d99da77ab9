"""Which sections a design file has: the common ones, those of its turner and those of its drive."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TypeVar

from turnercalc import drives, turners
from turnercalc.design.common import COMMON
from turnercalc.drives.base import DriveKind
from turnercalc.fields import Section
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

    A section that a turner or a drive names like a common one stands in its place.
    """
    sections: dict[str, type[Section]] = {name: COMMON[name] for name in _BEFORE}
    required = {"box", "eggs", "turning", "motor"}
    if turner is not None:
        sections.update(turner.sections)
        required |= set(turner.sections) - set(turner.optional_sections)
        if drive is None or not drive.holds_pin:
            required -= set(turner.pin_sections)
    if drive is not None:
        sections.update(drive.sections)
        required |= set(drive.sections)
    sections.update({name: COMMON[name] for name in _AFTER if name not in sections})
    repeated = {name for name, model in sections.items() if getattr(model, "repeats", False)}
    if turner is not None:
        sections["loads"] = turner.load_entry
        repeated.add("loads")
    return Schema(MappingProxyType(sections), frozenset(required - repeated), frozenset(repeated))


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
