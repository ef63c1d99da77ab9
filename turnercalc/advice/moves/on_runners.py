"""What the moves of a cradle share: lengths that turn it to both sides alike, places in words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace

import numpy as np

from turnercalc.advice.moves import millimetres
from turnercalc.drives.crank_link import CrankLink
from turnercalc.fields import FROM_CONTACT
from turnercalc.paths import Path
from turnercalc.sizing import Sizing
from turnercalc.turners.rocking_cradle import RockingCradle

#: Distance from the level contact at which places for a shaft or an eye are tried [m].
ACROSS = np.arange(-0.40, 0.401, 0.05)
HEIGHTS = np.arange(0.05, 0.801, 0.05)


def cradle_of(sizing: Sizing) -> RockingCradle | None:
    """Return the cradle of a sizing, or None where something else turns the eggs."""
    return sizing.turner if isinstance(sizing.turner, RockingCradle) else None


def even_lengths(path: Path, across: float, height: float, tilt: float) -> tuple[float, float]:
    """Return the crank and the link that bring both ends to the wanted tilt [m].

    At an end crank and link are in line, so that the pin is link + crank away from the shaft at
    one end and link - crank at the other.
    """
    x, y = path.point(np.array([tilt, -tilt]))
    one, other = np.hypot(x - across, y - height)
    return float(0.5 * abs(one - other)), float(0.5 * (one + other))


def refitted(drive: CrankLink, path: Path, across: float, height: float, tilt: float) -> CrankLink:
    """Return the drive with its shaft at a place, its lengths as in `even_lengths`."""
    crank, link = even_lengths(path, across, height, tilt)
    moved = replace(drive, crank=crank, link=link, across=across, height=height)
    return moved.assemble(path)


def length_settings(crank: float, link: float) -> Mapping[str, str]:
    """Return crank and link as settings, to half a millimetre."""
    return {"crank.radius": millimetres(crank), "link.length": millimetres(link)}


def width_text(width: float, radius: float) -> str:
    """Return a width of runners as a setting: whole millimetres, no less, and no wider than round.

    Near half a circle a millimetre of width is several along the arc, so it is rounded up.
    """
    whole = min(math.ceil(1e3 * width - 1e-6), math.floor(2e3 * radius + 1e-6))
    return f"{whole} mm"


def across_text(across: float) -> str:
    """Return a place across as a file says it, to half a millimetre."""
    return FROM_CONTACT.across.write(round(2e3 * across) / 2e3)


def height_text(height: float) -> str:
    """Return a height as a file says it, to half a millimetre."""
    return FROM_CONTACT.height.write(round(2e3 * height) / 2e3)


def places(sizing: Sizing, room: float) -> Iterator[tuple[float, float]]:
    """Yield places inside the box, from the level contact, with some room all round [m]."""
    cradle, box = cradle_of(sizing), sizing.design["box"]
    if cradle is None:
        return
    left = 0.5 * box.width if cradle.origin_from_left is None else cradle.origin_from_left
    floor = cradle.origin_height or 0.0
    for across in ACROSS.tolist():
        for height in HEIGHTS.tolist():
            inside = -left + room <= across <= box.width - left - room
            if inside and room - floor <= height <= box.height - floor - room:
                yield across, height
