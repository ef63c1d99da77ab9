"""Torque over the turn cycle as an SVG with one line for each load and direction."""

from __future__ import annotations

import math
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING, Any

import numpy as np
from matplotlib.ticker import MaxNLocator
from numpy.typing import NDArray

from turnercalc.drives.wording import wording_of
from turnercalc.handover.cycle_record import cycle_of
from turnercalc.handover.display import scale_for
from turnercalc.handover.numbers import rounded_all
from turnercalc.handover.plots.shared import dependable_at_shaft

if TYPE_CHECKING:
    from turnercalc.handover.display import Scale
    from turnercalc.sizing import Sizing

Array = NDArray[np.float64]

WIDTH, HEIGHT = 640.0, 300.0
LEFT, RIGHT, TOP, BOTTOM = 56.0, 12.0, 12.0, 44.0
ROOM = 1.08  # of the axis over the largest figure


@dataclass(frozen=True)
class Chart:
    """The chart of a page.

    Attributes
    ----------
    svg : str
        Axes, the line told first, the motor's lines, the marker.
    lines : list
        For the script: ``d`` of the path for every load and direction.
    values : list
        The figures themselves at every position; null where it jams.
    frame : dict
        How a figure becomes a place.
    unit : str
    what : str
        What is drawn.
    """

    svg: str
    lines: list[list[str]]
    values: list[list[list[float | None]]]
    frame: dict[str, float]
    unit: str
    what: str


def chart(sizing: Sizing, shown: int, direction: int, *, system: str = "metric") -> Chart:
    """Return the chart of every family of loads.

    Parameters
    ----------
    sizing : Sizing
        A result that has a cycle.
    shown, direction : int
        Which family and direction stand there before anybody chooses.
    system : str
        ``metric`` or ``us``; ``both`` is metric.
    """
    cycle = cycle_of(sizing)
    turns = sizing.drive.position_unit == "rad"
    scale = scale_for("torque" if turns else "force", system)
    along = scale_for("angle" if turns else "length", system)
    middle = cycle.levels.index("middle")
    position = along.per_si * cycle.motion.position
    torque = [
        [scale.per_si * cycle.shaft_torque[family.worst, middle, way] for way in (0, 1)]
        for family in sizing.families
    ]
    stay_under = _lines_of_motor(sizing, scale)
    frame = _frame(position, torque, [value for value, _ in stay_under])
    lines = [[_path(position, one, frame) for one in both] for both in torque]
    what = "shaft torque" if turns else "push on the rod"
    words = wording_of(sizing.drive)
    head = f"{words.head} {'angle' if turns else 'position'}, {along.symbol}"
    body = [*_axes(frame, head, f"{what}, {scale.symbol}"), *_motor(stay_under, frame)]
    body.append(
        f'<path id="torque-line" d="{lines[shown][direction]}" fill="none" stroke="#1a1a1a" '
        'stroke-width="2"/>'
    )
    body.append('<circle id="torque-dot" r="6" cx="-50" cy="-50" fill="#b34700" stroke="#fff"/>')
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {HEIGHT:g}" role="img" '
        f'aria-labelledby="chart-title"><title id="chart-title">{escape(what.capitalize())} '
        f"over the turn cycle</title>{''.join(body)}</svg>"
    )
    values = [[rounded_all(one, 1.0) for one in both] for both in torque]
    return Chart(svg, lines, values, frame, scale.symbol, what)


def _lines_of_motor(sizing: Sizing, scale: Scale) -> list[tuple[float, str]]:
    """Return what the chosen motor can be counted on for, and where to stay under."""
    chosen, demand = sizing.chosen, sizing.demand
    if chosen is None or demand is None or not chosen.times_enough:
        return []
    if not math.isfinite(chosen.times_enough):
        return []
    top = scale.per_si * dependable_at_shaft(sizing, chosen)
    wanted = top / demand.safety_factor
    return [
        (top, f"{chosen.motor.id} can be counted on: {top:.3g} {scale.symbol}"),
        (wanted, f"stay under for {demand.safety_factor:g} times enough"),
    ]


