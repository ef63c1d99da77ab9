"""The side view: box, both ends of the swing, and the outline of everything that is swept."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from turnercalc.handover.display import inches
from turnercalc.handover.drawings import measures
from turnercalc.handover.drawings.marks import Circle, Drawing, Label, Line, Mark, Point, bounds
from turnercalc.handover.drawings.tape import on_tape
from turnercalc.handover.ends_words import each_end, ends_told
from turnercalc.parts.marking import METRIC, THIRTY_SECONDS
from turnercalc.parts.poses import outlined, poses
from turnercalc.parts.swept import swept
from turnercalc.pieces import Makes
from turnercalc.sight import AREA, DISC, Sight

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing

PER_METRE = 1e3
Tell = Callable[[float], str]

TOUCHING = 1e-3  # mm, what is told as no distance
_CYCLE = 181
#: Sights that would hide others where they are filled.
_OPEN = ("shaft", "pivot", "pin")


def side_view(
    sizing: Sizing,
    *,
    scale: float = 0.2,
    system: str = "metric",
    sizes: bool = True,
    scene: Sequence[Mark] | None = None,
) -> Drawing:
    """Return the side view, seen along the tilt axis from where the design is drawn from.

    Parameters
    ----------
    sizing : Sizing
        Of any design; of one that does not close only box and level trays are shown.
    scale : float
        Paper over real; letters are laid out for it.
    system : str
        ``metric``, ``us`` or ``both``.
    sizes : bool
        Whether dimensions are written in.
    scene : sequence of Mark, optional
        What `scene_marks` gave for this sizing, where it is drawn at several scales.

    Returns
    -------
    Drawing
        In mm, its origin at the turner's.
    """
    marks = list(scene_marks(sizing) if scene is None else scene)
    if sizes:
        marks += _sizes(sizing, marks, scale, system)
    where = sizing.design.drawn_from
    return Drawing(
        id="side",
        title=f"Side view, seen from {where}",
        marks=tuple(marks),
        scale=scale,
        tells=_tells(sizing),
    )


def scene_marks(sizing: Sizing) -> tuple[Mark, ...]:
    """Return box, swept outline, tracks and both ends; without letters, so at any scale."""
    marks: list[Mark] = [*box_marks(sizing)]
    if not math.isfinite(sizing.ends.total):
        level = outlined(sizing.turner, np.zeros(1))
        return (*marks, *(mark for one in level for mark in sight_marks(one, 0)))
    marks += [*swept_marks(sizing), *track_marks(sizing)]
    marks += pose_marks(sizing, sizing.ends.low_position, pen="other")
    marks += pose_marks(sizing, sizing.ends.high_position)
    return tuple(marks)


def box_marks(sizing: Sizing) -> tuple[Mark, ...]:
    """Return the inside of the box, open where the origin's height above its floor is not said."""
    left, right, floor, ceiling = walls(sizing)
    if floor is None or ceiling is None:
        heights = [up for _, up in sizing.turner.stack]
        low, high = (PER_METRE * (h + s) for h, s in ((min(heights), -0.2), (max(heights), 0.2)))
        return tuple(Line(((x, low), (x, high)), "wall", part="box") for x in (left, right))
    corners = ((left, floor), (right, floor), (right, ceiling), (left, ceiling))
    return (Line(corners, "wall", closed=True, part="box"),)


def walls(sizing: Sizing) -> tuple[float, float, float | None, float | None]:
    """Return left, right, floor and ceiling of the box from the turner's origin [mm]."""
    box, turner = sizing.design["box"], sizing.turner
    from_left = turner.origin_from_left
    left = -(0.5 * box.width if from_left is None else from_left)
    up = turner.origin_height
    return (
        PER_METRE * left,
        PER_METRE * (left + box.width),
        None if up is None else -PER_METRE * up,
        None if up is None else PER_METRE * (box.height - up),
    )


def pose_marks(sizing: Sizing, position: float, *, pen: str = "line") -> tuple[Mark, ...]:
    """Return everything that moves, with the drive at one position [rad or m]."""
    motion = sizing.drive.close(sizing.turner.path(), np.array([position]))
    seen = poses(sizing.turner, sizing.drive, motion)
    return tuple(mark for sight in seen for mark in sight_marks(sight, 0, pen))


def sight_marks(sight: Sight, index: int, pen: str = "line") -> tuple[Mark, ...]:
    """Return one sight at one position as marks."""
    if sight.name == "egg":
        pen = "thin" if pen == "line" else "faint"
    x, y = sight.at(index)
    points = _points(x, y)
    if sight.shape == DISC:
        radius = PER_METRE * sight.radius
        fill = "" if sight.name in _OPEN else "#8a8a8a"
        return tuple(Circle(*point, radius, "cut", fill, sight.name) for point in points)
    return (Line(points, pen, closed=sight.shape == AREA, part=sight.name),)


def swept_marks(sizing: Sizing) -> tuple[Mark, ...]:
    """Return the outline of what every tray and its eggs pass through; keep it clear."""
    rings = swept(sizing.turner, (sizing.ends.low, sizing.ends.high))
    return tuple(
        Line(_points(x + across, y + up), "swept", part="swept")
        for across, up in sizing.turner.stack
        for x, y in rings
    )


