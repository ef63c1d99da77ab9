"""What a plot is, so that a new one is one file in `kinds`."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from matplotlib.axes import Axes


@dataclass(frozen=True)
class PlotKind:
    """One plot of a result, as the registry knows it.

    Attributes
    ----------
    id : str
        The word after ``turnercalc plot``; the name of its file.
    says : str
        What it shows, in a line.
    draw : callable
        ``draw(sizing, ax=None, *, system="metric")`` draws on the axes, or on axes of its own,
        and returns them; it never shows. Raises TurnercalcError with what is missing where this
        result has nothing of the kind.
    words : tuple of str
        Other names.
    """

    id: str
    says: str
    draw: Callable[..., Axes]
    words: tuple[str, ...] = ()
