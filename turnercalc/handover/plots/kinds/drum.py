"""Plot: how one-sided a drum is, shelf by shelf as it is filled."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.axes import Axes
from matplotlib.ticker import MaxNLocator

from turnercalc.errors import TurnercalcError
from turnercalc.handover.display import scale_for
from turnercalc.handover.plots.kind import PlotKind
from turnercalc.handover.plots.shared import axes_for, motor_lines
from turnercalc.handover.strokes import INK, QUIET, STROKES, draw, dress
from turnercalc.turners.rotating_drum import RotatingDrum

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing

#: Group of load cases -> its mark, and what the legend calls it.
GROUPS = {
    "neighbours": ("o", "neighbours, from any shelf"),
    "opposite pairs": ("s", "opposite pairs"),
    "balanced order": ("D", "in the balanced order"),
    "given": ("^", "as you gave them"),
}
ENDS = ("full", "empty")


def draw_it(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw the imbalance of every run of neighbours, of pairs, and of the balanced order.

    What a motor gives is drawn where one is chosen: friction comes on top of the imbalance.
    Parameters as for the torque plot.
    """
    drum = sizing.turner
    if not isinstance(drum, RotatingDrum):
        raise TurnercalcError("Only a drum has an imbalance by filling to draw.")
    ax = axes_for(ax)
    scale = scale_for("torque", system)
    cases = drum.load_cases()
    moments = scale.per_si * drum.imbalance(np.stack([case.cells for case in cases]).astype(float))
    fills = np.array([case.egg_count / drum.eggs_per_shelf for case in cases])
    groups = [_group(case.family) for case in cases]
    for stroke, (group, (mark, label)) in zip(STROKES, GROUPS.items(), strict=False):
        own = np.array([one == group for one in groups])
        if not own.any():
            continue
        ax.plot(fills[own], moments[own], mark, color=stroke.colour, markersize=4)
        if group == "given":
            ax.plot([], [], mark, color=stroke.colour, label=label)
            continue
        most = {at: moments[own & (fills == at)].max() for at in fills[own]}
        most |= {f: m for f, m, g in zip(fills, moments, groups, strict=True) if g in ENDS}
        x = np.array(sorted(most))
        line = draw(ax, x, np.array([most[at] for at in x]), stroke, label)
        line.set_marker(mark)
        line.set_markersize(4)
    ax.axhline(0.0, color=QUIET, linewidth=0.8)
    ax.xaxis.set_major_locator(MaxNLocator(integer=True))
    ax.set_xlabel("shelves filled", fontsize=9, color=INK)
    motor_lines(sizing, ax, scale)
    dress(
        ax,
        "How one-sided it is, heavy side level with the axle, friction not counted",
        f"imbalance, {scale.symbol}",
        legend_below=2,
    )
    return ax


def _group(family: str) -> str:
    """Return the group of a family of load cases."""
    if family.endswith("neighbours") or family == "one shelf alone":
        return "neighbours"
    return "given" if family.startswith("given") else family


KIND = PlotKind("drum", "how one-sided a drum is, by the shelves filled", draw_it, ("imbalance",))
