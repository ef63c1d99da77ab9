"""Motor files as people have them, read row by row; no row stops the rest."""

from __future__ import annotations

import gc
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from turnercalc.errors import MotorFileError
from turnercalc.motors import wording
from turnercalc.motors.cells import tidy
from turnercalc.motors.columns import Column
from turnercalc.motors.decoding import plain_text
from turnercalc.motors.figures import TORQUE_FIELDS, read_figures
from turnercalc.motors.labels import label_in
from turnercalc.motors.laid_out import Layout, Line, is_blank
from turnercalc.motors.layout import find_table
from turnercalc.motors.meaning import Settled, settle
from turnercalc.motors.motor import MotorFile, MotorRow, Outcome, Reading

SHOWN = 100  # characters of what was not read
FEW = 5
LONG_NAME = 40  # characters; a longer title names its motor by its first words
FREE_TEXT = frozenset({"", "title", "notes", "class"})
_SILENT = frozenset({"ignored", "ratio", "id", "torque kind"})
_DECIMAL_COMMA = re.compile(r"(?<![\d.,])(?:0,\d+|\d+,\d{1,2})(?![\d,.])")
_DECIMAL_DOT = re.compile(r"(?<![\d.,])\d+\.\d{1,2}(?![\d.,])")
_FIRST_CLAUSE = re.compile(r"\s*[,;|(]\s*|\s+[-–]\s+")
_INCHES = re.compile(r"\b(?:oz|ozf|lb|lbs|lbf)[ .·-]?(?:in|ft)\b|\bin[ .·-]?(?:oz|lbs?)\b", re.I)
# A quick look before the slow ones: every pattern of `wording` needs one of these.
_WORTH_A_LOOK = re.compile(
    r"revers|direction|both|way|wired|forward|c?cw|clockwise|random|undefined|predict|open|var"
    r"|control|single|lock|hold|driv|brak|ip ?-?\d|ip ?-?x|s[1-9]\b|%|\bon\b|run|duty|insul"
    r"|[£$€]|eur|usd|gbp|dollar|pound"
)
_LABELS_OF_KIND = {
    "self-locking": "holding",
    "self locking": "holding",
    "working": "rated",
}


def read_motors(source: Path | str | bytes) -> MotorFile:
    """Read a motor file.

    Parameters
    ----------
    source : Path, str or bytes
        A file or its name, a pasted text, or the content of a file. CSV with commas, semicolons,
        tabs or pipes, a Markdown table, a list of properties, one motor a line, or a spreadsheet.

    Returns
    -------
    MotorFile
        Every row of the table, with what was read, taken, doubted and refused. A file with
        nothing in it, or only heads, gives no rows and a remark: there is only shopping to do.

    Raises
    ------
    MotorFileError
        Where nothing in the text looks like a table of motors, or the file does not open.
    """
    text, name, remark = plain_text(source)
    layout = find_table(text)
    if layout is None and not text.strip():
        return MotorFile(
            (), name, "", (f"{name or 'The motor file'} is empty: no motor is in it.",)
        )
    if layout is None:
        raise MotorFileError(_no_table(text, name))
    comma_file = _writes_commas(text)
    inches = bool(_INCHES.search(text))
    with _no_collecting():
        rows, passed_over = _read(layout, comma_file, inches)
    remarks = [remark] if remark else []
    remarks += [] if rows else [_no_rows(name)]
    remarks += [*_unread(layout), *passed_over]
    remarks += _doubles(rows)
    return MotorFile(rows, name, layout.words, tuple(remarks))


def _read(layout: Layout, comma_file: bool, inches: bool) -> tuple[tuple[MotorRow, ...], list[str]]:
    """Return the rows of a table, with those that stand above it in front, and remarks."""
    rows: list[MotorRow] = []
    remarks: list[str] = []
    for part in (layout.above, layout):
        if part is not None:
            reader = _RowReader(part, comma_file, inches)
            rows += reader.rows(begun=len(rows))
            remarks += reader.remarks
    return tuple(rows), remarks


def _unread(layout: Layout) -> list[str]:
    """Return which lines no motor was made of, and how to write one that is."""
    if not layout.unread:
        return []
    numbers = [number for number, _ in layout.unread]
    words = " ".join(" ".join(line for _, line in layout.unread).split())
    words = words if len(words) <= SHOWN else f"{words[:SHOWN].rsplit(' ', 1)[0]} ..."
    several = len(numbers) > 1
    return [
        f"Line{'s' if several else ''} {', '.join(_runs(numbers))} "
        f'{"were" if several else "was"} not read: "{words}". A motor there would need a line '
        'with its name and under it lines such as "Rated torque: 25 kgf.cm".'
    ]


