"""Pieces, holes and fasteners in rows: for the screen, for a sheet, for scripts."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from turnercalc import __version__
from turnercalc.advice.lengths.writing import quantity_of, setting_of
from turnercalc.handover.display import Style
from turnercalc.handover.drawings.tape import on_both, on_tape
from turnercalc.handover.ends_words import ends_told
from turnercalc.handover.layout import WIDTH, labelled, table, wrap
from turnercalc.handover.numbers import rounded
from turnercalc.parts.cutting import KERF
from turnercalc.parts.marking import INCH, SIXTEENTHS

if TYPE_CHECKING:
    from turnercalc.advice.workshop import Plan
    from turnercalc.parts.workshop import Dimension

Rows = Sequence[Sequence[str]]

#: The figure in a text such as ``220 mm below pivot``.
_FIGURE = re.compile(r"-?[\d.]+ mm")
_DEGREES = 180.0 / math.pi
#: Errors beyond this are no errors of marking [m].
HARDLY_FELT = 0.02
OWN_CHOICE = "your choice"


def blocks(plan: Plan) -> tuple[tuple[str, Rows], ...]:
    """Return headings with their tables, the first row of each the heads of its columns."""
    found = [
        ("PIECES", piece_rows(plan)),
        (f"HOLES IN THE WALL, from its lower {plan.panel.corner} corner", hole_rows(plan)),
        ("HOLES IN THE PIECES, each from the first", inner_rows(plan)),
        ("FASTENERS", fastener_rows(plan)),
        ("LENGTHS THAT DECIDE THE SWING", dimension_rows(plan)),
        ("HALF KNOWN, drawn by the middle: measure before you mark", half_known_rows(plan)),
    ]
    words = Style("us" if plan.marks.per_inch else "metric").words
    return tuple(
        (heading, [tuple(words(cell) for cell in row) for row in rows])
        for heading, rows in found
        if len(rows) > 1
    )


def half_known(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Return the lengths of what is made that are known only so far, as (name, as it was said)."""
    design = plan.marked.before.design
    return tuple(
        (path.replace(".", " ").replace("_", " "), design.origin[path].text)
        for path in design.half_known
        if not path.startswith("eggs.") and quantity_of(design, path) == "length"
    )


def half_known_notes(plan: Plan) -> tuple[str, ...]:
    """Return the same in a sentence for a sheet, at length and in short; none if all is known."""
    told = half_known(plan)
    if not told:
        return ()
    every = "; ".join(f"{name} {text}" for name, text in told)
    names = ", ".join(name for name, _ in told)
    ends = ("Half known, measure first: {}.", "Half known, see the list: {}.")
    short = f"{len(told)} lengths are half known: see the list."
    return (ends[0].format(every), ends[1].format(names), short)


def half_known_rows(plan: Plan) -> Rows:
    """Return what is half known, with the length that was taken for it."""
    return [("length", "known as"), *half_known(plan)]


def told(plan: Plan, value: float | None) -> str:
    """Return a length on the rule, and on the second one where one is wanted."""
    return OWN_CHOICE if value is None else on_both(value, plan.marks, plan.other)


def piece_rows(plan: Plan) -> Rows:
    """Return the cut list."""
    rows: list[tuple[str, ...]] = [("piece", "how many", "length", "width", "thick", "remarks")]
    for cut in plan.cuts:
        sizes = (told(plan, value) for value in (cut.length, cut.width, cut.thickness))
        of = f"{cut.piece.material}. " if cut.piece.material else ""
        rows.append((cut.piece.name, str(cut.piece.count), *sizes, f"{of}{cut.piece.says}"))
    return rows


def hole_rows(plan: Plan) -> Rows:
    """Return the holes of the wall."""
    wall = f"from the {plan.panel.corner} wall"
    base = "from the floor" if plan.panel.from_floor else f"from {plan.panel.origin or 'level'}"
    rows = [("hole", wall, base, "for")]
    for hole in plan.panel.holes:
        what = "to suit the shaft or axle" if hole.diameter is None else diameter(hole.diameter)
        note = "; measure it out, never off paper" if hole.measured_only else ""
        places = (told(plan, hole.across), told(plan, hole.up))
        rows.append((hole.name, *places, f"{what}{note}"))
    return rows


