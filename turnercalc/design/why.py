"""Why some fields are asked for and never filled in silently."""

from __future__ import annotations

from collections.abc import Mapping

_LENGTHS = "Every length of the linkage changes the tilt, so none of them is guessed."
_EGG_SEAT = "How high an egg's middle sits over the pivot decides how hard it turns."
_HOW_MANY = "Where the eggs are decides how hard it turns; a guess would be a wrong motor."
_SIDES = "Left and right, clockwise and anticlockwise, mean nothing until this is said."

WHY: Mapping[str, str] = {
    "drawn_from": _SIDES,
    "turner": "Everything else depends on how the eggs are turned.",
    "drive": "Everything else depends on what moves the turner.",
    "eggs.kind": "Weight, size and how long to turn depend on it.",
    "eggs.lie": "An egg on end sits higher, leans more and is turned otherwise than one on its "
    "side.",
    "eggs.held_by": _EGG_SEAT,
    "eggs.cell_room": "It decides how far a loose egg leans, and whether it fits at all.",
    "eggs.hole": _EGG_SEAT,
    "turning.tilt": "45 each side and 45 in all differ by half.",
    "turning.motion": "A turner that goes round and one that comes back are two machines.",
    "trays.egg_floor": "A few millimetres here can double the torque, so it is never guessed.",
    "trays.count": _HOW_MANY,
    "trays.rows": _HOW_MANY,
    "trays.eggs_per_row": _HOW_MANY,
    "trays.row_spacing": _HOW_MANY,
    "cradle.egg_floor": "A few millimetres here can double the torque, so it is never guessed.",
    "cradle.runner_radius": "How far its middle is above the eggs decides how hard it rolls.",
    "cradle.runners": "Wood, rubber and metal differ in grip and in rolling resistance.",
    "cradle.rows": _HOW_MANY,
    "cradle.eggs_per_row": _HOW_MANY,
    "cradle.row_spacing": _HOW_MANY,
    "pin.across": _LENGTHS,
    "pin.height": _LENGTHS,
    "rollers.spacing": "How far apart they stand decides what each of them bears.",
    "bars.count": _HOW_MANY,
    "bars.eggs_per_lane": _HOW_MANY,
    "bars.pitch": "Bar pitch and diameter decide how deep an egg lies and how hard it rolls.",
    "bars.diameter": "Bar pitch and diameter decide how deep an egg lies and how hard it rolls.",
    "drum.shelves": _HOW_MANY,
    "drum.eggs_per_shelf": _HOW_MANY,
    "drum.shelf_radius": "It is the lever on which every egg hangs.",
    "crank.radius": _LENGTHS,
    "crank.across": "The motor's place decides both ends of the swing: 5 mm shift them by degrees.",
    "crank.height": "The motor's place decides both ends of the swing: 5 mm shift them by degrees.",
    "crank.runs": "A crank that goes round and one that goes to and fro need different motors.",
    "link.length": _LENGTHS,
    "arm.length": _LENGTHS,
    "arm.points": _LENGTHS,
    "motor.supply": "It decides which motors can run at all; a mains motor's speed follows the "
    "mains frequency.",
    "motor.stands": "A motor inside heats the eggs and lives in warm damp air.",
    "motor.stopped_by": "A timer alone drifts a little every turn; a switch does not.",
    "gearing.kind": "Each kind loses its own share of the work.",
    "loads.trays": _HOW_MANY,
    "loads.rows": _HOW_MANY,
    "loads.lanes": _HOW_MANY,
    "loads.shelves": _HOW_MANY,
}


def why_asked(path: str) -> str:
    """Return why a field is asked for and not guessed; empty where it is plain."""
    return WHY.get(path, "")
