"""The sections every design file has, whatever turns the eggs.

A turner that needs one of them otherwise names a section of its own with the same name; it then
stands in the place of the one here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Annotated, ClassVar

from pydantic import Field

from turnercalc.design.egg_section import Eggs, lot_of, seat_of, species_of
from turnercalc.design.sectioning import constants
from turnercalc.fields import (
    Choice,
    Context,
    Count,
    Efficiency,
    Given,
    Length,
    Name,
    Ratio,
    Section,
    SupplyWords,
    TiltEachSide,
    Trouble,
    angle,
    count,
    positive_length,
    ratio,
    to_text,
    words_of_table,
)
from turnercalc.fields import temperature as celsius
from turnercalc.fields.quantities import POWER
from turnercalc.fields.timetable import LAST_DAY, TURNS_PER_DAY
from turnercalc.fields.walls import AREA, WALL, Wall
from turnercalc.findings import Assumed
from turnercalc.tables import default, stage_losses
from turnercalc.tables.assuming import assumed_by_rule

FILE_VERSION = 1
STAGE_KIND = words_of_table("stage_efficiency", "stage kind", "chain", "What kind of stage.")


class Head(Section):
    """The lines above the first section."""

    turnercalc: Annotated[
        int | None,
        count(1, FILE_VERSION, example=str(FILE_VERSION)),
        Field(description="Version of this kind of file"),
    ] = None
    name: Annotated[Name | None, Field(description="What you call this turner")] = None
    turner: Annotated[
        Name, Field(description="How the eggs are turned", examples=["tilting trays"])
    ]
    drive: Annotated[Name, Field(description="What moves the turner", examples=["crank and link"])]
    drawn_from: Annotated[
        Name,
        Field(
            description="From where you look at it; left, right and clockwise are as seen so",
            examples=["the door side"],
        ),
    ]


class Box(Section):
    """[box]: inside measurements."""

    width: Annotated[
        float,
        positive_length(0.1, 10.0, example="420 mm"),
        Field(description="Inside, across the tilt axis"),
    ]
    height: Annotated[
        float,
        positive_length(0.1, 10.0, example="760 mm"),
        Field(description="Inside, floor to ceiling"),
    ]
    depth: Annotated[
        float,
        positive_length(0.1, 10.0, example="400 mm"),
        Field(description="Inside, along the tilt axis"),
    ]
    temperature: Annotated[
        float | None,
        celsius(20.0, 45.0, example="37.5 C"),
        Field(description="Air temperature in the box"),
    ] = None
    leans: Annotated[
        float | None,
        angle(-15.0, 15.0, example="1 deg"),
        Field(description="How far the box stands out of level, anticlockwise"),
    ] = None
    wall_area: Annotated[
        float | None,
        AREA,
        Field(description="All six walls together; only for how warm the motor makes the box"),
    ] = None
    insulation: Annotated[
        Wall | None,
        WALL,
        Field(description="What the walls are made of; only for how warm the box gets"),
    ] = None
    fan_power: Annotated[
        float | None,
        POWER.narrowed(0.0, 200.0, example="3 W"),
        Field(description="What the fan in the box draws; it all becomes heat"),
    ] = None
    room: Annotated[
        float | None,
        celsius(0.0, 45.0, example="28 C"),
        Field(description="The warmest the room gets where the box stands"),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield the usual temperature, a box set level, and the area of walls of known stuff."""
        del context
        yield from constants("box", given, ("temperature", "leans"))
        sizes = [given.get(name) for name in ("width", "height", "depth")]
        if given.get("insulation") is not None and given.get("wall_area") is None and all(sizes):
            w, h, d = (float(size) for size in sizes if size is not None)
            inside = to_text(2.0 * (w * h + w * d + h * d), "area", digits=3)
            yield assumed_by_rule("box.wall_area", inside)


