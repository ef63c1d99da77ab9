"""Plot: the force along link or rod."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.axes import Axes
from numpy.typing import NDArray

from turnercalc.drives.wording import wording_of
from turnercalc.errors import TurnercalcError
from turnercalc.handover.cycle_record import cycle_of
from turnercalc.handover.display import scale_for
from turnercalc.handover.plots.families import draw_families
from turnercalc.handover.plots.kind import PlotKind
from turnercalc.handover.plots.shared import (
    all_round,
    along_position,
    axes_for,
)
from turnercalc.handover.strokes import QUIET, dress

if TYPE_CHECKING:
    from turnercalc.loads import Family
    from turnercalc.sizing import Sizing

Array = NDArray[np.float64]


def draw_it(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw the force along the link over the turn cycle, better direction, tension positive.

    Parameters as for the torque plot.
    """
    ax = axes_for(ax)
    cycle, direction = cycle_of(sizing), sizing.told_direction
    if cycle.bar_force is None:
        raise TurnercalcError("There is no link or rod here whose force could be drawn.")
    scale = scale_for("force", system)
    bar = wording_of(sizing.drive).bar
    place = along_position(sizing, ax, system)
    middle = cycle.levels.index("middle")
    forces = cycle.bar_force[:, middle, direction]

    def force(family: Family) -> Array:
        return scale.per_si * all_round(sizing, forces[family.worst])

    draw_families(sizing, ax, place, force)
    ax.axhline(0.0, color=QUIET, linewidth=0.8)
    dress(
        ax,
        f"Force along the {bar} (positive: it pulls, negative: it pushes)",
        f"{bar} force, {scale.symbol}",
        legend_below=2,
    )
    return ax


KIND = PlotKind("force", "the force along link or rod", draw_it)
