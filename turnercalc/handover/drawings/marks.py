"""Strokes, circles and labels that drawings are made of. Lengths in mm, x right, y up."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from types import MappingProxyType

Point = tuple[float, float]

#: Width of a letter as a share of its size, for guessing how wide a text is.
LETTER = 0.56
#: How much wider heavy letters are.
BOLD = 1.18
#: Height of a capital as a share of the size of a text.
CAPITAL = 0.72


@dataclass(frozen=True)
class Pen:
    """How a stroke is drawn on paper: black and white, told apart by width and dashes.

    Attributes
    ----------
    width : float
        On paper [mm].
    dashes : tuple of float
        On, off, ... on paper [mm]; none: drawn through.
    ink : str
        ``#000`` or a grey.
    """

    width: float
    dashes: tuple[float, ...] = ()
    ink: str = "#000000"


#: Widths after the usual drawing practice of two widths, wide twice the narrow (from memory).
PENS = MappingProxyType(
    {
        "wall": Pen(0.8),
        "cut": Pen(0.35),
        "line": Pen(0.5),
        "other": Pen(0.35, (3.0, 1.2)),
        "swept": Pen(0.25, (0.6, 1.0)),
        "centre": Pen(0.18, (6.0, 1.2, 0.8, 1.2)),
        "thin": Pen(0.18),
        "faint": Pen(0.18, (), "#8a8a8a"),
        "white": Pen(0.18, (), "#ffffff"),
    }
)


@dataclass(frozen=True)
class Line:
    """A stroke through points, closed or not.

    Attributes
    ----------
    points : tuple of (float, float)
        [mm].
    pen : str
        A key of `PENS`.
    closed : bool
        Whether the last point is joined to the first.
    fill : str
        Colour inside; empty for none.
    part : str
        What it belongs to: the class in an SVG, the layer in a DXF.
    """

    points: tuple[Point, ...]
    pen: str = "line"
    closed: bool = False
    fill: str = ""
    part: str = ""

    def moved(self, scale: float, dx: float, dy: float) -> Line:
        """Return it scaled about the origin, then shifted [mm]."""
        return replace(self, points=tuple((scale * x + dx, scale * y + dy) for x, y in self.points))

    @property
    def corners(self) -> tuple[Point, ...]:
        """Points between which it lies."""
        return self.points


@dataclass(frozen=True)
class Circle:
    """A circle; attributes as for `Line`."""

    x: float
    y: float
    radius: float
    pen: str = "line"
    fill: str = ""
    part: str = ""

    def moved(self, scale: float, dx: float, dy: float) -> Circle:
        """Return it scaled about the origin, then shifted [mm]."""
        return replace(
            self, x=scale * self.x + dx, y=scale * self.y + dy, radius=scale * self.radius
        )

    @property
    def corners(self) -> tuple[Point, ...]:
        """Points between which it lies."""
        r = self.radius
        return ((self.x - r, self.y - r), (self.x + r, self.y + r))


@dataclass(frozen=True)
class Label:
    """A text.

    Attributes
    ----------
    x, y : float
        Its anchor, on the foot of the letters [mm].
    text : str
        One line.
    size : float
        Of the letters [mm], scaled like everything else.
    anchor : str
        ``start``, ``middle`` or ``end``: which end of the text stands at the anchor.
    turn : float
        Anticlockwise [deg].
    bold : bool
        Whether it is heavy.
    part : str
        As for `Line`.
    """

    x: float
    y: float
    text: str
    size: float = 3.0
    anchor: str = "start"
    turn: float = 0.0
    bold: bool = False
    part: str = ""

    def moved(self, scale: float, dx: float, dy: float) -> Label:
        """Return it scaled about the origin, then shifted [mm]."""
        return replace(self, x=scale * self.x + dx, y=scale * self.y + dy, size=scale * self.size)

    @property
    def width(self) -> float:
        """About how wide it is [mm]."""
        return LETTER * self.size * len(self.text) * (BOLD if self.bold else 1.0)

    def broken(self, width: float) -> list[str]:
        """Return its text in lines that go into a width [mm]."""
        lines = [""]
        for word in self.text.split():
            longer = f"{lines[-1]} {word}".strip()
            if lines[-1] and replace(self, text=longer).width > width:
                lines.append(word)
            else:
                lines[-1] = longer
        return lines

    @property
    def corners(self) -> tuple[Point, ...]:
        """Points between which it lies, about."""
        before = {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor] * self.width
        cos, sin = math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))
        box = [(x - before, y) for x in (0.0, self.width) for y in (-0.25 * self.size, self.size)]
        return tuple((self.x + x * cos - y * sin, self.y + x * sin + y * cos) for x, y in box)

    @property
    def corners_round(self) -> tuple[Point, ...]:
        """The same, one after the other round it."""
        lower_left, upper_left, lower_right, upper_right = self.corners
        return lower_left, lower_right, upper_right, upper_left


Mark = Line | Circle | Label


@dataclass(frozen=True)
class Box:
    """A rectangle [mm]."""

    left: float
    low: float
    right: float
    high: float

    @property
    def width(self) -> float:
        """[mm]."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """[mm]."""
        return self.high - self.low

    def grown(self, by: float) -> Box:
        """Return it with a margin all round [mm]."""
        return Box(self.left - by, self.low - by, self.right + by, self.high + by)


def bounds(marks: Iterable[Mark]) -> Box:
    """Return the rectangle that marks lie in."""
    points = [point for mark in marks for point in mark.corners]
    across, up = ([point[i] for point in points] for i in (0, 1))
    return Box(min(across), min(up), max(across), max(up))


@dataclass(frozen=True)
class Drawing:
    """Marks of one picture.

    Attributes
    ----------
    id : str
        For file names: ``side``, ``holes``, ``arm``.
    title : str
        Said in the sheet's corner.
    marks : tuple of Mark
        In mm of the real thing, the origin where the drawing says.
    scale : float
        Paper over real that its letters and gaps were laid out for. Pens are on paper.
    tells : str
        The same in a sentence, for those who cannot see it.
    """

    id: str
    title: str
    marks: tuple[Mark, ...]
    scale: float = 1.0
    tells: str = ""

    @property
    def box(self) -> Box:
        """The rectangle it lies in [mm of the real thing]."""
        return bounds(self.marks)

    def placed(self, dx: float = 0.0, dy: float = 0.0) -> tuple[Mark, ...]:
        """Return its marks on paper, its origin at (dx, dy) [mm]."""
        return tuple(mark.moved(self.scale, dx, dy) for mark in self.marks)
