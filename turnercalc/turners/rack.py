"""Tilting trays in a cabinet rack, as a design file tells them."""

from __future__ import annotations

from collections.abc import Iterable
from types import MappingProxyType
from typing import Annotated

import numpy as np
from pydantic import Field

from turnercalc.errors import CombinationError
from turnercalc.fields import (
    AcrossFromPivot,
    Angle,
    Choice,
    Context,
    Count,
    FrictionField,
    Given,
    HeightAboveFloor,
    HeightFromPivot,
    Length,
    Mass,
    Name,
    Section,
    Stiffness,
    Trouble,
)
from turnercalc.findings import Assumed
from turnercalc.ingredients import Ingredients
from turnercalc.joints import JointFriction, friction_of_bearing, pins_like_pivots
from turnercalc.tables.assuming import assumed_by_rule, assumed_default
from turnercalc.turners.base import Growing, TurnerKind
from turnercalc.turners.rails import Rails
from turnercalc.turners.rows import row_places, shapes
from turnercalc.turners.tilting_trays import PointMass, Spring, TiltingTrays
from turnercalc.turners.tray_loads import rack_load_cases

DIRECTIONS = {"right": 0.0, "up": 0.5 * np.pi, "left": np.pi, "down": -0.5 * np.pi}
TRAY_RIM = 0.010  # m, what the default width leaves outside the outer rows, both sides together
TRAY_BOARD = 0.006  # m, thickness of a tray's bottom where its underside is not given
BAR_PER_METRE = 0.4  # kg/m, flat bar where the tie bar's weight is not given


Filling = Annotated[str, Choice("in any order", "in mirror pairs")]
Pointing = Annotated[str, Choice(*DIRECTIONS)]


