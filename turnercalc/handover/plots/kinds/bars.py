"""Plot: what every rolling bar asks for itself, and with all that hangs on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.axes import Axes
from matplotlib.ticker import MaxNLocator

from turnercalc.errors import TurnercalcError
from turnercalc.handover.cycle_record import cycle_of, hardest_load
from turnercalc.handover.display import scale_for
from turnercalc.handover.plots.kind import PlotKind
from turnercalc.handover.plots.shared import axes_for
from turnercalc.handover.strokes import INK, STROKES, draw, dress
from turnercalc.joints import LEVELS
from turnercalc.turners.rolling_bars import RollingBars

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing


def draw_it(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw the torque of each bar with the hardest planned load, half way through the move.

    Alone as columns, low to high friction as whiskers; the line is what has to arrive at the bar
    for all the bars it drives, losses of their belts included, at middle friction. Parameters as
    for the torque plot.
    """
    bars = sizing.turner
    if not isinstance(bars, RollingBars):
        raise TurnercalcError("Only rolling bars have a torque at every bar to draw.")
    ax = axes_for(ax)
    scale = scale_for("torque", system)
    cells = cycle_of(sizing).loads[hardest_load(sizing)].cells[None].astype(float)
    way = (1.0, -1.0)[sizing.told_direction]
    asked = bars.bar_torques(cells, 0.0, way, LEVELS)
    carried = bars.joining.carried(asked, bars.driven_bar, bars.share_let_through(LEVELS))
    low, middle, high = scale.per_si * np.moveaxis(asked.reshape(bars.count, 3), -1, 0)
    number = np.arange(1.0, bars.count + 1.0)
    ax.bar(number, middle, width=0.5, color="#d0d0d0", edgecolor=INK, label="the bar by itself")
    whiskers = np.abs(np.array([middle - low, high - middle]))
    ax.errorbar(
        number,
        middle,
        whiskers,
        fmt="none",
        ecolor=INK,
        capsize=3,
        linewidth=1.0,
        label="low to high friction",
    )
    passed = scale.per_si * carried.reshape(bars.count, 3)[:, 1]
    line = draw(ax, number, passed, STROKES[1], "with all that it drives")
    line.set_marker("o")
    driven = bars.driven_bar
    ax.plot([number[driven]], [passed[driven]], "s", color=INK, label="the bar the motor turns")
    ax.xaxis.set_major_locator(MaxNLocator(integer=True))
    ax.set_xlabel("bar, counted from the left", fontsize=9, color=INK)
    ax.set_ylim(bottom=min(0.0, float(passed.min()), float(low.min())))
    what = f"torque, {scale.symbol}"
    dress(ax, f"What the bars ask: {_name(sizing)}, half way", what, legend_below=2)
    return ax


def _name(sizing: Sizing) -> str:
    return cycle_of(sizing).loads[hardest_load(sizing)].name


KIND = PlotKind("bars", "what every rolling bar asks, and what it hands on", draw_it)
