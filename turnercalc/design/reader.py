"""From the text of a design file to a `Design`, or to everything that is wrong with it at once."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from types import MappingProxyType

from pydantic import ValidationError

from turnercalc.design.design import Design, Origin, Reread
from turnercalc.design.evaluating import Evaluation, evaluate
from turnercalc.design.filing import Cell, InSI, Settings, apply_settings, file_sheet
from turnercalc.design.heading import Heading, read_head
from turnercalc.design.meanings import Consequence
from turnercalc.design.prereader import Sheet, preread
from turnercalc.design.repairs import repair_notes
from turnercalc.design.schema import Schema, schema_for
from turnercalc.errors import Complaint, DesignError
from turnercalc.fields import Section
from turnercalc.findings import Assumed

NO_SETTINGS: Settings = MappingProxyType({})


def read_design(
    source: str | Path | bytes,
    settings: Settings = NO_SETTINGS,
    *,
    consequence: Consequence | None = None,
) -> Design:
    """Read a design file.

    Parameters
    ----------
    source : str, Path or bytes
        A path; or the content of a file, as bytes or as a text that holds a line end or an equals
        sign.
    settings : mapping of str to object
        Field path -> text that stands in the place of what the file says, as ``--set`` gives it.
    consequence : callable, optional
        Says what would follow from a value; used where a number without a unit could be several.

    Returns
    -------
    Design
        Complete and in SI; what was taken for granted and what stays unknown is listed in it.

    Raises
    ------
    DesignError
        With one complaint for everything that needs the builder.
    """
    content, file = _content(source)
    sheet = _preread_named(content, file)
    return _read(Reread(sheet, MappingProxyType(dict(settings))), file, consequence)


def read_again(design: Design, changes: Settings, *, si: bool = False) -> Design:
    """Return a design with further settings; see `Design.replace`."""
    origin = design.reread
    if origin is None:
        raise DesignError("This design was not read from a file, so nothing in it can be changed.")
    marked = {path: _marked(given, si=si) for path, given in changes.items()}
    # A later setting goes last, also where an earlier one had the same path.
    kept = {
        path: given
        for path, given in origin.settings.items()
        if path not in marked and path.partition(".")[0] not in marked
    }
    settings = MappingProxyType({**kept, **marked})
    return _read(Reread(origin.sheet, settings), design.file, None)


def _marked(given: object, *, si: bool) -> object:
    is_number = isinstance(given, int | float) and not isinstance(given, bool)
    return InSI(float(given)) if si and is_number else given  # type: ignore[arg-type]


def _content(source: str | Path | bytes) -> tuple[str | bytes, str]:
    """Return the content of a file and its name; a text is taken as it is."""
    if isinstance(source, bytes):
        return source, ""
    if isinstance(source, str) and _is_text(source):
        return source, ""
    path = Path(source)
    try:
        return path.read_bytes(), path.name
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "the name holds a character no file has"
        message = f"{path} cannot be opened: {reason.lower()}."
        raise DesignError(message) from error


def _is_text(source: str) -> bool:
    """Tell a file's content from a file's name, which may hold an equals sign too."""
    if "\n" in source or not source.strip():
        return True
    return "=" in source and not Path(source).is_file()


def _preread_named(content: str | bytes, file: str) -> Sheet:
    try:
        return preread(content)
    except DesignError as error:
        message = str(error).replace("the file cannot", f"{file or 'the file'} cannot")
        raise DesignError(message, complaints=error.complaints) from None


def _read(origin: Reread, file: str, consequence: Consequence | None) -> Design:
    sheet = origin.sheet
    head, evaluation = judge(sheet, origin.settings, consequence)
    filing = evaluation.filing
    schema = filing.schema
    complaints = [*sheet.complaints, *head.complaints, *filing.complaints, *evaluation.complaints]
    complaints = [one for one in complaints if not head.beside_the_point(one)]
    sections, more = ({}, []) if complaints else _build(evaluation, schema)
    if complaints or more or head.turner is None or head.drive is None:
        raise _design_error([*complaints, *more], sheet, file)
    assumed = (*head.assumed(file), *_in_file_order(evaluation.assumed, schema))
    cells = [*head.cells.values(), *(c for f in filing.sections.values() for c in f.cells.values())]
    return Design(
        name=head.name(file),
        turner=head.turner.id,
        drive=head.drive.id,
        drawn_from=head.values["drawn_from"],
        sections=MappingProxyType(sections),
        origin=MappingProxyType(_origins(cells, assumed)),
        assumed=assumed,
        unknown=MappingProxyType(dict(evaluation.unknown)),
        half_known=MappingProxyType(dict(evaluation.half_known)),
        notes=(*sheet.notes, *filing.notes, *repair_notes(cells)),
        file=file,
        reread=origin,
    )


def judge(
    sheet: Sheet, settings: Settings = NO_SETTINGS, consequence: Consequence | None = None
) -> tuple[Heading, Evaluation]:
    """Work out a pre-read file as far as it goes; complaints stand in what is returned."""
    head = read_head(sheet, settings)
    schema = schema_for(head.turner, head.drive)
    filing = file_sheet(sheet, schema, complete=head.turner is not None)
    apply_settings(filing, settings)
    return head, evaluate(filing, consequence)


def _build(
    evaluation: Evaluation, schema: Schema
) -> tuple[dict[str, Section | tuple[Section, ...]], list[Complaint]]:
    """Make the models; what only a whole section can tell is complained of here."""
    sections: dict[str, Section | tuple[Section, ...]] = {}
    complaints = []
    for name in schema.sections:
        models = []
        for filed in evaluation.filing.named(name):
            known = {k: v for k, v in evaluation.values[filed.key].items() if v is not None}
            try:
                models.append(filed.model.model_validate(known, context={"si": True}))
            except ValidationError as error:
                complaints += [
                    Complaint(filed.line, filed.key, f"[{filed.name}]", _first_words(one["msg"]))
                    for one in error.errors()
                ]
        if name in schema.repeated:
            sections[name] = tuple(models)
        elif models:
            sections[name] = models[0]
    return sections, complaints


def _first_words(message: str) -> str:
    return message.removeprefix("Value error, ")


def _origins(cells: Iterable[Cell], assumed: Iterable[Assumed]) -> dict[str, Origin]:
    origins = {
        cell.path: Origin(
            "set" if cell.is_setting else "given", cell.text, cell.line, is_number=cell.si
        )
        for cell in cells
    }
    taken = "taken for granted"
    return origins | {one.field: Origin(taken, one.text, None, one.source) for one in assumed}


def _in_file_order(assumed: list[Assumed], schema: Schema) -> list[Assumed]:
    order = list(schema.sections)

    def place(one: Assumed) -> tuple[int, int]:
        section, _, name = one.field.partition(".")
        fields = schema.field_names(section)
        last = name.rpartition(".")[2]
        return order.index(section), fields.index(last) if last in fields else -1

    return sorted(assumed, key=place)


def _design_error(complaints: list[Complaint], sheet: Sheet, file: str) -> DesignError:
    unique = list(dict.fromkeys(complaints))
    unique.sort(key=lambda one: (one.line is None, one.line or 0))
    lines = {one.line for one in unique if one.line is not None}
    where = file or "the design"
    if len(unique) == sum(one.line is not None for one in unique):
        count = len(lines)
        things = "line" if count == 1 else "lines"
    else:
        count = len(unique)
        things = "thing" if count == 1 else "things"
    need = "needs" if count == 1 else "need"
    message = f"Nothing was calculated: {count} {things} of {where} {need} you."
    read = {entry.line for block in sheet.blocks for entry in block.entries}
    return DesignError(message, complaints=tuple(unique), understood=len(read - lines))