def track_marks(sizing: Sizing) -> tuple[Mark, ...]:
    """Return the ways of the drive's pins over the whole cycle."""
    drive, turner = sizing.drive, sizing.turner
    motion = drive.close(turner.path(), drive.positions(turner.travel, _CYCLE))
    tracks = [
        _points(sight.x[i], sight.y[i])
        for sight in poses(turner, drive, motion)
        if sight.name == "pin" and not sight.stands_still
        for i in range(len(sight.x))
    ]
    return tuple(Line(t, "swept", closed=motion.round_and_round, part="track") for t in tracks)


def _points(x: object, y: object) -> tuple[Point, ...]:
    pairs = zip(np.asarray(x).tolist(), np.asarray(y).tolist(), strict=True)
    return tuple((PER_METRE * a, PER_METRE * b) for a, b in pairs)


def _sizes(sizing: Sizing, drawn: list[Mark], scale: float, system: str) -> list[Mark]:
    """Return the dimensions round the view."""
    k = 1.0 / scale
    rule = THIRTY_SECONDS if system == "us" else METRIC

    def told(millimetres: float) -> str:
        return on_tape(millimetres / PER_METRE, rule)

    left, right, floor, ceiling = walls(sizing)
    heights = [PER_METRE * up for _, up in sizing.turner.stack]
    marks: list[Mark] = []
    box = bounds(drawn)
    below = box.low - 7.0 * k
    centred = sizing.turner.origin_from_left is None
    note = " (middle)" if centred else ""
    marks += measures.across(
        left, 0.0, below, told(-left) + note, scale, feet=(box.low, heights[0])
    )
    marks += measures.across(
        left, right, below - 8.0 * k, told(right - left), scale, feet=(box.low,) * 2
    )
    side = box.left - 6.0 * k
    if floor is not None and ceiling is not None:
        steps = [floor, *heights]
        for low, high in pairwise(steps):
            if high - low < TOUCHING:
                continue
            marks += measures.upright(low, high, side, told(high - low), scale, feet=(left, 0.0))
        marks += measures.upright(
            floor, ceiling, side - 8.0 * k, told(ceiling - floor), scale, feet=(left, left)
        )
    marks += measures.backed(_room(sizing, lambda gap: whole_gap(gap, system), scale))
    marks += measures.backed(_fixed_points(sizing, box.right + 6.0 * k, told, scale))
    return [*marks, *_end_labels(sizing, bounds([*drawn, *marks]).low, k, system)]


def whole_gap(gap: float, system: str) -> str:
    """Return a gap [mm] to the millimetre, rounded as the page tells it."""
    length = round(gap) / PER_METRE
    return inches(length, 0.5 / PER_METRE) if system == "us" else f"{PER_METRE * length:.0f} mm"


def _room(sizing: Sizing, told: Tell, scale: float) -> list[Mark]:
    """Return the gaps to the side walls and the ceiling."""
    room = sizing.clearances
    if room is None:
        return []
    left, right, _, ceiling = walls(sizing)
    reach = room.reach
    stack = [up for _, up in sizing.turner.stack]
    # Among several at the pivot of the topmost; beside one alone half way up.
    level = max(stack) if len(stack) > 1 else 0.5 * (reach.low + reach.high)
    top = PER_METRE * level
    marks: list[Mark] = []
    for wall, edge in ((left, PER_METRE * reach.left), (right, PER_METRE * reach.right)):
        marks += measures.across(wall, edge, top, told(abs(wall - edge)), scale)
    if ceiling is not None:
        high = PER_METRE * reach.high
        marks += measures.upright(high, ceiling, 0.0, told(ceiling - high), scale)
    return marks


def _fixed_points(sizing: Sizing, beside: float, told: Tell, scale: float) -> list[Mark]:
    """Return where the drive stands: across and up from the lowest pivot."""
    k = 1.0 / scale
    if not isinstance(sizing.drive, Makes):
        return []
    marks: list[Mark] = []
    for fixed in sizing.drive.made(sizing.ingredients).fixed:
        x, y = PER_METRE * fixed.x, PER_METRE * fixed.y
        marks += [*measures.cross(x, y, 5.0 * k), *measures.cross(0.0, 0.0, 5.0 * k)]
        if abs(y) > TOUCHING:
            marks += measures.upright(0.0, y, beside, told(abs(y)), scale, feet=(0.0, x))
        if abs(x) > TOUCHING:
            lowest = bounds(track_marks(sizing) or marks).low
            level = min(y, lowest) - 6.0 * k
            marks += measures.across(0.0, x, level, told(abs(x)), scale, feet=(0.0, y))
    return marks


def _end_labels(sizing: Sizing, low: float, k: float, system: str) -> list[Mark]:
    """Return the two ends and the gap between neighbours in words, below everything."""
    both, room = each_end(sizing), sizing.clearances
    lines = [] if both is None else [f"drawn through: {both[0]}", f"dashed: {both[1]}"]
    if room is not None and room.neighbours is not None:
        gap = whole_gap(PER_METRE * room.neighbours, system)
        lines.append(f"least gap from one to the next, square to them: {gap}")
    left, *_ = walls(sizing)
    size, y = 3.0 * k, low - 6.0 * k
    return [Label(left, y - 4.5 * k * i, line, size, part="label") for i, line in enumerate(lines)]


def _tells(sizing: Sizing) -> str:
    """Return what the view shows in one sentence."""
    design = sizing.design
    where = f"Side view of {design.name}, seen from {design.drawn_from}"
    return f"{where}: {ends_told(sizing)}."
