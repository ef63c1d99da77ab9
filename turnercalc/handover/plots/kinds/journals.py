"""Plot: the load on the journals of every rolling bar."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.axes import Axes
from matplotlib.ticker import MaxNLocator

from turnercalc.errors import TurnercalcError
from turnercalc.handover.cycle_record import cycle_of
from turnercalc.handover.display import scale_for
from turnercalc.handover.plots.kind import PlotKind
from turnercalc.handover.plots.shared import axes_for
from turnercalc.handover.strokes import INK, STROKES, draw, dress
from turnercalc.turners.rolling_bars import RollingBars

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing

MARKS = ("o", "s", "^", "D", "v", "P", "X", "*")


def draw_it(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw the force on one journal of each bar for every planned family of loads.

    Eggs, the bar's own weight and the pull of belts are in it. Parameters as for the torque plot.
    """
    bars = sizing.turner
    if not isinstance(bars, RollingBars):
        raise TurnercalcError("Only rolling bars have a load on every bar to draw.")
    ax = axes_for(ax)
    scale = scale_for("force", system)
    cycle = cycle_of(sizing)
    number = np.arange(1.0, bars.count + 1.0)
    planned = [family for family in sizing.families if family.planned]
    for family, stroke, mark in zip(planned, STROKES, MARKS, strict=False):
        case = cycle.loads[family.worst]
        force = 0.5 * bars.bar_loads(case.cells[None].astype(float)).reshape(bars.count)
        line = draw(ax, number, scale.per_si * force, stroke, case.name)
        line.set_marker(mark)
        line.set_markersize(5)
    ax.xaxis.set_major_locator(MaxNLocator(integer=True))
    ax.set_xlabel("bar, counted from the left", fontsize=9, color=INK)
    ax.set_ylim(bottom=0.0)
    title = "What each of the two journals of a bar bears: eggs, bar and belts"
    dress(ax, title, f"force, {scale.symbol}", legend_below=2)
    return ax


KIND = PlotKind("journals", "the load on the journals of every rolling bar", draw_it)
