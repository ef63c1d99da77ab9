"""Where the table is: separator, head, rows; or a list of properties; or one motor a line."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from turnercalc.motors.blocks import kinds_in, listed, properties_in, property_in
from turnercalc.motors.cells import scan, tidy
from turnercalc.motors.columns import Column, is_subhead, is_unit, joined_head, read_head
from turnercalc.motors.laid_out import RULE, Layout, Line

HEAD_WITHIN = 40  # lines in which the head is looked for
LONGEST_QUOTE = 6  # lines that a quoted cell may run over
SEPARATORS = {"\t": "tabs", ";": "semicolons", "|": "pipes", ",": "commas"}
_COMMENT = re.compile(r"\s*(?:#|//|sep=)")
_WIDE_GAP = re.compile(r"\t| {2,}")


def find_table(text: str) -> Layout | None:
    """Find the table in a text, or None where nothing in it looks like one.

    Parameters
    ----------
    text : str
        With one kind of line end and look-alike characters made one.
    """
    head = _sample(text)
    best = max(
        (_headed(list(splitter(head)), splitter, words) for splitter, words in _splitters(head)),
        key=lambda found: found.score,
    )
    properties = _property_motors(text)
    if properties is not None:
        widest = len(properties.lines[0].cells)
        if best.score < 4 or widest > best.score + 2:
            return properties
    if best.score >= 2:
        return _with_head(text, best)
    return _pasted(text) or _without_head(text)


def _sample(text: str) -> str:
    """Return the first lines, without looking through all of a long file."""
    end = -1
    for _ in range(HEAD_WITHIN):
        end = text.find("\n", end + 1)
        if end < 0:
            return text[:200_000]
    return text[: min(end, 200_000)]


# -- splitting ---------------------------------------------------------------------------------

Splitter = Callable[[str], Iterator[Line]]


def _splitters(head: str) -> list[tuple[Splitter, str]]:
    found: list[tuple[Splitter, str]] = []
    for separator, words in SEPARATORS.items():
        if separator in head:
            found.append((_separated(separator), words))
    if "  " in head:
        found.append((_by_gaps, "wide gaps"))
    if not found:
        found.append((_separated("\t"), "one column"))
    return found


def _separated(separator: str) -> Splitter:
    def split(text: str) -> Iterator[Line]:
        quoted = _quoted(text, separator)
        if quoted is not None:
            yield from quoted
            return
        for number, line in enumerate(text.split("\n"), start=1):
            yield Line(number, _cells(line.split(separator), separator))

    return split


def _quoted(text: str, separator: str) -> list[Line] | None:
    """Split text whose quote marks enclose cells; None where they do not.

    A lone inch mark at the start of a cell would swallow the rest of the file: a cell that runs
    over many lines shows it.
    """
    rows: list[Line] = []
    start = 1
    reader = csv.reader(text.split("\n"), delimiter=separator, skipinitialspace=True)
    try:
        for row in reader:
            if reader.line_num - start > LONGEST_QUOTE:
                return None
            rows.append(Line(start, _cells(row, separator)))
            start = reader.line_num + 1
    except csv.Error:
        return None
    return rows


def _cells(cells: Sequence[str], separator: str) -> tuple[str, ...]:
    stripped = tuple(cell.strip() for cell in cells)
    if separator == "|":
        # A Markdown row begins and ends with a pipe: two cells that are none.
        if stripped and not stripped[0]:
            stripped = stripped[1:]
        if stripped and not stripped[-1]:
            stripped = stripped[:-1]
    return tuple(cell.strip("*`_ ") for cell in stripped) if separator == "|" else stripped


def _by_gaps(text: str) -> Iterator[Line]:
    for number, line in enumerate(text.split("\n"), start=1):
        yield Line(number, tuple(cell.strip() for cell in _WIDE_GAP.split(line.strip())))


# -- the head ----------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Headed:
    """A head found by one way of splitting; `rows` are the positions of its rows."""

    splitter: Splitter
    words: str
    score: float
    columns: tuple[Column, ...] = ()
    first: int = 0
    after: int = 0


def _headed(lines: list[Line], splitter: Splitter, words: str) -> _Headed:
    best = _Headed(splitter, words, 0.0)
    for position, line in enumerate(lines):
        for heads, first, after in _stacks(lines, position, line):
            columns = tuple(read_head(head) for head in heads)
            score = _score(heads, columns) - 0.001 * position - 0.1 * (after - first - 1)
            if score > best.score:
                best = _Headed(splitter, words, score, columns, first, after)
    return best


def _stacks(
    lines: list[Line], position: int, line: Line
) -> Iterator[tuple[tuple[str, ...], int, int]]:
    """Yield the heads that this row makes alone and together with the next."""
    if not any(line.cells) or len(line.cells) > 200:
        return
    yield line.cells, position, position + 1
    if position + 1 < len(lines):
        below = lines[position + 1].cells
        if len(below) > 1 and any(below) and _is_subrow(below):
            yield _stacked(line.cells, below), position, position + 2


def _is_subrow(cells: tuple[str, ...]) -> bool:
    """Whether a row could be a second header row: units, labels, and one remark at most."""
    strange = [cell for cell in cells if not is_subhead(cell)]
    if not strange:
        return True
    remark_only = len(strange) == 1 and not any(c.isdigit() for c in "".join(cells))
    return remark_only and any(is_unit(cell) for cell in cells)


def _stacked(upper: tuple[str, ...], lower: tuple[str, ...]) -> tuple[str, ...]:
    """Join two header rows; an empty cell above a filled one continues its left neighbour."""
    heads: list[str] = []
    group = ""
    for column in range(max(len(upper), len(lower))):
        above = upper[column] if column < len(upper) else ""
        below = lower[column] if column < len(lower) else ""
        if above:
            group = above
        elif not below:
            group = ""
        heads.append(joined_head(above or (group if below else ""), below))
    return tuple(heads)


def _score(heads: tuple[str, ...], columns: tuple[Column, ...]) -> float:
    """Count the columns understood; a head that is mostly not understood is none."""
    if any(_is_data(head, column) for head, column in zip(heads, columns, strict=True)):
        return 0.0
    filled = sum(1 for head in heads if head)
    known = [column for column in columns if column.topic]
    topics = {(c.topic, c.label, c.volts, c.hertz) for c in known}
    figures = {"torque", "speed", "voltage", "power", "force", "travel speed", "current"}
    if len(known) < 2 or len(known) < 0.4 * filled:
        return 0.0
    whole_titles = len(known) == filled and any(column.topic == "title" for column in known)
    if not whole_titles and not any(column.topic in figures for column in known):
        return 0.0
    with_unit = sum(1 for column in known if column.unit is not None)
    return len(topics) + 0.25 * with_unit


def _is_data(head: str, column: Column) -> bool:
    """Whether a cell of a would-be head holds a figure of a motor."""
    if column.topic or not any(c.isdigit() for c in head):
        return False
    return any(figure.values and figure.kind in _TELLING for figure in scan(tidy(head)))


def _with_head(text: str, head: _Headed) -> Layout:
    lines: list[Line] = []
    heads = tuple(tidy(column.head) for column in head.columns)
    count = 0
    head_line = 1
    for position, line in enumerate(head.splitter(text)):
        if position == head.first:
            head_line = line.number
        if position < head.after or not any(line.cells):
            continue
        count += 1
        if _is_rule(line) or _repeats(line, heads):
            continue
        lines.append(line)
    stacked = " and the one below" if head.after - head.first > 1 else ""
    words = f"a table with {head.words}, its head in line {head_line}{stacked}"
    above, unread = _above(text, head_line)
    if above is not None:
        words = f"{above.words}, and below {words}"
    return Layout(head.columns, tuple(lines), words, above, unread)


def _above(text: str, head_line: int) -> tuple[Layout | None, tuple[tuple[int, str], ...]]:
    """Return motors listed in front of a table, and what else stands there."""
    front = enumerate(text.split("\n", head_line)[: head_line - 1], start=1)
    told = [(number, line) for number, line in front if not _COMMENT.match(line)]
    return listed(told, beside_a_table=True)


def _is_rule(line: Line) -> bool:
    return all(not cell or RULE.fullmatch(cell) for cell in line.cells)


def _repeats(line: Line, heads: tuple[str, ...]) -> bool:
    if not line.cells or not line.cells[0] or tidy(line.cells[0]) not in heads[0]:
        return False
    cells = [tidy(cell) for cell in line.cells if cell]
    same = sum(1 for cell in cells if any(cell in head for head in heads))
    return len(cells) >= 2 and same >= 0.8 * len(cells) and all(not scan(cell) for cell in cells)


# -- without a head ----------------------------------------------------------------------------


def _property_motors(text: str) -> Layout | None:
    """Read ``property: value`` lines; a title or a repeated property begins a new motor."""
    sample = [line for line in text.split("\n", 400)[:400] if line.strip()]
    pairs = [(property_in(line)) for line in sample]
    known = [pair for pair in pairs if pair is not None and pair[0].topic]
    if len({(p[0].topic, p[0].label) for p in known}) < 3 or len(known) < 0.5 * len(sample):
        return None
    return _turned(text) if _side_by_side(text) else _one_below_the_other(text)


def _one_below_the_other(text: str) -> Layout | None:
    layout, unread = listed(enumerate(text.split("\n"), start=1))
    return None if layout is None else replace(layout, unread=unread)


def _pasted(text: str) -> Layout | None:
    """Read a page of listings, each a title with some of its figures under it, a line each.

    Known by several figures that stand as ``property: value`` under a line that is none.
    """
    sample = [line for line in text.split("\n", 400)[:400] if line.strip()]
    found = [properties_in(line) for line in sample]
    known = {(c.topic, c.label) for pairs in found for c, _ in pairs if c.topic in _MEASURED}
    whole = sum(1 for line in sample if {"torque", "rotation"} <= kinds_in(line))
    filled = sum(1 for pairs in found if any(c.topic in _MEASURED for c, _ in pairs))
    if len(known) < 2 or filled <= whole:
        return None
    return _one_below_the_other(text)


_MEASURED = frozenset({"torque", "force", "speed", "travel speed", "voltage", "current", "power"})


def _side_by_side(text: str) -> bool:
    """Whether properties run down and several motors stand side by side."""
    for separator in "\t|;,":
        rows = [line for line in text.split("\n", 60)[:60] if separator in line]
        widths = [len(_cells(row.split(separator), separator)) for row in rows]
        if len(rows) >= 3 and min(widths) == max(widths) and widths[0] > 2:
            return True
    return False


def _turned(text: str) -> Layout | None:
    """Turn a table whose first column holds the heads."""
    for separator in "\t|;,":
        rows = [
            line
            for line in _separated(separator)(text)
            if len(line.cells) > 2 and not _is_rule(line)
        ]
        known = sum(1 for line in rows if read_head(line.cells[0]).topic)
        if len(rows) >= 3 and known >= 0.5 * len(rows):
            columns = [read_head(line.cells[0]) for line in rows]
            if not columns[0].topic:
                columns[0] = Column(rows[0].cells[0], "id")
            width = max(len(line.cells) for line in rows)
            lines = tuple(
                Line(
                    rows[0].number,
                    tuple(line.cells[i] if i < len(line.cells) else "" for line in rows),
                )
                for i in range(1, width)
            )
            return Layout(tuple(columns), lines, "a table with its heads in the first column")
    return None


def _without_head(text: str) -> Layout | None:
    """One motor a line, every cell read as free text."""
    separator = next((s for s in "\t|;" if s in text), "")
    split = _separated(separator) if separator else _whole_lines
    lines = [line for line in split(text) if any(line.cells) and not _is_rule(line)]
    promising = [line for line in lines if kinds_in(" ; ".join(line.cells)) & _TELLING]
    if not promising:
        return None
    return Layout((), tuple(lines), "no head: one motor a line")


_TELLING = frozenset({"torque", "rotation", "voltage", "power", "force", "speed"})


def _whole_lines(text: str) -> Iterator[Line]:
    for number, line in enumerate(text.split("\n"), start=1):
        yield Line(number, (line.strip(" *-"),))