class Turning(Section):
    """[turning]: how far, how often and until when."""

    tilt: Annotated[
        TiltEachSide | None, Field(description="How far the trays tip to each side of level")
    ] = None
    turns_per_day: Annotated[
        float | None,
        TURNS_PER_DAY,
        Field(description="One turn is one move to the other side"),
    ] = None
    last_day: Annotated[
        int | None,
        LAST_DAY,
        Field(description="Day on which turning ends, counted from setting"),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield what the species table calls usual."""
        species = species_of(context.get("eggs", {}))
        if species is None:
            return
        usual = {
            "tilt": (to_text(species.tilt, "tilt each side"), "tilt"),
            "turns_per_day": (f"{species.turns_per_day:g}", "turns_per_day"),
            "last_day": (f"{species.last_turning_day:.0f}", "last_turning_day"),
        }
        for name, (text, figure) in usual.items():
            if given.get(name) is None:
                source = f"species table: {species.name}"
                yield Assumed(f"turning.{name}", text, source, species.how(figure))


class Stage(Section):
    """[[gearing]]: one stage between the gearmotor and the turner, the motor's end first."""

    repeats: ClassVar[bool] = True

    kind: Annotated[str, STAGE_KIND]
    motor_teeth: Annotated[
        Count | None, Field(description="Teeth on the wheel at the motor's end", examples=["12"])
    ] = None
    driven_teeth: Annotated[
        Count | None, Field(description="Teeth on the wheel it drives", examples=["24"])
    ] = None
    motor_diameter: Annotated[
        Length | None,
        Field(description="Of the pulley or roller at the motor's end", examples=["20 mm"]),
    ] = None
    driven_diameter: Annotated[
        Length | None, Field(description="Of the pulley or roller it drives", examples=["60 mm"])
    ] = None
    ratio: Annotated[
        Ratio | None,
        Field(description="Turns at the motor's end for one turn behind it", examples=["2"]),
    ] = None
    efficiency: Annotated[
        Efficiency | None, Field(description="Share of the work that gets through")
    ] = None
    lead_angle: Annotated[
        float | None,
        angle(0.5, 60.0, example="5 deg"),
        Field(description="Of the thread of a worm or screw: how steep it winds"),
    ] = None

    @property
    def speed_ratio(self) -> float:
        """Turns at the motor's end for one turn behind the stage [-]."""
        if self.motor_teeth and self.driven_teeth:
            return self.driven_teeth / self.motor_teeth
        if self.motor_diameter and self.driven_diameter:
            return self.driven_diameter / self.motor_diameter
        return self.ratio or 1.0

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield the efficiency of the kind, from the table."""
        del context
        kind = given.get("kind")
        if kind and given.get("efficiency") is None:
            losses = stage_losses(kind)
            text = to_text(losses.efficiency, "efficiency")
            yield Assumed("gearing.efficiency", text, f"stages table: {kind}", losses.how)
        if kind and given.get("lead_angle") is None:
            lead = stage_losses(kind).lead_angle
            if lead is not None:
                text = to_text(lead, "angle")
                yield Assumed("gearing.lead_angle", text, f"stages table: {kind}", "our choice")

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield a stage whose ratio is not said, or said twice."""
        del context
        ways = [
            pair
            for pair in (("motor_teeth", "driven_teeth"), ("motor_diameter", "driven_diameter"))
            if any(given.get(name) is not None for name in pair)
        ]
        for pair in ways:
            missing = [name for name in pair if given.get(name) is None]
            for name in missing:
                words = name.replace("_", " ")
                yield name, f"The other wheel is given; {words} is missing.", ("24",)
        said = len(ways) + (given.get("ratio") is not None)
        kind = given.get("kind")
        if kind == "planetary" and given.get("motor_teeth") is not None:
            message = (
                "Teeth alone do not say the ratio of a planetary stage. Say it: one and the ring's "
                "teeth over the sun's."
            )
            yield "motor_teeth", message, ('ratio = "4"',)
        if kind and given.get("lead_angle") is not None and stage_losses(kind).lead_angle is None:
            yield "lead_angle", "Only worms and screws have a lead angle. Leave it out.", ()
        if said == 0:
            message = "How much slower does this stage make it? Count the teeth of both wheels."
            yield "motor_teeth", message, ("12",)
        if said > 1:
            yield "ratio", "The ratio is said in more than one way. Leave one.", ()


class Motor(Section):
    """[motor]: what there is to drive it with, and what is wanted of it."""

    have: Annotated[
        Name | None,
        Field(description="Its name in your motor file; leave out to shop", examples=["B"]),
    ] = None
    supply: SupplyWords
    stands: Annotated[
        str,
        Choice(
            "outside the box",
            "inside the box",
            also={"outside": "outside the box", "inside": "inside the box"},
            help="Where the motor stands",
        ),
    ]
    stopped_by: Annotated[
        str,
        Choice(
            "park switch",
            "timer",
            "end switches",
            "counted steps",
            also={"time": "timer", "steps": "counted steps", "limit switches": "end switches"},
            help="What stops the move",
        ),
    ]
    safety_factor: Annotated[
        float | None,
        ratio(1.0, 20.0, example="2.0"),
        Field(description="How many times enough the motor shall be"),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield the usual safety factor, said aloud, and that a motor is to be shopped for."""
        del context
        yield from constants("motor", given, ("safety_factor",))
        if given.get("have") is None:
            row = default("motor.have")
            yield Assumed("motor.have", "none", row.text, row.how)


COMMON: Mapping[str, type[Section]] = {
    "box": Box,
    "eggs": Eggs,
    "turning": Turning,
    "gearing": Stage,
    "motor": Motor,
}

__all__ = [
    "COMMON",
    "FILE_VERSION",
    "Box",
    "Eggs",
    "Head",
    "Motor",
    "Stage",
    "Turning",
    "lot_of",
    "seat_of",
    "species_of",
]
