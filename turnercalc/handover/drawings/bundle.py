"""All drawings of a plan on sheets, and the files they become."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

from turnercalc.errors import OutputError
from turnercalc.handover.drawings import sheets
from turnercalc.handover.drawings.holes import hole_drawing
from turnercalc.handover.drawings.lists import table_drawing
from turnercalc.handover.drawings.marks import Drawing, Mark
from turnercalc.handover.drawings.sheets import Heading, Paper, Sheet
from turnercalc.handover.drawings.side import scene_marks, side_view
from turnercalc.handover.drawings.svg import sheet_svg
from turnercalc.handover.drawings.templates import template
from turnercalc.handover.ends_words import ends_told
from turnercalc.handover.parts_list import blocks, half_known_notes

if TYPE_CHECKING:
    from turnercalc.advice.workshop import Plan

#: What can be drawn, in the order of the sheets.
WHAT = ("side", "holes", "templates", "lists")
KINDS = ("pdf", "svg", "dxf")

MEASURE = (
    "Measure every hole from the corner with the dot ({corner} wall), never from the last hole."
)
SHAFT = "Never take the shaft's distance from the pivots off paper."
CHECK = "Check the ruler before you punch: paper and printers stretch."
JOIN = "Join the tiles on the crosses, then check hole to hole with a rule."


def sheets_of(
    plan: Plan,
    what: Sequence[str] = WHAT,
    *,
    paper: Paper = sheets.PAPERS["a4"],
    system: str = "metric",
    behind: bool = False,
) -> tuple[Sheet, ...]:
    """Return the sheets of a plan.

    Parameters
    ----------
    plan : Plan
    what : sequence of str
        Out of `WHAT`.
    paper : Paper
    system : str
        ``metric``, ``us`` or ``both``.
    behind : bool
        Whether holes and templates are drawn as seen from the other side.
    """
    design = plan.sizing.design
    heading = Heading(design.name, design.drawn_from, half_known_notes(plan))
    found: list[Sheet] = []
    if "side" in what:
        scene = scene_marks(plan.sizing)

        def side(scale: float) -> Drawing:
            return side_view(plan.sizing, scale=scale, system=system, scene=scene)

        drawing = fitted(side, paper)
        marked = f"As marked: {ends_told(plan.sizing)}. Dotted: keep it clear."
        found.append(sheets.one_sheet(drawing, paper, heading, [marked]))
    if "holes" in what:
        drawing = fitted(lambda scale: _holes(plan, scale, behind=behind), paper)
        found.append(
            sheets.one_sheet(
                drawing, paper, heading, [MEASURE.format(corner=plan.panel.corner), SHAFT]
            )
        )
    if "templates" in what:
        found += _template_sheets(plan, paper, heading, behind=behind)
    if "lists" in what:
        found += list_sheets(plan, paper, heading)
    return tuple(found)


def fitted(draw: Callable[[float], Drawing], paper: Paper) -> Drawing:
    """Return a drawing at the largest scale at which it goes on a paper.

    `draw` makes it for a scale; its letters take more of the room at a smaller one.
    """
    room = sheets.field(paper)
    for scale in sheets.SCALES:
        drawing = draw(scale)
        if scale * drawing.box.width <= room.width and scale * drawing.box.height <= room.height:
            return drawing
    return drawing


def _holes(plan: Plan, scale: float, *, behind: bool) -> Drawing:
    seen_from = plan.sizing.design.drawn_from
    return hole_drawing(
        plan.panel, plan.marks, seen_from, scale=scale, other=plan.other, behind=behind
    )


def templates_of(plan: Plan, *, behind: bool = False) -> tuple[Drawing, ...]:
    """Return the templates of all small pieces with holes, at true size."""
    seen_from = plan.sizing.design.drawn_from
    return tuple(
        template(piece, plan.marks, seen_from, other=plan.other, behind=behind)
        for piece in plan.made.pieces
        if piece.template and (piece.holes or piece.edge_line)
    )


def _template_sheets(plan: Plan, paper: Paper, heading: Heading, *, behind: bool) -> list[Sheet]:
    """Return templates, several to a sheet where they go on one."""
    found: list[Sheet] = []
    small: list[Drawing] = []
    room = sheets.field(paper)
    for drawing in templates_of(plan, behind=behind):
        if drawing.box.width <= room.width and drawing.box.height <= room.height:
            small.append(drawing)
        else:
            found += sheets.tiled(drawing, paper, heading, [CHECK, JOIN])
    together = [
        sheets.one_sheet(drawing, paper, heading, [CHECK, SHAFT])
        for drawing in packed(small, paper)
    ]
    return [*together, *found]


def packed(drawings: Iterable[Drawing], paper: Paper) -> tuple[Drawing, ...]:
    """Return drawings at true size put side by side, as many to a sheet as go."""
    room, gap = sheets.field(paper), 8.0
    groups: list[list[tuple[Drawing, float, float]]] = []
    x = y = row = 0.0
    for drawing in sorted(drawings, key=lambda d: -d.box.height):
        box = drawing.box
        if groups and x + box.width > room.width:
            x, y, row = 0.0, y - row - gap, 0.0
        if not groups or box.height - y > room.height:
            groups.append([])
            x = y = row = 0.0
        groups[-1].append((drawing, x - box.left, y - box.high))
        x, row = x + box.width + gap, max(row, box.height)
    return tuple(_together(group) for group in groups)


def _together(group: Sequence[tuple[Drawing, float, float]]) -> Drawing:
    marks = [mark for drawing, dx, dy in group for mark in drawing.placed(dx, dy)]
    names = [drawing.title.removeprefix("Template: ") for drawing, _, _ in group]
    title = f"Template{'s' if len(group) > 1 else ''}: {'; '.join(names)}"
    ids = "-".join(drawing.id for drawing, _, _ in group)
    return Drawing(f"template-{ids}", title, tuple(marks), tells=title)


def list_sheets(plan: Plan, paper: Paper, heading: Heading) -> list[Sheet]:
    """Return the lists on as many sheets as they take."""
    room = sheets.field(paper)
    whole = table_drawing("Pieces, holes and fasteners", blocks(plan), room.width)
    box = whole.box
    if box.height <= room.height:
        return [_from_top(whole, paper, heading)]
    found, rest = [], list(blocks(plan))
    while rest:
        count = len(rest)
        while count > 1 and _height(rest[:count], room.width) > room.height:
            count -= 1
        part = table_drawing("Pieces, holes and fasteners", rest[:count], room.width)
        found.append(_from_top(part, paper, heading))
        rest = rest[count:]
    return found


def _height(some: Sequence[tuple[str, Sequence[Sequence[str]]]], width: float) -> float:
    return table_drawing("", some, width).box.height


def _from_top(drawing: Drawing, paper: Paper, heading: Heading) -> Sheet:
    room = sheets.field(paper)
    marks: tuple[Mark, ...] = drawing.placed(room.left, room.high)
    return Sheet(
        drawing.id,
        drawing.title,
        paper,
        (*marks, *sheets.frame(paper, heading, drawing, to_scale=False)),
    )


def files(
    plan: Plan,
    kind: str,
    what: Sequence[str] = WHAT,
    *,
    stem: str,
    paper: Paper = sheets.PAPERS["a4"],
    system: str = "metric",
    behind: bool = False,
) -> Mapping[str, str | bytes]:
    """Return file name -> content.

    Parameters
    ----------
    plan, what, paper, system, behind
        As for `sheets_of`.
    kind : str
        ``pdf`` (all sheets in one file), ``svg`` (a file for each sheet) or ``dxf`` (a file for
        each drawing, at true size; lists are no drawing).
    stem : str
        How every name begins.
    """
    if kind == "dxf":
        from turnercalc.handover.drawings.dxf import as_dxf

        flat: list[Drawing] = []
        if "side" in what:
            flat.append(side_view(plan.sizing, scale=0.2, system=system))
        if "holes" in what:
            flat.append(_holes(plan, 0.2, behind=behind))
        if "templates" in what:
            flat += templates_of(plan, behind=behind)
        if not flat:
            raise OutputError("Lists are no drawing: write them as .pdf or .svg.")
        return {f"{stem}-{drawing.id}.dxf": as_dxf(drawing) for drawing in flat}
    found = sheets_of(plan, what, paper=paper, system=system, behind=behind)
    if not found:
        raise OutputError("Nothing here has a template: there is no small piece with holes.")
    if kind == "svg":
        named = _numbered(found)
        return {
            f"{stem}-{name}.svg": sheet_svg(
                sheet.marks, paper.width, paper.height, f"{sheet.title}: {plan.sizing.design.name}"
            )
            for name, sheet in named.items()
        }
    from turnercalc.handover.drawings.pdf import pages

    return {f"{stem}.pdf": pages(found)}


def _numbered(found: Sequence[Sheet]) -> dict[str, Sheet]:
    """Return sheets by names of their own."""
    named: dict[str, Sheet] = {}
    for sheet in found:
        name, number = sheet.id, 2
        while name in named:
            name, number = f"{sheet.id}-{number}", number + 1
        named[name] = sheet
    return named
