"""From a design back to the text of a file.

Where a design was read from a file, that file is changed line by line: comments and order stay.
What is written is sound TOML, and reads back as the same design.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from turnercalc import drives, turners
from turnercalc.design.common import Head
from turnercalc.design.design import Design, Origin
from turnercalc.design.names import exact
from turnercalc.design.prereader import Entry, Sheet
from turnercalc.design.schema import Schema, schema_for
from turnercalc.design.wording import (
    CONVERTED,
    EXACT,
    assignment,
    spread_text,
    toml_value,
    value_text,
)
from turnercalc.fields import Section

UNITS = ("as written", "metric", "us")
COMMENT_COLUMN = 40  # where a comment begins
_OTHER_SYSTEM = {
    "metric": re.compile(
        r"\d ?(?:in|inch|inches|ft|feet|foot|yd|lbs?|lbf|oz|ozf|°? ?F)\b|['\"]", re.I
    ),
    "us": re.compile(r"\d ?(?:[mcµ]?m|k?g|kgf|gf|N|N/m?m|°? ?C)\b", re.I),
}


def write_design(design: Design, units: str = "as written") -> str:
    """Return a design as the text of a file.

    Parameters
    ----------
    design : Design
        What was taken for granted is left out, so that it is taken for granted again.
    units : str
        ``as written`` keeps every text; ``metric`` and ``us`` convert all quantities, to within
        a millionth of their size.

    Returns
    -------
    str
        Sound TOML that `read_design` reads back.
    """
    if units not in UNITS:
        message = f"units are {', '.join(UNITS)}, not {units!r}"
        raise ValueError(message)
    texts = field_texts(design, units)
    sheet = design.reread.sheet if design.reread else None
    if sheet is None or not sheet.blocks:
        return _written_anew(design, texts)
    return _written_into(design, sheet, texts, rewrite=units != "as written")


def schema_of(design: Design) -> Schema:
    """Return the sections that a design's file may have."""
    return schema_for(turners.kinds().get(design.turner), drives.kinds().get(design.drive))


def field_texts(design: Design, units: str = "as written") -> dict[str, str]:
    """Return the text of every field the builder said, by its path, in file order."""
    said = {path for path, origin in design.origin.items() if origin.how in ("given", "set")}
    schema = schema_of(design)
    texts = {}
    for path, value in [("turnercalc", 1), *design.values().items()]:
        if value is None or (design.origin and path not in said):
            continue
        origin = design.origin.get(path)
        model, name = _model_of(schema, path), path.rpartition(".")[2]
        if model is None:
            continue
        if path in ("turner", "drive"):
            texts[path] = origin.text if origin is not None else _words(design, path)
        elif origin is not None and not _is_new_text(model, name, value, units, origin):
            texts[path] = origin.text
        else:
            near = EXACT if units == "as written" else CONVERTED
            system = "us" if units == "us" else "metric"
            texts[path] = value_text(model, name, value, system, near)
            if path in design.half_known:
                texts[path] += spread_text(model, name, design.half_known[path], system, near)
    return texts


def _words(design: Design, path: str) -> str:
    kind = turners.kinds()[design.turner] if path == "turner" else drives.kinds()[design.drive]
    return str(kind.words[0])


def _is_new_text(model: type[Section], name: str, value: Any, units: str, origin: Origin) -> bool:
    """Tell whether a value has to be put into words anew: in other units, or for the first time.

    What is the same in all units (a count, an angle, a word) keeps the builder's own text.
    """
    if units == "as written" or origin.is_number:
        return origin.is_number
    if not _OTHER_SYSTEM[units].search(origin.text):
        return False
    return value_text(model, name, value, "metric") != value_text(model, name, value, "us")


def _model_of(schema: Schema, path: str) -> type[Section] | None:
    section = path.partition(".")[0]
    if "." not in path:
        return Head if path in Head.model_fields else None
    return schema.sections.get(section)


# --- a file of its own ------------------------------------------------------------------------


def _written_anew(design: Design, texts: Mapping[str, str]) -> str:
    schema = schema_of(design)
    lines = [assignment(Head, path, text) for path, text in texts.items() if "." not in path]
    for key, _ in design.keyed_sections():
        inside = _inside(key, texts)
        if inside or not design.origin:
            lines += ["", header(key), *_assignments(schema, key, inside)]
    return "\n".join(lines) + "\n"


def _assignments(schema: Schema, key: str, fields: Iterable[tuple[str, str]]) -> list[str]:
    model = schema.sections[key.partition(".")[0]] if key else Head
    return [assignment(model, name, text) for name, text in fields]


def _inside(key: str, texts: Mapping[str, str]) -> list[tuple[str, str]]:
    return [
        (path[len(key) + 1 :], text)
        for path, text in texts.items()
        if path.startswith(key + ".") and "." not in path[len(key) + 1 :]
    ]


def header(key: str) -> str:
    """Return the line that opens the section of a key: ``[[gearing]]`` for ``gearing.1``."""
    name, dot, _ = key.partition(".")
    return f"[[{name}]]" if dot else f"[{name}]"


# --- into the file it was read from -----------------------------------------------------------


@dataclass
class _Place:
    """One field of the old file: its path and its entry."""

    path: str
    entry: Entry


