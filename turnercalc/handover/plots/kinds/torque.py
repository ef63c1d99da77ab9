"""Plot: how hard it turns, for every load, with what the motor gives."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.axes import Axes
from numpy.typing import NDArray

from turnercalc.drives.wording import wording_of
from turnercalc.handover.cycle_record import cycle_of, hardest_load
from turnercalc.handover.display import scale_for
from turnercalc.handover.plots.families import draw_families
from turnercalc.handover.plots.kind import PlotKind
from turnercalc.handover.plots.shared import (
    all_round,
    along_position,
    axes_for,
    motor_lines,
)
from turnercalc.handover.strokes import INK, QUIET, dress

if TYPE_CHECKING:
    from turnercalc.loads import Family
    from turnercalc.sizing import Sizing

Array = NDArray[np.float64]


def draw_it(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw the shaft torque over the turn cycle: each family's hardest load, better direction.

    The grey band is low to high friction of the hardest planned load. Where a motor is chosen,
    what it dependably gives at this shaft is drawn, and the line to stay under for the wanted
    safety factor.

    Parameters
    ----------
    sizing : Sizing
        A complete result.
    ax : Axes, optional
        Where to draw; axes on a figure of their own by default.
    system : str
        ``metric`` or ``us``.
    """
    ax = axes_for(ax)
    cycle, direction = cycle_of(sizing), sizing.told_direction
    turns = sizing.drive.position_unit == "rad"
    scale = scale_for("torque" if turns else "force", system)
    place = along_position(sizing, ax, system)
    middle = cycle.levels.index("middle")

    def torque(family: Family) -> Array:
        values = cycle.shaft_torque[family.worst, middle, direction]
        return scale.per_si * all_round(sizing, values)

    draw_families(sizing, ax, place, torque, heavy=True)
    load = hardest_load(sizing)
    low, high = (
        scale.per_si * all_round(sizing, cycle.shaft_torque[load, level, direction])
        for level in (cycle.levels.index("low"), cycle.levels.index("high"))
    )
    ax.fill_between(
        place, low, high, color=INK, alpha=0.15, linewidth=0, label="low to high friction"
    )
    ax.axhline(0.0, color=QUIET, linewidth=0.8)
    motor_lines(sizing, ax, scale)
    what = "shaft torque" if turns else "push on the rod"
    words = wording_of(sizing.drive)
    way = f", {words.moving} {words.ways[direction]}"
    dress(
        ax,
        f"How hard it turns{way} (positive: the motor pushes)",
        f"{what}, {scale.symbol}",
        legend_below=2,
    )
    return ax


KIND = PlotKind("torque", "how hard it turns, for every load, with what the motor gives", draw_it)
