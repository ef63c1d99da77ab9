"""Dimension lines with arrows, laid out for paper at a scale; lengths in mm of the real thing."""

from __future__ import annotations

from collections.abc import Iterable

from turnercalc.handover.drawings.marks import Circle, Label, Line, Mark

# On paper [mm].
TEXT = 3.0
ARROW = 2.2
GAP = 1.0  # between a dimension line and its figure
BEYOND = 1.5  # how far an extension line goes past the dimension line


def across(
    x0: float, x1: float, y: float, text: str, scale: float, *, feet: tuple[float, ...] = ()
) -> tuple[Mark, ...]:
    """Return a level dimension from x0 to x1 at height y; `feet` are the heights it measures at."""
    k = 1.0 / scale
    low, high = sorted((x0, x1))
    marks: list[Mark] = [*arrowed((low, y), (high, y), (1.0, 0.0), k)]
    room = high - low - 2.0 * ARROW * k
    label = Label(0.5 * (low + high), y + GAP * k, text, TEXT * k, "middle", part="measure")
    if label.width > room + 2.0 * ARROW * k:
        label = Label(high + 3.0 * k, y - 0.35 * TEXT * k, text, TEXT * k, "start", part="measure")
    marks.append(label)
    for x, foot in zip((x0, x1), feet, strict=False):
        marks.append(_extension((x, foot), (x, y), k))
    return tuple(marks)


def upright(
    y0: float, y1: float, x: float, text: str, scale: float, *, feet: tuple[float, ...] = ()
) -> tuple[Mark, ...]:
    """Return an upright dimension from y0 to y1 at x; `feet` are the places it measures at."""
    k = 1.0 / scale
    low, high = sorted((y0, y1))
    marks: list[Mark] = [*arrowed((x, low), (x, high), (0.0, 1.0), k)]
    middle = 0.5 * (low + high)
    label = Label(x - GAP * k, middle, text, TEXT * k, "middle", 90.0, part="measure")
    if label.width > high - low:
        label = Label(x - GAP * k, middle - 0.35 * TEXT * k, text, TEXT * k, "end", part="measure")
    marks.append(label)
    for y, foot in zip((y0, y1), feet, strict=False):
        marks.append(_extension((foot, y), (x, y), k))
    return tuple(marks)


def backed(marks: Iterable[Mark]) -> list[Mark]:
    """Return marks with white behind every figure, where they lie on top of other lines."""
    found: list[Mark] = []
    for mark in marks:
        if isinstance(mark, Label):
            found.append(Line(mark.corners_round, "white", True, "#ffffff", mark.part))
        found.append(mark)
    return found


def cross(x: float, y: float, arm: float, part: str = "centre") -> tuple[Mark, ...]:
    """Return the centre lines of a hole, `arm` long to each side [mm]."""
    return (
        Line(((x - arm, y), (x + arm, y)), "thin", part=part),
        Line(((x, y - arm), (x, y + arm)), "thin", part=part),
    )


def hole(x: float, y: float, radius: float, scale: float, part: str = "holes") -> tuple[Mark, ...]:
    """Return a hole with its centre lines and a dot to punch."""
    k = 1.0 / scale
    return (
        Circle(x, y, radius, "cut", part=part),
        *cross(x, y, radius + 2.0 * k),
        Circle(x, y, 0.25 * k, "thin", "#000000", part="centre"),
    )


def arrowed(
    start: tuple[float, float], end: tuple[float, float], along: tuple[float, float], k: float
) -> tuple[Mark, ...]:
    """Return a line with an arrow head at both ends; outside where there is no room between."""
    (x0, y0), (x1, y1), (ux, uy) = start, end, along
    length = abs(x1 - x0) + abs(y1 - y0)
    inward = 1.0 if length > 2.5 * ARROW * k else -1.0
    out = 0.0 if inward > 0.0 else 2.0 * ARROW * k
    marks: list[Mark] = [
        Line(
            ((x0 - out * ux, y0 - out * uy), (x1 + out * ux, y1 + out * uy)), "thin", part="measure"
        )
    ]
    for (x, y), way in ((start, inward), (end, -inward)):
        tip = ARROW * k * way
        side = 0.16 * ARROW * k
        points = (
            (x, y),
            (x + tip * ux - side * uy, y + tip * uy + side * ux),
            (x + tip * ux + side * uy, y + tip * uy - side * ux),
        )
        marks.append(Line(points, "thin", closed=True, fill="#000000", part="measure"))
    return tuple(marks)


def _extension(foot: tuple[float, float], end: tuple[float, float], k: float) -> Line:
    """Return the line from what is measured past the dimension line."""
    (x0, y0), (x1, y1) = foot, end
    step_x, step_y = (_sign(x1 - x0) * BEYOND * k, _sign(y1 - y0) * BEYOND * k)
    return Line(((x0, y0), (x1 + step_x, y1 + step_y)), "thin", part="measure")


def _sign(value: float) -> float:
    return (value > 0.0) - (value < 0.0)
