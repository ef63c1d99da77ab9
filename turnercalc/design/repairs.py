"""What was overlooked in a file, said once for all the lines it was overlooked in."""

from __future__ import annotations

import re
from collections.abc import Iterable

from turnercalc.design.filing import Cell
from turnercalc.design.prereader import Note
from turnercalc.design.values import Repair

_FEET_AND_INCHES = re.compile(r"\s*([\d./ \-]+?)\s*'\s*([\d./ \-]+?)\s*(?:\"|'')\s*$")
_INCHES = re.compile(r"\s*(?:\"|'')\s*$")


def repair_notes(cells: Iterable[Cell]) -> tuple[Note, ...]:
    """Return one note for each kind of repair, with all its lines and the first as example."""
    found: dict[Repair, list[Cell]] = {}
    for cell in cells:
        for repair in cell.repairs if cell.line is not None else ():
            found.setdefault(repair, []).append(cell)
    return tuple(
        Note(tuple(cell.line or 0 for cell in cells), _said(repair, cells[0]))
        for repair, cells in found.items()
    )


def _said(repair: Repair, cell: Cell) -> str:
    text, name = cell.text, cell.name
    if repair is Repair.CURLY_QUOTES:
        return "Curly quote marks were read as straight ones."
    if repair is Repair.UNQUOTED:
        mark = "'" if '"' in text else '"'
        return f"Read as if between quote marks. Better write {name} = {mark}{text}{mark}."
    if repair is Repair.INCH_MARK:
        inches = _INCHES.sub(" in", text)
        return (
            f'{text} was read as inches. Between double quote marks write {name} = "{inches}", '
            f"or use single quote marks: {name} = '{text}'."
        )
    if repair is Repair.FEET_AND_INCHES:
        whole = _FEET_AND_INCHES.sub(r"\1 ft \2 in", text)
        return (
            f"{text} was read as feet and inches. Neither kind of quote mark goes round it: "
            f'write {name} = "{whole}".'
        )
    if repair is Repair.DECIMAL_COMMA:
        return (
            f"The comma in {text} was read as the decimal mark; {text.replace(',', '.')} is safer."
        )
    return "A quote mark without its partner was left out."
