"""Plot: the motors of the file as bars, how many times enough each is."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from matplotlib.axes import Axes

from turnercalc.errors import TurnercalcError
from turnercalc.findings import Answer
from turnercalc.handover.plots.kind import PlotKind
from turnercalc.handover.plots.shared import axes_for
from turnercalc.handover.strokes import INK, QUIET, dress
from turnercalc.motors.faults import in_short

if TYPE_CHECKING:
    from turnercalc.motors import MotorResult
    from turnercalc.sizing import Sizing

#: How a verdict is told without colour: by the hatching of its bar.
HATCHES = {"fine": "", "marginal": "///", "no": "xxx", "unknown": "..."}
MOST = 16
#: How much wider than the longest bar the frame is, for the words behind it.
ROOM = 2.1
LONG_NAME = 26
#: Findings that the figure itself tells of.
STRENGTH = ("motor_strength",)


def draw_it(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw a bar for each motor, best at the top; its hatching and a word say the verdict.

    Parameters as for the torque plot.
    """
    del system
    if not sizing.motors or sizing.demand is None:
        raise TurnercalcError("There are no motors to draw. Name a motor file: -m motors.csv")
    ax = axes_for(ax)
    told = sizing.motors[:MOST]
    wanted = sizing.demand.safety_factor
    # A motor far too strong would squeeze all the others.
    most = max(4.0 * wanted, 1.0)
    for row, result in enumerate(told):
        times = result.times_enough or 0.0
        verdict = result.verdict.value
        ax.barh(
            -row,
            min(times, most),
            height=0.66,
            facecolor="#8a8a8a" if verdict == "fine" else "#ffffff",
            edgecolor=INK,
            linewidth=0.8,
            hatch=HATCHES[verdict],
        )
        ax.text(
            min(times, most) + 0.012 * most,
            -row,
            _told(result),
            va="center",
            fontsize=8,
            bbox={"facecolor": "#ffffff", "edgecolor": "none", "pad": 0.8},
        )
    for factor, text, dashes in ((wanted, "wanted", (8, 3)), (1.0, "just enough", (2, 2))):
        ax.axvline(
            factor, color=INK, linewidth=1.1, linestyle=(0, dashes), label=f"{factor:g}: {text}"
        )
    ax.axvspan(1.0, wanted, color=QUIET, alpha=0.15, linewidth=0)
    names = [
        f"{'> ' if result is sizing.chosen else ''}{_named(result.motor.id)}" for result in told
    ]
    ax.set_yticks([-row for row in range(len(told))], names)
    ax.set_xlim(0.0, ROOM * most)
    ax.set_xticks([tick for tick in ax.get_xticks() if 0.0 <= tick <= most])
    ax.set_xlim(0.0, ROOM * most)
    cut = any((result.times_enough or 0.0) > most for result in told)
    ax.set_xlabel(
        "times enough: what it dependably gives over the hardest planned turn"
        + (f"; longer bars are cut at {most:g}" if cut else ""),
        fontsize=9,
    )
    left = len(sizing.motors) - len(told)
    rest = f", {left} more not shown" if left > 0 else ""
    dress(ax, f"Your motors, best first; > is the one judged{rest}", "", legend_below=2)
    ax.grid(visible=False, axis="y")
    return ax


def _named(name: str) -> str:
    return name if len(name) <= LONG_NAME else f"{name[: LONG_NAME - 3].rstrip()}..."


def _told(result: MotorResult) -> str:
    """Return figure and verdict of a motor, and what is wrong with it or not known of it."""
    verdict = "?" if result.verdict is Answer.UNKNOWN else result.verdict.value
    times = result.times_enough
    deciding = result.deciding
    why = ""
    if deciding is not None and deciding.id not in STRENGTH and in_short(deciding):
        open_one = deciding.answer is Answer.UNKNOWN
        why = f", {'not known: ' if open_one else ''}{in_short(deciding)}"
    if times is None:
        return f"{verdict}{why or ': not judged by strength'}"
    figure = "no load" if not math.isfinite(times) else f"{times:.1f}"
    return f"{figure}: {verdict}{why}"


KIND = PlotKind("motors", "the motors of the file, how many times enough each is", draw_it)
