"""The hole drawing: every hole of the wall that carries the turner, from one corner."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from turnercalc.handover.drawings import measures
from turnercalc.handover.drawings.marks import Circle, Drawing, Label, Line, Mark
from turnercalc.handover.drawings.tape import on_both
from turnercalc.parts.marking import Marks
from turnercalc.parts.workshop import Panel, PanelHole

PER_METRE = 1e3
#: Radius at which a hole is drawn that is bored to suit what is bought [m].
UNKNOWN_RADIUS = 4e-3
ROW = 5.0  # from one ordinate to the next on paper, at least [mm]


def hole_drawing(
    panel: Panel,
    marks: Marks,
    seen_from: str,
    *,
    scale: float = 0.2,
    other: Marks | None = None,
    behind: bool = False,
) -> Drawing:
    """Return the wall with its holes and the distance of each from the datum corner.

    Parameters
    ----------
    panel : Panel
    marks : Marks
        Of the rule it is marked with.
    seen_from : str
        Where the design is drawn from.
    scale : float
        Paper over real.
    other : Marks, optional
        Of a second rule, told in brackets.
    behind : bool
        Whether to draw it as seen from the other side.
    """
    k = 1.0 / scale
    right_wall = (panel.corner == "right") != behind
    way = -1.0 if right_wall else 1.0
    width, height = PER_METRE * panel.width, PER_METRE * panel.height
    places = [(way * PER_METRE * hole.across, PER_METRE * hole.up) for hole in panel.holes]
    lowest = min((y for _, y in places), default=0.0)
    base = 0.0 if panel.from_floor else min(lowest, 0.0)
    drawn: list[Mark] = [*_wall(panel, way * width, height, base, k)]
    for hole, (x, y) in zip(panel.holes, places, strict=True):
        radius = PER_METRE * (0.5 * hole.diameter if hole.diameter else UNKNOWN_RADIUS)
        drawn += measures.hole(x, y, max(radius, 0.8 * k), scale)
        # Above its own line to the datum wall, where no other line comes from above; beyond the
        # hole where it is too near that wall for its name.
        name = Label(0.0, 0.0, hole.name, 2.8 * k, part="label")
        inward = way if abs(x) > name.width + 5.0 * k else -way
        beside = "end" if inward > 0.0 else "start"
        drawn.append(replace(name, x=x - inward * 3.0 * k, y=y + 1.4 * k, anchor=beside))
    drawn += _ordinates(panel.holes, places, way, base, marks, other, k)
    side = f"seen from behind, not from {seen_from}" if behind else f"seen from {seen_from}"
    start = "its lower right corner" if right_wall else "its lower left corner"
    return Drawing(
        id="holes",
        title=f"Holes in the wall, {side}",
        marks=tuple(drawn),
        scale=scale,
        tells=f"Holes in the wall that carries the turner, {side}, measured from {start}.",
    )


def _wall(panel: Panel, edge: float, height: float, base: float, k: float) -> list[Mark]:
    """Return the inside of the box, and the corner that everything is measured from."""
    marks: list[Mark] = []
    if panel.from_floor:
        corners = ((0.0, 0.0), (edge, 0.0), (edge, height), (0.0, height))
        marks.append(Line(corners, "wall", closed=True, part="box"))
    else:
        marks.append(Line(((0.0, base - 20.0 * k), (0.0, base + height)), "wall", part="box"))
        marks.append(Line(((0.0, 0.0), (edge, 0.0)), "centre", part="box"))
    wall = Label(0.0, -4.6 * k, f"{panel.corner} wall", 2.4 * k, "middle", part="datum")
    marks.append(wall)
    marks.append(Circle(0.0, 0.0, 2.0 * k, "line", part="datum"))
    marks.append(Circle(0.0, 0.0, 0.8 * k, "line", "#000000", part="datum"))
    return marks


def _ordinates(
    holes: Sequence[PanelHole],
    places: Sequence[tuple[float, float]],
    way: float,
    base: float,
    marks: Marks,
    other: Marks | None,
    k: float,
) -> list[Mark]:
    """Return the distances of every hole: across below the wall, up beside the datum wall."""
    drawn: list[Mark] = []
    across = {
        round(x, 3): on_both(hole.across, marks, other)
        for hole, (x, _) in zip(holes, places, strict=True)
    }
    up = {
        round(y, 3): on_both(hole.up, marks, other)
        for hole, (_, y) in zip(holes, places, strict=True)
    }
    lows = {x: min(y for px, y in places if round(px, 3) == x) for x in across}
    nears = {y: min((px for px, py in places if round(py, 3) == y), key=abs) for y in up}
    below, beside = base - 8.0 * k, -way * 8.0 * k
    for x, at in _spread(list(across), ROW * k):
        drawn.append(Line(((x, lows[x]), (x, base - 2.0 * k), (at, below)), "thin", part="measure"))
        drawn.append(
            Label(
                at + 0.35 * measures.TEXT * k,
                below - 1.0 * k,
                across[x],
                measures.TEXT * k,
                "end",
                90.0,
                part="measure",
            )
        )
    for y, at in _spread(list(up), ROW * k):
        bend = -way * 2.0 * k
        drawn.append(Line(((nears[y], y), (bend, y), (beside, at)), "thin", part="measure"))
        drawn.append(
            Label(
                beside - way * 1.0 * k,
                at - 0.35 * measures.TEXT * k,
                up[y],
                measures.TEXT * k,
                "end" if way > 0.0 else "start",
                part="measure",
            )
        )
    return drawn


def _spread(places: list[float], least: float) -> list[tuple[float, float]]:
    """Return (place, where its figure stands): figures apart by `least`, near their places."""
    ordered = sorted(places)
    stands = list(ordered)
    for i in range(1, len(stands)):
        stands[i] = max(stands[i], stands[i - 1] + least)
    # What was pushed to one side is shifted back as a whole.
    shift = sum(s - p for s, p in zip(stands, ordered, strict=True)) / max(len(stands), 1)
    return [(place, stand - shift) for place, stand in zip(ordered, stands, strict=True)]
