"""Plot: how long a move takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.axes import Axes

from turnercalc.handover.cycle_record import cycle_of
from turnercalc.handover.display import scale_for
from turnercalc.handover.plots.kind import PlotKind
from turnercalc.handover.plots.shared import (
    axes_for,
    run_direction,
    runs_for,
    told_loads,
)
from turnercalc.handover.strokes import INK, QUIET, STROKES, draw, dress
from turnercalc.turners.wording import wording_of as words_of_turner

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing


def draw_it(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw the tilt against the seconds since the start of a move, both moves of a cycle.

    Parameters as for the torque plot.
    """
    from turnercalc.mechanics.motion import times_along

    ax = axes_for(ax)
    cycle = cycle_of(sizing)
    demand, runs = runs_for(sizing)
    swings = sizing.turner.coordinate_unit == "rad"
    scale = scale_for("angle" if swings else "length", system)
    direction = run_direction(sizing)
    planned_loads = [i for i, case in enumerate(cycle.loads) if case.planned]
    for (label, load), stroke in zip(told_loads(sizing), STROKES, strict=False):
        pace = runs.speed[planned_loads.index(load), direction]
        for number, span in enumerate(demand.move_spans):
            at = demand.indices(span)
            places = demand.places(span) / demand.stages_ratio
            q, speeds = np.unwrap(cycle.motion.coordinate[at]), pace[at]
            if direction == 1:
                q, places, speeds = q[::-1], -places[::-1], speeds[::-1]
            seconds = times_along(places, speeds)
            draw(ax, seconds, scale.per_si * q, stroke, label if number == 0 else "")
    ax.axhline(0.0, color=QUIET, linewidth=0.8)
    ax.set_xlim(left=0.0)
    ax.set_xlabel("time since the motor was switched on, s", fontsize=9, color=INK)
    who = f" with {sizing.chosen.motor.id}" if sizing.chosen else ""
    dress(
        ax,
        f"How long a move takes{who}, to either side",
        f"{words_of_turner(sizing.turner).coordinate if swings else 'slide'}, {scale.symbol}",
        legend_below=2,
    )
    return ax


KIND = PlotKind("time", "how long a move takes", draw_it)