def _runs(numbers: list[int]) -> list[str]:
    """Return numbers as people list them: ``1 to 3``, ``7``."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    told = [_run(run) for run in runs[:FEW]]
    return told if len(runs) <= FEW else [*told, f"and {len(runs) - FEW} more places"]


def _run(run: list[int]) -> str:
    if len(run) == 1:
        return f"{run[0]}"
    return f"{run[0]} {'and' if len(run) == 2 else 'to'} {run[-1]}"


@contextmanager
def _no_collecting() -> Iterator[None]:
    """Keep the garbage collector from looking through rows that all stay, over and over."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _no_table(text: str, name: str) -> str:
    where = f"In {name}" if name else "In this text"
    begins = " ".join(text.split())[:60]
    return (
        f'{where} no table of motors was found; it begins "{begins}". '
        "Wanted is one row for each motor and one line of heads, such as "
        '"name; what; speed; torque; torque is; supply", '
        "or at least figures with their units: 6 rpm, 30 kgf·cm, 12 V."
    )


def _no_rows(name: str) -> str:
    where = name or "The motor file"
    return f"{where} has a line of heads and no motor under it."


def _doubles(rows: tuple[MotorRow, ...]) -> list[str]:
    seen: dict[str, int] = {}
    remarks: list[str] = []
    for row in rows:
        name = row.motor.id.casefold()
        if name in seen and len(remarks) < 5:
            remarks.append(
                f'"{row.motor.id}" stands in line {seen[name]} and again in line {row.line}; '
                "the first is meant where only the name is given."
            )
        seen.setdefault(name, row.line)
    return remarks


def _writes_commas(text: str) -> bool:
    """Whether decimal commas occur in a file and decimal dots do not."""
    sample = text[:200_000]
    return bool(_DECIMAL_COMMA.search(sample)) and not _DECIMAL_DOT.search(sample)


class _RowReader:
    """Reads the rows of one layout; what the columns are about is worked out once."""

    def __init__(self, layout: Layout, comma_file: bool, inches: bool) -> None:
        self.lines = layout.lines
        self.columns = layout.columns
        self.comma_file = comma_file
        self.inches = inches
        self.remarks: list[str] = []
        self.taken: set[str] = set()
        self.order = sorted(
            range(len(self.columns)), key=lambda i: self.columns[i].topic in FREE_TEXT
        )
        self.places = {
            topic: next((i for i, c in enumerate(self.columns) if c.topic == topic), None)
            for topic in ("id", "title", "notes", "class", "torque kind")
        }

    def rows(self, begun: int = 0) -> Iterator[MotorRow]:
        """Yield every row that holds something; `begun` rows came before."""
        for count, line in enumerate(self.lines, start=begun + 1):
            if all(is_blank(cell) for cell in line.cells):
                continue
            if self.columns and self._is_chatter(line):
                continue
            settled = self._headed(line, count) if self.columns else self._free(line, count)
            yield MotorRow(
                line.number,
                " | ".join(line.cells),
                settled.motor,
                settled.readings,
                settled.refused,
                settled.possible,
            )

    def _is_chatter(self, line: Line) -> bool:
        """Whether a line is of the page, not of the table: few cells and no figure in them."""
        told = [cell for cell in line.cells if not is_blank(cell)]
        if 2 * len(told) > len(self.columns) or any(c.isdigit() for cell in told for c in cell):
            return False
        if self.places["id"] is not None and self._cell(line, "id"):
            return False  # it has a name of its own: somebody left out the rest
        if len(self.remarks) < 5:
            words = " ".join(told)[:60]
            self.remarks.append(
                f'Line {line.number} has no figures and was passed over: "{words}".'
            )
        return True

    def _cell(self, line: Line, topic: str) -> str:
        place = self.places[topic]
        if place is None or place >= len(line.cells) or is_blank(line.cells[place]):
            return ""
        return line.cells[place].replace("**", "").strip()

    def _headed(self, line: Line, count: int) -> Settled:
        name, title = self._cell(line, "id"), self._cell(line, "title")
        readings: list[Reading] = []
        words = [title, name if len(name) > 3 else ""]
        for place in self.order:
            if place >= len(line.cells) or is_blank(line.cells[place]):
                continue
            column, cell = self.columns[place], line.cells[place]
            if column.topic in FREE_TEXT:
                words.append(cell)
            readings.extend(read_cell(column, cell, self.comma_file))
        for extra in line.cells[len(self.columns) :]:
            if not is_blank(extra):
                words.append(extra)
                readings.extend(read_cell(_EXTRA, extra, self.comma_file))
        if self.places["torque kind"] is not None:
            readings = _named_by_kind(readings, self._cell(line, "torque kind"))
        return settle(
            name or self._called(title) or f"row {count}",
            line.number,
            title or (name if len(name) > 3 else ""),
            self._cell(line, "notes"),
            tidy(self._cell(line, "class")),
            tidy(" ; ".join(filter(None, words))),
            readings,
            self.inches,
        )

    def _called(self, title: str) -> str:
        """Return a motor's name by its title; nothing where its first words name another."""
        name = _short(title)
        cut = name != " ".join(title.split())
        if cut and name in self.taken:
            return ""
        self.taken.add(name)
        return name

    def _free(self, line: Line, count: int) -> Settled:
        """Read a row without heads: the first cell without figures names the motor."""
        filled = [cell for cell in line.cells if not is_blank(cell)]
        name = filled[0] if len(filled) > 1 and len(filled[0]) <= 12 else ""
        if any(reading.field for reading in read_cell(_TITLE, name, self.comma_file) if name):
            name = ""
        rest = filled[1:] if name else filled
        readings = [r for cell in rest for r in read_cell(_TITLE, cell, self.comma_file)]
        title = rest[0] if rest else name
        return settle(
            name or f"row {count}",
            line.number,
            title,
            "",
            "",
            tidy(" ; ".join(filled)),
            readings,
            self.inches,
        )


