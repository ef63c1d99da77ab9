"""The design a builder's file tells of, complete and frozen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from turnercalc.design.filing import nearest_path
from turnercalc.errors import UnknownNameError
from turnercalc.findings import Assumed

if TYPE_CHECKING:
    from turnercalc.design.prereader import Note, Sheet
    from turnercalc.fields import HalfKnown, Section

_EMPTY: Mapping[str, Any] = MappingProxyType({})


@dataclass(frozen=True)
class Origin:
    """Where the value of one field comes from.

    Attributes
    ----------
    how : str
        ``given`` (in the file), ``set`` (by a setting) or ``taken for granted``.
    text : str
        The value as it was written, or as it would be.
    line : int or None
        Line of the file, where it was given.
    source : str
        For what was taken for granted: where the value comes from.
    is_number : bool
        Whether a program set it as a bare number in SI, so that it has no text of its own.
    """

    how: str
    text: str
    line: int | None = None
    source: str = ""
    is_number: bool = False


@dataclass(frozen=True)
class Reread:
    """What a design was read from, so that a changed one goes the same way."""

    sheet: Sheet
    settings: Mapping[str, object]


@dataclass(frozen=True)
class Design:
    """A design: every field in SI, and where it comes from.

    Attributes
    ----------
    name : str
        What the builder calls it.
    turner, drive : str
        Ids of the turner and the drive.
    drawn_from : str
        From where left, right and clockwise are as seen.
    sections : mapping
        Section name -> its model with SI values; a tuple of models for sections that may stand
        several times (``gearing``, ``loads``), empty where there is none.
    origin : mapping
        Field path -> `Origin`, for every field that has a value.
    assumed : tuple of Assumed
        What was taken for granted, in file order.
    unknown : mapping
        Field path -> what stays unknown because nothing is said there.
    half_known : mapping
        Field path -> how far its number may be off; the sections hold its middle.
    notes : tuple of Note
        What was understood although it is not written as it should be.
    file : str
        Name of the file; empty for a text.

    Notes
    -----
    Two designs are equal when they say the same, wherever it was said.
    """

    name: str
    turner: str
    drive: str
    drawn_from: str
    sections: Mapping[str, Section | tuple[Section, ...]]
    origin: Mapping[str, Origin] = field(default_factory=lambda: _EMPTY, compare=False)
    assumed: tuple[Assumed, ...] = field(default=(), compare=False)
    unknown: Mapping[str, str] = field(default_factory=lambda: _EMPTY, compare=False)
    half_known: Mapping[str, HalfKnown] = field(default_factory=lambda: _EMPTY)
    notes: tuple[Note, ...] = field(default=(), compare=False)
    file: str = field(default="", compare=False)
    reread: Reread | None = field(default=None, compare=False, repr=False)

    def __getitem__(self, section: str) -> Any:
        """Return a section: its model, or a tuple of models.

        Raises
        ------
        UnknownNameError
            The design has no such section.
        """
        if section not in self.sections:
            message = f"This design has no [{section}]. It has: {', '.join(self.sections)}."
            raise UnknownNameError(message)
        return self.sections[section]

    def get(self, section: str) -> Any:
        """Return a section, or None where the design has no such section."""
        return self.sections.get(section)

    @property
    def gearing(self) -> tuple[Any, ...]:
        """The stages between the gearmotor and the turner, the motor's end first."""
        return self.sections.get("gearing", ())  # type: ignore[return-value]

    @property
    def loads(self) -> tuple[Any, ...]:
        """The builder's own load cases, in file order."""
        return self.sections.get("loads", ())  # type: ignore[return-value]

    def value(self, path: str) -> Any:
        """Return the value of a field in SI: ``design.value("crank.radius")``.

        Parameters
        ----------
        path : str
            Field path; those of sections that stand several times carry their number, counted
            from 1: ``gearing.1.ratio``.

        Returns
        -------
        object
            None where nothing is known.

        Raises
        ------
        UnknownNameError
            There is no such field; the message names the nearest.
        """
        values = self.values()
        if path not in values:
            near = nearest_path(path, values)
            hint = f" Nearest: {near}." if near else ""
            raise UnknownNameError(f'This design has no field "{path}".{hint}')
        return values[path]

    def values(self) -> dict[str, Any]:
        """Return every field path with its value in SI, in file order."""
        found: dict[str, Any] = {
            "name": self.name,
            "turner": self.turner,
            "drive": self.drive,
            "drawn_from": self.drawn_from,
        }
        for key, section in self.keyed_sections():
            found.update(
                {f"{key}.{name}": getattr(section, name) for name in section_fields(section)}
            )
        return found

    def keyed_sections(self) -> list[tuple[str, Section]]:
        """Return every section with its key: ``crank``, ``gearing.1``, ``gearing.2``."""
        found: list[tuple[str, Section]] = []
        for name, section in self.sections.items():
            if isinstance(section, tuple):
                found += [(f"{name}.{at}", one) for at, one in enumerate(section, start=1)]
            else:
                found.append((name, section))
        return found

    def taken_for_granted(self) -> tuple[Assumed, ...]:
        """Return what the builder did not say and that was taken for granted, with its source."""
        return self.assumed

    def line(self, path: str) -> int | None:
        """Return the line of the file in which a field was given, or None."""
        found = self.origin.get(path)
        return found.line if found else None

    def replace(self, changes: Mapping[str, object], *, si: bool = False) -> Design:
        """Return the design with some fields said otherwise, as ``--set`` does it.

        Parameters
        ----------
        changes : mapping
            Field path -> text as it would stand in the file; None leaves the field out. A whole
            section that may stand several times takes a list:
            ``{"gearing": [{"kind": "chain", "motor_teeth": 12, "driven_teeth": 24}]}``.
        si : bool
            Whether bare numbers among the changes are meant in SI.

        Raises
        ------
        DesignError
            With one complaint for each change that cannot be.
        """
        from turnercalc.design.reader import read_again

        return read_again(self, changes, si=si)


def section_fields(section: Section) -> tuple[str, ...]:
    """Return the names of a section's fields, in file order."""
    return tuple(type(section).model_fields)
