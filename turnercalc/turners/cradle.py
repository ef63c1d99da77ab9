"""Rocking cradle, and the arc on fixed rollers, as a design file tells them."""

from __future__ import annotations

import math
from collections.abc import Iterable
from types import MappingProxyType
from typing import Annotated, Any

from pydantic import Field

from turnercalc.fields import (
    FROM_CONTACT,
    AcrossFromContact,
    Choice,
    Context,
    Count,
    Friction,
    Given,
    HeightAboveFloor,
    HeightFromContact,
    Length,
    LengthRange,
    Mass,
    Name,
    Section,
    Trouble,
    to_text,
)
from turnercalc.findings import Assumed
from turnercalc.ingredients import Ingredients
from turnercalc.joints import JointFriction, friction_of_bearing
from turnercalc.tables import Range3, runner_pair
from turnercalc.tables.assuming import assumed_by_rule, assumed_default
from turnercalc.turners.arc_on_rollers import ArcOnRollers
from turnercalc.turners.base import Growing, TurnerKind
from turnercalc.turners.cradle_loads import cradle_load_cases
from turnercalc.turners.filling import wrong_filling
from turnercalc.turners.rocking_cradle import RockingCradle
from turnercalc.turners.rows import row_places, shapes

FLOOR, ROLLERS = "floor", "fixed rollers"
STRAPS = "crossed straps"
TRAY_RIM = 0.010  # m, what the default width leaves outside the outer rows, both sides together
TRAY_BOARD = 0.006  # m, thickness of the tray's bottom where its underside is not given


Bed = Annotated[
    str,
    Choice(
        FLOOR,
        ROLLERS,
        also={
            "the floor": FLOOR,
            "box floor": FLOOR,
            "a board": FLOOR,
            "board": FLOOR,
            "rollers": ROLLERS,
            "two fixed rollers": ROLLERS,
        },
    ),
]
Filling = Annotated[str, Choice("in any order", "in mirror pairs")]
Straps = Annotated[
    str, Choice("none", STRAPS, also={"straps": STRAPS, "crossed bands": STRAPS, "no": "none"})
]


