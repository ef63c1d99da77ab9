"""A sweep as CSV, JSON, a plot or a map."""

from __future__ import annotations

import csv
import io
import json
import math
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from turnercalc.advice.ranges import info_of
from turnercalc.building import build
from turnercalc.errors import UnknownNameError
from turnercalc.handover.numbers import rounded

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from turnercalc.advice.sweep import Sweep
    from turnercalc.design import Design

FORMAT = "turnercalc-sweep/1"
DEGREES = 180.0 / math.pi
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
    force = "torque_Nm" if sweep.force_unit == "N·m" else "push_N"
    found[f"high_end_{end}"] = [shown(value, per) for value in sweep.high.tolist()]
    found[f"low_end_{end}"] = [shown(value, per) for value in sweep.low.tolist()]
    for at, way in enumerate(("anticlockwise", "clockwise")):
        found[f"peak_{force}_{way}"] = [shown(value, 1.0) for value in sweep.peak[:, at].tolist()]
    if sweep.verdict is not None and sweep.times_enough is not None:
        found["verdict"] = list(sweep.verdict)
        found["times_enough"] = [shown(value, 1.0) for value in sweep.times_enough.tolist()]
    jams = np.asarray(np.isinf(sweep.peak).all(axis=1))
    found["goes_through"] = [bool(ok) for ok in sweep.closes.tolist()]
    found["reason"] = [
        "friction jams it" if jams[at] and sweep.closes[at] else sweep.reason_of(at)
        for at in range(len(sweep))
    ]
    return found


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
    sheet = Figure(figsize=(FRAME[0], FRAME[1] + 0.6), layout="constrained")
    ax = sheet.add_subplot()
    if len(numeric) == 1:
        _line(ax, design, sweep, numeric[0], show)
    elif len(numeric) == 2:
        _map(sheet, ax, design, sweep, (numeric[0], numeric[1]), show)
    else:
        raise UnknownNameError("A plot shows one field or two; write the CSV for more.")
    sheet.suptitle(design.name, x=0.01, ha="left", fontsize=11, color=INK)
    return sheet


def _is_number(values: Any) -> bool:
    return bool(np.issubdtype(np.asarray(values).dtype, np.number))


def _label(design: Design, path: str) -> tuple[str, float]:
    suffix, per = unit_of(design, path)
    unit = {"_deg": "°", "_N_per_mm": "N/mm"}.get(suffix, suffix.removeprefix("_"))
    return f"{path}, {unit}" if unit else path, per


def _line(ax: Any, design: Design, sweep: Sweep, path: str, show: str) -> None:
    from turnercalc.handover.strokes import STROKES, draw, dress
    from turnercalc.turners.wording import wording_of

    label, per = _label(design, path)
    x = per * np.asarray(sweep.varied[path], float)
    if show == "peak":
        for at, way in enumerate(("anticlockwise", "clockwise")):
            finite = np.where(np.isfinite(sweep.peak[:, at]), sweep.peak[:, at], np.nan)
            draw(ax, x, finite, STROKES[at], way)
        dress(ax, "Hardest planned turn", f"peak, {sweep.force_unit}", legend_below=2)
    else:
        scale, unit = (DEGREES, "°") if sweep.unit == "rad" else (1e3, "mm")
        words = wording_of(build(design).turner)
        draw(ax, x, scale * sweep.high, STROKES[0], words.high)
        draw(ax, x, -scale * sweep.low, STROKES[1], words.low)
        dress(ax, "Where it comes to rest", f"each end from the middle, {unit}", legend_below=2)
    ax.set_xlabel(label, fontsize=9)


def _map(
    sheet: Any, ax: Any, design: Design, sweep: Sweep, paths: tuple[str, str], show: str
) -> None:
    from turnercalc.handover.strokes import INK

    (x_label, x_per), (y_label, y_per) = (_label(design, path) for path in paths)
    x = x_per * np.asarray(sweep.varied[paths[0]], float).reshape(sweep.shape)
    y = y_per * np.asarray(sweep.varied[paths[1]], float).reshape(sweep.shape)
    if show == "peak":
        values, what = sweep.better.copy(), f"hardest planned turn, {sweep.force_unit}"
    else:
        per, unit = (DEGREES, "°") if sweep.unit == "rad" else (1e3, "mm")
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
    ax.set_title("Grey: does not go through, or friction jams it", fontsize=9, loc="left")


def save(sheet: Figure, path: str | Path, *, replace: bool = False) -> Path:
    """Write a plot or map."""
    from turnercalc.handover.plots import save as save_sheet

    return save_sheet(sheet, path, replace=replace)
