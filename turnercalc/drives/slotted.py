"""Crank and slotted lever, as a design file tells it."""

from __future__ import annotations

from collections.abc import Iterable
from types import MappingProxyType
from typing import Annotated

from pydantic import Field

from turnercalc.drives.base import DriveKind
from turnercalc.drives.crank import CrankSection
from turnercalc.drives.slotted_lever import FOLLOWERS, SlottedLever
from turnercalc.fields import (
    Angle,
    Choice,
    Context,
    FrictionField,
    Gap,
    Given,
    Length,
    Name,
    Section,
    Trouble,
)
from turnercalc.findings import Assumed
from turnercalc.ingredients import Ingredients
from turnercalc.joints import JointFriction, pins_like_pivots, pins_not_said
from turnercalc.tables.assuming import assumed_default

Follower = Annotated[
    str,
    Choice(
        *FOLLOWERS,
        also={
            "pin": "plain pin",
            "bolt": "plain pin",
            "block": "sliding block",
            "slider": "sliding block",
            "bearing": "roller",
            "ball bearing": "roller",
            "wheel": "roller",
        },
    ),
]


class SlotSection(Section):
    """[slot]: in the moving part, over the crank pin."""

    follower: Annotated[
        Follower | None,
        Field(description="What runs in the slot", examples=["plain pin", "roller"]),
    ] = None
    angle: Annotated[
        Angle | None,
        Field(
            description="The slot against the arm, or against the square to the travel, "
            "anticlockwise",
            examples=["0 deg"],
        ),
    ] = None
    off_line: Annotated[
        Gap | None,
        Field(
            description="How far its middle line passes the pivot, on the anticlockwise side",
            examples=["0 mm"],
        ),
    ] = None
    pin_diameter: Annotated[
        Length | None,
        Field(description="Of the crank pin; a roller's own pin", examples=["8 mm"]),
    ] = None
    roller_diameter: Annotated[
        Length | None, Field(description="Of the roller, outside", examples=["19 mm"])
    ] = None
    bearing: Annotated[
        Name | None,
        Field(
            description="What slides in the slot; for a roller, what it turns on",
            examples=["steel in nylon"],
        ),
    ] = None
    friction: FrictionField = None
    play: Annotated[
        Gap | None,
        Field(description="How much wider the slot is than what runs in it", examples=["0.2 mm"]),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield a plain pin in a slot along the arm, with the usual play and pins like pivots."""
        for name in ("follower", "angle", "off_line", "play"):
            if given.get(name) is None:
                yield assumed_default(f"slot.{name}")
        yield from pins_like_pivots("slot", given, context.get("pivots", {}))

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield what friction needs and nobody said, and a roller thinner than its pin."""
        del context
        yield from pins_not_said(given)
        if given.get("follower") != "roller":
            return
        roller, pin = given.get("roller_diameter"), given.get("pin_diameter")
        if roller is None:
            yield "roller_diameter", "A roller runs in the slot: how thick is it?", ("19 mm",)
        elif pin is not None and roller <= pin:
            message = "The roller has to be thicker than the pin it turns on."
            yield "roller_diameter", message, ("19 mm",)


def build(ingredients: Ingredients) -> SlottedLever:
    """Return the crank and slot a design file tells of."""
    crank, slot = ingredients.sections["crank"], ingredients.sections["slot"]
    to_and_fro = crank.runs == "to and fro"
    return SlottedLever(
        crank=crank.radius,
        across=crank.across,
        height=crank.height,
        angle=slot.angle,
        off_line=slot.off_line,
        follower=slot.follower,
        pin_diameter=slot.pin_diameter,
        roller_diameter=slot.roller_diameter or slot.pin_diameter,
        friction=JointFriction.of(slot.bearing, slot.friction),
        arc=(crank.first_angle, crank.last_angle) if to_and_fro else None,
        play=slot.play,
    )


KIND = DriveKind(
    id="slotted_lever",
    words=("slotted lever", "crank and slotted lever", "crank and slot", "scotch yoke"),
    says="a crank whose pin runs in a slot of the turner: short, but its return is quick and hard",
    sections=MappingProxyType({"crank": CrankSection, "slot": SlotSection}),
    build=build,
)
