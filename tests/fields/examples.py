"""Sections and words that the tests of fields read."""

import math
from typing import Annotated

from turnercalc.fields import (
    AcrossFromPivot,
    Choice,
    Count,
    HeightFromPivot,
    Section,
    TiltEachSide,
    count,
    positive_length,
)

INCH = 0.0254
OUNCE = 0.45359237 / 16
DEG = math.pi / 180

LIE = Choice(
    "big end up",
    "on the side, along the axis",
    "on the side, across",
    also={"on the side, along the bars": "on the side, along the axis"},
)


class Crank(Section):
    radius: Annotated[float, positive_length(0.005, 0.5, help="Shaft middle to pin middle.")]
    across: AcrossFromPivot | None = None
    height: HeightFromPivot | None = None
    teeth: Annotated[int, count(8, 200)] = 12
    lie: Annotated[str, LIE] = "big end up"


class Rack(Section):
    crank: Crank
    tilt: TiltEachSide
    spare: Crank | None = None
    rows: Count = 6