class Cradle(Section):
    """[cradle]: one tray on two equal arc runners."""

    runs_on: Annotated[
        Bed | None,
        Field(description="What the runners run on: they roll on a floor, or lie on rollers"),
    ] = None
    runner_radius: Annotated[
        Length, Field(description="Of the runners' arc, outside", examples=["200 mm"])
    ]
    runner_width: Annotated[
        Length | None,
        Field(
            description="A runner from end to end of its arc, straight across", examples=["330 mm"]
        ),
    ] = None
    runners: Annotated[
        Name, Field(description="What rolls on what", examples=["plywood on plywood"])
    ]
    rolling_arm: Annotated[
        LengthRange | None,
        Field(description="Arm of rolling resistance of the runners", examples=["1 / 1.5 / 2 mm"]),
    ] = None
    grip: Annotated[
        Friction | None,
        Field(description="Friction coefficient of the runners, low to high", examples=["0.3"]),
    ] = None
    straps: Annotated[
        Straps | None,
        Field(description="What keeps the runners from sliding, besides friction"),
    ] = None
    contact_height: Annotated[
        HeightAboveFloor | None,
        Field(
            description="The lowest point of the level runners",
            examples=["18 mm above the box floor"],
        ),
    ] = None
    from_left_wall: Annotated[
        Length | None,
        Field(
            description="The lowest point of the level runners, from the left wall of the box",
            examples=["320 mm"],
        ),
    ] = None
    rows: Annotated[
        Count, Field(description="Rows of eggs; rows run along the tilt axis", examples=["5"])
    ]
    eggs_per_row: Annotated[Count, Field(description="Eggs in one row", examples=["7"])]
    row_spacing: Annotated[
        Length, Field(description="Middle of one row to the middle of the next", examples=["50 mm"])
    ]
    off_centre: Annotated[
        AcrossFromContact | None,
        Field(description="Middle of all rows", examples=["3 mm right of contact"]),
    ] = None
    width: Annotated[
        Length | None, Field(description="Outside of the tray, left to right", examples=["260 mm"])
    ] = None
    empty_weight: Annotated[
        Mass, Field(description="Tray and runners without eggs", examples=["1.9 kg"])
    ]
    balance: Annotated[
        HeightFromContact | None,
        Field(description="Where the empty cradle balances", examples=["60 mm above contact"]),
    ] = None
    egg_floor: Annotated[
        HeightFromContact,
        Field(
            description="What the eggs stand on; a few mm count, so measure it",
            examples=["86 mm above contact"],
        ),
    ]
    underside: Annotated[
        HeightFromContact | None,
        Field(
            description="Lowest part of the level tray, its runners aside",
            examples=["80 mm above contact"],
        ),
    ] = None
    filled: Annotated[
        Filling | None,
        Field(
            description="How eggs come and go; a promise you make to the motor",
            examples=["in any order", "in mirror pairs"],
        ),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield what is taken where the builder says nothing."""
        del context
        for name in ("runs_on", "off_centre", "filled"):
            if given.get(name) is None:
                yield assumed_default(f"cradle.{name}")
        on_floor = given.get("runs_on", FLOOR) == FLOOR
        if on_floor and given.get("straps") is None:
            yield assumed_default("cradle.straps")
        if on_floor and given.get("contact_height") is None:
            yield assumed_by_rule("cradle.contact_height", "0 mm above the box floor")
        yield from _assumed_rolling(given, on_floor)
        rows, spacing, floor = (given.get(n) for n in ("rows", "row_spacing", "egg_floor"))
        if given.get("width") is None and rows and spacing:
            width = rows * spacing + TRAY_RIM
            yield assumed_by_rule("cradle.width", f"{1e3 * width:.6g} mm")
        if floor is not None and given.get("balance") is None:
            yield assumed_by_rule("cradle.balance", from_contact(0.5 * floor))
        if floor is not None and given.get("underside") is None:
            yield assumed_by_rule("cradle.underside", from_contact(floor - TRAY_BOARD))

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield runners that are none, a tray too narrow, and rollers said by half."""
        radius, across = given.get("runner_radius"), given.get("runner_width")
        if radius and across and across > 2.0 * radius:
            message = f"An arc of {_mm(radius)} radius is at most {_mm(2 * radius)} across."
            yield "runner_width", message, (_mm(1.6 * radius),)
        width, rows, spacing = (given.get(n) for n in ("width", "rows", "row_spacing"))
        if width and rows and spacing and width < (rows - 1) * spacing:
            message = f"{rows} rows so far apart do not fit on a tray {_mm(width)} wide."
            yield "width", message, (_mm(rows * spacing + TRAY_RIM),)
        floor, under = given.get("egg_floor"), given.get("underside")
        if floor is not None and under is not None and under > floor:
            yield "underside", "It cannot be above what the eggs stand on.", (from_contact(floor),)
        on_floor, rollers = given.get("runs_on", FLOOR) == FLOOR, context.get("rollers")
        if not on_floor and rollers is None:
            message = "Where the fixed rollers are decides what they bear: add a [rollers] section."
            yield "runs_on", message, (FLOOR,)
        if on_floor and rollers is not None:
            message = "There is a [rollers] section, but the cradle runs on the floor."
            yield "runs_on", message, (ROLLERS,)
        if not on_floor and given.get("straps") == STRAPS:
            yield "straps", "An arc on fixed rollers does not walk: it needs no straps.", ("none",)

    @classmethod
    def idle(cls, given: Given) -> tuple[str, ...]:
        """Return what does not matter on fixed rollers."""
        return ("straps", "grip") if given.get("runs_on") == ROLLERS else ()


def _assumed_rolling(given: Given, on_floor: bool) -> Iterable[Assumed]:
    """Yield rolling resistance and friction of what rolls on what."""
    if not given.get("runners"):
        return
    pair = runner_pair(str(given["runners"]))
    source = f"runners.csv: {pair.name}"
    if given.get("rolling_arm") is None:
        text = to_text(pair.rolling_arm, "length range")
        yield Assumed("cradle.rolling_arm", text, source, pair.how)
    if on_floor and given.get("grip") is None:
        yield Assumed("cradle.grip", to_text(pair.grip, "friction"), source, pair.how)


class Rollers(Section):
    """[rollers]: two fixed rollers that the runners lie on."""

    spacing: Annotated[
        Length, Field(description="Middle of one roller to the other", examples=["190 mm"])
    ]
    diameter: Annotated[Length, Field(description="Of a roller, outside", examples=["22 mm"])]
    axle_diameter: Annotated[Length, Field(description="What a roller turns on", examples=["8 mm"])]
    bearing: Annotated[
        Name, Field(description="What turns on what", examples=["ball bearing", "steel in nylon"])
    ]
    friction: Annotated[
        Friction | None,
        Field(description="Friction coefficient, low to high", examples=["0.1 to 0.3"]),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield friction from the damp column of the named bearing."""
        del context
        yield from friction_of_bearing("rollers", given)

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield an axle thicker than its roller, and rollers that the arc falls between."""
        diameter, axle = given.get("diameter"), given.get("axle_diameter")
        if diameter and axle and axle > diameter:
            yield "axle_diameter", "The axle is thicker than its roller.", (_mm(0.4 * diameter),)
        radius, spacing = context.get("cradle", {}).get("runner_radius"), given.get("spacing")
        if radius and spacing and diameter and not spacing < 2.0 * radius + diameter:
            message = f"An arc of {_mm(radius)} radius falls between rollers so far apart."
            yield "spacing", message, (_mm(radius),)


class Pin(Section):
    """[pin]: of the cradle, that crank or actuator holds."""

    across: Annotated[
        AcrossFromContact,
        Field(description="With the cradle level", examples=["120 mm right of contact"]),
    ]
    height: Annotated[
        HeightFromContact,
        Field(description="With the cradle level", examples=["90 mm above contact"]),
    ]


class CradleLoad(Section):
    """[[loads]]: one way of filling the cradle."""

    name: Annotated[Name, Field(description="What you call it", examples=["after candling"])]
    rows: Annotated[
        list[int],
        Field(description="Eggs in each row, left row first", examples=["[7, 7, 5, 7, 0]"]),
    ]

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield eggs in rows that the cradle does not have."""
        eggs, cradle = given.get("rows"), context.get("cradle", {})
        rows, room = cradle.get("rows"), cradle.get("eggs_per_row")
        if eggs is None or not rows or not room:
            return
        yield from wrong_filling("rows", eggs, rows, room, "row", shown_to=20)


def from_contact(height: float) -> str:
    """Return a height as a file says it: ``86 mm above contact``."""
    return to_text(height, "height from contact")


def _mm(length: float) -> str:
    return f"{1e3 * length:.4g} mm"


def build(ingredients: Ingredients) -> RockingCradle:
    """Return the cradle a design file tells of, on the floor or on fixed rollers."""
    sections = ingredients.sections
    cradle, pin, rollers = sections["cradle"], sections["pin"], sections.get("rollers")
    egg, held = ingredients.lot.typical, ingredients.seating.leaned or ingredients.seating.rest
    numbers: dict[str, Any] = {
        "runner_radius": cradle.runner_radius,
        "row_places": tuple(float(place) for place in row_places(cradle)),
        "eggs_per_row": cradle.eggs_per_row,
        "egg_mass": egg.mass,
        "egg_height": cradle.egg_floor + held.height,
        "egg_inertia": egg.inertia_cross,
        "egg_shift": held.across,
        "slip_angle": ingredients.seating.slip_angle,
        "cradle_mass": cradle.empty_weight,
        "cradle_height": cradle.balance,
        "cradle_inertia": cradle.empty_weight * cradle.width**2 / 12.0,
        "pin_across": pin.across,
        "pin_height": pin.height,
        "wanted_tilt": sections["turning"].tilt,
        "lean": sections["box"].leans,
        "rolling_arm": cradle.rolling_arm,
        "runner_half_angle": half_angle(cradle.runner_radius, cradle.runner_width),
        "shapes": shapes(cradle, ingredients.seating),
        "origin_from_left": cradle.from_left_wall,
        "origin_height": cradle.contact_height,
        "cases": cradle_load_cases(
            cradle.rows,
            cradle.eggs_per_row,
            any_order=cradle.filled == "in any order",
            given=[(load.name, load.rows) for load in ingredients.loads],
        ),
    }
    if rollers is None:
        no_grip = Range3(0.0, 0.0, 0.0)
        grip = no_grip if cradle.grip is None else cradle.grip
        return RockingCradle(**numbers, grip=grip, strapped=cradle.straps == STRAPS)
    reach = cradle.runner_radius + 0.5 * rollers.diameter
    return ArcOnRollers(
        **numbers,
        roller_angle=math.asin(0.5 * rollers.spacing / reach),
        roller_radius=0.5 * rollers.diameter,
        axle_diameter=rollers.axle_diameter,
        axle_friction=JointFriction.of(rollers.bearing, rollers.friction),
    )


def half_angle(radius: float, width: float | None) -> float | None:
    """Return the angle from an arc's lowest point to its end, from its width across [rad]."""
    return None if width is None else math.asin(min(0.5 * width / radius, 1.0))


KIND = TurnerKind(
    id="rocking_cradle",
    words=("rocking cradle", "cradle", "rocker", "arc on rollers"),
    starter="cradle",
    says="one tray on two arc runners that rock on the floor of the box, or on fixed rollers",
    sections=MappingProxyType({"cradle": Cradle, "rollers": Rollers, "pin": Pin}),
    optional_sections=("rollers",),
    load_entry=CradleLoad,
    drives=("crank_and_link", "linear_actuator"),
    build=build,
    checks=(
        "species_turned",
        "closes",
        "jam",
        "tilt",
        "tilt_ends",
        "as_built",
        "runner_ends",
        "runner_grip",
        "runner_creep",
        "roller_press",
        "retention",
        "lean",
        "fit",
        "room",
        "floor_width",
        "air_gap",
        "link_to_arm",
        "push_and_pull",
        "gentleness",
        "knock",
        "turns_per_day",
        "rest_at_ends",
        "last_day",
        "holding",
        "link_strength",
        "pin_strength",
        "jam_force",
    ),
    measured_from=FROM_CONTACT,
    grows=(Growing("cradle.rows", "rows", "row", ("room", "floor_width")),),
)
