"""Every value of a file and of the settings, put under its field path."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from turnercalc.design.common import Head
from turnercalc.design.complaints import quoted
from turnercalc.design.decoding import one_line
from turnercalc.design.names import exact, nearest
from turnercalc.design.prereader import Block, Entry, Note, Sheet, fold
from turnercalc.design.schema import Schema
from turnercalc.design.values import Repair, ValueProblem, read_value
from turnercalc.errors import Complaint
from turnercalc.fields import Section

Settings = Mapping[str, object]

_INDEX = re.compile(r"\[(\d+)\]")
_NONE = frozenset({"", "none", "-", "[]"})


@dataclass(frozen=True)
class InSI:
    """A setting from a program: a bare number that is meant in SI."""

    value: float


@dataclass(frozen=True)
class Cell:
    """One value under its field path.

    Attributes
    ----------
    path : str
        Such as ``crank.radius`` or ``gearing.1.kind``.
    value : object
        As read: text, number, list; or a value in SI.
    typed : str
        The setting as the builder wrote it.
    text : str
        The value as the builder wrote it, without quote marks.
    line : int or None
        In the file; None for a setting.
    si : bool
        Whether a bare number is meant in SI.
    repairs : tuple of Repair
        What was overlooked to understand it.
    """

    path: str
    value: object
    typed: str
    text: str
    line: int | None
    si: bool = False
    repairs: tuple[Repair, ...] = ()

    @property
    def name(self) -> str:
        """The field without its section."""
        return self.path.rpartition(".")[2]

    @property
    def is_setting(self) -> bool:
        """Whether it comes from a setting, not from the file."""
        return self.line is None


@dataclass
class Filed:
    """One section with its values, being filled."""

    key: str
    name: str
    model: type[Section]
    line: int | None
    cells: dict[str, Cell] = field(default_factory=dict)


@dataclass
class Filing:
    """All sections of a file with their values, being filled."""

    schema: Schema
    complete: bool = True
    sections: dict[str, Filed] = field(default_factory=dict)
    complaints: list[Complaint] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)
    lost: set[str] = field(default_factory=set)

    def named(self, name: str) -> list[Filed]:
        """Return every section of a name, in order."""
        return [filed for filed in self.sections.values() if filed.name == name]

    def open(self, name: str, line: int | None) -> Filed:
        """Return the section of a name, a new one where it may stand several times."""
        key = name
        if name in self.schema.repeated:
            key = f"{name}.{len(self.named(name)) + 1}"
        if key not in self.sections:
            self.sections[key] = Filed(key, name, self.schema.sections[name], line)
        return self.sections[key]


# --- the lines above the first section --------------------------------------------------------


def head_cells(sheet: Sheet, settings: Settings) -> tuple[dict[str, Cell], list[Complaint]]:
    """Return the values above the first section, settings for them in place, and complaints."""
    cells: dict[str, Cell] = {}
    complaints = []
    for block in sheet.blocks:
        for entry in block.entries if not block.name else ():
            name = exact(entry.name, Head.model_fields)
            if name is not None:
                cells.setdefault(name, _cell(name, entry))
    _adopt_misspelt(cells, sheet)
    for path, given in settings.items():
        name = exact(path, Head.model_fields)
        if name is None:
            continue
        try:
            cells[name] = setting_cell(name, given)
        except ValueProblem as problem:
            complaints.append(_setting_complaint(path, given, problem))
    return cells, complaints


def _adopt_misspelt(cells: dict[str, Cell], sheet: Sheet) -> None:
    """Take a misspelt name above the sections for the one it comes nearest to."""
    for block in sheet.blocks:
        for entry in block.entries if not block.name else ():
            near = nearest(entry.name, Head.model_fields)
            if near is not None and near not in cells:
                cells[near] = _cell(near, entry)


def setting_cell(path: str, given: object) -> Cell:
    """Return a setting as a value under its path; raises ValueProblem where it has no meaning."""
    if isinstance(given, InSI):
        return Cell(
            path, given.value, f"{path} = {given.value} in SI", str(given.value), None, True
        )
    if not isinstance(given, str):
        return Cell(path, given, f"--set {path}={given}", str(given), None)
    given = one_line(given)
    typed = f"--set {path}={quoted(given, always=True)}"
    return Cell(path, read_value(given).value, typed, _bare(given), None)


def _setting_complaint(path: str, given: object, problem: ValueProblem) -> Complaint:
    read = f"--set {one_line(path)}={quoted(one_line(str(given)), always=True)}"
    message = problem.message.replace(" Give a value or delete the line.", "")
    return Complaint(None, path, read, message, problem.accepted)


def _cell(path: str, entry: Entry) -> Cell:
    # Only what had to be repaired is read a second time, now without its comment.
    bare = _bare(entry.text) if entry.repairs else _unquoted(entry.value, entry.text)
    return Cell(path, entry.value, entry.typed, bare, entry.line, False, entry.repairs)


def _bare(text: str) -> str:
    """Return a value as typed, without the quote marks around it."""
    try:
        value = read_value(text).value
    except ValueProblem:
        return text.strip()
    return _unquoted(value, text)


def _unquoted(value: object, text: str) -> str:
    return value if isinstance(value, str) else " ".join(text.split())


# --- the sections -----------------------------------------------------------------------------


def file_sheet(sheet: Sheet, schema: Schema, *, complete: bool = True) -> Filing:
    """Put every value of a pre-read file under its field path.

    With `complete` false the turner is not known, and sections not in the schema are let be.

    A name that does not exist gets a complaint; where another comes near, the value is filed
    there all the same, so that a second mistake in it shows in the same pass.
    """
    filing = Filing(schema, complete=complete)
    for block in sheet.blocks:
        if block.name:
            _file_block(filing, block)
        else:
            _file_head(filing, block)
    filing.lost |= {path for typed in sheet.lost for path in _lost_paths(schema, typed)}
    return filing


def _file_head(filing: Filing, block: Block) -> None:
    seen: dict[str, Entry] = {}
    for entry in block.entries:
        name = exact(entry.name, Head.model_fields)
        section = exact(entry.name, filing.schema.sections)
        if name is not None:
            _complain_twice(filing, name, entry, seen)
        elif section is not None and isinstance(entry.value, dict | list):
            _file_inline(filing, section, entry)
        else:
            filing.complaints.append(_unknown_on_top(filing.schema, entry))


def _complain_twice(filing: Filing, path: str, entry: Entry, seen: dict[str, Entry]) -> bool:
    """Complain of a field that is given a second time; the same value twice is only noted."""
    first = seen.setdefault(path, entry)
    if first is entry:
        return False
    if first.value == entry.value:
        filing.notes.append(Note((first.line, entry.line), f"{path} stands here twice."))
    else:
        message = f"{path} stands already in line {first.line}, as {first.typed}. Keep one."
        filing.complaints.append(Complaint(entry.line, path, entry.typed, message))
    return True


def _file_inline(filing: Filing, section: str, entry: Entry) -> None:
    """File ``gearing = [{kind = "chain", ...}]``, a section written on one line."""
    tables = entry.value if isinstance(entry.value, list) else [entry.value]
    for table in tables:
        if not isinstance(table, dict):
            message = f"[{section}] holds fields with names, not bare values."
            filing.complaints.append(Complaint(entry.line, section, entry.typed, message))
            return
        entries = tuple(
            Entry(str(key), fold(str(key)), value, _as_text(value), entry.line, entry.last_line)
            for key, value in table.items()
        )
        _file_block(filing, Block(section, section, False, entry.line, entries))


def _file_block(filing: Filing, block: Block) -> None:
    schema = filing.schema
    name = exact(block.name, schema.sections)
    if name is None and not filing.complete:
        return
    if name is None:
        near = nearest(block.name, schema.sections)
        filing.complaints.append(_unknown_section(schema, block, near))
        if near is None or filing.named(near):
            return
        name = near
    if block.doubled and name not in schema.repeated and filing.named(name):
        message = f"[{name}] stands already in line {filing.named(name)[0].line}. Keep one."
        filing.complaints.append(Complaint(block.line, name, f"[[{block.header}]]", message))
        return
    filed = filing.open(name, block.line)
    _file_entries(filing, filed, block.entries)


def _file_entries(filing: Filing, filed: Filed, entries: tuple[Entry, ...]) -> None:
    fields = filing.schema.field_names(filed.name)
    given = {exact(entry.name, fields) for entry in entries}
    seen: dict[str, Entry] = {}
    for entry in entries:
        name = exact(entry.name, fields)
        if name is None:
            near = nearest(entry.name, fields)
            filing.complaints.append(_unknown_field(filing.schema, filed, entry, near))
            if near is None or near in given or near in filed.cells:
                continue
            name = near
        path = f"{filed.key}.{name}"
        earlier = filed.cells.get(name)
        if _complain_twice(filing, path, entry, seen):
            continue
        if earlier is not None and earlier.value != entry.value:
            message = f"{path} stands already in line {earlier.line}, as {earlier.typed}. Keep one."
            filing.complaints.append(Complaint(entry.line, path, entry.typed, message))
            continue
        filed.cells[name] = _cell(path, entry)


def _lost_paths(schema: Schema, typed: str) -> Iterator[str]:
    """Yield the field paths a line without meaning may have been about."""
    section_typed, _, field_typed = typed.rpartition(".")
    if not section_typed:
        yield exact(field_typed, Head.model_fields) or field_typed
        return
    section = exact(section_typed, schema.sections) or nearest(section_typed, schema.sections)
    if section is None:
        return
    fields = schema.field_names(section)
    name = exact(field_typed, fields) or nearest(field_typed, fields)
    if name is not None:
        yield f"{section}.{name}"


def _as_text(value: object) -> str:
    return quoted(value) if isinstance(value, str) else str(value)


# --- names that do not exist ------------------------------------------------------------------


def _unknown_section(schema: Schema, block: Block, near: str | None) -> Complaint:
    brackets = f"[[{block.header}]]" if block.doubled else f"[{block.header}]"
    if near is not None:
        hint = f"Nearest: [{near}]."
    else:
        hint = f"There are: {', '.join(f'[{name}]' for name in schema.sections)}."
    message = f'There is no section "{block.header}" in such a file. {hint}'
    return Complaint(block.line, block.name, brackets, message)


def _unknown_field(schema: Schema, filed: Filed, entry: Entry, near: str | None) -> Complaint:
    if near is not None:
        hint = f'[{filed.name}] has no "{entry.key}". Nearest: {near}.'
    else:
        homes = _homes(schema, entry.key)
        hint = f'[{filed.name}] has no "{entry.key}"'
        hint += f"; {homes} has." if homes else f". It has: {_listed(schema, filed.name)}."
    return Complaint(entry.line, f"{filed.key}.{entry.name}", entry.typed, hint)


def _unknown_on_top(schema: Schema, entry: Entry) -> Complaint:
    near = nearest(entry.name, Head.model_fields)
    homes = _homes(schema, entry.key)
    if homes:
        hint = f'"{entry.key}" belongs in {homes}.'
    elif near is not None:
        hint = f'There is no "{entry.key}" above the sections. Nearest: {near}.'
    else:
        hint = f'There is no "{entry.key}" above the sections. There are: '
        hint += ", ".join(Head.model_fields) + "."
    return Complaint(entry.line, entry.name, entry.typed, hint)


def _homes(schema: Schema, key: str) -> str:
    """Return the sections that do have a field of this name: ``[crank] or [link]``."""
    homes = [name for name in schema.sections if exact(key, schema.field_names(name))]
    if exact(key, Head.model_fields):
        homes.insert(0, "")
    words = [f"[{name}]" if name else "the lines above the first section" for name in homes]
    return " or ".join(words)


def _listed(schema: Schema, section: str) -> str:
    return ", ".join(schema.field_names(section))


# --- settings ---------------------------------------------------------------------------------


def apply_settings(filing: Filing, settings: Settings) -> None:
    """Put settings in the place of what the file says; complain of those that name no field."""
    for path, given in settings.items():
        if exact(path, Head.model_fields) is not None:
            continue
        try:
            _apply_setting(filing, path, given)
        except ValueProblem as problem:
            filing.complaints.append(_setting_complaint(path, given, problem))


def _apply_setting(filing: Filing, path: str, given: object) -> None:
    parts = [part.strip() for part in _INDEX.sub(r".\1", path).split(".") if part.strip()]
    section = exact(parts[0], filing.schema.sections) if parts else None
    if section is None and not filing.complete:
        return
    if section is None:
        raise ValueProblem(_no_such_field(filing.schema, path))
    if len(parts) == 1:
        _set_section(filing, section, given)
        return
    fields = filing.schema.field_names(section)
    name = exact(parts[-1], fields)
    if name is None or len(parts) > 3:
        raise ValueProblem(_no_such_field(filing.schema, path))
    filed = _addressed(filing, section, parts[1] if len(parts) == 3 else "", name)
    if given is None:
        filed.cells.pop(name, None)
        return
    filed.cells[name] = setting_cell(f"{filed.key}.{name}", given)


def _addressed(filing: Filing, section: str, number: str, name: str) -> Filed:
    """Return the section a setting is for; the next one may be opened by its number."""
    there = filing.named(section)
    if section not in filing.schema.repeated:
        if number:
            raise ValueProblem(f"[{section}] stands only once: {section}.{name}.")
        return filing.open(section, None)
    if not number and len(there) > 1:
        last = len(there)
        raise ValueProblem(
            f"There are {last}: {section}.1.{name} to {section}.{last}.{name}. Name one."
        )
    at = int(number) if re.fullmatch("[0-9]{1,3}", number) else (0 if number else 1)
    if not 1 <= at <= len(there) + 1:
        last = len(there)
        have = f"There are {last} of [{section}]" if last > 1 else f"There is one [{section}]"
        have = have if last else f"There is no [{section}] yet"
        raise ValueProblem(f"{have}; the next would be {section}.{last + 1}.{name}.")
    return there[at - 1] if at <= len(there) else filing.open(section, None)


def _set_section(filing: Filing, section: str, given: object) -> None:
    """Put a whole section in place of what the file says; ``none`` leaves it out."""
    value = given
    if isinstance(given, str) and one_line(given).strip():
        value = read_value(one_line(given)).value
    for filed in filing.named(section):
        del filing.sections[filed.key]
    if value is None or (isinstance(value, str) and value.strip().lower() in _NONE):
        return
    tables = value if isinstance(value, list | tuple) else [value]
    for table in tables:
        if not isinstance(table, Mapping):
            raise ValueProblem(f"[{section}] holds fields with names, not bare values.")
        filed = filing.open(section, None)
        for key, inner in table.items():
            name = exact(str(key), filing.schema.field_names(section))
            if name is None:
                raise ValueProblem(_no_such_field(filing.schema, f"{section}.{key}"))
            path = f"{filed.key}.{name}"
            filed.cells[name] = setting_cell(path, inner)


def _no_such_field(schema: Schema, path: str) -> str:
    known = all_paths(schema)
    near = nearest_path(path, known)
    hint = f" Nearest: {near}." if near else ""
    return f'There is no field "{path}".{hint}'


def all_paths(schema: Schema) -> tuple[str, ...]:
    """Return every field path of a schema, those above the first section first."""
    inside = [
        f"{section}.{name}" for section in schema.sections for name in schema.field_names(section)
    ]
    return (*Head.model_fields, *inside)


def nearest_path(path: str, known: Iterable[str]) -> str | None:
    """Return the field path most likely meant: right section first, then the same field."""
    paths = list(known)
    section, _, name = path.rpartition(".")
    sections = list(dict.fromkeys(p.rpartition(".")[0] for p in paths if "." in p))
    home = exact(section, sections) or nearest(section, sections) if section else None
    if home is not None:
        inside = [p.rpartition(".")[2] for p in paths if p.startswith(home + ".")]
        near = exact(name, inside) or nearest(name, inside)
        if near is not None:
            return f"{home}.{near}"
    same = [p for p in paths if exact(name, [p.rpartition(".")[2]])]
    return same[0] if same else nearest(path, paths)
