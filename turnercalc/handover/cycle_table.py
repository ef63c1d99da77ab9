"""The turn cycle as a table for the screen."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from turnercalc.drives.wording import wording_of as words_of_drive
from turnercalc.handover.cycle_record import Column, columns, cycle_of, find_load, hardest_load
from turnercalc.handover.display import Style, decimals_for, scale_for
from turnercalc.handover.layout import WIDTH, wrap
from turnercalc.turners.wording import wording_of

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing

ROWS = 12  # every 30 degrees of a full turn
_FIGURE = 9

Array = NDArray[np.float64]


def page(sizing: Sizing, load_name: str | None, style: Style) -> str:
    """Return the turn cycle of one load in both directions, about every 30 degrees.

    Parameters
    ----------
    sizing : Sizing
        A complete result.
    load_name : str or None
        Name of a load or part of it; None: the hardest planned one.
    style : Style
        Units and letters.
    """
    cycle = cycle_of(sizing)
    load = hardest_load(sizing) if load_name is None else find_load(cycle, load_name)
    case = cycle.loads[load]
    both = [{c.name: c for c in columns(sizing, load, direction)} for direction in (0, 1)]
    lines = wrap(style.letters(f"{sizing.design.name}: {case.name}, {case.egg_count} eggs"))
    if load_name is None:
        lines += wrap("This is the hardest load that you plan; --load NAME shows another.")
    lines += ["", *_table(sizing, both, style), ""]
    lines += wrap(style.letters(_signs(sizing)))
    if sizing.ends.rests and sizing.drive.position_unit == "rad":
        low, high = sorted((sizing.ends.low_position, sizing.ends.high_position))
        text = f"Rest points at {math.degrees(low):.1f}° and {math.degrees(high):.1f}° of crank."
        lines += wrap(style.letters(text))
    return "\n".join(lines)


def _signs(sizing: Sizing) -> str:
    """Return what the figures of the table mean where they are positive."""
    turns, has_bar = sizing.drive.position_unit == "rad", cycle_of(sizing).bar_force is not None
    words, drive = wording_of(sizing.turner), words_of_drive(sizing.drive)
    which = f"load and force on the {drive.bar}" if has_bar else "load"
    way = f"{drive.moving} {drive.ways[sizing.told_direction]}"
    push = "torque" if turns else "push"
    link = f" Positive {drive.bar} force: it pulls." if has_bar else ""
    return (
        f"At middle friction; {which} {way}. Positive {push}: the motor pushes; negative: it "
        f"is pushed along. Positive {words.coordinate}: {words.sign}, seen from "
        f"{sizing.design.drawn_from}.{link}"
    )


def _table(sizing: Sizing, both: list[dict[str, Column]], style: Style) -> list[str]:
    """Return the columns with three lines of heads, the figures to the right."""
    found = [
        [*(style.letters(head) for head in heads), *figures]
        for heads, figures in _columns(sizing, both, style.system)
    ]
    widths = [max(len(cell) for cell in column) for column in found]
    gap = " " * (3 if sum(widths) + 3 * len(widths) <= WIDTH - 2 else 2)
    return [
        "  " + gap.join(cell.rjust(width) for cell, width in zip(row, widths, strict=True))
        for row in zip(*found, strict=True)
    ]


def _columns(
    sizing: Sizing, both: list[dict[str, Column]], system: str
) -> Iterator[tuple[tuple[str, str, str], list[str]]]:
    """Yield three heads and the shown figures of each column."""
    swings = sizing.turner.coordinate_unit == "rad"
    turns = sizing.drive.position_unit == "rad"
    better = list(both[sizing.told_direction].values())
    pushes = "shaft_torque_Nm" if turns else "rod_force_N"
    ways = ("shaft, anti-", "clockwise") if turns else ("rod,", "out")
    back = ("shaft,", "clockwise") if turns else ("rod,", "in")
    kinds = ("angle" if turns else "length", "angle" if swings else "length")
    load, push = ("torque" if swings else "force", "torque" if turns else "force")

    def shown(
        first: str, second: str, kind: str, column: Column, decimals: int | None = None
    ) -> tuple[tuple[str, str, str], list[str]]:
        scale = scale_for(kind, system)
        figures = _figures(scale.per_si * column.values, decimals)
        return (first, second, scale.symbol), [figures[i] for i in _shown(len(figures))]

    yield shown("", words_of_drive(sizing.drive).head, kinds[0], better[0], 1 if turns else None)
    name = wording_of(sizing.turner).coordinate
    yield shown("", name, kinds[1], better[1], 1 if swings else None)
    yield shown("load", load, load, better[3])
    yield shown(*ways, push, both[0][pushes])
    yield shown(*back, push, both[1][pushes])
    named = both[sizing.told_direction]
    if "link_force_N" in named:
        bar = words_of_drive(sizing.drive).bar
        largest = float(np.nanmax(np.abs(named["link_force_N"].values), initial=0.0))
        digits = 0 if system != "us" and largest >= 10.0 else 1
        yield shown(bar, "force", "force", named["link_force_N"], digits)
        lever = wording_of(sizing.turner).lever
        yield shown(f"{bar} to", lever, "angle", named["link_to_arm_deg"], 0)


def _shown(count: int) -> list[int]:
    """Return about `ROWS` positions, evenly spaced, the first included."""
    step = max(count // ROWS, 1)
    return list(range(0, count, step))


def _figures(values: Array, decimals: int | None = None) -> list[str]:
    """Return a column of figures with as many decimals as its largest deserves."""
    finite = np.abs(values[np.isfinite(values)])
    places = decimals_for(float(finite.max(initial=0.0))) if decimals is None else decimals
    texts = [f"{v:.{places}f}" if np.isfinite(v) else "-" for v in values]
    # A figure that rounds to nothing has no sign.
    return [
        t.lstrip("-") if t.startswith("-") and not t.strip("-0.") and t != "-" else t for t in texts
    ]
