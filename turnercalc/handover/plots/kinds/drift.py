"""Plot: where a timer alone would park it, move after move."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
from matplotlib.axes import Axes

from turnercalc.errors import TurnercalcError
from turnercalc.handover.cycle_record import cycle_of
from turnercalc.handover.display import scale_for
from turnercalc.handover.plots.kind import PlotKind
from turnercalc.handover.plots.shared import axes_for, runs_for
from turnercalc.handover.strokes import INK, QUIET, dress
from turnercalc.timing.course import course
from turnercalc.turners.wording import wording_of

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing

SMALL = 0.05  # deg of crank a move, told as none
LEAST, MOST = 48, 240  # moves that are shown


def draw_it(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw where the part parks after each run of a timer that nothing else helps.

    Parameters as for the torque plot.
    """
    cycle = cycle_of(sizing)
    _, runs = runs_for(sizing)
    timing = sizing.timing
    if timing is None or timing.drift is None:
        raise TurnercalcError("Nothing here drifts: only a crank that goes round can.")
    wander = timing.drift
    ax = axes_for(ax)
    swings = sizing.turner.coordinate_unit == "rad"
    scale = scale_for("angle" if swings else "length", system)
    seen = 3 * (wander.flat_after or MOST)
    moves = min(max(seen, LEAST), MOST, max(timing.counts.last_day_count, LEAST))
    found = course(cycle, runs, wander, moves)
    parks = scale.per_si * found.coordinate
    ax.vlines(found.move, 0.0, parks, color=QUIET, linewidth=0.5)
    ax.plot(
        found.move,
        parks,
        marker="o",
        markersize=2.5,
        linestyle="none",
        color=INK,
        label=f"parks with all eggs in, timer at {found.run_time:g} s",
    )
    flat = scale.per_si * wander.flat
    for number, edge in enumerate((flat, -flat)):
        ax.axhline(
            edge,
            color=INK,
            linewidth=1.0,
            linestyle=(0, (4, 2)),
            label="no longer an end" if number == 0 else "_",
        )
    if wander.flat_after is not None:
        ax.axvline(wander.flat_after + 1, color=QUIET, linewidth=1.0, linestyle=(0, (1, 2)))
    ax.axhline(0.0, color=QUIET, linewidth=0.8)
    ax.set_xlim(0, moves + 1)
    per_day = sizing.design["turning"].turns_per_day
    ax.set_xlabel(f"move since setting ({per_day:g} a day)", fontsize=9, color=INK)
    per_move = math.degrees(wander.per_move)
    way = "too far" if wander.per_move > 0.0 else "short"
    told = f"each move goes {abs(per_move):.1f}° of crank {way}"
    if abs(per_move) < SMALL:
        told = "by these figures it does not drift"
    dress(
        ax,
        f"With a timer alone: {told}",
        f"{wording_of(sizing.turner).coordinate if swings else 'slide'}, {scale.symbol}",
        legend_below=2,
    )
    ax.set_ylim(*(1.12 * scale.per_si * np.array([sizing.ends.low, sizing.ends.high])))
    return ax


KIND = PlotKind("drift", "where a timer alone would park it, move after move", draw_it)
