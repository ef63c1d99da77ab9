"""Results that a notebook shows as a table, and a script takes as dictionaries or arrays."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from html import escape
from typing import Any, TypeVar, overload

import numpy as np

#: Unit of a drive's position -> what the hardest turn is called in tables, its unit behind.
PEAK_NAMES = {"rad": "peak_shaft_torque_Nm", "m": "peak_push_N"}


class Rows(ABC):
    """A result that is a list of lines; whoever inherits says what stands in each."""

    @abstractmethod
    def rows(self) -> list[dict[str, Any]]:
        """Return one dictionary a line, keys with their unit, SI."""

    def to_dict(self) -> dict[str, list[Any]]:
        """Return every column as a plain list."""
        lines = self.rows()
        names = dict.fromkeys(name for line in lines for name in line)
        return {name: [line.get(name) for line in lines] for name in names}

    def to_arrays(self) -> dict[str, np.ndarray[Any, Any]]:
        """Return every column as an array; what is not known is NaN among numbers."""
        return {name: _array(values) for name, values in self.to_dict().items()}

    def _repr_html_(self) -> str:
        """Return the lines as a table."""
        return html_table(self.to_dict())


T = TypeVar("T")


class Listed(Rows, Sequence[T]):
    """A result that is also the sequence of what was found, best first.

    Attributes
    ----------
    found : tuple
        What it is a sequence of.
    """

    found: tuple[T, ...]

    def __len__(self) -> int:
        return len(self.found)

    @overload
    def __getitem__(self, at: int) -> T: ...
    @overload
    def __getitem__(self, at: slice) -> tuple[T, ...]: ...
    def __getitem__(self, at: int | slice) -> T | tuple[T, ...]:
        return self.found[at]


def _array(values: Sequence[Any]) -> np.ndarray[Any, Any]:
    numbers = [value for value in values if value is not None]
    if numbers and all(isinstance(v, int | float) and not isinstance(v, bool) for v in numbers):
        return np.array([np.nan if value is None else value for value in values], float)
    found = np.empty(len(values), dtype=object)
    for at, value in enumerate(values):  # lists would become further axes
        found[at] = value
    return found


def html_table(columns: Mapping[str, Sequence[Any]], most: int = 30) -> str:
    """Return columns as an HTML table, the first lines of long ones."""
    head = "".join(f"<th>{escape(name)}</th>" for name in columns)
    count = max((len(values) for values in columns.values()), default=0)
    lines = []
    for at in range(min(count, most)):
        cells = "".join(f"<td>{escape(cell(values[at]))}</td>" for values in columns.values())
        lines.append(f"<tr>{cells}</tr>")
    more = f"<p>{count:,} lines in all.</p>" if count > most else ""
    return f"<table><thead><tr>{head}</tr></thead><tbody>{''.join(lines)}</tbody></table>{more}"


def cell(value: Any) -> str:
    """Return a value as a table shows it."""
    if value is None:
        return ""
    return f"{value:.5g}" if isinstance(value, float) else str(value)
