"""A rocking cradle in the workshop: its runners, made and seen from the side."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from turnercalc.ingredients import Ingredients
from turnercalc.pieces import Fastener, Fixed, Hole, Made, Piece, edge_round
from turnercalc.sight import BAR, DISC, Sight, through

if TYPE_CHECKING:
    from turnercalc.turners.rocking_cradle import RockingCradle

Array = NDArray[np.float64]

ARC_POINTS = 41
#: Arc beyond the wanted tilt that is shown where nobody said how long it is [rad].
MORE = math.radians(10.0)
#: Material of a runner above its arc [m].
RUNNER_DEPTH = 0.030


def half_angle(cradle: RockingCradle) -> float:
    """Return the half angle of the arc, or what it takes at least where nobody said [rad]."""
    found = cradle.runner_half_angle
    standing = float(getattr(cradle, "roller_angle", 0.0))
    return cradle.wanted_tilt + standing + MORE if found is None else found


def cradle_made(cradle: RockingCradle, ingredients: Ingredients) -> Made:
    """Return runners, tray and straps, and for an arc on rollers the places of these."""
    radius, half = float(cradle.runner_radius), half_angle(cradle)
    length = 2.0 * radius * math.sin(min(half, 0.5 * math.pi))
    runner = Piece(
        "runner",
        "runner",
        2,
        size=(length, radius * (1.0 - math.cos(half)) + RUNNER_DEPTH, None),
        shape="sheet",
        edge_line=_runner_edge(radius, half),
        says=f"An arc of {1e3 * radius:.0f} mm radius over {2.0 * math.degrees(half):.0f}°. Cut "
        "both together, or with a batten on a nail as long as the radius: the better the arc, "
        "the smoother it rolls.",
        critical=("cradle.runner_radius",),
    )
    pin = Piece(
        "driven_pin",
        "place of the driven pin",
        1,
        (
            Hole("lowest point of the runner", 0.0, 0.0, None),
            Hole("driven pin", float(cradle.pin_across), float(cradle.pin_height), None),
        ),
        edge_round(None),
        shape="sheet",
        size=(None, None, None),
        template=False,
        says="Measured from the lowest point of the level runner.",
        critical=("pin.across", "pin.height"),
    )
    tray = _tray(ingredients)
    if not cradle.strapped:
        return Made((runner, tray, pin), _rollers(cradle))
    return Made((runner, tray, _strap(cradle), pin), _rollers(cradle), (_strap_screws(),))


def _tray(ingredients: Ingredients) -> Piece:
    """Return the tray that stands on the runners."""
    told = ingredients.sections["cradle"]
    below = "" if told.underside is None else f", its underside {1e3 * told.underside:.4g} mm"
    return Piece(
        "cradle_tray",
        "tray",
        1,
        size=(told.width, None, None),
        shape="sheet",
        template=False,
        says=f"{told.rows} rows {1e3 * told.row_spacing:.4g} mm apart, {told.eggs_per_row} eggs in "
        f"each. The eggs stand {1e3 * told.egg_floor:.4g} mm above the lowest point of the level "
        f"runners{below}: a few mm count for the torque.",
    )


STRAPS = 4  # two under each of two runners
#: For a screw at either end of a strap [m] (common practice, no source).
STRAP_HOLD = 0.020


def strap_parts(cradle: RockingCradle) -> tuple[float, float]:
    """Return what of a strap lies along the level arc, and what along the floor [m].

    From one end of the arc to the contact below its middle, and on to under its other end, or as
    far as the contact itself rolls. Both together are the same at every tilt: what rolls off the
    arc comes to lie on the floor.
    """
    radius, half = float(cradle.runner_radius), half_angle(cradle)
    rolls = float(np.max(np.asarray(cradle.wanted_tilt)))
    return radius * half, radius * max(math.sin(min(half, 0.5 * math.pi)), rolls)


def _strap(cradle: RockingCradle) -> Piece:
    along, on_floor = strap_parts(cradle)
    return Piece(
        "strap",
        "strap",
        STRAPS,
        size=(along + on_floor + 2.0 * STRAP_HOLD, None, None),
        shape="sheet",
        template=False,
        says="Webbing or thin steel strip that does not stretch. Two under each runner, side by "
        "side and crossed: each from one end of the arc, along it to the contact and on along "
        f"the floor to a screw {1e3 * on_floor:.0f} mm from there, toward the other end; "
        f"{1e3 * STRAP_HOLD:g} mm more at both ends to hold it by. Taut when screwed down.",
    )


def _strap_screws() -> Fastener:
    return Fastener("screw and washer", 2 * STRAPS, None, "both ends of every strap")


def _runner_edge(radius: float, half: float) -> tuple[tuple[float, float], ...]:
    """Return the arc from its lowest point, and a straight top with material above its ends [m]."""
    turns = [half * (2.0 * n / (2 * ARC_POINTS) - 1.0) for n in range(2 * ARC_POINTS + 1)]
    arc = [(radius * math.sin(turn), radius * (1.0 - math.cos(turn))) for turn in turns]
    top = arc[-1][1] + RUNNER_DEPTH
    return (*arc, (arc[-1][0], top), (arc[0][0], top))


def _roller_places(cradle: RockingCradle) -> tuple[tuple[float, float, float], ...]:
    """Return across, height and radius of fixed rollers; none for runners on the floor."""
    angle = getattr(cradle, "roller_angle", None)
    if angle is None:
        return ()
    size = float(getattr(cradle, "roller_radius", 0.01))
    reach = float(cradle.runner_radius) + size
    places = ((way * reach * math.sin(angle), reach * math.cos(angle)) for way in (-1.0, 1.0))
    return tuple((x, float(cradle.runner_radius) - down, size) for x, down in places)


def _rollers(cradle: RockingCradle) -> tuple[Fixed, ...]:
    names = ("left roller", "right roller")
    size = float(getattr(cradle, "axle_diameter", 0.0)) or None
    places = _roller_places(cradle)
    return tuple(Fixed(n, x, y, size) for n, (x, y, _) in zip(names, places, strict=False))


def cradle_sights(cradle: RockingCradle, coordinate: Array) -> tuple[Sight, ...]:
    """Return the runner's arc, the driven pin's bracket, and the rollers under it."""
    q = np.asarray(coordinate, float)
    turn = np.linspace(-half_angle(cradle), half_angle(cradle), ARC_POINTS)
    radius = float(cradle.runner_radius)
    arc = cradle.path_of(
        (radius * np.sin(turn))[:, None], (radius * (1.0 - np.cos(turn)))[:, None]
    ).point(q)
    seen = [Sight("runner", BAR, np.asarray(arc[0]), np.asarray(arc[1]))]
    seen += [through("roller", DISC, (x, y), radius=size) for x, y, size in _roller_places(cradle)]
    return tuple(seen)
