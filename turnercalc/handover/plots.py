"""Plots of a result. Each takes the result and axes, draws, returns the axes, and never shows.

They compute nothing but the unit on the axis. Every line has its own dashes as well as its own
colour, so that a black-and-white print says the same.
"""

from __future__ import annotations

import io
import math
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np
from matplotlib import rc_context
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from numpy.typing import NDArray

from turnercalc.drives.wording import wording_of
from turnercalc.errors import OutputError, TurnercalcError, UnknownNameError
from turnercalc.handover.cycle_record import cycle_of, hardest_load
from turnercalc.handover.display import Scale, scale_for
from turnercalc.handover.strokes import FRAME, INK, QUIET, STROKES, Stroke, draw, dress
from turnercalc.handover.writing import write_whole

if TYPE_CHECKING:
    from turnercalc.motors import Demand, MotorResult
    from turnercalc.sizing import Sizing
    from turnercalc.timing.runs import Runs

Array = NDArray[np.float64]
Plot = Callable[..., Axes]

_DEGREES = 180.0 / math.pi


def torque(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
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
    ax = _axes(ax)
    cycle, direction = cycle_of(sizing), sizing.told_direction
    turns = sizing.drive.position_unit == "rad"
    scale = scale_for("torque" if turns else "force", system)
    place = _along_position(sizing, ax, system)
    middle = cycle.levels.index("middle")
    ranked = sorted(
        zip(sizing.families, _strokes(len(sizing.families)), strict=True),
        key=lambda pair: (not pair[0].planned, -float(pair[0].peaks[middle, direction])),
    )
    for family, stroke in ranked:
        name = cycle.loads[family.worst].name
        draw(
            ax,
            place,
            scale.per_si * _round(sizing, cycle.shaft_torque[family.worst, middle, direction]),
            stroke,
            name if family.planned else f"{name} (not planned)",
            faint=not family.planned,
            heavy=family is ranked[0][0],
        )
    load = hardest_load(sizing)
    low, high = (
        scale.per_si * _round(sizing, cycle.shaft_torque[load, level, direction])
        for level in (cycle.levels.index("low"), cycle.levels.index("high"))
    )
    ax.fill_between(
        place, low, high, color=INK, alpha=0.15, linewidth=0, label="low to high friction"
    )
    ax.axhline(0.0, color=QUIET, linewidth=0.8)
    _motor_lines(sizing, ax, scale)
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


def tilt(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw the tilt over the turn cycle, the wanted tilt, and the rest points.

    Parameters as for `torque`.
    """
    ax = _axes(ax)
    cycle = cycle_of(sizing)
    swings = sizing.turner.coordinate_unit == "rad"
    scale = scale_for("angle" if swings else "length", system)
    place = _along_position(sizing, ax, system)
    q = scale.per_si * _round(sizing, cycle.motion.coordinate)
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
        x, y = _place_scale(sizing, system).per_si * at, scale.per_si * end
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
    what = "tilt" if swings else "slide"
    side = " (above 0: left side down)" if swings else ""
    dress(
        ax,
        f"Where it stands{side}; dots: rest points" if ends.rests else f"Where it stands{side}",
        f"{what}, {scale.symbol}",
        legend_below=2,
    )
    return ax


def force(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw the force along the link over the turn cycle, better direction, tension positive.

    Parameters as for `torque`.
    """
    ax = _axes(ax)
    cycle, direction = cycle_of(sizing), sizing.told_direction
    if cycle.bar_force is None:
        raise TurnercalcError("There is no link or rod here whose force could be drawn.")
    scale = scale_for("force", system)
    bar = wording_of(sizing.drive).bar
    place = _along_position(sizing, ax, system)
    middle = cycle.levels.index("middle")
    for family, stroke in zip(sizing.families, _strokes(len(sizing.families)), strict=True):
        name = cycle.loads[family.worst].name
        values = cycle.bar_force[family.worst, middle, direction]
        draw(
            ax,
            place,
            scale.per_si * _round(sizing, values),
            stroke,
            name if family.planned else f"{name} (not planned)",
            faint=not family.planned,
        )
    ax.axhline(0.0, color=QUIET, linewidth=0.8)
    dress(
        ax,
        f"Force along the {bar} (positive: it pulls, negative: it pushes)",
        f"{bar} force, {scale.symbol}",
        legend_below=2,
    )
    return ax


def speed(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw how fast the part moves over the turn cycle with the chosen motor.

    Parameters as for `torque`.
    """
    ax = _axes(ax)
    cycle = cycle_of(sizing)
    _, runs = _runs(sizing)
    swings = sizing.turner.coordinate_unit == "rad"
    scale = scale_for("swing" if swings else "speed", system)
    place = _along_position(sizing, ax, system)
    direction, words = _run_direction(sizing), wording_of(sizing.drive)
    planned_loads = [i for i, case in enumerate(cycle.loads) if case.planned]
    for (label, load), stroke in zip(_told_loads(sizing), STROKES, strict=False):
        pace = runs.speed[planned_loads.index(load), direction]
        values = np.abs(cycle.motion.rate * pace)
        draw(ax, place, scale.per_si * _round(sizing, values), stroke, label)
    ax.set_ylim(bottom=0.0)
    dress(
        ax,
        f"How fast it moves with {sizing.chosen.motor.id}, {words.moving} {words.ways[direction]}"
        if sizing.chosen
        else "How fast it moves",
        f"{'tilting' if swings else 'sliding'} speed, {scale.symbol}",
        legend_below=2,
    )
    return ax


def time(sizing: Sizing, ax: Axes | None = None, *, system: str = "metric") -> Axes:
    """Draw the tilt against the seconds since the start of a move, both moves of a cycle.

    Parameters as for `torque`.
    """
    from turnercalc.mechanics.motion import times_along

    ax = _axes(ax)
    cycle = cycle_of(sizing)
    demand, runs = _runs(sizing)
    swings = sizing.turner.coordinate_unit == "rad"
    scale = scale_for("angle" if swings else "length", system)
    direction = _run_direction(sizing)
    planned_loads = [i for i, case in enumerate(cycle.loads) if case.planned]
    for (label, load), stroke in zip(_told_loads(sizing), STROKES, strict=False):
        pace = runs.speed[planned_loads.index(load), direction]
        for number, span in enumerate(demand.move_spans):
            at = demand.indices(span)
            places = demand.places(span) / demand.stages_ratio
            q, speeds = cycle.motion.coordinate[at], pace[at]
            if direction == 1:
                q, places, speeds = q[::-1], -places[::-1], speeds[::-1]
            seconds = times_along(places, speeds)
            draw(ax, seconds, scale.per_si * q, stroke, label if number == 0 else "")
    ax.axhline(0.0, color=QUIET, linewidth=0.8)
    ax.set_xlim(left=0.0)
    ax.set_xlabel("time since the motor was switched on, s", fontsize=9, color=INK)
    who = f" with {sizing.chosen.motor.id}" if sizing.chosen else ""
    dress(
        ax,
        f"How long a move takes{who}, to either side",
        f"{'tilt' if swings else 'slide'}, {scale.symbol}",
        legend_below=2,
    )
    return ax


PLOTS: Mapping[str, Plot] = MappingProxyType(
    {"torque": torque, "tilt": tilt, "force": force, "speed": speed, "time": time}
)


def figure(sizing: Sizing, names: Sequence[str] = ("torque",), *, system: str = "metric") -> Figure:
    """Return one sheet with the named plots one above the other.

    Parameters
    ----------
    sizing : Sizing
        A complete result.
    names : sequence of str
        Keys of `PLOTS`.
    system : str
        ``metric`` or ``us``; ``both`` draws metric.

    Raises
    ------
    UnknownNameError
        A name is no plot.
    """
    unknown = [name for name in names if name not in PLOTS]
    if unknown or not names:
        what = f'"{unknown[0]}" is no plot.' if unknown else "Name a plot."
        raise UnknownNameError(f"{what} There are {', '.join(PLOTS)}.")
    sheet = Figure(figsize=(FRAME[0], FRAME[1] * len(names) + 0.3), layout="constrained")
    every = sheet.subplots(len(names), 1, squeeze=False)[:, 0]
    for name, ax in zip(names, every, strict=True):
        PLOTS[name](sizing, ax, system=system)
    sheet.suptitle(sizing.design.name, x=0.01, ha="left", fontsize=11, color=INK)
    return sheet


def save(sheet: Figure, path: str | Path, *, replace: bool = False) -> Path:
    """Write a sheet as .png, .svg or .pdf, whole or not at all.

    The same sheet gives the same bytes: no date is written into it.

    Raises
    ------
    OutputError
        The ending is none of these, or the file cannot be written.
    """
    kind = Path(path).suffix.lower().removeprefix(".")
    if kind not in ("png", "svg", "pdf"):
        raise OutputError(f"{path}: a plot is written as .png, .svg or .pdf. Choose one of these.")
    dateless = {"svg": {"Date": None}, "pdf": {"CreationDate": None}, "png": {}}[kind]
    content = io.BytesIO()
    with rc_context({"svg.hashsalt": "turnercalc", "pdf.fonttype": 42}):
        sheet.savefig(content, format=kind, dpi=150, metadata=dateless)
    return write_whole(path, content.getvalue(), replace=replace)


# --- what the plots share -----------------------------------------------------------------------


def _axes(ax: Axes | None) -> Axes:
    if ax is not None:
        return ax
    return Figure(figsize=FRAME, layout="constrained").add_subplot()


def _place_scale(sizing: Sizing, system: str) -> Scale:
    return scale_for("angle" if sizing.drive.position_unit == "rad" else "length", system)


def _along_position(sizing: Sizing, ax: Axes, system: str) -> Array:
    """Return the drive's positions as they are drawn, and label the axis along them.

    Turning clockwise the axis runs backwards, so that time always runs to the right.
    """
    motion = cycle_of(sizing).motion
    scale = _place_scale(sizing, system)
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
    ax.set_xlabel(f"{head} angle, ° anticlockwise from pointing right{way}", fontsize=9, color=INK)
    return place


def _round(sizing: Sizing, values: Array) -> Array:
    """Return values along the positions, the first one again at the end of a full turn."""
    if cycle_of(sizing).motion.round_and_round:
        return np.append(values, values[..., :1])
    return values


def _strokes(count: int) -> list[Stroke]:
    return [STROKES[i % len(STROKES)] for i in range(count)]


def _motor_lines(sizing: Sizing, ax: Axes, scale: Scale) -> None:
    """Draw what the chosen motor dependably gives at this shaft, and where to stay under."""
    chosen, demand = sizing.chosen, sizing.demand
    if chosen is None or demand is None or not chosen.times_enough:
        return
    top = _dependable_at_shaft(sizing, chosen)
    wanted = top / demand.safety_factor
    name = chosen.motor.id
    dependable, limit = scale.per_si * top, scale.per_si * wanted
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
        label=f"stay under {limit:.3g} for {demand.safety_factor:g} times enough",
    )
    ax.axhspan(limit, dependable, facecolor="none", edgecolor="#c4c4c4", hatch="////", linewidth=0)


def _dependable_at_shaft(sizing: Sizing, chosen: MotorResult) -> float:
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


def _told_loads(sizing: Sizing) -> list[tuple[str, int]]:
    """Return the loads worth telling apart in time: full, empty and the hardest planned one."""
    cycle = cycle_of(sizing)
    found: dict[int, str] = {}
    for load in (0, 1, hardest_load(sizing)):
        if cycle.loads[load].planned:
            found.setdefault(load, cycle.loads[load].name)
    return [(name, load) for load, name in found.items()]


def _runs(sizing: Sizing) -> tuple[Demand, Runs]:
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


def _run_direction(sizing: Sizing) -> int:
    better = sizing.told_direction
    if sizing.chosen is None or better in sizing.chosen.directions:
        return better
    return sizing.chosen.directions[0]