def _frame(position: Array, torque: list[list[Array]], more: list[float]) -> dict[str, float]:
    """Return the corners of the axes in figures and in the picture's own units."""
    every = np.concatenate([np.ravel(np.asarray(torque)), [0.0]])
    every = every[np.isfinite(every)]
    top = float(every.max())
    # A motor much too strong would press the lines flat: then its lines stay outside.
    top = max([top, *(value for value in more if value < 3.0 * top)])
    low = float(every.min())
    span = (top - low) or 1.0
    return {
        "x0": float(position[0]),
        "x1": float(position[-1]),
        "y0": low - (ROOM - 1.0) * span,
        "y1": top + (ROOM - 1.0) * span,
        "left": LEFT,
        "right": WIDTH - RIGHT,
        "top": TOP,
        "bottom": HEIGHT - BOTTOM,
    }


def across(value: float, frame: dict[str, float]) -> float:
    """Return where a position stands in the picture."""
    share = (value - frame["x0"]) / ((frame["x1"] - frame["x0"]) or 1.0)
    return frame["left"] + share * (frame["right"] - frame["left"])


def up(value: float, frame: dict[str, float]) -> float:
    """Return where a figure stands in the picture."""
    share = (value - frame["y0"]) / (frame["y1"] - frame["y0"])
    return frame["bottom"] - share * (frame["bottom"] - frame["top"])


def _path(position: Array, values: Array, frame: dict[str, float]) -> str:
    """Return the line through all figures; it breaks where there is none."""
    steps, pen = [], "M"
    for x, y in zip(position, values, strict=True):
        if not math.isfinite(y):
            pen = "M"
            continue
        steps.append(f"{pen}{across(float(x), frame):.1f} {up(float(y), frame):.1f}")
        pen = "L"
    return "".join(steps)


def _axes(frame: dict[str, float], below: str, beside: str) -> list[str]:
    left, right, bottom, top = (frame[name] for name in ("left", "right", "bottom", "top"))
    parts = []
    for x in MaxNLocator(8, steps=[1, 2, 3, 4.5, 6, 9, 10]).tick_values(frame["x0"], frame["x1"]):
        if frame["x0"] - 1e-9 <= x <= frame["x1"] + 1e-9:
            at = across(float(x), frame)
            parts.append(_rule(at, bottom, at, top) + _letters(at, bottom + 16, f"{x:g}"))
    for y in MaxNLocator(6).tick_values(frame["y0"], frame["y1"]):
        if frame["y0"] <= y <= frame["y1"]:
            at = up(float(y), frame)
            ink = "#1a1a1a" if y == 0 else "#d0d0d0"
            parts.append(_rule(left, at, right, at, ink))
            parts.append(_letters(left - 6, at + 4, f"{y:g}", "end"))
    parts.append(_letters(0.5 * (left + right), HEIGHT - 8, below))
    middle = 0.5 * (top + bottom)
    parts.append(_letters(14, middle, beside, more=f' transform="rotate(-90 14 {middle:.0f})"'))
    return parts


def _motor(lines: list[tuple[float, str]], frame: dict[str, float]) -> list[str]:
    parts = []
    for number, (value, text) in enumerate(lines):
        if value > frame["y1"]:
            continue
        at = up(value, frame)
        dashes = "2 3" if number else "8 3"
        parts.append(
            f'<line x1="{frame["left"]:g}" x2="{frame["right"]:g}" y1="{at:.1f}" y2="{at:.1f}" '
            f'stroke="#00572f" stroke-width="1.5" stroke-dasharray="{dashes}"/>'
        )
        parts.append(_letters(frame["right"] - 4, at - 4, text, "end", ink="#00572f"))
    return parts


def _rule(x1: float, y1: float, x2: float, y2: float, ink: str = "#e0e0e0") -> str:
    return (
        f'<line x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}" stroke="{ink}" '
        'stroke-width="1"/>'
    )


def _letters(
    x: float, y: float, text: str, anchor: str = "middle", *, ink: str = "#1a1a1a", more: str = ""
) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="12" text-anchor="{anchor}" fill="{ink}"{more}>'
        f"{escape(text)}</text>"
    )


def record(found: Chart) -> dict[str, Any]:
    """Return what the script needs of a chart."""
    return {
        "lines": found.lines,
        "values": found.values,
        "frame": found.frame,
        "unit": found.unit,
        "what": found.what,
    }
