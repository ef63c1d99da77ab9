"""Crank and link, as a design file tells it."""

from __future__ import annotations

from collections.abc import Iterable
from types import MappingProxyType
from typing import Annotated

from pydantic import Field

from turnercalc.drives.base import DriveKind
from turnercalc.drives.crank_link import CrankLink
from turnercalc.fields import (
    AcrossFromPivot,
    Angle,
    Choice,
    Context,
    FrictionField,
    Given,
    HeightFromPivot,
    Length,
    Mass,
    Name,
    Section,
    Trouble,
)
from turnercalc.findings import Assumed
from turnercalc.ingredients import Ingredients
from turnercalc.joints import JointFriction, pins_like_pivots, pins_not_said
from turnercalc.tables.assuming import assumed_by_rule, assumed_default

ROD_PER_METRE = 0.1  # kg/m, steel rod where the link's weight is not given


Running = Annotated[str, Choice("round and round", "to and fro")]


Way = Annotated[str, Choice("the better way", "anticlockwise", "clockwise", "either way")]


class CrankSection(Section):
    """[crank]: on the gearmotor's shaft, or on the last shaft of the stages behind it."""

    radius: Annotated[
        Length, Field(description="From the shaft's middle to the crank pin", examples=["50 mm"])
    ]
    runs: Annotated[
        Running,
        Field(description="Whether the crank goes full turns", examples=["round and round"]),
    ]
    across: Annotated[
        AcrossFromPivot,
        Field(
            description="The shaft's middle, from the turner's lowest pivot",
            examples=["49.5 mm right of pivot"],
        ),
    ]
    height: Annotated[
        HeightFromPivot,
        Field(
            description="The shaft's middle, from the turner's lowest pivot",
            examples=["200 mm below pivot"],
        ),
    ]
    turns: Annotated[
        Way | None,
        Field(
            description="Which way the crank turns, seen from the side it is drawn from",
            examples=["the better way", "anticlockwise", "clockwise"],
        ),
    ] = None
    first_angle: Annotated[
        Angle | None,
        Field(
            description="To and fro: crank direction at one end, anticlockwise from pointing right",
            examples=["90 deg"],
        ),
    ] = None
    last_angle: Annotated[
        Angle | None,
        Field(description="To and fro: crank direction at the other end", examples=["270 deg"]),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield a crank that turns the better way, if the motor can."""
        del context
        if given.get("turns") is None:
            yield assumed_default("crank.turns")

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield the ends of the arc where the crank runs to and fro and they are missing."""
        del context
        if given.get("runs") == "to and fro":
            for name, example in (("first_angle", "90 deg"), ("last_angle", "270 deg")):
                if given.get(name) is None:
                    message = "The crank runs to and fro: from which angle to which?"
                    yield name, message, (example,)


class LinkSection(Section):
    """[link]: the rod from the crank pin to the turner's pin."""

    length: Annotated[Length, Field(description="Hole to hole", examples=["200 mm"])]
    weight: Annotated[Mass | None, Field(description="Of the link", examples=["80 g"])] = None
    thickness: Annotated[Length | None, Field(description="At its thinnest", examples=["6 mm"])] = (
        None
    )
    width: Annotated[
        Length | None, Field(description="The other way, where it is flat", examples=["15 mm"])
    ] = None
    material: Annotated[Name | None, Field(description="Of the link", examples=["steel"])] = None
    pin_diameter: Annotated[
        Length | None, Field(description="Of the pins at its ends", examples=["6 mm"])
    ] = None
    pin_play: Annotated[
        Length | None, Field(description="Loose fit of one pin", examples=["0.2 mm"])
    ] = None
    bearing: Annotated[
        Name | None, Field(description="What its pins turn in", examples=["steel in nylon"])
    ] = None
    friction: FrictionField = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield a rod's weight, pins like those of the pivots, and the usual play."""
        if given.get("weight") is None and given.get("length"):
            yield assumed_by_rule("link.weight", f"{1e3 * ROD_PER_METRE * given['length']:.4g} g")
        if given.get("pin_play") is None:
            yield assumed_default("link.pin_play")
        yield from pins_like_pivots("link", given, context.get("pivots", {}))

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield what friction needs where the turner has no pivots to take it from."""
        if "pivots" not in context:
            yield from pins_not_said(given)


def build(ingredients: Ingredients) -> CrankLink:
    """Return the crank and link a design file tells of, not yet put together on a path."""
    crank, link = ingredients.sections["crank"], ingredients.sections["link"]
    to_and_fro = crank.runs == "to and fro"
    return CrankLink(
        crank=crank.radius,
        link=link.length,
        across=crank.across,
        height=crank.height,
        link_mass=link.weight,
        pin_diameter=link.pin_diameter,
        friction=JointFriction.of(link.bearing, link.friction),
        arc=(crank.first_angle, crank.last_angle) if to_and_fro else None,
        play=2.0 * link.pin_play,
    )


KIND = DriveKind(
    id="crank_and_link",
    words=("crank and link", "crank", "crank and rod"),
    says="a crank on the motor's shaft and a link to the turner: parks at its ends by itself",
    sections=MappingProxyType({"crank": CrankSection, "link": LinkSection}),
    build=build,
)