@dataclass
class _OldBlock:
    """One section of the old file, with the key it has in the new one (empty: it is gone)."""

    key: str
    line: int
    header: str
    places: list[_Place] = field(default_factory=list)


def _written_into(design: Design, sheet: Sheet, texts: Mapping[str, str], *, rewrite: bool) -> str:
    lines: dict[int, list[str]] = {at: [line] for at, line in enumerate(sheet.lines, start=1)}
    _mend_comments(lines)
    schema = schema_of(design)
    placed: set[str] = set()
    ends: dict[str, int] = {}
    for block in _old_blocks(design, sheet):
        _write_block(block, lines, texts, placed, design, rewrite=rewrite)
        last = max((p.entry.last_line for p in block.places), default=block.line)
        if block.key or not block.line:
            ends[block.key] = max(ends.get(block.key, 0), last)
    appended: list[str] = []
    for key in ["", *(key for key, _ in design.keyed_sections())]:
        left = [(n, t) for n, t in _left(key, texts) if f"{key}.{n}".lstrip(".") not in placed]
        new = _assignments(schema, key, left)
        if not new:
            continue
        if key in ends:
            _insert(lines, ends[key], new)
        else:
            appended += ["", header(key), *new]
    text = "\n".join(line for at in sorted(lines) for line in lines[at])
    return text.rstrip("\n") + "\n" + "".join(f"{line}\n" for line in appended)


def _left(key: str, texts: Mapping[str, str]) -> list[tuple[str, str]]:
    if key:
        return _inside(key, texts)
    return [(path, text) for path, text in texts.items() if "." not in path]


def _insert(lines: dict[int, list[str]], after: int, new: list[str]) -> None:
    if after == 0:
        lines[0] = new
    else:
        lines[after] = [*lines[after], *new]


def _mend_comments(lines: dict[int, list[str]]) -> None:
    """Put the number sign before comments that were opened in another language's way."""
    for at, (line,) in lines.items():
        bare = line.strip()
        if bare.startswith(("//", ";", "--", "%", "*", "<!--")):
            lines[at] = [f"# {bare}"]


def _old_blocks(design: Design, sheet: Sheet) -> Iterable[_OldBlock]:
    """Yield the sections of the old file under the keys their fields now have."""
    schema = schema_of(design)
    by_line: dict[int, list[str]] = {}
    for path, origin in design.origin.items():
        if origin.line is not None:
            by_line.setdefault(origin.line, []).append(path)
    counts: dict[str, int] = {}
    for block in sheet.blocks:
        name = exact(block.name, schema.sections) or ""
        key = _key_of(design, schema, name, counts)
        found = _OldBlock(key, block.line, block.header)
        for entry in block.entries:
            entry_name = exact(entry.name, schema.field_names(name) if name else Head.model_fields)
            path = f"{key}.{entry_name}".lstrip(".") if entry_name else ""
            found.places.append(_Place(path, entry))
        yield found


def _key_of(design: Design, schema: Schema, name: str, counts: dict[str, int]) -> str:
    """Return the key of the next section of a name, or empty where the design has it no more."""
    keys = {key for key, _ in design.keyed_sections()}
    if name not in schema.repeated:
        return name if name in keys else ""
    counts[name] = counts.get(name, 0) + 1
    key = f"{name}.{counts[name]}"
    return key if key in keys else ""


def _write_block(
    block: _OldBlock,
    lines: dict[int, list[str]],
    texts: Mapping[str, str],
    placed: set[str],
    design: Design,
    *,
    rewrite: bool,
) -> None:
    """Bring one section of the old file up to date: its header, then each of its fields."""
    schema = schema_of(design)
    gone = bool(block.line) and not block.key
    if block.line and lines[block.line][0].lstrip().startswith("["):
        lines[block.line] = [] if gone else [_new_header(block.key, lines[block.line][0])]
    for place in block.places:
        entry, text = place.entry, texts.get(place.path)
        origin = design.origin.get(place.path)
        as_it_was = origin is not None and origin.line == entry.line and not rewrite
        if not gone and text is not None and place.path not in placed:
            placed.add(place.path)
            if as_it_was and _is_sound(entry):
                continue
            lines[entry.line] = [_new_line(schema, place, text)]
        else:
            lines[entry.line] = []
        for at in range(entry.line + 1, entry.last_line + 1):
            lines[at] = []


def _new_header(key: str, old: str) -> str:
    """Return the header of a section, the old line where it is sound TOML."""
    if old.partition("#")[0].strip() == header(key):
        return old
    comment = old.partition("#")[2]
    return _with_comment(header(key), f"#{comment}" if comment else "")


def _new_line(schema: Schema, place: _Place, text: str) -> str:
    entry = place.entry
    name = place.path.rpartition(".")[2]
    before = entry.before if _is_sound_key(entry) else f"{name} = "
    model = _model_of(schema, place.path) or Head
    return _with_comment(before + toml_value(model, name, text), entry.comment)


def _is_sound(entry: Entry) -> bool:
    return not entry.repairs and _is_sound_key(entry)


def _is_sound_key(entry: Entry) -> bool:
    return (
        entry.key == entry.name and entry.before.rstrip().endswith("=") and "==" not in entry.before
    )


def _with_comment(line: str, comment: str) -> str:
    return f"{line:<{COMMENT_COLUMN - 1}} {comment}" if comment else line
