"""Reading a table: heads, units, numbers and ranges are checked; every row knows its line."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from itertools import pairwise
from types import MappingProxyType

from turnercalc.errors import TableError, UnknownNameError
from turnercalc.tables._columns import HOW, SCHEMAS, UNITS, Schema, unit_of

Cell = str | float | None


@dataclass(frozen=True, eq=False)
class Row(Mapping[str, Cell]):
    """One row of a table: a frozen mapping of column head to text, number or None (left blank).

    Attributes
    ----------
    file : str
        Name of the CSV file.
    line : int
        Line in that file, counted from 1.
    cells : mapping
        Column head to cell.
    exceptions : mapping
        Columns whose standing differs from ``how``, with their own.
    """

    file: str
    line: int
    cells: Mapping[str, Cell]
    exceptions: Mapping[str, str]

    def __getitem__(self, column: str) -> Cell:
        return self.cells[column]

    def __iter__(self) -> Iterator[str]:
        return iter(self.cells)

    def __len__(self) -> int:
        return len(self.cells)

    @property
    def source(self) -> str:
        """Where the row comes from."""
        return self.text("source")

    @property
    def how(self) -> str:
        """How the row came to us; one of `HOW`."""
        return self.text("how")

    def how_of(self, column: str) -> str:
        """Return how this one column came to us; one of `HOW`."""
        if column not in self.cells:
            raise self._wrong(column, "has no such column")
        return self.exceptions.get(column, self.how)

    def text(self, column: str) -> str:
        """Return a text cell; a blank one is an empty text."""
        value = self.cells[column]
        if isinstance(value, float):
            raise self._wrong(column, "holds a number, not a text")
        return value or ""

    def number(self, column: str) -> float:
        """Return a number in the unit of its column head; refuses a blank cell."""
        value = self.maybe(column)
        if value is None:
            raise self._wrong(column, "is blank here")
        return value

    def maybe(self, column: str) -> float | None:
        """Return a number in the unit of its column head, or None where the cell is blank."""
        value = self.cells[column]
        if isinstance(value, str):
            raise self._wrong(column, "holds a text, not a number")
        return value

    def si(self, quantity: str) -> float:
        """Return a quantity in SI units by its name without the unit: ``si("mass")`` in kg.

        Temperatures stay in degrees Celsius. Refuses a blank cell.
        """
        column = self._column_of(quantity)
        return self.number(column) * UNITS[unit_of(column)]

    def maybe_si(self, quantity: str) -> float | None:
        """Return a quantity in SI units, or None where the cell is blank."""
        column = self._column_of(quantity)
        value = self.maybe(column)
        return None if value is None else value * UNITS[unit_of(column)]

    def names(self, column: str = "aliases") -> tuple[str, ...]:
        """Return a text cell that lists several things, split at its semicolons."""
        return tuple(part.strip() for part in self.text(column).split(";") if part.strip())

    def _column_of(self, quantity: str) -> str:
        for column in self.cells:
            unit = unit_of(column)
            if unit and column == f"{quantity}_{unit}":
                return column
        raise self._wrong(quantity, "has no column with this quantity and a unit")

    def _wrong(self, column: str, what: str) -> TableError:
        return TableError(f"{self.file}, line {self.line}, column {column}: {what}.")


@dataclass(frozen=True)
class Table:
    """A checked table.

    Attributes
    ----------
    name : str
        Name without the ``.csv``.
    rows : tuple of Row
        In the order of the file.
    units : mapping
        Column head to unit; empty text for counts, ratios and words.
    key : str
        The column by which `row` finds a row.
    """

    name: str
    rows: tuple[Row, ...]
    units: Mapping[str, str]
    key: str
    _index: Mapping[str, Row]

    def row(self, name: str) -> Row:
        """Return the row of a name or alias; case, hyphens and a plural s do not matter.

        Raises
        ------
        UnknownNameError
            The table holds no such name; the message offers the nearest.
        """
        wanted = plain(name)
        for candidate in (wanted, wanted.removesuffix("s"), wanted.removesuffix("es")):
            if candidate in self._index:
                return self._index[candidate]
        raise UnknownNameError(self._unknown(name, wanted))

    def names(self) -> tuple[str, ...]:
        """Return the key of every row, in the order of the file."""
        return tuple(row.text(self.key) for row in self.rows)

    def __contains__(self, name: object) -> bool:
        if not isinstance(name, str):
            return False
        try:
            self.row(name)
        except UnknownNameError:
            return False
        return True

    def _unknown(self, name: str, wanted: str) -> str:
        message = f'The {self.name.replace("_", " ")} table has no "{name.strip()}".'
        near = get_close_matches(wanted, self._index, n=3, cutoff=0.6)
        nearest = tuple(dict.fromkeys(self._index[n].text(self.key) for n in near))
        if nearest:
            return f"{message} Nearest: {', '.join(nearest)}."
        return f"{message} It has: {', '.join(self.names())}."


def plain(name: str) -> str:
    """Return a name as the tables compare names: lower case, single spaces, no punctuation."""
    kept = "".join(c if c.isalnum() or c in "._/" else " " for c in name.casefold())
    return " ".join(kept.split())


@cache
def table(name: str) -> Table:
    """Return a table by name, such as ``species`` or ``limits``; read once, then kept.

    Raises
    ------
    UnknownNameError
        There is no such table.
    TableError
        The file is damaged; the message names file, line and column.
    """
    if name not in SCHEMAS:
        raise UnknownNameError(
            f'There is no table "{name}". There are: {", ".join(sorted(SCHEMAS))}.'
        )
    file = f"{name}.csv"
    try:
        text = files("turnercalc.tables").joinpath(file).read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise TableError(f"{file} cannot be read: {error}.") from error
    return parse_table(name, text, SCHEMAS[name])


def table_names() -> tuple[str, ...]:
    """Return the names of all tables."""
    return tuple(sorted(SCHEMAS))


def parse_table(name: str, text: str, schema: Schema) -> Table:
    """Return the checked table that a CSV text holds.

    Lines that begin with ``#`` are remarks. The first other line holds the column heads, which
    must be those of the schema in its order.
    """
    file = f"{name}.csv"
    numbered = [
        (number, line)
        for number, line in enumerate(text.splitlines(), start=1)
        if line.strip() and not line.startswith("#")
    ]
    if not numbered:
        raise TableError(f"{file} is empty: not even column heads were found.")
    heads = _split(file, *numbered[0])
    _check_heads(file, numbered[0][0], heads, tuple(schema.columns))
    rows = tuple(_read_row(file, number, line, schema) for number, line in numbered[1:])
    if not rows:
        raise TableError(f"{file} has column heads but no rows.")
    units = MappingProxyType({column: unit_of(column) for column in schema.columns})
    return Table(name, rows, units, schema.key, _index_rows(file, rows, schema))


def _split(file: str, number: int, line: str) -> list[str]:
    # One line, one row: a quoted cell never runs over a line end, so line numbers stay exact.
    try:
        cells = next(csv.reader([line], strict=True))
    except csv.Error as error:
        raise TableError(f"{file}, line {number}: {error}.") from error
    return [cell.strip() for cell in cells]


def _check_heads(file: str, number: int, heads: list[str], wanted: tuple[str, ...]) -> None:
    for position, column in enumerate(wanted):
        found = heads[position] if position < len(heads) else "nothing"
        if found != column:
            raise TableError(
                f"{file}, line {number}, column {column}: the head reads {found}; the name "
                "includes the unit, so a changed unit is a changed table."
            )
    if len(heads) > len(wanted):
        raise TableError(
            f"{file}, line {number}, column {heads[len(wanted)]}: nothing is known of this column."
        )


def _read_row(file: str, number: int, line: str, schema: Schema) -> Row:
    texts = _split(file, number, line)
    if len(texts) != len(schema.columns):
        raise TableError(
            f"{file}, line {number}: {len(texts)} cells where the heads name {len(schema.columns)}."
        )
    cells: dict[str, Cell] = {}
    for (column, kind), text in zip(schema.columns.items(), texts, strict=True):
        try:
            cells[column] = kind.read(text)
        except ValueError as error:
            raise TableError(f"{file}, line {number}, column {column}: {error}.") from error
    _check_order(file, number, cells, schema)
    exceptions = _read_exceptions(file, number, str(cells.get("except") or ""), cells)
    return Row(file, number, MappingProxyType(cells), MappingProxyType(exceptions))


def _check_order(file: str, number: int, cells: Mapping[str, Cell], schema: Schema) -> None:
    for group in schema.rising:
        known = [(c, v) for c in group if isinstance(v := cells[c], float)]
        for (lower, low), (upper, high) in pairwise(known):
            if low > high:
                raise TableError(
                    f"{file}, line {number}, column {upper}: {high:g} is less than the {low:g} "
                    f"of {lower}."
                )


def _read_exceptions(
    file: str, number: int, text: str, cells: Mapping[str, Cell]
) -> dict[str, str]:
    found: dict[str, str] = {}
    for part in filter(None, (p.strip() for p in text.split(";"))):
        how, _, columns = part.partition(":")
        if how.strip() not in HOW:
            raise TableError(
                f"{file}, line {number}, column except: {how.strip()!r} is none of "
                f"{', '.join(HOW)}."
            )
        for column in columns.split():
            if column not in cells:
                raise TableError(
                    f"{file}, line {number}, column except: there is no column {column}."
                )
            found[column] = how.strip()
    return found


def _index_rows(file: str, rows: tuple[Row, ...], schema: Schema) -> Mapping[str, Row]:
    index: dict[str, Row] = {}
    for row in rows:
        aliases = row.names() if "aliases" in row else ()
        for name in (row.text(schema.key), *aliases):
            other = index.setdefault(plain(name), row)
            if other is not row:
                raise TableError(
                    f"{file}, line {row.line}, column {schema.key}: {name} stands already in "
                    f"line {other.line}."
                )
    return MappingProxyType(index)