_TITLE = Column("the line", "title")
_EXTRA = Column("a cell without a head", "notes")


def _short(title: str) -> str:
    """Return what to call a motor by its title: all of it, its first clause, or its first words."""
    whole = " ".join(title.split())
    if len(whole) <= LONG_NAME:
        return whole
    clause = _FIRST_CLAUSE.split(whole, maxsplit=1)[0]
    if 0 < len(clause) <= LONG_NAME:
        return clause
    return whole[: LONG_NAME + 1].rsplit(" ", 1)[0].rstrip(" ,;:(-") if " " in whole else ""


@lru_cache(maxsize=131072)
def read_cell(column: Column, cell: str, comma_file: bool) -> tuple[Reading, ...]:
    """Return everything one cell says."""
    topic = column.topic
    if topic in _SILENT:
        return ()
    text = tidy(cell)
    if topic == "direction":
        return _word(column, cell, "start_direction", wording.start_direction(text))
    if topic == "holds":
        known = wording.yes_or_no(text)
        known = wording.holds_when_off(text) if known is None else known
        return _word(column, cell, "holds_when_off", known)
    if topic == "duty":
        return _word(column, cell, "duty", wording.duty(text, True))
    if topic == "protection":
        code = wording.protection(text) or wording.protection(f"ip{text}")
        return _word(column, cell, "protection", code)
    if topic == "insulation":
        return _word(column, cell, "insulation", wording.insulation(text, True))
    if topic == "price":
        return _price(column, cell, wording.price(text, True))
    figures = read_figures(column, cell, comma_file)
    if topic in FREE_TEXT:
        return figures + _words_of(column, cell, text)
    return figures


def _word(column: Column, cell: str, field: str, value: object) -> tuple[Reading, ...]:
    if value is None:
        note = f'"{cell}" could not be understood.'
        return (Reading(column.head, cell, "", None, Outcome.REFUSED, note),)
    return (Reading(column.head, cell, field, value),)  # type: ignore[arg-type]


def _price(column: Column, cell: str, found: tuple[float, str] | str | None) -> tuple[Reading, ...]:
    if isinstance(found, tuple):
        return (Reading(column.head, cell, "price", found),)  # type: ignore[arg-type]
    note = found or f'"{cell}" is no price.'
    return (Reading(column.head, cell, "", None, Outcome.REFUSED, note),)


def _words_of(column: Column, cell: str, text: str) -> tuple[Reading, ...]:
    """Return what the words of a free text say besides figures."""
    if not _WORTH_A_LOOK.search(text):
        return ()
    found = (
        ("start_direction", wording.start_direction(text)),
        ("holds_when_off", wording.holds_when_off(text)),
        ("duty", wording.duty(text)),
        ("protection", wording.protection(text)),
        ("insulation", wording.insulation(text)),
        ("price", wording.price(text)),
    )
    return tuple(
        Reading(column.head, cell, field, value)  # type: ignore[arg-type]
        for field, value in found
        if value is not None and not (field == "price" and isinstance(value, str))
    )


def _named_by_kind(readings: list[Reading], cell: str) -> list[Reading]:
    """Let the column that says which torque it is name the torque of the row."""
    text = tidy(cell)
    label = _LABELS_OF_KIND.get(text) or label_in(text)
    field = TORQUE_FIELDS.get(label)
    if not text or field is None:
        return readings
    return [_renamed(reading, field) for reading in readings]


def _renamed(reading: Reading, field: str) -> Reading:
    if not reading.field.endswith("unnamed_torque") or reading.column == _EXTRA.head:
        return reading
    return replace(reading, field=reading.field.replace("unnamed_torque", field))
