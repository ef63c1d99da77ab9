"""Templates at true size for small pieces: crank, arm, link, tie bar."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations

import numpy as np

from turnercalc.handover.display import inches
from turnercalc.handover.drawings import measures
from turnercalc.handover.drawings.marks import (
    Circle,
    Drawing,
    Label,
    Line,
    Mark,
    Point,
    bounds,
)
from turnercalc.handover.drawings.tape import on_both
from turnercalc.parts.marking import Marks
from turnercalc.parts.outlines import convex_hull
from turnercalc.pieces import Hole, Piece

PER_METRE = 1e3
UNKNOWN_RADIUS = 2.0  # mm, of a hole that is bored to suit what is bought
ROUND_STEPS = 24  # points of half a circle
LINE = 4.2  # from one line of words to the next [mm]
STRAIGHT = 0.05  # mm; holes nearer to a line are in it
TURN_ABOVE = 170.0  # mm; a piece longer than this is drawn upright
BESIDE = 120.0  # mm; beside a piece wider than this no words fit on a sheet


def template(
    piece: Piece,
    marks: Marks,
    seen_from: str,
    *,
    other: Marks | None = None,
    behind: bool = False,
) -> Drawing:
    """Return a piece at true size, with its holes to punch and their distances.

    Parameters
    ----------
    piece : Piece
        With at least one hole, or an edge of its own.
    marks : Marks
        Of the rule it is checked with.
    seen_from : str
        Where the design is drawn from: that face is towards you.
    other : Marks, optional
        Of a second rule, told in brackets.
    behind : bool
        Whether to draw it as seen from the other side: its mirror picture.
    """
    places = _places(piece, [(hole.x, hole.y) for hole in piece.holes], behind)
    edge = PER_METRE * piece.edge
    drawn: list[Mark] = []
    if piece.edge_line:
        drawn += _own_edge(_places(piece, piece.edge_line, behind), marks, other)
    else:
        drawn += _outline(piece, places, edge)
    for hole, (x, y) in zip(piece.holes, places, strict=True):
        radius = 0.5 * PER_METRE * hole.diameter if hole.diameter else UNKNOWN_RADIUS
        drawn += measures.hole(x, y, radius, 1.0)
    if len(places) > 1:
        drawn += _distances(piece, places, edge, marks, other)
    face = f"this face looks {'away from' if behind else 'to'} {seen_from}"
    drawn += _words(piece, drawn, face, marks)
    many = f", {piece.count} of it" if piece.count > 1 else ""
    return Drawing(
        id=piece.id,
        title=f"Template: {piece.name}{many}",
        marks=tuple(drawn),
        scale=1.0,
        tells=f"{piece.name} at true size, {face}.",
    )


def _places(piece: Piece, points: Sequence[Point], behind: bool) -> list[Point]:
    """Return points of a piece on paper; a long piece is turned upright [mm]."""
    way = -1.0 if behind else 1.0
    every = [*piece.edge_line, *((hole.x, hole.y) for hole in piece.holes)]
    wide = max(x for x, _ in every) - min(x for x, _ in every)
    margin = 0.0 if piece.edge_line else 2.0 * piece.edge
    placed = [(way * PER_METRE * x, PER_METRE * y) for x, y in points]
    if PER_METRE * (wide + margin) > TURN_ABOVE:
        return [(-y, x) for x, y in placed]
    return placed


def _own_edge(points: Sequence[Point], marks: Marks, other: Marks | None) -> list[Mark]:
    """Return an edge of its own, with its width and height."""
    line = Line(tuple(points), "line", closed=True, part="cut")
    box = bounds([line])
    width, height = (on_both(size / PER_METRE, marks, other) for size in (box.width, box.height))
    beyond = 7.0
    return [
        line,
        *measures.across(box.left, box.right, box.low - beyond, width, 1.0, feet=(box.low,) * 2),
        *measures.upright(box.low, box.high, box.left - beyond, height, 1.0, feet=(box.left,) * 2),
    ]


def _outline(piece: Piece, places: Sequence[Point], edge: float) -> list[Mark]:
    """Return the edge to cut along."""
    if piece.shape == "disc":
        (x, y), reach = places[0], max(math.dist(places[0], place) for place in places)
        # A disc too large for a sheet is drawn as the strip that does the same.
        if 2.0 * (reach + edge) <= TURN_ABOVE:
            return [Circle(x, y, reach + edge, "line", part="cut")]
    first, last = max(
        combinations(places, 2), key=lambda pair: math.dist(*pair), default=(places[0], places[0])
    )
    if any(_off_line(first, last, place) > STRAIGHT for place in places):
        return [Line(_plate(places, edge), "line", closed=True, part="cut")]
    return [Line(_slot(first, last, edge), "line", closed=True, part="cut")]


def _off_line(first: Point, last: Point, place: Point) -> float:
    """Return how far a place lies beside the line through two others."""
    (x0, y0), (x1, y1), (x, y) = first, last, place
    length = math.dist(first, last)
    return abs((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)) / length if length else 0.0


def _plate(places: Sequence[Point], edge: float) -> tuple[Point, ...]:
    """Return a plate with round corners about holes that are not in one line."""
    turns = [math.pi * i / ROUND_STEPS for i in range(2 * ROUND_STEPS)]
    rims = [(x + edge * math.cos(t), y + edge * math.sin(t)) for x, y in places for t in turns]
    return tuple((float(x), float(y)) for x, y in convex_hull(np.array(rims)))


def _slot(first: Point, last: Point, edge: float) -> tuple[Point, ...]:
    """Return a strip with round ends about two points."""
    along = math.atan2(last[1] - first[1], last[0] - first[0])
    turns = [math.pi * i / ROUND_STEPS for i in range(ROUND_STEPS + 1)]
    ends = [(last, along - 0.5 * math.pi), (first, along + 0.5 * math.pi)]
    return tuple(
        (x + edge * math.cos(start + turn), y + edge * math.sin(start + turn))
        for (x, y), start in ends
        for turn in turns
    )


def _distances(
    piece: Piece, places: Sequence[Point], edge: float, marks: Marks, other: Marks | None
) -> list[Mark]:
    """Return the distance of every hole from the first, never from one to the next."""
    drawn: list[Mark] = []
    first = places[0]
    for number, (hole, place) in enumerate(zip(piece.holes[1:], places[1:], strict=True)):
        told = on_both(_apart(piece.holes[0], hole), marks, other)
        drawn += _slanted(first, place, edge + 7.0 + 7.0 * number, told)
    return drawn


def _apart(one: Hole, other: Hole) -> float:
    return math.hypot(one.x - other.x, one.y - other.y)


def _slanted(first: Point, last: Point, aside: float, told: str) -> list[Mark]:
    """Return a dimension beside the line through two holes, level or at any slant."""
    length = math.dist(first, last)
    ux, uy = (last[0] - first[0]) / length, (last[1] - first[1]) / length
    # Always below or to the left of the piece, and read from below or from the right.
    side = -1.0 if ux > 1e-9 or (abs(ux) <= 1e-9 and uy < 0.0) else 1.0
    nx, ny = -uy * side, ux * side

    def shifted(point: Point, by: float) -> Point:
        return point[0] + by * nx, point[1] + by * ny

    a, b = shifted(first, aside), shifted(last, aside)
    turn = math.degrees(math.atan2(uy, ux))
    turn = turn - 180.0 if turn > 90.0 + 1e-9 else turn + 180.0 if turn <= -90.0 + 1e-9 else turn
    middle = (0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1]))
    up = math.radians(turn + 90.0)
    text_x, text_y = (
        middle[0] + measures.GAP * math.cos(up),
        middle[1] + measures.GAP * math.sin(up),
    )
    return [
        *measures.arrowed(a, b, (ux, uy), 1.0),
        Label(text_x, text_y, told, measures.TEXT, "middle", turn, part="measure"),
        Line((first, shifted(first, aside + measures.BEYOND)), "thin", part="measure"),
        Line((last, shifted(last, aside + measures.BEYOND)), "thin", part="measure"),
    ]


def _words(piece: Piece, drawn: Sequence[Mark], face: str, marks: Marks) -> list[Mark]:
    """Return name, face and holes in words: above the piece, or beside one that stands upright."""
    box = bounds(drawn)
    holes = [f"{hole.name}: {_bore(hole, marks)}" for hole in piece.holes]
    told = [f"{face[0].upper()}{face[1:]}.", *_joined(holes)]
    beside = box.height > TURN_ABOVE and box.width <= BESIDE
    x = box.right + 5.0 if beside else box.left
    y = box.high - 5.0 if beside else box.high + 4.5 + LINE * len(told)
    head = Label(x, y, f"{piece.name} x {piece.count}", 4.0, bold=True)
    lines = [Label(x, y - 0.6 - LINE * (i + 1), line, 2.8) for i, line in enumerate(told)]
    return [head, *lines]


def _bore(hole: Hole, marks: Marks) -> str:
    if not hole.diameter:
        return "bored to suit"
    size = inches(hole.diameter) if marks.per_inch else f"{PER_METRE * hole.diameter:g} mm"
    return f"bore {size}" if hole.slot else f"hole for {size}"


def _joined(holes: Sequence[str]) -> list[str]:
    """Return holes in words, equal ones once, two to a line."""
    kept: dict[str, int] = {}
    for hole in holes:
        name, _, rest = hole.partition(": ")
        key = f"{name.rstrip(' 0123456789')}: {rest}"
        kept[key] = kept.get(key, 0) + 1
    told = [f"{n} x {key}" if n > 1 else key for key, n in kept.items()]
    return ["; ".join(told[i : i + 2]) for i in range(0, len(told), 2)]
