"""Pieces, holes and fasteners of a whole turner, and the holes from one corner of the box."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from turnercalc.drives.base import Drive
from turnercalc.ingredients import Ingredients
from turnercalc.parts.marking import Marks
from turnercalc.pieces import Fixed, Made, Makes, Reshapes
from turnercalc.swing import lengths, sensitivities
from turnercalc.tables import limit
from turnercalc.turners.base import Turner

MILLIMETRE = 1e-3


def made_for(turner: Turner, drive: Drive, ingredients: Ingredients) -> Made:
    """Return what is made and bought for turner and drive.

    Of a turner that does not say, the places of its equal parts are told as holes.
    """
    if isinstance(turner, Makes):
        own = turner.made(ingredients)
    else:
        places = enumerate(turner.stack, start=1)
        own = Made(fixed=tuple(Fixed(f"axis {n}", x, y) for n, (x, y) in places))
    if isinstance(drive, Reshapes):
        own = drive.reshape(own, turner.path())
    return own + drive.made(ingredients) if isinstance(drive, Makes) else own


@dataclass(frozen=True)
class PanelHole:
    """A hole in the wall or frame, measured from the datum corner.

    Attributes
    ----------
    name : str
    across, up : float
        From the datum wall and from the base [m].
    diameter : float or None
        Of what goes through it [m].
    measured_only : bool
        Whether it is measured out and never taken off paper.
    """

    name: str
    across: float
    up: float
    diameter: float | None
    measured_only: bool


@dataclass(frozen=True)
class Panel:
    """The wall that carries everything, seen from where the design is drawn from.

    Attributes
    ----------
    corner : str
        ``left`` or ``right``: the wall all distances across are from.
    width, height : float
        Inside of the box [m].
    from_floor : bool
        Whether heights are from the floor of the box; else, where nobody said how high the
        turner stands, from its origin.
    origin : str
        What is at the turner's origin: ``pivot 1``, ``bar 1``; empty where no hole is.
    centred : bool
        Whether the origin was taken in the middle of the box, because nobody said.
    holes : tuple of PanelHole
        Lowest first.
    """

    corner: str
    width: float
    height: float
    from_floor: bool
    origin: str
    centred: bool
    holes: tuple[PanelHole, ...]


def panel(
    turner: Turner, made: Made, width: float, height: float, marks: Marks, corner: str = "left"
) -> Panel:
    """Return the holes of the wall from one corner.

    Parameters
    ----------
    turner : Turner
    made : Made
        Whose `fixed` holes are laid out.
    width, height : float
        Inside of the box [m].
    marks : Marks
        The origin is put on a mark, so that every hole whose distance from it is on a mark
        comes to one as well.
    corner : str
        ``left`` or ``right``.
    """
    from_left, origin_height = turner.origin_from_left, turner.origin_height
    left = marks.nearest(0.5 * width if from_left is None else from_left)
    up = 0.0 if origin_height is None else marks.nearest(origin_height)
    # From the right wall every distance across is counted the other way.
    start, way = (left, 1.0) if corner == "left" else (marks.nearest(width - left), -1.0)
    holes = [
        PanelHole(f.name, start + way * f.x, up + f.y, f.diameter, f.measured_only)
        for f in made.fixed
    ]
    return Panel(
        corner=corner,
        width=width,
        height=height,
        from_floor=origin_height is not None,
        origin=next((f.name for f in made.fixed if abs(f.x) + abs(f.y) < 1e-9), ""),
        centred=from_left is None,
        holes=tuple(sorted(holes, key=lambda hole: (round(hole.up, 6), hole.across))),
    )


@dataclass(frozen=True)
class Dimension:
    """A length that decides the ends of the swing.

    Attributes
    ----------
    field : str
        Field path.
    length : float
        [m].
    low, high : float
        How far the lowest and the highest end move for a metre more [rad/m, or none for a part
        that slides].
    allowed : float
        Error that moves the worse end by as much as can just be seen [m].
    critical : bool
        Whether a millimetre moves an end by more than is worth no care.
    """

    field: str
    length: float
    low: float
    high: float
    allowed: float
    critical: bool


def dimensions(turner: Turner, drive: Drive) -> tuple[Dimension, ...]:
    """Return the lengths that decide the swing, the most telling first.

    What is worth care and what can be seen stand in the table of limits.
    """
    swings = turner.coordinate_unit == "rad"
    name = "deg" if swings else "mm"
    unit = np.pi / 180.0 if swings else MILLIMETRE
    care, seen = limit(f"end_per_millimetre_{name}").fine, limit(f"end_seen_{name}").fine
    assert care is not None
    assert seen is not None
    nominal = lengths(turner, drive)
    found = []
    for one in sensitivities(turner, drive):
        worse = max(abs(one.low), abs(one.high))
        found.append(
            Dimension(
                field=one.field,
                length=nominal[one.field],
                low=one.low,
                high=one.high,
                allowed=seen * unit / worse if worse > 0.0 else np.inf,
                critical=worse * MILLIMETRE > care * unit,
            )
        )
    return tuple(sorted(found, key=lambda d: d.allowed))


def fields_to_mark(turner: Turner, drive: Drive, made: Made) -> Mapping[str, float]:
    """Return every length that is marked out: field path -> length [m]."""
    return {**made.marked, **lengths(turner, drive)}
