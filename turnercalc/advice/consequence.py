"""What would follow from a length, told beside a number whose unit is missing."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import numpy as np

from turnercalc.drives.crank_link import CrankLink
from turnercalc.errors import UnitError
from turnercalc.paths import CirclePath
from turnercalc.turners.rack import DIRECTIONS
from turnercalc.units import parse

#: Ends that differ by less than this are told as one [deg].
ALIKE = 1.0
POSITIONS = 360

_LENGTHS = ("crank.radius", "crank.across", "crank.height", "link.length", "arm.length")


def consequence(path: str, text: str, values: Mapping[str, Mapping[str, Any]]) -> str:
    """Return what the trays would do with a length of crank, link or arm.

    Parameters
    ----------
    path : str
        Field path.
    text : str
        A text it could have, such as ``50 mm``.
    values : mapping
        What is known of the design so far: section -> field -> SI.

    Returns
    -------
    str
        ``the trays would tip 45.6 degrees each side``; empty where too little is known.
    """
    known = {name: _at(values, name) for name in _LENGTHS}
    points = _at(values, "arm.points")
    try:
        known[path] = parse(text, "length")
    except UnitError:
        return ""
    if path not in _LENGTHS or None in known.values() or points not in DIRECTIONS:
        return ""
    arm = CirclePath(known["arm.length"], DIRECTIONS[points] + (_at(values, "arm.angle") or 0.0))
    drive = CrankLink(
        known["crank.radius"], known["link.length"], known["crank.across"], known["crank.height"]
    ).assemble(arm)
    if not drive.closing(arm).closes:
        return "the crank could not go all the way"
    tilt = drive.close(arm, drive.positions((0.0, 0.0), POSITIONS)).coordinate
    left, right = math.degrees(np.max(tilt)), -math.degrees(np.min(tilt))
    if abs(left - right) < ALIKE:
        return f"the trays would tip {0.5 * (left + right):.1f} degrees each side"
    if min(left, right) < -0.5:  # both ends lie on one side of level
        side, near, far = ("left", -right, left) if left > right else ("right", -left, right)
        return f"the trays would stay between {near:.0f} and {far:.0f} degrees to the {side}"
    left, right = max(left, 0.0), max(right, 0.0)
    return f"the trays would tip {left:.0f} degrees to the left and {right:.0f} to the right"


def _at(values: Mapping[str, Mapping[str, Any]], path: str) -> Any:
    section, _, name = path.partition(".")
    return values.get(section, {}).get(name)
