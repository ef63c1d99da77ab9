"""A sweep as CSV, JSON, a plot or a map."""

from __future__ import annotations

import csv
import io
import json
import math
import textwrap
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from turnercalc.advice.ranges import info_of
from turnercalc.building import build
from turnercalc.errors import UnknownNameError
from turnercalc.handover.numbers import rounded

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from turnercalc.advice.sweep import Sweep
    from turnercalc.design import Design

FORMAT = "turnercalc-sweep/2"
DEGREES = 180.0 / math.pi
#: Values of a plot that are marked each by a dot; and reasons told in place of a plot.
MOST_MARKED, MOST_REASONS = 60, 4
#: Unit of a column for each kind of quantity, and what SI is multiplied by.
COLUMN_UNITS = {
    "length": ("_mm", 1e3),
    "mass": ("_g", 1e3),
    "angle": ("_deg", DEGREES),
    "torque": ("_Nm", 1.0),
    "force": ("_N", 1.0),
    "rotation": ("_rpm", 30.0 / math.pi),
    "stiffness": ("_N_per_mm", 1e-3),
    "temperature": ("_degC", 1.0),
}


def columns(design: Design, sweep: Sweep) -> dict[str, list[Any]]:
    """Return every column with its unit in its name, numbers rounded, None where there is none."""
    found: dict[str, list[Any]] = {}
    for path, values in sweep.varied.items():
        suffix, per = unit_of(design, path)
        found[path + suffix] = [shown(value, per) for value in np.asarray(values).tolist()]
    end, per = ("deg", DEGREES) if sweep.unit == "rad" else ("mm", 1e3)
    found[f"high_end_{end}"] = [shown(value, per) for value in sweep.high.tolist()]
    found[f"low_end_{end}"] = [shown(value, per) for value in sweep.low.tolist()]
    peaks = (sweep.better, sweep.peak[:, 0], sweep.peak[:, 1])
    for name, values in zip(sweep.peak_names, peaks, strict=True):
        found[name] = [shown(value, 1.0) for value in values.tolist()]
    found[sweep.way_name] = sweep.way.tolist()
    if sweep.verdict is not None and sweep.times_enough is not None:
        found["verdict"] = list(sweep.verdict)
        found["times_enough"] = [shown(value, 1.0) for value in sweep.times_enough.tolist()]
    found["goes_through"] = [bool(ok) for ok in sweep.closes.tolist()]
    found["reason"] = reasons(sweep)
    return found


def reasons(sweep: Sweep) -> list[str]:
    """Return for every design why it does not turn; empty where it does."""
    jams = sweep.jams.tolist()
    return ["friction jams it" if jams[at] else sweep.reason_of(at) for at in range(len(sweep))]


def unit_of(design: Design, path: str) -> tuple[str, float]:
    """Return the end of a field's column name and the factor from SI."""
    return COLUMN_UNITS.get(info_of(design, path).phrase.quantity or "", ("", 1.0))


