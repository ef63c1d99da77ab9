"""Plot: how fast it moves with the motor."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.axes import Axes

from turnercalc.drives.wording import wording_of
from turnercalc.handover.cycle_record import cycle_of
from turnercalc.handover.display import scale_for
from turnercalc.handover.plots.kind import PlotKind
from turnercalc.handover.plots.shared import (
    all_round,
    along_position,
    axes_for,
    run_direction,
    runs_for,
    told_loads,
)
from turnercalc.handover.strokes import STROKES, draw, dress

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing


def draw_it(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw how fast the part moves over the turn cycle with the chosen motor.

    Parameters as for the torque plot.
    """
    ax = axes_for(ax)
    cycle = cycle_of(sizing)
    _, runs = runs_for(sizing)
    swings = sizing.turner.coordinate_unit == "rad"
    scale = scale_for("swing" if swings else "speed", system)
    place = along_position(sizing, ax, system)
    direction, words = run_direction(sizing), wording_of(sizing.drive)
    planned_loads = [i for i, case in enumerate(cycle.loads) if case.planned]
    for (label, load), stroke in zip(told_loads(sizing), STROKES, strict=False):
        pace = runs.speed[planned_loads.index(load), direction]
        values = np.abs(cycle.motion.rate * pace)
        draw(ax, place, scale.per_si * all_round(sizing, values), stroke, label)
    ax.set_ylim(bottom=0.0)
    dress(
        ax,
        f"How fast it moves with {sizing.chosen.motor.id}, {words.moving} {words.ways[direction]}"
        if sizing.chosen
        else "How fast it moves",
        f"speed, {scale.symbol}",
        legend_below=2,
    )
    return ax


KIND = PlotKind("speed", "how fast it moves with the motor", draw_it)
