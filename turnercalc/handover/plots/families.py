"""Lines for the loads: as many as a reader can tell apart by their dashes, the rest in grey."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

import numpy as np
from matplotlib.axes import Axes
from numpy.typing import NDArray

from turnercalc.handover.cycle_record import cycle_of
from turnercalc.handover.strokes import QUIET, STROKES, Stroke, draw

if TYPE_CHECKING:
    from turnercalc.loads import Family
    from turnercalc.sizing import Sizing

Array = NDArray[np.float64]

#: The loads that come first in any design, full and empty, are told whatever they take.
ALWAYS = 2
THE_REST = Stroke(QUIET, (), 0.7)
UNDER_THE_LINES = 1.5


def ranked(sizing: Sizing, families: Sequence[Family]) -> list[Family]:
    """Return families, planned ones first and of these the hardest one, in the told direction."""
    middle, direction = cycle_of(sizing).levels.index("middle"), sizing.told_direction
    return sorted(families, key=lambda f: (not f.planned, -float(f.peaks[middle, direction])))


def told_apart(
    sizing: Sizing, families: Sequence[Family]
) -> tuple[list[tuple[Family, Stroke]], list[Family]]:
    """Return the families that have a line of their own, hardest first, and all others.

    A family has the same stroke in every plot of its design.
    """
    order = ranked(sizing, families)
    first = {family.name for family in families[:ALWAYS]}
    others = [family.name for family in order if family.name not in first]
    told = first | set(others[: len(STROKES) - len(first)])
    names = [family.name for family in families if family.name in told]
    stroke = dict(zip(names, STROKES, strict=False))
    return (
        [(family, stroke[family.name]) for family in order if family.name in told],
        [family for family in order if family.name not in told],
    )


def draw_families(
    sizing: Sizing,
    ax: Axes,
    x: Array,
    values: Callable[[Family], Array],
    *,
    families: Sequence[Family] | None = None,
    heavy: bool = False,
) -> None:
    """Draw one line for every family of loads.

    Parameters
    ----------
    sizing : Sizing
        A complete result.
    ax : Axes
        Where to draw.
    x : ndarray
        Along the axis, in the unit drawn.
    values : callable
        Family -> what is drawn of it, in the unit drawn.
    families : sequence of Family, optional
        Those of the sizing by default.
    heavy : bool
        Whether the hardest planned one is drawn heavier.
    """
    loads = cycle_of(sizing).loads
    told, rest = told_apart(sizing, sizing.families if families is None else families)
    for i, (family, stroke) in enumerate(told):
        name = loads[family.worst].name
        draw(
            ax,
            x,
            values(family),
            stroke,
            name if family.planned else f"{name} (not planned)",
            faint=not family.planned,
            heavy=heavy and i == 0,
        )
    easier = "easier" if all(family.planned for family in rest) else "easier or not planned"
    for i, family in enumerate(rest):
        label = f"{len(rest)} more, {easier}" if i == 0 else ""
        draw(ax, x, values(family), THE_REST, label).set_zorder(UNDER_THE_LINES)
