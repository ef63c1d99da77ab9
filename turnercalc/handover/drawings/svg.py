"""Drawings as SVG: a sheet at true size, or a picture to put into a page."""

from __future__ import annotations

from html import escape

from turnercalc.handover.drawings.marks import PENS, Box, Circle, Drawing, Label, Line, Mark

#: How a page may be told which letters to use; drawings name no font that could be missing.
FONT = "DejaVu Sans, Verdana, Arial, sans-serif"


def sheet_svg(marks: tuple[Mark, ...], width: float, height: float, title: str) -> str:
    """Return marks on paper as an SVG file that prints at true size.

    Parameters
    ----------
    marks : tuple of Mark
        In mm of the paper, the origin in its lower left corner.
    width, height : float
        Of the paper [mm].
    title : str
    """
    body = "\n".join(_mark(mark, 1.0) for mark in marks)
    size = f'width="{width:g}mm" height="{height:g}mm" viewBox="0 {-height:g} {width:g} {height:g}"'
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} font-family="{FONT}">\n'
        f"<title>{escape(title)}</title>\n"
        f'<rect x="0" y="{-height:g}" width="{width:g}" height="{height:g}" fill="#ffffff"/>\n'
        f"{body}\n</svg>\n"
    )


def embedded(drawing: Drawing, *, margin: float = 3.0, id_prefix: str = "") -> str:
    """Return a drawing as an ``<svg>`` element for a page, as wide as the page lets it be.

    Its viewBox is in mm of the real thing, with y down, so that a script may move its parts:
    every mark has its part as its class. Nothing in it is loaded from elsewhere.

    Parameters
    ----------
    drawing : Drawing
    margin : float
        Round it, on paper [mm].
    id_prefix : str
        Of the ids of title and description, where a page holds several.
    """
    box = drawing.box.grown(margin / drawing.scale)
    name = f"{id_prefix}{drawing.id}"
    body = "\n".join(_mark(mark, 1.0 / drawing.scale) for mark in drawing.marks)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{_view(box)}" role="img" '
        f'aria-labelledby="{name}-title {name}-desc" font-family="{FONT}">\n'
        f'<title id="{name}-title">{escape(drawing.title)}</title>\n'
        f'<desc id="{name}-desc">{escape(drawing.tells)}</desc>\n'
        f"{body}\n</svg>\n"
    )


def _view(box: Box) -> str:
    return f"{box.left:.5g} {-box.high:.5g} {box.width:.5g} {box.height:.5g}"


def _mark(mark: Mark, per_paper: float) -> str:
    """Return one mark, y turned over; `per_paper` is the drawing's mm for one mm of paper."""
    label = f' class="{escape(mark.part.replace(" ", "-"))}"' if mark.part else ""
    if isinstance(mark, Label):
        return _text(mark, label)
    pen = PENS[mark.pen]
    dashes = ",".join(f"{dash * per_paper:.4g}" for dash in pen.dashes)
    width = f"{pen.width * per_paper:.4g}"
    style = f'fill="{mark.fill or "none"}" stroke="{pen.ink}" stroke-width="{width}"'
    style += f' stroke-dasharray="{dashes}"' if dashes else ""
    if isinstance(mark, Circle):
        return (
            f'<circle{label} cx="{mark.x:.3f}" cy="{-mark.y:.3f}" r="{mark.radius:.3f}" {style}/>'
        )
    return f'<path{label} d="{_path(mark)}" {style} stroke-linejoin="round"/>'


def _path(line: Line) -> str:
    steps = "L".join(f"{x:.3f} {-y:.3f}" for x, y in line.points)
    return f"M{steps}{'Z' if line.closed else ''}"


def _text(label: Label, name: str) -> str:
    turned = (
        f' transform="rotate({-label.turn:g} {label.x:.3f} {-label.y:.3f})"' if label.turn else ""
    )
    weight = ' font-weight="bold"' if label.bold else ""
    anchor = f' text-anchor="{label.anchor}"' if label.anchor != "start" else ""
    return (
        f'<text{name} x="{label.x:.3f}" y="{-label.y:.3f}" font-size="{label.size:.4g}"'
        f"{anchor}{weight}{turned}>{escape(label.text)}</text>"
    )