class Trays(Section):
    """[trays]: the rack's equal trays, one above the other."""

    count: Annotated[Count, Field(description="How many trays tilt together", examples=["3"])]
    pitch: Annotated[
        Length, Field(description="From pivot to pivot, one tray to the next", examples=["130 mm"])
    ]
    lowest_pivot: Annotated[
        HeightAboveFloor | None,
        Field(description="Height of the lowest pivot", examples=["300 mm above the box floor"]),
    ] = None
    from_left_wall: Annotated[
        Length | None,
        Field(description="Pivots from the left wall of the box", examples=["210 mm"]),
    ] = None
    rows: Annotated[
        Count, Field(description="Rows on one tray; rows run along the tilt axis", examples=["6"])
    ]
    eggs_per_row: Annotated[Count, Field(description="Eggs in one row", examples=["6"])]
    row_spacing: Annotated[
        Length, Field(description="Middle of one row to the middle of the next", examples=["50 mm"])
    ]
    off_centre: Annotated[
        AcrossFromPivot | None,
        Field(description="Middle of all rows against the pivot", examples=["3 mm right of pivot"]),
    ] = None
    width: Annotated[
        Length | None, Field(description="Outside, across the tilt axis", examples=["310 mm"])
    ] = None
    empty_weight: Annotated[Mass, Field(description="One tray without eggs", examples=["680 g"])]
    balance: Annotated[
        HeightFromPivot | None,
        Field(description="Where the empty tray balances", examples=["4 mm below pivot"]),
    ] = None
    egg_floor: Annotated[
        HeightFromPivot,
        Field(
            description="What the eggs stand on, against the pivot; a few mm count, so measure it",
            examples=["16 mm below pivot"],
        ),
    ]
    underside: Annotated[
        HeightFromPivot | None,
        Field(description="Lowest part of a level tray", examples=["22 mm below pivot"]),
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
        for name in ("off_centre", "filled"):
            if given.get(name) is None:
                yield assumed_default(f"trays.{name}")
        rows, spacing = given.get("rows"), given.get("row_spacing")
        if given.get("width") is None and rows and spacing:
            width = rows * spacing + TRAY_RIM
            yield assumed_by_rule("trays.width", f"{1e3 * width:.6g} mm")
        floor = given.get("egg_floor")
        if floor is not None and given.get("balance") is None:
            yield assumed_by_rule("trays.balance", from_pivot(floor))
        if floor is not None and given.get("underside") is None:
            yield assumed_by_rule("trays.underside", from_pivot(floor - TRAY_BOARD))

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield a tray too narrow for its rows: 18 mm was 18 inches."""
        del context
        width, rows, spacing = (given.get(name) for name in ("width", "rows", "row_spacing"))
        if width and rows and spacing and width < (rows - 1) * spacing:
            number = f"{1e3 * width:.6g}"
            other_units = {"in": 25.4 * width, "cm": 10.0 * width}
            least = (rows - 1) * spacing
            meant = [f"{number} {u}" for u, s in other_units.items() if least <= s <= 3 * least]
            message = f"{rows} rows so far apart do not fit on a tray {number} mm wide."
            yield "width", message, tuple(meant)


class Pivots(Section):
    """[pivots]: what the trays turn on."""

    diameter: Annotated[Length, Field(description="Of the pivot pin", examples=["8 mm"])]
    bearing: Annotated[
        Name, Field(description="What turns in what", examples=["steel in nylon", "ball bearing"])
    ]
    friction: FrictionField = None
    play: Annotated[
        Length | None, Field(description="Loose fit of pin in hole", examples=["0.2 mm"])
    ] = None
    shaft_length: Annotated[
        Length | None,
        Field(
            description="Where arm and tray sit on one shaft: from the arm to the tray's far end",
            examples=["380 mm"],
        ),
    ] = None
    shaft_material: Annotated[
        Name | None, Field(description="Of that shaft", examples=["steel"])
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield friction from the damp column of the named bearing, and the usual play."""
        del context
        if given.get("play") is None:
            yield assumed_default("pivots.play")
        yield from friction_of_bearing("pivots", given)


class Arm(Section):
    """[arm]: the lever fixed to each tray."""

    length: Annotated[Length, Field(description="From pivot to arm pin", examples=["70 mm"])]
    points: Annotated[
        Pointing,
        Field(description="Where it points with the tray level", examples=["right"]),
    ]
    angle: Annotated[
        Angle | None,
        Field(description="Turned further than `points` says, anticlockwise", examples=["10 deg"]),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield an arm exactly as `points` says."""
        del context
        if given.get("angle") is None:
            yield assumed_by_rule("arm.angle", "0 deg")


class TieBar(Section):
    """[tie_bar]: the bar that joins the arms of all trays."""

    weight: Annotated[Mass | None, Field(description="Of the whole bar", examples=["250 g"])] = None
    pin_diameter: Annotated[
        Length | None, Field(description="Of the pins in the arms", examples=["6 mm"])
    ] = None
    bearing: Annotated[
        Name | None, Field(description="What turns in what", examples=["steel in nylon"])
    ] = None
    friction: FrictionField = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield a flat bar's weight, and pins like those of the pivots."""
        trays, pivots = context.get("trays", {}), context.get("pivots", {})
        if given.get("weight") is None and trays.get("count") and trays.get("pitch"):
            weight = BAR_PER_METRE * trays["pitch"] * (trays["count"] - 1)
            yield assumed_by_rule("tie_bar.weight", f"{1e3 * weight:.4g} g")
        yield from pins_like_pivots("tie_bar", given, pivots)


class Counterweight(Section):
    """[counterweight]: a weight fixed to every tray."""

    weight: Annotated[Mass, Field(description="On each tray", examples=["400 g"])]
    height: Annotated[
        HeightFromPivot, Field(description="Its middle", examples=["60 mm below pivot"])
    ]
    across: Annotated[
        AcrossFromPivot | None, Field(description="Its middle", examples=["0 mm right of pivot"])
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield a weight straight below or above the pivot."""
        del context
        if given.get("across") is None:
            yield Assumed(
                "counterweight.across",
                "0 mm right of pivot",
                "in line with the pivot",
                "our choice",
            )


class TraySpring(Section):
    """[spring]: an extension spring from the lowest tray to the frame."""

    stiffness: Annotated[Stiffness, Field(description="Of the spring", examples=["0.2 N/mm"])]
    free_length: Annotated[
        Length, Field(description="Between its eyes, not pulled", examples=["60 mm"])
    ]
    across: Annotated[
        AcrossFromPivot,
        Field(description="Its eye on the level tray", examples=["100 mm left of pivot"]),
    ]
    height: Annotated[
        HeightFromPivot,
        Field(description="Its eye on the level tray", examples=["10 mm below pivot"]),
    ]
    frame_across: Annotated[
        AcrossFromPivot,
        Field(description="Its eye on the frame", examples=["100 mm left of pivot"]),
    ]
    frame_height: Annotated[
        HeightFromPivot,
        Field(description="Its eye on the frame", examples=["120 mm below pivot"]),
    ]


class RackLoad(Section):
    """[[loads]]: one way of filling the rack."""

    name: Annotated[Name, Field(description="What you call it", examples=["after candling"])]
    trays: Annotated[
        list[list[int]],
        Field(
            description="Eggs in each row, lowest tray first, left row first",
            examples=["[[6, 6, 6], [6, 0, 6]]"],
        ),
    ]

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield eggs in rows or trays that the rack does not have."""
        eggs, rack = given.get("trays"), context.get("trays", {})
        count, rows, room = (rack.get(name) for name in ("count", "rows", "eggs_per_row"))
        if eggs is None or not count or not rows or not room:
            return
        example = (str([[room] * rows] * count),) if count * rows <= 60 else ()
        if len(eggs) != count:
            yield (
                "trays",
                f"The number of trays is {count}, and eggs for {len(eggs)} are given.",
                example,
            )
        elif any(len(tray) != rows for tray in eggs):
            yield "trays", f"A tray has {rows} rows; say how many eggs are in each.", example
        elif not all(0 <= row <= room for tray in eggs for row in tray):
            yield "trays", f"A row holds 0 to {room} eggs.", example


def from_pivot(height: float) -> str:
    """Return a height as a file says it: ``16 mm below pivot``."""
    word = "below" if height < 0 else "above"
    return f"{1e3 * abs(height):.6g} mm {word} pivot"


def build(ingredients: Ingredients) -> TiltingTrays:
    """Return the rack a design file tells of; refuses trays that nothing joins."""
    trays, pivots = ingredients.sections["trays"], ingredients.sections["pivots"]
    arm, bar = ingredients.sections.get("arm"), ingredients.sections.get("tie_bar")
    if trays.count > 1 and arm is None:
        raise CombinationError(
            f"One shaft turns one tray, and here are {trays.count}. Give the trays an [arm] each, "
            'that the tie bar can join, or take "crank and link".'
        )
    counterweight = ingredients.sections.get("counterweight")
    spring = ingredients.sections.get("spring")
    egg, held = ingredients.lot.typical, ingredients.seating.leaned or ingredients.seating.rest
    cases = rack_load_cases(
        trays.count,
        trays.rows,
        trays.eggs_per_row,
        any_order=trays.filled == "in any order",
        given=[(load.name, load.trays) for load in ingredients.loads],
    )
    pivot_friction = JointFriction.of(pivots.bearing, pivots.friction)
    return TiltingTrays(
        count=trays.count,
        row_places=tuple(float(place) for place in row_places(trays)),
        eggs_per_row=trays.eggs_per_row,
        egg_mass=egg.mass,
        egg_height=trays.egg_floor + held.height,
        egg_inertia=egg.inertia_cross,
        egg_shift=held.across,
        slip_angle=ingredients.seating.slip_angle,
        tray_mass=trays.empty_weight,
        tray_height=trays.balance,
        tray_inertia=trays.empty_weight * (trays.width**2 / 12 + trays.balance**2),
        arm_length=arm.length if arm else 0.0,
        arm_angle=DIRECTIONS[arm.points] + arm.angle if arm else 0.0,
        tie_bar_mass=bar.weight if bar else 0.0,
        pivot_diameter=pivots.diameter,
        tie_pin_diameter=bar.pin_diameter if bar else pivots.diameter,
        pivot_friction=pivot_friction,
        tie_friction=JointFriction.of(bar.bearing, bar.friction) if bar else pivot_friction,
        wanted_tilt=ingredients.sections["turning"].tilt,
        lean=ingredients.sections["box"].leans,
        pitch=trays.pitch,
        lowest_pivot=trays.lowest_pivot,
        origin_from_left=trays.from_left_wall,
        shapes=shapes(trays, ingredients.seating),
        weights=(PointMass(counterweight.weight, counterweight.across, counterweight.height),)
        if counterweight
        else (),
        spring=Spring(**spring.model_dump()) if spring else None,
        cases=cases,
    )


KIND = TurnerKind(
    id="tilting_trays",
    words=("tilting trays", "tilting rack", "rack", "trays"),
    starter="rack",
    says="trays that tip to both sides on pivots in a cabinet, any number one above the other",
    sections=MappingProxyType(
        {
            "trays": Trays,
            "pivots": Pivots,
            "arm": Arm,
            "tie_bar": TieBar,
            "counterweight": Counterweight,
            "spring": TraySpring,
            "rails": Rails,
        }
    ),
    pin_sections=("arm",),
    optional_sections=("tie_bar", "counterweight", "spring", "rails"),
    load_entry=RackLoad,
    drives=("crank_and_link", "slotted_lever", "linear_actuator", "turning_shaft"),
    build=build,
    checks=(
        "species_turned",
        "closes",
        "jam",
        "tilt",
        "tilt_ends",
        "as_built",
        "retention",
        "lean",
        "fit",
        "room",
        "air_gap",
        "link_to_arm",
        "slot_wall",
        "push_and_pull",
        "gentleness",
        "knock",
        "turns_per_day",
        "rest_at_ends",
        "last_day",
        "holding",
        "stage_grip",
        "link_strength",
        "pin_strength",
        "tray_sag",
        "shaft_twist",
        "jam_force",
    ),
    grows=(Growing("trays.count", "trays", "tray"),),
)
