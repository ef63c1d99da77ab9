"""Design files: text to a frozen design and back, complaints, starters and questions."""

from turnercalc.design.complaints import complaint_text
from turnercalc.design.design import Design, Origin
from turnercalc.design.prereader import Note
from turnercalc.design.reader import read_design

__all__ = ["Design", "Note", "Origin", "complaint_text", "read_design"]
