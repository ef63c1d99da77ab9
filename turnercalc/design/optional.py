"""Every line that may be left out of a file, put in as a comment with what is taken instead."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from turnercalc.design.design import Design
from turnercalc.design.evaluating import phrase_info
from turnercalc.design.schema import Schema
from turnercalc.design.wording import assignment
from turnercalc.design.writer import COMMENT_COLUMN, header, schema_of, write_design
from turnercalc.fields import Section

TAKEN = "taken for granted"
_WIDTH = 100


def write_everything(design: Design) -> str:
    """Return a design's file with every optional field in it, those not said as comments.

    Behind each stands what is taken for granted without it and where that comes from, or what
    then stays unknown. Taking the ``#`` away from a line taken for granted changes nothing.
    """
    schema = schema_of(design)
    lines = write_design(design).rstrip("\n").split("\n")
    ends = _section_ends(lines, schema)
    insertions: dict[int, list[str]] = {}
    for key, section in design.keyed_sections():
        name, _, number = key.partition(".")
        extra = list(_left_out(design, key, section))
        if name in ends:
            insertions[ends[name][int(number or 1) - 1]] = extra
        elif extra:
            insertions.setdefault(len(lines), []).extend(["", f"[{name}]", *extra])
    for at in sorted(insertions, reverse=True):  # from the end, so that no number shifts
        lines[at:at] = insertions[at]
    for name in schema.sections:
        if not design.get(name):
            lines += ["", *_absent(schema, name)]
    return "\n".join(lines) + "\n"


def _section_ends(lines: list[str], schema: Schema) -> dict[str, list[int]]:
    """Return for each section name the line numbers (from 0) behind its last fields."""
    ends: dict[str, list[int]] = {}
    current = ""
    last = 0
    for at, line in enumerate([*lines, "[end]"]):
        bare = line.strip()
        if bare.startswith("[") and (not current or "=" not in bare):
            if current:
                ends.setdefault(current, []).append(last + 1)
            name = bare.partition("]")[0].strip("[] ")
            current = name if name in schema.sections else ""
            last = at
        elif bare and not bare.startswith("#"):
            last = at
    return ends


def _left_out(design: Design, key: str, section: Section) -> Iterator[str]:
    """Yield a comment for every field of a section that the builder left out."""
    model = type(section)
    idle = getattr(model, "idle", None)
    skipped = set(idle(dict(section))) if idle else set()
    assumed = {one.field: one for one in design.taken_for_granted()}
    for name in model.model_fields:
        path = f"{key}.{name}"
        if path in assumed:
            one = assumed[path]
            yield from _commented(assignment(model, name, one.text), f"{TAKEN}: {one.source}")
        elif path in design.unknown:
            what = f"left out: {design.unknown[path]}"
            yield from _commented(assignment(model, name, _example(model, name)), what)
        elif path not in design.origin and name not in skipped:
            yield from _commented(
                assignment(model, name, _example(model, name)), _help(model, name)
            )


def _absent(schema: Schema, name: str) -> Iterator[str]:
    """Yield a section that is not there, as comments."""
    model = schema.sections[name]
    double = name in schema.repeated
    what = (model.__doc__ or "").partition(":")[2].strip().rstrip(".")
    yield from _commented(header(f"{name}.1" if double else name), what)
    for field_name in model.model_fields:
        yield from _commented(
            assignment(model, field_name, _example(model, field_name)), _help(model, field_name)
        )


def _example(model: type[Section], name: str) -> str:
    info = phrase_info(model, name)
    return info.example if info else str((model.model_fields[name].examples or ("",))[0])


def _help(model: type[Section], name: str) -> str:
    info = phrase_info(model, name)
    return info.help if info else model.model_fields[name].description or ""


def _commented(line: str, comment: str) -> Iterator[str]:
    together = f"{'# ' + line:<{COMMENT_COLUMN - 1}} # {comment}"
    if len(together) <= _WIDTH:
        yield together
        return
    for part in textwrap.wrap(comment, _WIDTH - 4):
        yield f"# # {part}"
    yield f"# {line}"
