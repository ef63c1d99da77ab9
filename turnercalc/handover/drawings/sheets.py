"""Sheets of paper: frame, title block, check rulers, register marks; a drawing placed on them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from types import MappingProxyType

from turnercalc.handover.drawings.joins import Span, Tiles, tiles_along
from turnercalc.handover.drawings.marks import Box, Circle, Drawing, Label, Line, Mark

INCH = 25.4  # mm


@dataclass(frozen=True)
class Paper:
    """A size of paper, upright [mm]."""

    name: str
    width: float
    height: float


#: ISO 216 and ANSI sizes.
PAPERS = MappingProxyType(
    {"a4": Paper("A4", 210.0, 297.0), "letter": Paper("Letter", 8.5 * INCH, 11.0 * INCH)}
)

#: What most printers leave white [mm].
MARGIN = 10.0
FOOT = 31.0  # height of title block and rulers [mm]
SMALL = 2.5  # letters of the title block [mm]
#: Scales that a rule can be read at.
SCALES = (1.0, 0.5, 0.4, 0.25, 0.2, 0.125, 0.1, 0.05, 0.02)
ROUND = 180  # corners of a circle that is cut at the edge of a tile
OVERLAP = 15.0  # of one tile and the next [mm]
RULER_MM, RULER_IN = 100.0, 4.0


@dataclass(frozen=True)
class Sheet:
    """One sheet, ready to be written.

    Attributes
    ----------
    id, title : str
    paper : Paper
    marks : tuple of Mark
        In mm of the paper, the origin in its lower left corner.
    """

    id: str
    title: str
    paper: Paper
    marks: tuple[Mark, ...]


@dataclass(frozen=True)
class Heading:
    """What every sheet of a design says in its corner.

    Attributes
    ----------
    design : str
        Its name.
    seen_from : str
        Where it is drawn from.
    unsure : tuple of str
        What is known only so far, at length and in short; told above the title block, the first
        that goes on one line.
    """

    design: str
    seen_from: str
    unsure: tuple[str, ...] = ()


def field(paper: Paper) -> Box:
    """Return where a drawing may lie on a paper [mm]."""
    return Box(
        MARGIN + 3.0, MARGIN + FOOT + 3.0, paper.width - MARGIN - 3.0, paper.height - MARGIN - 3.0
    )


def one_sheet(drawing: Drawing, paper: Paper, heading: Heading, notes: Sequence[str] = ()) -> Sheet:
    """Return a drawing in the middle of a sheet."""
    room, box = field(paper), drawing.box
    dx = 0.5 * (room.left + room.right) - 0.5 * drawing.scale * (box.left + box.right)
    dy = 0.5 * (room.low + room.high) - 0.5 * drawing.scale * (box.low + box.high)
    marks = (*drawing.placed(dx, dy), *frame(paper, heading, drawing, notes))
    return Sheet(drawing.id, drawing.title, paper, marks)


def frame(
    paper: Paper,
    heading: Heading,
    drawing: Drawing,
    notes: Sequence[str] = (),
    page: str = "",
    *,
    to_scale: bool = True,
) -> tuple[Mark, ...]:
    """Return frame and title block of a sheet, with check rulers where it is to scale."""
    left, right, low, high = MARGIN, paper.width - MARGIN, MARGIN, paper.height - MARGIN
    top, begin = low + FOOT, left + 2.5
    scale = "1:1" if drawing.scale == 1.0 else f"1:{1.0 / drawing.scale:g}"
    title = f"{drawing.title}{f' ({page})' if page else ''}"
    marks: list[Mark] = [
        Line(((left, low), (right, low), (right, high), (left, high)), "cut", closed=True),
        Line(((left, top), (right, top)), "cut"),
        Label(begin, top - 5.0, title, 4.0, bold=True),
    ]
    told = [heading.design]
    if to_scale:
        told.append(f"Scale {scale} on {paper.name}. Print at 100 %.")
    room = right - RULER_IN * INCH - 8.0 - begin if to_scale else right - begin
    lines = [line for text in (*told, *notes) for line in Label(0, 0, text, SMALL).broken(room)]
    marks += [Label(begin, top - 9.0 - 3.4 * i, line, SMALL) for i, line in enumerate(lines)]
    every = (Label(begin, top + 1.0, text, SMALL, bold=True) for text in heading.unsure)
    marks += [one for one in every if one.width <= right - begin][:1]
    if to_scale:
        marks += ruler_mm(right - 4.0 - RULER_MM - 1.6, low + 4.5)
        marks += ruler_in(right - 4.0 - RULER_IN * INCH, low + 16.0)
    return tuple(marks)


def ruler_mm(x: float, y: float) -> tuple[Mark, ...]:
    """Return a check ruler of 100 mm with its left end at (x, y) [mm of paper]."""
    ticks = [
        Line(
            ((x + n, y), (x + n, y + (4.0 if n % 10 == 0 else 2.8 if n % 5 == 0 else 1.6))), "thin"
        )
        for n in range(int(RULER_MM) + 1)
    ]
    figures = [Label(x + n, y + 4.8, str(n), 2.2, "middle") for n in range(0, 101, 20)]
    base = Line(((x, y), (x + RULER_MM, y)), "thin", part="ruler-mm")
    return (base, *ticks, *figures, Label(x, y - 2.8, "must measure 100 mm", 2.2))


def ruler_in(x: float, y: float) -> tuple[Mark, ...]:
    """Return a check ruler of 4 in with its left end at (x, y) [mm of paper]."""

    def height(n: int) -> float:
        return next(
            h for step, h in ((16, 4.0), (8, 3.2), (4, 2.4), (2, 1.8), (1, 1.2)) if n % step == 0
        )

    count = int(16 * RULER_IN)
    ticks = [
        Line(((x + n * INCH / 16, y), (x + n * INCH / 16, y + height(n))), "thin")
        for n in range(count + 1)
    ]
    figures = [
        Label(x + n * INCH, y + 4.8, str(n), 2.2, "middle") for n in range(int(RULER_IN) + 1)
    ]
    base = Line(((x, y), (x + RULER_IN * INCH, y)), "thin", part="ruler-in")
    return (base, *ticks, *figures, Label(x, y - 2.8, "must measure 4 in", 2.2))


def tiled(
    drawing: Drawing, paper: Paper, heading: Heading, notes: Sequence[str] = ()
) -> tuple[Sheet, ...]:
    """Return a drawing on as many sheets as it takes, with register marks where they join.

    Neighbouring tiles share a strip `OVERLAP` wide; the crosses in it lie on each other where
    the sheets are joined rightly. No hole lies across the middle of such a strip, where they are
    cut.
    """
    room, box = field(paper), drawing.box
    width, height = drawing.scale * box.width, drawing.scale * box.height
    if width <= room.width and height <= room.height:
        return (one_sheet(drawing, paper, heading, notes),)
    at_start = drawing.placed(-drawing.scale * box.left, -drawing.scale * box.low)
    columns, rows = (
        tiles_along(need, have, OVERLAP, *_spans(at_start, axis))
        for axis, (need, have) in enumerate(((width, room.width), (height, room.height)))
    )
    return tuple(_tiles(drawing, paper, heading, notes, columns, rows))


def _spans(marks: Sequence[Mark], axis: int) -> tuple[list[Span], list[Span]]:
    """Return where holes and words lie along one axis, across the paper or up."""
    holes, words = [], []
    for mark in marks:
        ends = [corner[axis] for corner in mark.corners]
        span = Span(min(ends), max(ends))
        if isinstance(mark, Circle) and mark.part == "holes":
            holes.append(span)
        elif isinstance(mark, Label):
            words.append(span)
    return holes, words


def _tiles(
    drawing: Drawing,
    paper: Paper,
    heading: Heading,
    notes: Sequence[str],
    across: Tiles,
    up: Tiles,
) -> Iterator[Sheet]:
    room, box = field(paper), drawing.box
    step_x, step_y = room.width - OVERLAP, room.height - OVERLAP
    columns, rows = across.number, up.number
    left, low = room.left + across.before, room.low + up.before
    for row in range(rows):
        for column in range(columns):
            dx = left - drawing.scale * box.left - column * step_x
            dy = low - drawing.scale * box.low - row * step_y
            placed = clipped(drawing.placed(dx, dy), room)
            if not placed:
                continue  # nothing of it lies here
            name = f"{chr(ord('A') + row)}{column + 1}"
            crosses = _crosses(room, column, row, columns, rows)
            page = f"tile {name}, {rows} rows A up, {columns} across"
            marks = (*placed, *crosses, *frame(paper, heading, drawing, notes, page))
            yield Sheet(f"{drawing.id}-{name}", f"{drawing.title}, tile {name}", paper, marks)


def _crosses(room: Box, column: int, row: int, columns: int, rows: int) -> list[Mark]:
    """Return register marks in the middle of every shared strip, and the edge to cut along."""
    marks: list[Mark] = []
    half = 0.5 * OVERLAP
    for joined, x in ((column > 0, room.left + half), (column < columns - 1, room.right - half)):
        if joined:
            ys = [room.low + share * room.height for share in (0.15, 0.5, 0.85)]
            marks += [mark for y in ys for mark in register(x, y)]
            marks.append(Line(((x, room.low), (x, room.high)), "centre", part="register"))
    for joined, y in ((row > 0, room.low + half), (row < rows - 1, room.high - half)):
        if joined:
            xs = [room.left + share * room.width for share in (0.15, 0.5, 0.85)]
            marks += [mark for x in xs for mark in register(x, y)]
            marks.append(Line(((room.left, y), (room.right, y)), "centre", part="register"))
    return marks


def register(x: float, y: float) -> tuple[Mark, ...]:
    """Return a register mark: a cross in a square."""
    s = 3.0
    return (
        Line(((x - 2 * s, y), (x + 2 * s, y)), "thin", part="register"),
        Line(((x, y - 2 * s), (x, y + 2 * s)), "thin", part="register"),
        Line(
            ((x - s, y - s), (x + s, y - s), (x + s, y + s), (x - s, y + s)),
            "thin",
            closed=True,
            part="register",
        ),
    )


def clipped(marks: Sequence[Mark], room: Box) -> tuple[Mark, ...]:
    """Return the parts of marks inside a rectangle; labels whole or not at all."""
    kept: list[Mark] = []
    for mark in marks:
        if _inside(mark, room):
            kept.append(mark)
        elif isinstance(mark, Line):
            kept += _clip_line(mark, room)
        elif isinstance(mark, Circle):
            kept += _clip_line(_as_line(mark), room)
    return tuple(kept)


def _as_line(circle: Circle) -> Line:
    """Return a circle as a polygon that is off by less than a pen's width."""
    turns = [2.0 * math.pi * n / ROUND for n in range(ROUND)]
    points = tuple(
        (circle.x + circle.radius * math.cos(t), circle.y + circle.radius * math.sin(t))
        for t in turns
    )
    return Line(points, circle.pen, closed=True, part=circle.part)


def _inside(mark: Mark, room: Box) -> bool:
    return all(room.left <= x <= room.right and room.low <= y <= room.high for x, y in mark.corners)


def _clip_line(line: Line, room: Box) -> list[Mark]:
    """Return the pieces of a line inside a rectangle (Liang and Barsky 1984, from memory)."""
    points = [*line.points, line.points[0]] if line.closed else list(line.points)
    inside = all(room.left <= x <= room.right and room.low <= y <= room.high for x, y in points)
    if inside:
        return [line]
    pieces: list[Mark] = []
    for (x0, y0), (x1, y1) in pairwise(points):
        low, high = 0.0, 1.0
        for start, delta, least, most in (
            (x0, x1 - x0, room.left, room.right),
            (y0, y1 - y0, room.low, room.high),
        ):
            if delta == 0.0:
                if not least <= start <= most:
                    low, high = 1.0, 0.0
                continue
            enter, leave = sorted(((least - start) / delta, (most - start) / delta))
            low, high = max(low, enter), min(high, leave)
        if low < high:
            ends = tuple((x0 + t * (x1 - x0), y0 + t * (y1 - y0)) for t in (low, high))
            pieces.append(Line(ends, line.pen, part=line.part))
    return pieces
