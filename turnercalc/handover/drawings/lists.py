"""The list sheet: pieces, holes and fasteners in a table to take into the workshop."""

from __future__ import annotations

from collections.abc import Sequence

from turnercalc.handover.drawings.marks import Drawing, Label, Line, Mark

ROW = 4.6  # mm of paper
SIZE = 2.8
HEAD = 3.4


def table_drawing(
    title: str, blocks: Sequence[tuple[str, Sequence[Sequence[str]]]], width: float
) -> Drawing:
    """Return tables one below the other.

    Parameters
    ----------
    title : str
    blocks : sequence of (heading, rows)
        The first row holds the heads of the columns; the last column gets the room that is left
        and is broken into lines.
    width : float
        Of the paper that may be used [mm].
    """
    marks: list[Mark] = []
    y = 0.0
    for heading, rows in blocks:
        marks.append(Label(0.0, y - HEAD, heading, HEAD, bold=True))
        y -= HEAD + 2.4
        columns = _columns(rows, width)
        for number, row in enumerate(rows):
            lines = Label(0.0, 0.0, row[-1], SIZE).broken(width - columns[-1])
            for x, cell in zip(columns, row[:-1], strict=False):
                marks.append(Label(x, y - SIZE, cell, SIZE, bold=number == 0))
            for i, line in enumerate(lines):
                marks.append(Label(columns[-1], y - SIZE - i * ROW, line, SIZE, bold=number == 0))
            y -= ROW * max(len(lines), 1)
            marks.append(Line(((0.0, y + 0.6), (width, y + 0.6)), "faint"))
        y -= 4.0
    return Drawing(id="lists", title=title, marks=tuple(marks), tells=title)


def _columns(rows: Sequence[Sequence[str]], width: float) -> list[float]:
    """Return where each column starts [mm]."""
    starts, x = [], 0.0
    for i in range(len(rows[0])):
        starts.append(x)
        widest = max(Label(0.0, 0.0, row[i], SIZE, bold=True).width for row in rows)
        x += min(widest, 0.45 * width) + 4.0
    return starts
