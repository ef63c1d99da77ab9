"""Drawings as DXF, in mm of the real thing, for a laser cutter or another drawing program."""

from __future__ import annotations

import io
from typing import Any

from turnercalc.errors import OutputError
from turnercalc.handover.drawings.marks import Circle, Drawing, Label, Line

#: Part of a mark -> layer; all else goes to NOTES, which a cutter leaves out.
LAYERS = {"cut": "CUT", "holes": "CUT", "box": "BOX", "centre": "CENTRES", "swept": "SWEPT"}
NOTES = "NOTES"
_ALIGN = {"start": "BOTTOM_LEFT", "middle": "BOTTOM_CENTER", "end": "BOTTOM_RIGHT"}


def as_dxf(drawing: Drawing) -> str:
    """Return a drawing as DXF text (R2010, units of mm).

    Raises
    ------
    OutputError
        The package ezdxf is not there.
    """
    try:
        from ezdxf import units
        from ezdxf.document import Drawing as Document
        from ezdxf.enums import TextEntityAlignment
    except ImportError:
        raise OutputError(
            "DXF needs the package ezdxf. Install it with   pip install 'turnercalc[dxf]'   "
            "or write .svg or .pdf."
        ) from None
    document: Any = Document.new("R2010")
    document.units = units.MM
    for layer in sorted({*LAYERS.values(), NOTES}):
        document.layers.add(layer)
    space: Any = document.modelspace()
    for mark in drawing.marks:
        style = {"layer": LAYERS.get(mark.part, NOTES)}
        if isinstance(mark, Line) and mark.pen == "white":
            continue  # white behind a figure would be a line to cut
        if isinstance(mark, Line):
            space.add_lwpolyline(mark.points, close=mark.closed, dxfattribs=style)
        elif isinstance(mark, Circle):
            space.add_circle((mark.x, mark.y), mark.radius, dxfattribs=style)
        elif isinstance(mark, Label):
            text = space.add_text(
                mark.text, height=0.72 * mark.size, rotation=mark.turn, dxfattribs=style
            )
            text.set_placement((mark.x, mark.y), align=TextEntityAlignment[_ALIGN[mark.anchor]])
    content = io.StringIO()
    document.write(content)
    return content.getvalue()
