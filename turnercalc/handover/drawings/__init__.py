"""Drawings of a design: pictures, templates at true size, and sheets to print.

A drawing is made of strokes, circles and labels in mm of the real thing (`marks`). It becomes an
SVG for a page (`embedded`), or sheets of paper (`sheets`) that are written as SVG or PDF, or a
DXF. Everything is drawn as seen from where the design says it is drawn from.
"""

from turnercalc.handover.drawings.marks import Circle, Drawing, Label, Line, Mark
from turnercalc.handover.drawings.side import (
    box_marks,
    pose_marks,
    side_view,
    sight_marks,
    swept_marks,
    track_marks,
    walls,
)
from turnercalc.handover.drawings.svg import embedded

__all__ = [
    "Circle",
    "Drawing",
    "Label",
    "Line",
    "Mark",
    "box_marks",
    "embedded",
    "pose_marks",
    "side_view",
    "sight_marks",
    "swept_marks",
    "track_marks",
    "walls",
]
