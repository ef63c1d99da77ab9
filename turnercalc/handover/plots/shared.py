"""What the plots share: axes, positions along them, the loads and lines they tell."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from numpy.typing import NDArray

from turnercalc.drives.wording import wording_of
from turnercalc.errors import TurnercalcError
from turnercalc.handover.cycle_record import cycle_of, hardest_load
from turnercalc.handover.display import Scale, scale_for
from turnercalc.handover.strokes import FRAME, INK
from turnercalc.turners.wording import wording_of as words_of_turner

if TYPE_CHECKING:
    from turnercalc.motors import Demand, MotorResult
    from turnercalc.sizing import Sizing
    from turnercalc.timing.runs import Runs

Array = NDArray[np.float64]
Draw = Callable[..., Axes]

DEGREES = 180.0 / math.pi


def axes_for(ax: Axes | None) -> Axes:
    """Return the axes, or axes on a figure of their own."""
    if ax is not None:
        return ax
    return Figure(figsize=FRAME, layout="constrained").add_subplot()


def place_scale(sizing: Sizing, system: str) -> Scale:
    """Return the unit of the drive's position."""
    return scale_for("angle" if sizing.drive.position_unit == "rad" else "length", system)


def along_position(sizing: Sizing, ax: Axes, system: str) -> Array:
    """Return the drive's positions as they are drawn, and label the axis along them.

    Turning clockwise the axis runs backwards, so that time always runs to the right.
    """
    motion = cycle_of(sizing).motion
    scale = place_scale(sizing, system)
    place = scale.per_si * motion.position
    if sizing.drive.position_unit != "rad":
        ax.set_xlabel(f"extension of the rod, {scale.symbol}", fontsize=9, color=INK)
        return place
    if motion.round_and_round:
        place = np.append(place, place[0] + 360.0)
        ax.set_xticks(np.arange(0, 361, 45))
    ax.set_xlim(place[0], place[-1])
    backwards = sizing.told_direction == 1
    if backwards:
        ax.invert_xaxis()
    way = "; read in the way it turns, to the right" if backwards else ""
    head = wording_of(sizing.drive).head
    # A shaft without any linkage turns with the part itself, and counts from where that does.
    zero = "pointing right" if sizing.drive.dimensions else words_of_turner(sizing.turner).middle
    ax.set_xlabel(f"{head} angle, ° anticlockwise from {zero}{way}", fontsize=9, color=INK)
    return place


def all_round(sizing: Sizing, values: Array) -> Array:
    """Return values along the positions, the first one again at the end of a full turn."""
    if cycle_of(sizing).motion.round_and_round:
        return np.append(values, values[..., :1])
    return values


def motor_lines(sizing: Sizing, ax: Axes, scale: Scale) -> None:
    """Draw what the chosen motor dependably gives at this shaft, and where to stay under."""
    chosen, demand = sizing.chosen, sizing.demand
    if chosen is None or demand is None or not chosen.times_enough:
        return
    top = dependable_at_shaft(sizing, chosen)
    margin_band(ax, chosen.motor.id, top, demand.safety_factor, scale)


def margin_band(ax: Axes, name: str, top: float, factor: float, scale: Scale) -> None:
    """Draw what a motor dependably gives [SI], the line to stay under, and what lies between."""
    dependable, limit = scale.per_si * top, scale.per_si * top / factor
    ax.axhline(
        dependable,
        color=INK,
        linewidth=1.2,
        linestyle=(0, (8, 3)),
        label=f"{name}: {dependable:.3g} {scale.symbol} can be counted on",
    )
    ax.axhline(
        limit,
        color=INK,
        linewidth=0.9,
        linestyle=(0, (2, 2)),
        label=f"stay under {limit:.3g} for {factor:g} times enough",
    )
    ax.axhspan(limit, dependable, facecolor="none", edgecolor="#c4c4c4", hatch="////", linewidth=0)


def dependable_at_shaft(sizing: Sizing, chosen: MotorResult) -> float:
    """Return what a motor dependably gives, at the driving shaft [N·m or N].

    Behind stages it is that many times the hardest shaft torque as the motor is times enough:
    their losses are in that figure already.
    """
    if not sizing.stages.stages and chosen.dependable is not None:
        return chosen.dependable
    cycle = cycle_of(sizing)
    middle = cycle.levels.index("middle")
    planned = [
        f.peaks[middle, direction]
        for f in sizing.families
        if f.planned
        for direction in chosen.directions
    ]
    return float(max(planned)) * (chosen.times_enough or 0.0)


def told_loads(sizing: Sizing) -> list[tuple[str, int]]:
    """Return the loads worth telling apart in time: full, empty and the hardest planned one."""
    cycle = cycle_of(sizing)
    found: dict[int, str] = {}
    for load in (0, 1, hardest_load(sizing)):
        if cycle.loads[load].planned:
            found.setdefault(load, cycle.loads[load].name)
    return [(name, load) for load, name in found.items()]


def runs_for(sizing: Sizing) -> tuple[Demand, Runs]:
    """Return what is asked of the motor, and how the chosen one runs the shaft."""
    from turnercalc.timing.runs import runs_of

    demand = sizing.demand
    found = None if demand is None else runs_of(cycle_of(sizing), demand, sizing.chosen)
    if demand is None or found is None:
        raise TurnercalcError(
            "Speed and time depend on the motor. Name a motor file, such as -m motors.csv; the "
            "motor has to have a speed and a torque."
        )
    return demand, found


def run_direction(sizing: Sizing) -> int:
    """Return the direction the chosen motor runs in, the told one where it may."""
    better = sizing.told_direction
    if sizing.chosen is None or better in sizing.chosen.directions:
        return better
    return sizing.chosen.directions[0]
