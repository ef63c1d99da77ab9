"""Plot: where it stands over the cycle."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matplotlib.axes import Axes

from turnercalc.handover.cycle_record import cycle_of
from turnercalc.handover.display import scale_for
from turnercalc.handover.plots.kind import PlotKind
from turnercalc.handover.plots.shared import (
    all_round,
    along_position,
    axes_for,
    place_scale,
)
from turnercalc.handover.strokes import INK, QUIET, STROKES, draw, dress
from turnercalc.turners.wording import wording_of as words_of_turner

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing


def draw_it(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw the tilt over the turn cycle, the wanted tilt, and the rest points.

    Parameters as for the torque plot.
    """
    ax = axes_for(ax)
    cycle = cycle_of(sizing)
    swings = sizing.turner.coordinate_unit == "rad"
    scale = scale_for("angle" if swings else "length", system)
    place = along_position(sizing, ax, system)
    q = scale.per_si * all_round(sizing, cycle.motion.coordinate)
    draw(ax, place, q, STROKES[0], "as designed")
    for number, wanted in enumerate(sizing.turner.travel):
        ax.axhline(
            scale.per_si * wanted,
            color=QUIET,
            linewidth=1.0,
            linestyle=(0, (4, 2)),
            label="wanted" if number == 0 else "_",
        )
    ends = sizing.ends
    unit = scale.symbol if swings else f" {scale.symbol}"
    for at, end in ((ends.low_position, ends.low), (ends.high_position, ends.high)):
        x, y = place_scale(sizing, system).per_si * at, scale.per_si * end
        ax.plot([x], [y], marker="o", color=INK, markersize=4, linestyle="none")
        ax.annotate(
            f"{abs(y):.1f}{unit}",
            (x, y),
            textcoords="offset points",
            xytext=(0, 6 if end > 0 else -12),
            ha="center",
            fontsize=8.5,
            color=INK,
        )
    ax.axhline(0.0, color=QUIET, linewidth=0.8)
    ax.margins(y=0.16)
    words = words_of_turner(sizing.turner)
    what = words.coordinate if swings else "slide"
    side = f" (above 0: {words.sign})" if swings else ""
    dress(
        ax,
        f"Where it stands{side}; dots: rest points" if ends.rests else f"Where it stands{side}",
        f"{what}, {scale.symbol}",
        legend_below=2,
    )
    return ax


KIND = PlotKind("tilt", "where it stands over the cycle", draw_it)