def inner_rows(plan: Plan) -> Rows:
    """Return the holes of each piece: distance from its first hole."""
    rows = [("piece", "hole", "from the first", "for")]
    for piece in plan.made.pieces:
        for hole in piece.holes:
            first = piece.holes[0]
            apart = math.hypot(hole.x - first.x, hole.y - first.y)
            what = "to suit" if hole.diameter is None else diameter(hole.diameter)
            if hole.slot and hole.diameter is not None:
                what = f"slot {1e3 * hole.diameter:.3g} mm wide"
            place = "start here" if hole is first else told(plan, apart)
            rows.append((piece.name, hole.name, place, what))
    return rows


def fastener_rows(plan: Plan) -> Rows:
    """Return what to buy."""
    rows = [("what", "how many", "for", "where")]
    rows += [
        (one.what, str(one.count), "to suit" if one.size is None else diameter(one.size), one.where)
        for one in plan.made.fasteners
    ]
    return rows


def dimension_rows(plan: Plan) -> Rows:
    """Return each length that decides the swing, what an error does, and which are critical."""
    swings = plan.sizing.turner.coordinate_unit == "rad"
    step = SIXTEENTHS.step if plan.marks.per_inch else 1e-3
    more = "1/16 in" if plan.marks.per_inch else "1 mm"
    rows = [("length", "as marked", f"{more} more moves", "keep to")]
    for one in plan.dimensions:
        moves = ", ".join(_moves(change * step, swings) for change in (one.high, -one.low))
        keep = _within(plan, one.allowed) if one.allowed < HARDLY_FELT else "not critical"
        care = "  CRITICAL" if one.critical else ""
        rows.append((_name(one), _in_words(plan, one), moves, f"{keep}{care}"))
    return rows


def _moves(change: float, swings: bool) -> str:
    return f"{_DEGREES * change:+.1f}°" if swings else f"{1e3 * change:+.1f} mm"


def _within(plan: Plan, allowed: float) -> str:
    if plan.marks.per_inch:
        return f"±{allowed / INCH:.2f} in"
    return f"±{1e3 * allowed:.1f} mm"


def _in_words(plan: Plan, one: Dimension) -> str:
    """Return a length as a design file would say it, in marks of the rule."""
    said = setting_of(plan.sizing.design, one.field, one.length)
    return _FIGURE.sub(told(plan, abs(one.length)), said, count=1)


def _name(one: Dimension) -> str:
    return one.field.replace(".", " ").replace("_", " ")


def diameter(value: float) -> str:
    """Return the diameter of a pin as shops name it."""
    return f"{1e3 * value:.3g} mm pin"


def page(plan: Plan, style: Style) -> str:
    """Return everything that goes into the workshop, for the screen."""
    sizing = plan.sizing
    lines = wrap(style.letters(f"{sizing.design.name}, seen from {sizing.design.drawn_from}"))
    lines += ["", *_as_marked(plan, style)]
    for heading, rows in blocks(plan):
        lines += ["", heading, *_table(rows, style)]
    lines += ["", *_buying(plan, style)]
    return "\n".join(lines)


def _as_marked(plan: Plan, style: Style) -> list[str]:
    """Return what rounding to the rule's marks does to the design."""
    marked, sizing = plan.marked, plan.sizing
    step = on_tape(plan.marks.step, plan.marks)
    lines = labelled(
        "As marked",
        style.letters(f"{sizing.verdict.value}: {ends_told(sizing)}."),
        margin=0,
        column=14,
    )
    if not marked.changed:
        text = f"Every length is on a mark of {step} already."
    else:
        names = ", ".join(path.replace(".", " ").replace("_", " ") for path in marked.changed)
        text = (
            f"To marks of {step} were moved: {names}. As designed it was "
            f"{marked.before.verdict.value}: {ends_told(marked.before)}."
        )
    return [*lines, *wrap(style.letters(text), 14)]


def _table(rows: Rows, style: Style) -> list[str]:
    """Return a table whose last column is broken into lines below the row where it is long."""
    cells = [[style.letters(cell) for cell in row] for row in rows]
    short = [row[:-1] for row in cells]
    lines = table(short)
    width = max(len(line) for line in lines)
    found = []
    for line, row in zip(lines, cells, strict=True):
        last = row[-1]
        if not last or width + 2 + len(last) <= WIDTH:
            found.append(f"{line.ljust(width)}  {last}".rstrip())
        else:
            found += [line.rstrip(), *wrap(last, 6)]
    return found


