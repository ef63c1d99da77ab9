"""The lines above the first section: which turner, which drive, seen from where."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import PurePath
from typing import Any

from pydantic_core import PydanticCustomError

from turnercalc import drives, turners
from turnercalc.design.common import FILE_VERSION, Head
from turnercalc.design.evaluating import read_cell, said
from turnercalc.design.filing import Cell, Settings, head_cells
from turnercalc.design.names import nearest
from turnercalc.design.prereader import Sheet
from turnercalc.design.schema import fitting_drives, guess_drive, guess_turner
from turnercalc.design.why import why_asked
from turnercalc.drives.base import DriveKind
from turnercalc.errors import Complaint, UnknownNameError
from turnercalc.fields import field_info
from turnercalc.fields.words import word_key
from turnercalc.findings import Assumed
from turnercalc.turners.base import TurnerKind


@dataclass
class Heading:
    """The lines above the first section, being read.

    Where turner or drive are not said or not known, the likeliest is put in their place next to
    the complaint, so that the rest of the file can be judged in the same pass.
    """

    cells: dict[str, Cell]
    complaints: list[Complaint]
    lost: frozenset[str]
    values: dict[str, Any] = field(default_factory=dict)
    turner: TurnerKind | None = None
    drive: DriveKind | None = None
    ill_matched: bool = False

    def beside_the_point(self, complaint: Complaint) -> bool:
        """Tell whether a complaint is about sections of a drive that cannot be meant.

        Where the drive does not move the turner, nobody should be asked for its lengths.
        """
        if not self.ill_matched:
            return False
        section = complaint.field.partition(".")[0]
        return any(section in kind.sections for kind in drives.kinds().values())

    def name(self, file: str) -> str:
        """Return the design's name; without one, that of its file or its turner."""
        unnamed = self.turner.words[0] if self.turner else "turner"
        return str(self.values.get("name") or PurePath(file).stem or unnamed)

    def assumed(self, file: str) -> list[Assumed]:
        """Return what was taken for granted here."""
        if "name" in self.values:
            return []
        return [Assumed("name", self.name(file), "name of the file, else of the turner")]

    def silent(self, name: str) -> bool:
        """Tell whether a field is missing without any complaint about it yet."""
        complained = {complaint.field for complaint in self.complaints} | self.lost
        return name not in self.values and name not in complained


def read_head(sheet: Sheet, settings: Settings) -> Heading:
    """Read the lines above the first section and find turner and drive in their registries."""
    cells, complaints = head_cells(sheet, settings)
    head = Heading(cells, complaints, frozenset(sheet.lost))
    for name, cell in list(cells.items()):
        try:
            head.values[name] = read_cell(Head, cell)
        except PydanticCustomError as error:
            head.complaints.append(_complaint(cell, error))
    sections = [block.name for block in sheet.blocks if block.name]
    _find_turner(head, sections)
    _find_drive(head, sections)
    if head.silent("drawn_from"):
        head.complaints.append(_missing("drawn_from", ("the door side",)))
    return head


def _complaint(cell: Cell, error: PydanticCustomError) -> Complaint:
    message, accepted = said(error)
    if cell.name == "turnercalc":
        message = f"This program reads files of version {FILE_VERSION}; this one says {cell.text}."
    return Complaint(cell.line, cell.path, cell.typed, message, accepted)


def _find_turner(head: Heading, sections: Iterable[str]) -> None:
    kinds = turners.kinds()
    try:
        if "turner" in head.values:
            head.turner = turners.find(head.values["turner"])
            return
    except UnknownNameError as error:
        head.complaints.append(_unknown(head.cells["turner"], error, kinds))
        head.turner = _meant(head.values["turner"], kinds)
    if head.silent("turner"):
        head.complaints.append(_missing("turner", _first_words(kinds.values())))
    head.turner = head.turner or guess_turner(sections)


def _find_drive(head: Heading, sections: Iterable[str]) -> None:
    kinds = drives.kinds()
    fitting = fitting_drives(head.turner) if head.turner else tuple(kinds.values())
    try:
        if "drive" in head.values:
            head.drive = drives.find(head.values["drive"])
            _check_combination(head, fitting)
            return
    except UnknownNameError as error:
        head.complaints.append(_unknown(head.cells["drive"], error, kinds))
        head.drive = _meant(head.values["drive"], kinds)
    if head.silent("drive"):
        head.complaints.append(_missing("drive", _first_words(fitting)))
    head.drive = head.drive or guess_drive(sections, head.turner)


def _check_combination(head: Heading, fitting: tuple[DriveKind, ...]) -> None:
    if head.turner is None or head.drive is None or head.drive in fitting:
        return
    head.ill_matched = True
    words = _first_words(fitting)
    offered = ", ".join(f'"{word}"' for word in words)
    cell, read = head.cells["drive"], head.drive.words[0]
    asked = f'"{read}"'
    if word_key(cell.text) != word_key(read):
        asked = f'"{cell.text}", which is read as {asked}'
    message = f'"{head.turner.words[0]}" cannot be moved by {asked}. What moves it: {offered}.'
    head.complaints.append(Complaint(cell.line, "drive", cell.typed, message, words))


def _unknown(cell: Cell, error: UnknownNameError, kinds: Mapping[str, Any]) -> Complaint:
    near = _meant(cell.text, kinds)
    accepted = (near.words[0],) if near else _first_words(kinds.values())
    return Complaint(cell.line, cell.path, cell.typed, str(error), accepted)


def _meant(words: str, kinds: Mapping[str, Any]) -> Any:
    """Return the kind whose words come nearest, or None."""
    by_words = {word: kind for kind in kinds.values() for word in (kind.id, *kind.words)}
    near = nearest(words, by_words)
    return by_words[near] if near else None


def _missing(name: str, accepted: tuple[str, ...]) -> Complaint:
    message = f"{field_info(Head, name).help}.\n{why_asked(name)}"
    return Complaint(None, name, "", message, accepted)


def _first_words(kinds: Iterable[Any]) -> tuple[str, ...]:
    return tuple(kind.words[0] for kind in kinds)
