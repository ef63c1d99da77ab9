"""The mechanism to scale, ready to move: a still picture, and where each part goes."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from turnercalc.handover.drawings import (
    Circle,
    Drawing,
    Line,
    Mark,
    box_marks,
    embedded,
    sight_marks,
    swept_marks,
    track_marks,
)
from turnercalc.parts.frames import Frames, MovingPart, Placed, frames

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing

PER_METRE = 1e3
#: Paper over real that pens are laid out for.
SCALE = 0.25


@dataclass(frozen=True)
class Picture:
    """The picture of a page.

    Attributes
    ----------
    svg : str
        The still picture: box, swept outline, every part at one end.
    parts : list
        For the script: what each moving part does in every frame, in mm with y down.
    frames : Frames or None
        None where the drive does not close.
    """

    svg: str
    parts: list[dict[str, Any]]
    frames: Frames | None


def picture(sizing: Sizing) -> Picture:
    """Return the side view of a design as a page shows it."""
    still: list[Mark] = list(box_marks(sizing))
    where = sizing.design.drawn_from
    title = f"The turner to scale, seen from {where}"
    cycle = sizing.cycle
    if cycle is None:
        text = f"{sizing.design.name}: it does not go through its cycle, so nothing moves here."
        return Picture(embedded(Drawing("turner", title, tuple(still), SCALE, text)), [], None)
    still += [*swept_marks(sizing), *track_marks(sizing)]
    found = frames(sizing.turner, sizing.drive, cycle)
    moving = [mark for part in found.moving for mark in _shown(part, found.high_end)]
    fixed = [mark for sight in found.still for mark in sight_marks(sight, 0)]
    drawing = Drawing("turner", title, (*still, *fixed, *moving), SCALE, _tells(sizing))
    parts = [record for part in found.moving for record in _records(part, found.high_end)]
    return Picture(embedded(drawing), parts, found)


def _shown(part: MovingPart, frame: int) -> Iterator[Mark]:
    """Yield a part as it stands in a frame; its class is how the script finds it."""
    for mark in sight_marks(part.sight, frame):
        name = f"moving {mark.part}".strip()
        if isinstance(mark, Circle):
            yield Circle(mark.x, mark.y, mark.radius, mark.pen, mark.fill, name)
        elif isinstance(mark, Line):
            yield Line(mark.points, mark.pen, mark.closed, mark.fill, name)


def _records(part: MovingPart, shown: int) -> Iterator[dict[str, Any]]:
    """Yield what the marks of a part do: a matrix for each frame, or all points.

    A matrix is as SVG has it, from where the part is drawn, in mm, y down.
    """
    marks = sight_marks(part.sight, shown)
    if part.place is None:
        for index, mark in enumerate(marks):
            circle = isinstance(mark, Circle)
            rows = [index] if circle else range(len(part.sight.x))
            x, y = (PER_METRE * values[list(rows)].T for values in (part.sight.x, part.sight.y))
            points = np.stack([x, -y], axis=-1).reshape(len(x), -1)
            yield {
                "closed": isinstance(mark, Line) and mark.closed,
                "points": [[round(float(v), 2) for v in row] for row in points],
            }
        return
    matrix = _matrices(part.place.seen_from(shown))
    for _ in marks:
        yield {"matrix": matrix}


def _matrices(placed: Placed) -> list[list[float]]:
    """Return SVG's (a, b, c, d, e, f) of every frame; its y points down."""
    cos, sin = placed.turn.real, placed.turn.imag
    sign = np.where(placed.mirrored, -1.0, 1.0)
    columns = (cos, -sin, sign * sin, sign * cos)
    shifts = (PER_METRE * placed.shift.real, -PER_METRE * placed.shift.imag)
    rows = np.stack([*np.round(columns, 6), *np.round(shifts, 3)], axis=-1)
    return [[float(f"{value:g}") for value in row] for row in rows]


def _tells(sizing: Sizing) -> str:
    ends = sizing.ends
    if sizing.turner.coordinate_unit != "rad":
        return f"{sizing.design.name}: it slides {PER_METRE * ends.total:.0f} mm to and fro."
    return (
        f"{sizing.design.name}: from {math.degrees(ends.high):.1f}° to "
        f"{math.degrees(ends.low):.1f}°. The dotted outline is what moves through; keep it clear."
    )
