"""From filed values to SI: what each field says, what is taken for granted, what stays unknown."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cache, lru_cache
from typing import Annotated, Any

from pydantic import TypeAdapter, ValidationError
from pydantic_core import PydanticCustomError

from turnercalc.design.filing import Cell, Filed, Filing
from turnercalc.design.meanings import Consequence, explain_meanings, longest_inside
from turnercalc.design.scale import wrong_scale
from turnercalc.design.why import why_asked
from turnercalc.errors import Complaint, UnknownNameError
from turnercalc.fields import FieldInfo, HalfKnown, Section, field_info, is_blank
from turnercalc.findings import Assumed
from turnercalc.tables import Default, defaults
from turnercalc.units import KIND_NAMES

_NUMBER = re.compile(r"[-+]?[\d.,/ ]*\d[\d.,/ ]*")
_OFFER = re.compile(r"([:.?]) [Ww]rite [^:]*$")


@dataclass
class Evaluation:
    """The values of all sections, being worked out."""

    filing: Filing
    values: dict[str, dict[str, Any]] = field(default_factory=dict)
    assumed: list[Assumed] = field(default_factory=list)
    unknown: dict[str, str] = field(default_factory=dict)
    half_known: dict[str, HalfKnown] = field(default_factory=dict)
    complaints: list[Complaint] = field(default_factory=list)

    def complain(self, cell: Cell, message: str, accepted: tuple[str, ...] = ()) -> None:
        """Complain of a value."""
        self.complaints.append(Complaint(cell.line, cell.path, cell.typed, message, accepted))

    def complained(self, path: str) -> bool:
        """Return whether a field has a complaint already, or its line had no meaning."""
        plain = _without_number(path)
        return path in {c.field for c in self.complaints} or plain in self.filing.lost

    @property
    def context(self) -> Mapping[str, Mapping[str, Any]]:
        """Values of the sections that stand once, by section name."""
        return {key: self.values[key] for key in self.values if "." not in key}


def evaluate(filing: Filing, consequence: Consequence | None = None) -> Evaluation:
    """Work out every field of every section; complaints are gathered, never raised."""
    evaluation = Evaluation(filing)
    for name in filing.schema.sections:
        if name in filing.schema.required and not filing.named(name):
            _open_required(evaluation, name)
    ordered = [filed for name in filing.schema.sections for filed in filing.named(name)]
    for filed in ordered:
        _read_given(evaluation, filed)
    for filed in ordered:
        _take_for_granted(evaluation, filed)
    for filed in ordered:
        _find_missing(evaluation, filed)
        _find_unknown(evaluation, filed)
    _absent_sections(evaluation)
    for filed in ordered:
        _check(evaluation, filed)
    _check_scale(evaluation, ordered)
    _weigh_meanings(evaluation, ordered, consequence)
    return evaluation


def _open_required(evaluation: Evaluation, name: str) -> None:
    """Open a section that has to be there; complain where it cannot be empty."""
    filed = evaluation.filing.open(name, None)
    needed = [n for n, info in filed.model.model_fields.items() if info.is_required()]
    if needed:
        lines = [f"There is no [{name}]. It has to say:"]
        lines += [f"{one}: {_what(filed.model, one)}" for one in needed]
        evaluation.complaints.append(Complaint(None, name, f"[{name}]", "\n".join(lines)))
        evaluation.filing.lost |= {f"{name}.{field_name}" for field_name in needed}


# --- what is given ----------------------------------------------------------------------------


def _read_given(evaluation: Evaluation, filed: Filed) -> None:
    values = evaluation.values.setdefault(filed.key, {})
    for name, cell in list(filed.cells.items()):
        if _is_left_out(filed.model, cell):
            if filed.model.model_fields[name].is_required():
                evaluation.complain(cell, _needed(filed.model, name, cell.path), ())
            del filed.cells[name]
            continue
        try:
            values[name] = read_cell(filed.model, cell)
            known = half_known(filed.model, cell)
            if known is not None and known.spread > 0.0:
                evaluation.half_known[cell.path] = known
        except PydanticCustomError as error:
            message, accepted = said(error)
            if _is_bare_quantity(filed.model, cell) and message.startswith(f"{cell.text} what?"):
                message = _without_unit(filed.model, cell)
            evaluation.complain(cell, message, accepted)


def _is_left_out(model: type[Section], cell: Cell) -> bool:
    if is_blank(cell.value):
        return True
    info = phrase_info(model, cell.name)
    named = info is not None and info.kind == "name" and not info.required
    return named and isinstance(cell.value, str) and cell.value.strip().lower() == "none"


def read_cell(model: type[Section], cell: Cell) -> Any:
    """Return the value of a field in SI.

    Raises
    ------
    PydanticCustomError
        Of type ``needs_builder``, with message and accepted texts.
    """
    info = phrase_info(model, cell.name)
    if info is not None and info.kind == "name" and not isinstance(cell.value, list | dict):
        return " ".join(cell.text.split())  # a name is no quantity: keep its ½ and its ’
    if info is not None:
        return info.phrase.read(cell.value, si=cell.si)
    value = cell.value
    field_ = model.model_fields[cell.name]
    if field_.annotation in (str, str | None) and isinstance(value, int | float):
        value = cell.text
    try:
        return _adapter(model, cell.name).validate_python(value)
    except ValidationError:
        examples = tuple(str(example) for example in field_.examples or ())
        wanted = "A list of whole numbers" if examples and examples[0][0] == "[" else "Another text"
        message = f"{wanted} is wanted here."
        raise PydanticCustomError(
            "needs_builder", "{message}", {"message": message, "accepted": examples[:1]}
        ) from None


def half_known(model: type[Section], cell: Cell) -> HalfKnown | None:
    """Return how far a number may be off, where the builder says so: ``35 mm +/- 5 mm``."""
    info = phrase_info(model, cell.name)
    if info is None or not isinstance(cell.value, str):
        return None
    return info.phrase.half_known(cell.value)


@cache
def phrase_info(model: type[Section], name: str) -> FieldInfo | None:
    """Return what is known of a field, or None for one that is no phrase (a list, a plain text)."""
    try:
        return field_info(model, name)
    except UnknownNameError:
        return None


@cache
def _adapter(model: type[Section], name: str) -> TypeAdapter[Any]:
    # Without the default the adapter holds the whole field: type, bounds and all.
    found = model.model_fields[name]
    whole: Any = Annotated[(found.annotation, *found.metadata, None)]
    return TypeAdapter(whole)


def said(error: PydanticCustomError) -> tuple[str, tuple[str, ...]]:
    """Return the message of a field's error and the texts it would accept."""
    context = error.context or {}
    accepted = tuple(str(text) for text in context.get("accepted", ()))
    return _without_offer(str(context.get("message", error.message())), accepted), accepted


