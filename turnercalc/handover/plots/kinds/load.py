"""Plot: the load torque at the turner itself, for every load."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.axes import Axes
from numpy.typing import NDArray

from turnercalc.handover.cycle_record import cycle_of
from turnercalc.handover.display import scale_for
from turnercalc.handover.plots.families import draw_families
from turnercalc.handover.plots.kind import PlotKind
from turnercalc.handover.plots.shared import DEGREES, axes_for
from turnercalc.handover.strokes import INK, QUIET, dress
from turnercalc.turners.wording import wording_of

if TYPE_CHECKING:
    from turnercalc.loads import Family
    from turnercalc.sizing import Sizing

Array = NDArray[np.float64]


def draw_it(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw the load torque over the turner's coordinate: there and back, friction included.

    Parameters as for the torque plot.
    """
    ax = axes_for(ax)
    cycle, direction = cycle_of(sizing), sizing.told_direction
    swings = sizing.turner.coordinate_unit == "rad"
    scale = scale_for("torque" if swings else "force", system)
    per_si = DEGREES if swings else scale_for("length", system).per_si
    middle = cycle.levels.index("middle")
    q = cycle.motion.coordinate

    def torque(family: Family) -> Array:
        return np.asarray(scale.per_si * cycle.load_torque[family.worst, middle, direction])

    draw_families(sizing, ax, per_si * q, torque)
    ax.axhline(0.0, color=QUIET, linewidth=0.8)
    words = wording_of(sizing.turner)
    unit = "°" if swings else scale_for("length", system).symbol
    what = f"{words.coordinate}, {unit} (above 0: {words.sign})" if swings else f"slide, {unit}"
    ax.set_xlabel(what, fontsize=9, color=INK)
    dress(
        ax,
        "What the load asks, friction included: one branch each way",
        f"load {'torque' if swings else 'force'}, {scale.symbol}",
        legend_below=2,
    )
    return ax


KIND = PlotKind("load", "what the load asks at the turner itself, for every load", draw_it)
