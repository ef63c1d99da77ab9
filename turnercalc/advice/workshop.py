"""Everything that goes into the workshop: pieces, holes, cuts, what to take care of."""

from __future__ import annotations

import math
from dataclasses import dataclass

from turnercalc.advice.as_marked import AsMarked, as_marked
from turnercalc.motors import MotorFile
from turnercalc.parts.cutting import STOCK, STOCK_US, Cut, Strip, cut_list, strips
from turnercalc.parts.marking import METRIC, SIXTEENTHS, THIRTY_SECONDS, Marks
from turnercalc.parts.workshop import Dimension, Panel, dimensions, made_for, panel
from turnercalc.pieces import Made
from turnercalc.sizing import Sizing

#: Units on the page -> the rule that is marked with, and a second one told in brackets.
RULES: dict[str, tuple[Marks, Marks | None]] = {
    "metric": (METRIC, None),
    "us": (THIRTY_SECONDS, None),
    "both": (METRIC, SIXTEENTHS),
}


@dataclass(frozen=True)
class Plan:
    """What a builder takes into the workshop; every length of it is on a mark of the rule.

    Attributes
    ----------
    marked : AsMarked
        The design as marked, sized again.
    made : Made
        Pieces, holes and fasteners of that.
    panel : Panel
        The wall's holes from the datum corner.
    dimensions : tuple of Dimension
        The lengths that decide the swing, the most telling first; none where it does not close.
    cuts, strips : tuple
        Cut list, and the stock for it.
    other : Marks or None
        A second rule, told in brackets.
    """

    marked: AsMarked
    made: Made
    panel: Panel
    dimensions: tuple[Dimension, ...]
    cuts: tuple[Cut, ...]
    strips: tuple[Strip, ...]
    other: Marks | None

    @property
    def sizing(self) -> Sizing:
        """The design as marked."""
        return self.marked.sizing

    @property
    def marks(self) -> Marks:
        """The rule."""
        return self.marked.marks


def plan(
    sizing: Sizing,
    motor_file: MotorFile | None = None,
    *,
    system: str = "metric",
    corner: str = "left",
) -> Plan:
    """Return what goes into the workshop.

    Parameters
    ----------
    sizing : Sizing
        As designed.
    motor_file : MotorFile, optional
        The file it was sized with.
    system : str
        ``metric`` (half millimetres), ``us`` (1/32 in), or ``both`` (half millimetres, with
        1/16 in beside them).
    corner : str
        ``left`` or ``right``: the lower corner that holes are measured from.
    """
    marks, other = RULES[system]
    marked = as_marked(sizing, marks, motor_file)
    found = marked.sizing
    made = made_for(found.turner, found.drive, found.ingredients)
    box = found.design["box"]
    cuts = cut_list(made.pieces)
    swings = math.isfinite(found.ends.total)
    return Plan(
        marked=marked,
        made=made,
        panel=panel(found.turner, made, box.width, box.height, marks, corner),
        dimensions=dimensions(found.turner, found.drive) if swings else (),
        cuts=cuts,
        strips=strips(cuts, STOCK_US if marks.per_inch else STOCK),
        other=other,
    )