def _without_offer(message: str, accepted: tuple[str, ...]) -> str:
    """Leave out the sentence that says what to write: the complaint's own list says it better."""
    found = _OFFER.search(message)
    if found is None or not accepted or accepted[0] not in found.group():
        return message
    return message[: found.start()] + found.group(1).replace(":", ".")


def _is_bare_quantity(model: type[Section], cell: Cell) -> bool:
    """Tell whether a number stands where a number with a unit is wanted."""
    info = phrase_info(model, cell.name)
    if info is None or info.phrase.quantity is None or info.phrase.bare:
        return False
    if isinstance(cell.value, str):
        return _NUMBER.fullmatch(cell.value) is not None
    return isinstance(cell.value, int | float) and not isinstance(cell.value, bool)


def _without_unit(model: type[Section], cell: Cell) -> str:
    info = phrase_info(model, cell.name)
    kind = KIND_NAMES[(info and info.phrase.quantity) or "length"].capitalize()
    where = "" if isinstance(cell.value, str) else ", between quote marks"
    return f"{cell.text} what? {kind} needs a unit{where}."


# --- what is taken for granted ----------------------------------------------------------------


def _take_for_granted(evaluation: Evaluation, filed: Filed) -> None:
    assume = getattr(filed.model, "assume", None)
    if assume is None:
        return
    values = evaluation.values[filed.key]
    try:
        offered = list(assume(values, evaluation.context))
    except UnknownNameError as error:
        _blame(evaluation, filed, error)
        return
    for one in offered:
        name = one.field.rpartition(".")[2]
        path = f"{filed.key}.{name}"
        if name in filed.cells or name in values or evaluation.complained(path):
            continue
        cell = Cell(path, one.text, one.text, one.text, None)
        if not _is_left_out(filed.model, cell):
            values[name] = read_cell(filed.model, cell)
        evaluation.assumed.append(Assumed(path, one.text, one.source, one.how))


def _blame(evaluation: Evaluation, filed: Filed, error: UnknownNameError) -> None:
    """Complain of the text that no table knows: the one its message quotes."""
    guilty = next(
        (
            cell
            for cell in filed.cells.values()
            if isinstance(cell.value, str) and f'"{cell.value.strip()}"' in str(error)
        ),
        None,
    )
    if guilty is not None:
        evaluation.complain(guilty, str(error))
    elif str(error) not in {complaint.message for complaint in evaluation.complaints}:
        evaluation.complaints.append(Complaint(filed.line, filed.key, f"[{filed.key}]", str(error)))