def _buying(plan: Plan, style: Style) -> list[str]:
    """Return how much strip to buy."""
    lines: list[str] = []
    for strip in plan.strips:
        material = f" of {strip.material}" if strip.material else ""
        pieces = f"{strip.pieces} pieces" if strip.pieces > 1 else "1 piece"
        many = f"{strip.bars} lengths" if strip.bars > 1 else "1 length"
        whole, kerf, stock = (
            style.show(value, "length", digits)
            for value, digits in ((strip.length, 3), (KERF, 1), (strip.stock, 3))
        )
        text = (
            f"Strip{material} {told(plan, strip.width)} wide: {pieces}, {whole} with saw cuts of "
            f"{kerf}; {many} of {stock}."
        )
        lines += wrap(style.letters(text))
    return lines


def as_csv(plan: Plan) -> str:
    """Return every hole as CSV: of the wall from the corner, of pieces from their first hole."""
    head = "piece,count,hole,across_mm,up_mm,across_16ths_in,up_16ths_in,for_diameter_mm"
    return "\n".join([head, *(",".join(row) for row in _csv_rows(plan))]) + "\n"


def _csv_rows(plan: Plan) -> Iterator[list[str]]:
    holes = [("wall", 1, h.name, h.across, h.up, h.diameter) for h in plan.panel.holes]
    for piece in plan.made.pieces:
        holes += [(piece.name, piece.count, h.name, h.x, h.y, h.diameter) for h in piece.holes]
    for name, count, hole, x, y, size in holes:
        sixteenths = [on_tape(value, SIXTEENTHS).removesuffix(" in") for value in (x, y)]
        millimetres = [f"{1e3 * value:.3f}" for value in (x, y)]
        across = "" if size is None else f"{1e3 * size:g}"
        yield [name, str(count), hole, *millimetres, *sixteenths, across]


def as_json(plan: Plan) -> str:
    """Return the plan for scripts; lengths in mm."""
    sizing = plan.sizing
    record: dict[str, Any] = {
        "format": "turnercalc-parts/1",
        "made_with": f"turnercalc {__version__}",
        "design": {"name": sizing.design.name, "drawn_from": sizing.design.drawn_from},
        "marked": {
            "step_mm": rounded(plan.marks.step, 1e3),
            "lengths_mm": {path: rounded(v, 1e3) for path, v in plan.marked.lengths.items()},
            "changed_from_mm": {path: rounded(v, 1e3) for path, v in plan.marked.changed.items()},
            "verdict": sizing.verdict.value,
            "ends": ends_told(sizing),
        },
        "wall": {
            "corner": f"lower {plan.panel.corner}",
            "from_floor": plan.panel.from_floor,
            "holes": [
                {
                    "name": hole.name,
                    "across_mm": rounded(hole.across, 1e3),
                    "up_mm": rounded(hole.up, 1e3),
                    "diameter_mm": rounded(hole.diameter, 1e3),
                    "measured_only": hole.measured_only,
                }
                for hole in plan.panel.holes
            ],
        },
        "pieces": [
            {
                "id": cut.piece.id,
                "name": cut.piece.name,
                "count": cut.piece.count,
                "length_mm": rounded(cut.length, 1e3),
                "width_mm": rounded(cut.width, 1e3),
                "thickness_mm": rounded(cut.thickness, 1e3),
                "material": cut.piece.material or None,
                "holes": [
                    {
                        "name": hole.name,
                        "x_mm": rounded(hole.x, 1e3),
                        "y_mm": rounded(hole.y, 1e3),
                        "diameter_mm": rounded(hole.diameter, 1e3),
                        "slot_end": hole.slot,
                    }
                    for hole in cut.piece.holes
                ],
            }
            for cut in plan.cuts
        ],
        "fasteners": [
            {
                "what": one.what,
                "count": one.count,
                "diameter_mm": rounded(one.size, 1e3),
                "where": one.where,
            }
            for one in plan.made.fasteners
        ],
        "dimensions": [
            {
                "field": one.field,
                "length_mm": rounded(one.length, 1e3),
                "critical": one.critical,
                "allowed_mm": rounded(one.allowed if math.isfinite(one.allowed) else None, 1e3),
            }
            for one in plan.dimensions
        ],
    }
    return json.dumps(record, indent=2, ensure_ascii=False) + "\n"
