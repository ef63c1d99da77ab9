"""Plots of a result. Each takes the result and axes, draws, returns the axes, and never shows.

They compute nothing but the unit on the axis. Every line has its own dashes as well as its own
colour, so that a black-and-white print says the same.
"""

from __future__ import annotations

import io
from base64 import b64encode
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

from matplotlib import rc_context
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from turnercalc.errors import OutputError, UnknownNameError
from turnercalc.handover.plots import kinds
from turnercalc.handover.plots.kind import PlotKind
from turnercalc.handover.strokes import FRAME, INK
from turnercalc.handover.writing import write_whole
from turnercalc.registry import Registry

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing

Plot = Callable[..., Axes]

_REGISTRY: Registry[PlotKind] = Registry(kinds.__name__, kinds.__path__, "plot")
KINDS: Mapping[str, PlotKind] = _REGISTRY.kinds()
#: Name -> function that draws it.
PLOTS: Mapping[str, Plot] = MappingProxyType({name: kind.draw for name, kind in KINDS.items()})


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
    return write_whole(path, content(sheet, kind), replace=replace)


def as_data(sheet: Figure) -> str:
    """Return a sheet as the address of a picture that a page carries in itself."""
    return f"data:image/svg+xml;base64,{b64encode(content(sheet, 'svg')).decode('ascii')}"


def content(sheet: Figure, kind: str) -> bytes:
    """Return a sheet as the bytes of a ``png``, ``svg`` or ``pdf`` file, without a date."""
    dateless = {"svg": {"Date": None}, "pdf": {"CreationDate": None}, "png": {}}[kind]
    written = io.BytesIO()
    with rc_context({"svg.hashsalt": "turnercalc", "pdf.fonttype": 42}):
        sheet.savefig(written, format=kind, dpi=150, metadata=dateless)
    return written.getvalue()