@lru_cache(maxsize=1)
def _default_rows() -> Mapping[str, Default]:
    return {row.field: row for row in defaults()}


def _absent_sections(evaluation: Evaluation) -> None:
    """Say aloud what follows where no stage and no load case of the builder's own is given."""
    schema = evaluation.filing.schema
    for name in (name for name in schema.sections if name in schema.repeated):
        row = _default_rows().get(getattr(schema.sections[name], "default_row", name))
        if row is None or evaluation.filing.named(name):
            continue
        none, colon, what = row.text.partition(": ")
        text, why = ("none", what) if none == "none" and colon else (row.text, "")
        source = f"{why}: {row.source}" if why else row.source
        evaluation.assumed.append(Assumed(name, text, source, row.how))


# --- what is missing or stays unknown ---------------------------------------------------------


def _find_missing(evaluation: Evaluation, filed: Filed) -> None:
    values = evaluation.values[filed.key]
    for name, info in filed.model.model_fields.items():
        path = f"{filed.key}.{name}"
        if not info.is_required() or name in values or evaluation.complained(path):
            continue
        message = _needed(filed.model, name, path)
        if filed.line is not None:
            message += f"\nIt belongs in [{filed.name}], line {filed.line}."
        info_ = phrase_info(filed.model, name)
        example = info_.example if info_ else str((info.examples or ("",))[0])
        evaluation.complaints.append(Complaint(None, path, "", message, (example,)))


def _needed(model: type[Section], name: str, path: str) -> str:
    """Return what a field is and why it is asked for instead of guessed."""
    parts = (_what(model, name), why_asked(_without_number(path)))
    return "\n".join(part for part in parts if part)


def _what(model: type[Section], name: str) -> str:
    """Return what a field is, in a sentence."""
    info = phrase_info(model, name)
    what = info.help if info else (model.model_fields[name].description or "")
    return what.rstrip(".") + "." if what else ""


def _find_unknown(evaluation: Evaluation, filed: Filed) -> None:
    values = evaluation.values[filed.key]
    idle = getattr(filed.model, "idle", None)
    skipped = set(idle(values)) if idle else set()
    for name in filed.model.model_fields:
        row = _default_rows().get(f"{filed.name}.{name}")
        if row is None or row.kind != "unknown" or name in values or name in skipped:
            continue
        if not evaluation.complained(f"{filed.key}.{name}"):
            evaluation.unknown[f"{filed.key}.{name}"] = row.text


# --- what does not fit together ---------------------------------------------------------------


def _check(evaluation: Evaluation, filed: Filed) -> None:
    check = getattr(filed.model, "check", None)
    if check is None:
        return
    for name, message, accepted in check(evaluation.values[filed.key], evaluation.context):
        path = f"{filed.key}.{name}"
        if evaluation.complained(path):
            continue
        if name in filed.cells:
            evaluation.complain(filed.cells[name], message, tuple(accepted))
            continue
        evaluation.complaints.append(Complaint(None, path, "", message, tuple(accepted)))


def _check_scale(evaluation: Evaluation, ordered: list[Filed]) -> None:
    longest = longest_inside(evaluation.context)
    if longest is None:
        return
    for filed in ordered:
        for name, cell in filed.cells.items() if filed.name != "box" else ():
            info = phrase_info(filed.model, name)
            value = evaluation.values[filed.key].get(name)
            is_length = info is not None and info.phrase.quantity == "length"
            if info is None or not is_length or not isinstance(value, float):
                continue
            trouble = wrong_scale(cell.text, value, longest, info)
            if trouble is not None and not evaluation.complained(cell.path):
                evaluation.complain(cell, *trouble)


def _weigh_meanings(
    evaluation: Evaluation, ordered: list[Filed], consequence: Consequence | None
) -> None:
    """Offer no text that would break the design; tell what a bare number would mean."""
    cells = {cell.path: (filed.model, cell) for filed in ordered for cell in filed.cells.values()}
    for at, complaint in enumerate(evaluation.complaints):
        model, cell = cells.get(complaint.field, (None, None))
        info = phrase_info(model, cell.name) if model and cell else None
        if model is None or cell is None or info is None or info.phrase.quantity is None:
            continue
        sentence, accepted = explain_meanings(
            cell.path, complaint.accepted, info, evaluation.context, consequence
        )
        parts = (complaint.message, sentence if _is_bare_quantity(model, cell) else "")
        message = "\n".join(part for part in parts if part)
        evaluation.complaints[at] = replace(complaint, message=message, accepted=accepted)


def _without_number(path: str) -> str:
    return ".".join(part for part in path.split(".") if not part.isdigit())