def shown(value: Any, per: float) -> Any:
    """Return a value as a record holds it."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return value
    return rounded(value, per) if per != 1.0 or isinstance(value, float) else value


def as_csv(design: Design, sweep: Sweep) -> str:
    """Return a line for every design."""
    found = columns(design, sweep)
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(found)
    writer.writerows(_rows(found))
    return out.getvalue()


def _rows(found: dict[str, list[Any]]) -> Iterator[list[Any]]:
    for row in zip(*found.values(), strict=True):
        yield ["" if v is None else str(v).lower() if isinstance(v, bool) else v for v in row]


def as_json(design: Design, sweep: Sweep) -> str:
    """Return equally long arrays as JSON text."""
    record = {
        "format": FORMAT,
        "design": {"name": design.name, "turner": design.turner, "drive": design.drive},
        "friction": sweep.friction,
        "shape": list(sweep.shape),
        "columns": columns(design, sweep),
    }
    return json.dumps(record, ensure_ascii=False, allow_nan=False)


def figure(design: Design, sweep: Sweep, show: str = "peak") -> Figure:
    """Return a plot over one field, or a map over two.

    Parameters
    ----------
    show : str
        ``peak``: the hardest turn in the better direction; ``ends``: both ends, or on a map the
        lesser of the two.
    """
    from matplotlib.figure import Figure

    from turnercalc.handover.strokes import FRAME, INK

    if show not in ("peak", "ends"):
        raise UnknownNameError(f'"{show}" cannot be shown. There are peak and ends.')
    numeric = [path for path, values in sweep.varied.items() if _is_number(values)]
    if len(sweep.shape) != len(sweep.varied) or len(numeric) != len(sweep.varied):
        raise UnknownNameError("Only figures, not words, can be drawn; leave the words out.")
    if len(numeric) > 2:
        raise UnknownNameError("A plot shows one field or two; write the CSV for more.")
    sheet = Figure(figsize=(FRAME[0], FRAME[1] + 0.6), layout="constrained")
    ax = sheet.add_subplot()
    drawn = sweep.better if show == "peak" else sweep.high
    if not np.isfinite(drawn).any():
        _nothing(ax, sweep)
    elif len(numeric) == 1:
        _line(ax, design, sweep, numeric[0], show)
    else:
        _map(sheet, ax, design, sweep, (numeric[0], numeric[1]), show)
    sheet.suptitle(design.name, x=0.01, ha="left", fontsize=11, color=INK)
    return sheet


def _is_number(values: Any) -> bool:
    return bool(np.issubdtype(np.asarray(values).dtype, np.number))


def _label(design: Design, path: str) -> tuple[str, float]:
    suffix, per = unit_of(design, path)
    unit = {"_deg": "°", "_N_per_mm": "N/mm"}.get(suffix, suffix.removeprefix("_"))
    phrase = info_of(design, path).phrase
    if suffix == "_mm" and phrase.low < 0.0:  # a place: the sign is the side
        side, other = (phrase.write(at).partition(" mm ")[2] for at in (1e-3, -1e-3))
        unit += f" {side} (negative: {other.split()[0]})"
    return f"{path}, {unit}" if unit else path, per


def _nothing(ax: Any, sweep: Sweep) -> None:
    """Say in place of a plot that nothing turns, and why, the commonest reasons first."""
    from turnercalc.handover.strokes import INK

    ax.set_axis_off()
    count = len(sweep)
    lines = [
        f"None of these {count:,} designs turns:" if count > 1 else "This design does not turn:"
    ]
    told = Counter(reasons(sweep)).most_common(MOST_REASONS)
    for reason, times in told:
        lines += textwrap.wrap(f"{times:,} times: {reason}" if count > 1 else reason, 90)
    ax.text(0.0, 1.0, "\n".join(lines), va="top", fontsize=10, color=INK, transform=ax.transAxes)


def _with_friction(sweep: Sweep) -> str:
    return "without friction" if sweep.friction == "none" else f"{sweep.friction} friction"


def _line(ax: Any, design: Design, sweep: Sweep, path: str, show: str) -> None:
    from turnercalc.handover.strokes import STROKES, draw, dress
    from turnercalc.turners.wording import wording_of

    label, per = _label(design, path)
    x = per * np.asarray(sweep.varied[path], float)
    if show == "peak":
        lines = list(zip(sweep.ways, sweep.peak.T, strict=True))
        title = f"Hardest planned turn in either direction, {_with_friction(sweep)}"
        what = f"hardest planned turn, {sweep.force_unit}"
    else:
        scale, unit = (DEGREES, "°") if sweep.unit == "rad" else (1e3, "mm")
        words = wording_of(build(design).turner)
        lines = [(words.high, scale * sweep.high), (words.low, -scale * sweep.low)]
        title, what = "Where it comes to rest", f"each end from the middle, {unit}"
    order = np.argsort(x, kind="stable")
    for stroke, (name, values) in zip(STROKES, lines, strict=False):
        finite = np.where(np.isfinite(values), values, np.nan)
        line = draw(ax, x[order], finite[order], stroke, name)
        if len(x) <= MOST_MARKED:
            line.set_marker(".")
    _stand_apart(ax, np.concatenate([values[np.isfinite(values)] for _, values in lines]))
    gaps = {"do not go through": np.sum(~sweep.closes), "jam": np.sum(sweep.jams)}
    told = ", ".join(f"{count} {what}" for what, count in gaps.items() if count)
    if told:
        title += f". Gaps: {told}"
    dress(ax, title, what, legend_below=2)
    ax.set_xlabel(label, fontsize=9)
    margin = 0.02 * (x.max() - x.min()) or 0.01 * abs(x.max()) or 1.0
    ax.set_xlim(x.min() - margin, x.max() + margin)


def _stand_apart(ax: Any, values: NDArray[np.float64]) -> None:
    """Keep rounding from filling the height of a plot whose values are all alike."""
    low, high = float(values.min()), float(values.max())
    room = 0.01 * max(abs(low), abs(high))
    if high - low < room:
        ax.set_ylim(0.5 * (low + high) - room, 0.5 * (low + high) + room)
    ax.ticklabel_format(axis="y", useOffset=False)


def _map(
    sheet: Any, ax: Any, design: Design, sweep: Sweep, paths: tuple[str, str], show: str
) -> None:
    from turnercalc.handover.strokes import INK

    (x_label, x_per), (y_label, y_per) = (_label(design, path) for path in paths)
    x = x_per * np.asarray(sweep.varied[paths[0]], float).reshape(sweep.shape)
    y = y_per * np.asarray(sweep.varied[paths[1]], float).reshape(sweep.shape)
    if show == "peak":
        which = "harder" if sweep.both_ways else "better"
        title = f"Hardest planned turn in the {which} direction, {_with_friction(sweep)}"
        values, what = sweep.better, f"hardest planned turn, {sweep.force_unit}"
    else:
        per, unit = (DEGREES, "°") if sweep.unit == "rad" else (1e3, "mm")
        title = "The lesser of both ends"
        values, what = per * np.minimum(sweep.high, -sweep.low), f"lesser end, {unit}"
    z = np.where(np.isfinite(values), values, np.nan).reshape(sweep.shape)
    ax.set_facecolor("#e8e8e8")
    drawn = ax.pcolormesh(x, y, np.ma.masked_invalid(z), cmap="viridis", shading="nearest")
    if min(sweep.shape) > 2 and np.isfinite(z).sum() > 4:
        lines = ax.contour(x, y, np.ma.masked_invalid(z), 8, colors=INK, linewidths=0.6)
        ax.clabel(lines, fontsize=7)
    sheet.colorbar(drawn, ax=ax, label=what)
    ax.set_xlabel(x_label, fontsize=9)
    ax.set_ylabel(y_label, fontsize=9)
    ax.set_title(f"{title}\nGrey: does not go through, or friction jams it", fontsize=9, loc="left")


def save(sheet: Figure, path: str | Path, *, replace: bool = False) -> Path:
    """Write a plot or map."""
    from turnercalc.handover.plots import save as save_sheet

    return save_sheet(sheet, path, replace=replace)
