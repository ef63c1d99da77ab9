"""How our plots look: few lines, each with its own dashes, so that a black print says the same."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from matplotlib.axes import Axes
from matplotlib.lines import Line2D
from matplotlib.transforms import ScaledTranslation
from numpy.typing import NDArray

Array = NDArray[np.float64]

INK = "#1a1a1a"
QUIET = "#8a8a8a"
FRAME = (7.4, 3.6)  # inches; two panels with their legends fill an A4 or Letter page

#: Letters in a label of the legend past which there is no room for two beside one another.
LONG_LABEL = 44

AXIS_LABEL = 0.45  # inches, ticks and label under an axis

_SOLID: tuple[float, ...] = ()


@dataclass(frozen=True)
class Stroke:
    """How one line is drawn: colour for the screen, dashes for the printer."""

    colour: str
    dashes: tuple[float, ...]
    width: float = 1.4


#: Colours that colour-blind readers tell apart (after Okabe and Ito, 2008), darkened for paper.
STROKES = (
    Stroke(INK, _SOLID, 1.7),
    Stroke("#0072b2", (5, 2)),
    Stroke("#b34700", (1.2, 1.2), 1.8),
    Stroke("#007a5a", (6, 1.5, 1, 1.5)),
    Stroke("#8a3a6f", (2.5, 1.5)),
    Stroke("#6b5900", (6, 1.2, 1, 1.2, 1, 1.2)),
    Stroke("#3f7ea6", (9, 2)),
    Stroke("#444444", (1, 1.7)),
)


def draw(
    ax: Axes,
    x: Array,
    y: Array,
    stroke: Stroke,
    label: str = "",
    *,
    faint: bool = False,
    heavy: bool = False,
) -> Line2D:
    """Draw one line."""
    (line,) = ax.plot(
        x,
        y,
        color=stroke.colour,
        linewidth=stroke.width * (0.6 if faint else 1.5 if heavy else 1.0),
        alpha=0.55 if faint else 1.0,
        label=label or "_",
    )
    line.set_dashes(stroke.dashes) if stroke.dashes else line.set_linestyle("-")
    return line


def _under_the_axis_label(ax: Axes) -> ScaledTranslation:
    """Return the way down from an axis to where its ticks and label end, however high it is."""
    sheet = ax.get_figure(root=True)
    assert sheet is not None
    return ScaledTranslation(0.0, -AXIS_LABEL, sheet.dpi_scale_trans)


def dress(ax: Axes, title: str, what: str, *, legend_below: int = 0) -> None:
    """Give axes their frame, title, the label of the upright axis, and a legend.

    Parameters
    ----------
    ax : Axes
    title : str
        Said above, at the left.
    what : str
        Quantity and unit, along the upright axis.
    legend_below : int
        Columns of a legend below the axes; 0 for none.
    """
    ax.set_title(title, loc="left", fontsize=9.5, color=INK)
    ax.set_ylabel(what, fontsize=9, color=INK)
    for side in ("top", "right"):
        ax.spines[side].set_visible(False)
    for side in ("left", "bottom"):
        ax.spines[side].set_color(QUIET)
    ax.tick_params(labelsize=8.5, color=QUIET, labelcolor=INK)
    ax.grid(axis="y", color="#d9d9d9", linewidth=0.6)
    ax.set_axisbelow(True)
    if legend_below:
        longest = max((len(text) for text in ax.get_legend_handles_labels()[1]), default=0)
        ax.legend(
            loc="upper left",
            bbox_to_anchor=(0.0, 0.0),
            bbox_transform=ax.transAxes + _under_the_axis_label(ax),
            ncols=legend_below if longest <= LONG_LABEL else 1,
            frameon=False,
            fontsize=8,
            handlelength=4.0,
            borderaxespad=0.0,
            columnspacing=1.6,
        )
