"""Tables of the trade and the one reader for them.

Every table is a CSV file in this folder with one row per fact (or per named thing), and every row
says where it comes from (``source``) and how it came to us (``how``). Where one row mixes facts
of different standing, its ``except`` cell names the columns that stand on something else.
Columns that hold a quantity carry its unit as the end of their name (``mass_g``); the reader knows
which columns a table must have and refuses a file whose heads, numbers or order of ranges differ.

`table` gives any table; `limit`, `default`, `friction_pair` and `stage_losses` give its rows
typed.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from itertools import pairwise
from types import MappingProxyType

from turnercalc.errors import TableError, UnknownNameError
from turnercalc.findings import Answer
from turnercalc.tables._columns import HOW, SCHEMAS, UNITS, Number, Schema, unit_of

__all__ = [
    "HOW",
    "Default",
    "FrictionPair",
    "Limit",
    "Range3",
    "Row",
    "StageLosses",
    "Table",
    "default",
    "defaults",
    "friction_pair",
    "limit",
    "stage_losses",
    "table",
    "table_names",
]

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
        text = files(__name__).joinpath(file).read_text(encoding="utf-8")
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


@dataclass(frozen=True)
class Limit:
    """Where fine ends and where no begins, and why.

    Attributes
    ----------
    id : str
        Such as ``link_to_arm``.
    fine, no : float or None
        In `unit`; a value between the two is marginal. None where that side has no limit.
    unit : str
        Unit symbol, as in a `Finding`.
    reason : str
        Why the limit stands where it does, for people.
    source, how : str
        Where it comes from and how it came to us.
    sense : str
        ``at least`` or ``at most``: on which side of the limit it is fine.
    """

    id: str
    fine: float | None
    no: float | None
    unit: str
    reason: str
    source: str
    how: str
    sense: str

    def of_si(self, value: float) -> float:
        """Return an SI value in the unit of this limit."""
        return value / UNITS[self.unit]

    def answer(self, value: float | None) -> Answer:
        """Return fine, marginal or no for a value in the unit of this limit; None is unknown."""
        if value is None or math.isnan(value):
            return Answer.UNKNOWN
        sign = 1.0 if self.sense == "at least" else -1.0
        if self.no is not None and sign * value < sign * self.no:
            return Answer.NO
        if self.fine is not None and sign * value < sign * self.fine:
            return Answer.MARGINAL
        return Answer.FINE


def limit(name: str) -> Limit:
    """Return the limit of an id; raises UnknownNameError with the nearest id."""
    row = table("limits").row(name)
    return Limit(
        id=row.text("id"),
        fine=row.maybe("fine"),
        no=row.maybe("no"),
        unit=row.text("unit"),
        reason=row.text("reason"),
        source=row.source,
        how=row.how,
        sense=row.text("sense"),
    )


@dataclass(frozen=True)
class Default:
    """What is taken where the builder says nothing.

    Attributes
    ----------
    field : str
        Field path such as ``link.pin_play``.
    text : str
        For a `value` the very text the file could hold; else a sentence for people.
    source, how : str
        Where it comes from and how it came to us.
    kind : str
        ``value`` (a text that could stand in the file), ``rule`` (worked out from other fields),
        ``unknown`` (stays unknown) or ``required`` (there is no default; the builder must say).
    """

    field: str
    text: str
    source: str
    how: str
    kind: str


def default(field: str) -> Default:
    """Return the default of a field path; raises UnknownNameError with the nearest path."""
    return _default(table("defaults").row(field))


def defaults() -> tuple[Default, ...]:
    """Return all defaults in the order of the table."""
    return tuple(_default(row) for row in table("defaults").rows)


def _default(row: Row) -> Default:
    return Default(row.text("field"), row.text("text"), row.source, row.how, row.text("kind"))


@dataclass(frozen=True)
class Range3:
    """A figure as low, middle and high, because its true value is not known better."""

    low: float
    middle: float
    high: float


@dataclass(frozen=True)
class FrictionPair:
    """Friction coefficients of one pair of materials.

    Attributes
    ----------
    name : str
        As a builder writes it: ``steel in nylon``.
    dry, damp : Range3
        Kinetic coefficients in a dry room and in the warm damp air of an incubator.
    static_high, damp_static_high : float
        Highest coefficient at rest: what a start has to overcome.
    source, how : str
        Where it comes from and how it came to us.
    """

    name: str
    dry: Range3
    damp: Range3
    static_high: float
    damp_static_high: float
    source: str
    how: str


def friction_pair(name: str) -> FrictionPair:
    """Return the friction of a named bearing or pin; raises UnknownNameError with the nearest."""
    row = table("friction").row(name)
    return FrictionPair(
        name=row.text("name"),
        dry=Range3(row.number("low"), row.number("middle"), row.number("high")),
        damp=Range3(row.number("damp_low"), row.number("damp_middle"), row.number("damp_high")),
        static_high=row.number("static_high"),
        damp_static_high=row.number("damp_static_high"),
        source=row.source,
        how=row.how,
    )


@dataclass(frozen=True)
class StageLosses:
    """Losses of one stage between the gearmotor and the turner.

    Attributes
    ----------
    kind : str
        Such as ``toothed belt``.
    efficiency : Range3
        Share of the work that arrives when the motor drives.
    no_load_drag : float or None
        Torque the unloaded stage takes at its input side [N·m].
    back_driving : str
        ``load proportional`` (2 - 1/efficiency), ``exact`` (screw and worm formulas) or
        ``slips``.
    source, how : str
        Where it comes from and how it came to us.
    """

    kind: str
    efficiency: Range3
    no_load_drag: float | None
    back_driving: str
    source: str
    how: str


def stage_losses(kind: str) -> StageLosses:
    """Return the losses of a kind of stage; raises UnknownNameError with the nearest kind."""
    row = table("stage_efficiency").row(kind)
    return StageLosses(
        kind=row.text("name"),
        efficiency=Range3(row.number("low"), row.number("middle"), row.number("high")),
        no_load_drag=row.maybe_si("no_load_drag"),
        back_driving=row.text("back_driving"),
        source=row.source,
        how=row.how,
    )


def number_columns(schema: Schema) -> tuple[str, ...]:
    """Return the columns of a schema that hold numbers."""
    return tuple(c for c, kind in schema.columns.items() if isinstance(kind, Number))
