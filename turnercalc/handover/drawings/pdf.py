"""Sheets as PDF at true size, through matplotlib."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import TYPE_CHECKING

from matplotlib import rc_context
from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure
from matplotlib.patches import Circle as Disc
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from turnercalc.handover.drawings.marks import PENS, Circle, Label, Line, Mark, Pen

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from turnercalc.handover.drawings.sheets import Sheet

INCH = 25.4  # mm
POINT = INCH / 72.0  # mm
_SIDES = {"start": "left", "middle": "center", "end": "right"}


def pages(sheets: Sequence[Sheet]) -> bytes:
    """Return sheets as one PDF, a page each; the same sheets give the same bytes."""
    content = io.BytesIO()
    quiet = {"CreationDate": None, "ModDate": None}
    with (
        rc_context({"pdf.fonttype": 42}),
        PdfPages(content, metadata={"Title": sheets[0].title, **quiet}) as file,
    ):
        for sheet in sheets:
            file.savefig(page(sheet))
    return content.getvalue()


def page(sheet: Sheet) -> Figure:
    """Return one sheet as a figure in which a millimetre of data is a millimetre of paper."""
    width, height = sheet.paper.width, sheet.paper.height
    figure = Figure(figsize=(width / INCH, height / INCH))
    ax = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    ax.set_xlim(0.0, width)
    ax.set_ylim(0.0, height)
    ax.axis("off")
    for order, mark in enumerate(sheet.marks):
        _put(ax, mark, order)
    return figure


def _put(ax: Axes, mark: Mark, order: int) -> None:
    if isinstance(mark, Label):
        ax.text(
            mark.x,
            mark.y,
            # A dollar sign would start mathematics.
            mark.text.replace("$", r"\$"),
            fontsize=mark.size / POINT,
            ha=_SIDES[mark.anchor],
            va="baseline",
            rotation=mark.turn,
            rotation_mode="anchor",
            fontweight="bold" if mark.bold else "normal",
            zorder=order,
        )
        return
    pen = PENS[mark.pen]
    style = {
        "edgecolor": pen.ink,
        "facecolor": mark.fill or "none",
        "linewidth": pen.width / POINT,
        "linestyle": _dashes(pen),
        "zorder": order,
    }
    if isinstance(mark, Circle):
        ax.add_patch(Disc((mark.x, mark.y), mark.radius, **style))
    else:
        ax.add_patch(PathPatch(_path(mark), joinstyle="round", capstyle="butt", **style))


def _dashes(pen: Pen) -> object:
    """Return dashes as matplotlib takes them: in widths of the line."""
    return (0.0, tuple(dash / pen.width for dash in pen.dashes)) if pen.dashes else "solid"


def _path(line: Line) -> Path:
    points = [*line.points, line.points[0]] if line.closed else [*line.points]
    return Path(points, closed=line.closed)
