"""Plot: the torque at the motor's own shaft, for every planned load."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.axes import Axes
from numpy.typing import NDArray

from turnercalc.errors import TurnercalcError
from turnercalc.handover.cycle_record import cycle_of
from turnercalc.handover.display import scale_for
from turnercalc.handover.plots.families import draw_families
from turnercalc.handover.plots.kind import PlotKind
from turnercalc.handover.plots.shared import (
    all_round,
    along_position,
    axes_for,
    margin_band,
    run_direction,
)
from turnercalc.handover.strokes import QUIET, dress

if TYPE_CHECKING:
    from turnercalc.loads import Family
    from turnercalc.sizing import Sizing

Array = NDArray[np.float64]


def draw_it(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw what the motor feels, behind all external stages, and what it dependably gives.

    Parameters as for the torque plot.
    """
    ax = axes_for(ax)
    cycle, demand = cycle_of(sizing), sizing.demand
    if demand is None:
        raise TurnercalcError("Nothing can be asked of a motor here.")
    turns = sizing.drive.position_unit == "rad"
    scale = scale_for("torque" if turns else "force", system)
    direction = run_direction(sizing)
    place = along_position(sizing, ax, system)
    planned = [i for i, case in enumerate(cycle.loads) if case.planned]
    told = [family for family in sizing.families if family.planned]

    def felt(family: Family) -> Array:
        torque = demand.torque[planned.index(family.worst), direction]
        return all_round(sizing, scale.per_si * np.where(np.isfinite(torque), torque, np.nan))

    draw_families(sizing, ax, place, felt, families=told)
    ax.axhline(0.0, color=QUIET, linewidth=0.8)
    chosen = sizing.chosen
    if chosen is not None and chosen.dependable is not None:
        margin_band(ax, chosen.motor.id, chosen.dependable, demand.safety_factor, scale)
    stages = sizing.stages.ratio
    behind = f", behind stages of {stages:g} to 1" if sizing.stages.stages else ""
    dress(
        ax,
        f"What the motor feels at its own shaft{behind} (positive: it pushes)",
        f"motor {'torque' if turns else 'push'}, {scale.symbol}",
        legend_below=2,
    )
    return ax


KIND = PlotKind("motor", "the torque at the motor's own shaft, with what it gives", draw_it)
