"""Linear actuator, as a design file tells it."""

from __future__ import annotations

from collections.abc import Iterable
from types import MappingProxyType
from typing import Annotated

from pydantic import Field

from turnercalc.drives.base import DriveKind
from turnercalc.drives.linear_actuator import LinearActuator
from turnercalc.fields import (
    AcrossFromPivot,
    Choice,
    Context,
    FrictionField,
    Gap,
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
from turnercalc.tables.assuming import assumed_default

WHOLE, SWITCHED = "its whole stroke", "between end switches"

Runs = Annotated[
    str,
    Choice(
        WHOLE,
        SWITCHED,
        also={"whole stroke": WHOLE, "full stroke": WHOLE, "end switches": SWITCHED},
    ),
]


class ActuatorSection(Section):
    """[actuator]: from an eye on the frame to the turner's pin."""

    shortest: Annotated[
        Length, Field(description="Eye to eye with the rod all the way in", examples=["255 mm"])
    ]
    stroke: Annotated[Length, Field(description="How far the rod comes out", examples=["100 mm"])]
    runs: Annotated[
        Runs,
        Field(
            description="Whether it goes from one of its own ends to the other",
            examples=[WHOLE, SWITCHED],
        ),
    ]
    eye_across: Annotated[
        AcrossFromPivot,
        Field(
            description="The fixed eye, from the turner's lowest pivot",
            examples=["60 mm right of pivot"],
        ),
    ]
    eye_height: Annotated[
        HeightFromPivot,
        Field(
            description="The fixed eye, from the turner's lowest pivot",
            examples=["300 mm below pivot"],
        ),
    ]
    stop_in: Annotated[
        Gap | None,
        Field(
            description="How far the rod is out where the inner end switch stops it; "
            "left out, the switch is set by the tilt",
            examples=["12 mm"],
        ),
    ] = None
    stop_out: Annotated[
        Gap | None,
        Field(
            description="How far the rod is out where the outer end switch stops it; "
            "left out, the switch is set by the tilt",
            examples=["88 mm"],
        ),
    ] = None
    weight: Annotated[Mass | None, Field(description="Of the actuator", examples=["1.2 kg"])] = None
    pin_diameter: Annotated[
        Length | None, Field(description="Of the pins in its eyes", examples=["6 mm"])
    ] = None
    eye_play: Annotated[
        Gap | None, Field(description="Loose fit of one eye", examples=["0.2 mm"])
    ] = None
    bearing: Annotated[
        Name | None, Field(description="What its eyes turn on", examples=["steel in steel, oiled"])
    ] = None
    friction: FrictionField = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield a usual weight and play, and eyes like the pivots."""
        for name in ("weight", "eye_play"):
            if given.get(name) is None:
                yield assumed_default(f"actuator.{name}")
        yield from pins_like_pivots("actuator", given, context.get("pivots", {}))

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield end switches that do not fit the stroke, and what friction needs."""
        yield from pins_not_said(given)
        yield from _stopped_otherwise(given, context.get("motor", {}))
        inner, outer, stroke = (given.get(n) for n in ("stop_in", "stop_out", "stroke"))
        if given.get("runs") == WHOLE:
            for name in ("stop_in", "stop_out"):
                if given.get(name) is not None:
                    message = "It runs its whole stroke: no end switch stops it before."
                    yield name, message, ()
            return
        if (inner is None) != (outer is None):
            missing = "stop_in" if inner is None else "stop_out"
            message = "One end switch is said and the other is not: say both or neither."
            yield missing, message, ("12 mm" if inner is None else "88 mm",)
        elif inner is not None and outer is not None and inner >= outer:
            message = "The outer switch has to stop it farther out than the inner one."
            yield "stop_out", message, ()
        elif outer is not None and stroke is not None and outer > stroke:
            yield "stop_out", "The rod does not come out so far.", (f"{1e3 * stroke:.4g} mm",)


def _stopped_otherwise(given: Given, motor: Given) -> Iterable[Trouble]:
    """Yield end switches that the motor's section does not know of."""
    stopped_by = motor.get("stopped_by")
    if given.get("runs") == SWITCHED and stopped_by in ("timer", "park switch"):
        message = (
            f'Here it runs between end switches, and [motor] says stopped_by = "{stopped_by}". '
            'Write stopped_by = "end switches" there.'
        )
        yield "runs", message, (WHOLE,)


def build(ingredients: Ingredients) -> LinearActuator:
    """Return the actuator a design file tells of, not yet bolted on."""
    section = ingredients.sections["actuator"]
    return LinearActuator(
        shortest=section.shortest,
        stroke=section.stroke,
        across=section.eye_across,
        height=section.eye_height,
        whole_stroke=section.runs == WHOLE,
        stop_in=section.stop_in,
        stop_out=section.stop_out,
        weight_mass=section.weight,
        pin_diameter=section.pin_diameter,
        friction=JointFriction.of(section.bearing, section.friction),
        play=2.0 * section.eye_play,
    )


KIND = DriveKind(
    id="linear_actuator",
    words=("linear actuator", "electric jack", "actuator", "ram"),
    says="a rod that comes out and goes in between the frame and the turner; holds where it stops",
    sections=MappingProxyType({"actuator": ActuatorSection}),
    build=build,
)
