"""What a design file says of a rotating drum, section by section."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Annotated, ClassVar

from pydantic import Field

from turnercalc.eggs.holders import ALONG, CELLS, CUPS, HOLDERS, HOLES, NET, TROUGHS
from turnercalc.fields import (
    Angle,
    Choice,
    Context,
    Count,
    DrumBalance,
    Force,
    Friction,
    Given,
    HeightAboveFloor,
    Length,
    LengthRange,
    Mass,
    Name,
    Section,
    SwingEachSide,
    Trouble,
    angle,
    range3,
    to_text,
)
from turnercalc.findings import Assumed
from turnercalc.joints import friction_of_bearing
from turnercalc.tables import Range3, runner_pair
from turnercalc.tables.assuming import assumed_by_rule, assumed_default
from turnercalc.turners.drum_loads import ANY_ORDER, BALANCED, PAIRS
from turnercalc.turners.filling import wrong_filling

TO_AND_FRO, STEPS, LEVEL = "to and fro", "step by step", "shelves hang level"
AXLE, ROLLERS = "axle", "rollers"
ONE_SIDE, BOTH_SIDES = "one side", "both sides"
LEFT_SIDE, RIGHT_SIDE = "left side", "right side"
#: Net or foam over the largest egg, where nobody says how far the drum sweeps round [m].
OVER_THE_EGG = 0.015

Press = Annotated[
    Range3,
    range3(
        "force",
        "0.8 to 1.5 N",
        0.0,
        200.0,
        name="press",
        help="How hard foam or net presses on an egg: on the smallest to on the largest.",
    ),
]


class EggsOnDrum(Section):
    """[eggs]: what is turned, and how it is held on its shelf."""

    extends: ClassVar[bool] = True

    # What holds from below only is read, and judged; it is not offered.
    held_by: Annotated[
        str,
        Choice(
            NET,
            also={
                **{word: word for word in HOLDERS},
                "cell": CELLS,
                "holes": HOLES,
                "round hole": HOLES,
                "cups": CUPS,
                "trough": TROUGHS,
                "net": NET,
                "foam": NET,
                "net and foam": NET,
            },
            help="What holds an egg, overhead too: foam behind it and a net over it",
        ),
    ]

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield eggs that would stand on their heads."""
        del context
        if given.get("lie") in (None, ALONG):
            return
        message = (
            "Round a drum every shelf points another way, so that an egg on end or across would "
            "stand on its head half the time. On their side along the axle they only roll over."
        )
        yield "lie", message, ("on the side, along the axle",)


class DrumTurning(Section):
    """[turning]: how far, how often and until when."""

    extends: ClassVar[bool] = True
    instead: ClassVar[tuple[str, ...]] = ("tilt",)

    motion: Annotated[
        str,
        Choice(
            TO_AND_FRO,
            STEPS,
            also={
                "there and back": TO_AND_FRO,
                "back and forth": TO_AND_FRO,
                "reversing": TO_AND_FRO,
                "step by step one way": STEPS,
                "one way": STEPS,
                "round and round": STEPS,
                LEVEL: LEVEL,
                "trays swing with the drum": LEVEL,
                "shelves swing": LEVEL,
                "trays swing": LEVEL,
                "trays hang level": LEVEL,
                "gondolas": LEVEL,
                "gondola": LEVEL,
                "pendulum shelves": LEVEL,
            },
            help="How the drum goes: to and fro, or step by step the same way round",
        ),
    ]
    swing: Annotated[
        SwingEachSide | None,
        Field(
            description="To and fro: how far to each side of the middle, shelf 1 on top",
            examples=["90 deg each side"],
        ),
    ] = None
    step: Annotated[
        float | None,
        angle(5.0, 720.0, example="90 deg"),
        Field(description="Step by step: how far the drum goes on in one move"),
    ] = None

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield shelves that carry the eggs round without turning them, and a move not said."""
        del context
        motion = given.get("motion")
        if motion == LEVEL:
            message = (
                "Shelves that hang level, like the seats of a big wheel, carry the eggs round and "
                "never turn them. Fix the shelves to the drum, so that the eggs go over with it."
            )
            yield "motion", message, (TO_AND_FRO, STEPS)
        elif motion == TO_AND_FRO and given.get("swing") is None:
            message = "The drum goes to and fro: how far, to each side or in all?"
            yield "swing", message, ("90 deg each side",)
        elif motion == STEPS and given.get("step") is None:
            yield "step", "The drum goes on step by step: how far is one step?", ("90 deg",)

    @classmethod
    def idle(cls, given: Given) -> tuple[str, ...]:
        """Return what the other way of going would need."""
        return ("step",) if given.get("motion") == TO_AND_FRO else ("swing",)


class Drum(Section):
    """[drum]: shelves fixed evenly round an axle."""

    shelves: Annotated[Count, Field(description="How many shelves round the axle", examples=["6"])]
    shelf_radius: Annotated[
        Length, Field(description="From the axle's middle to an egg's middle", examples=["85 mm"])
    ]
    eggs_per_shelf: Annotated[
        Count, Field(description="Eggs on one shelf, along the axle", examples=["10"])
    ]
    outside: Annotated[
        Length | None,
        Field(description="Greatest diameter that sweeps round", examples=["210 mm"]),
    ] = None
    empty_weight: Annotated[
        Mass, Field(description="The drum without eggs, its axle included", examples=["1.1 kg"])
    ]
    empty_balance: Annotated[
        DrumBalance | None,
        Field(
            description="Let the empty drum swing: balanced, or which side comes to rest lowest",
            examples=["balanced", "80 g at 50 mm toward shelf 1"],
        ),
    ] = None
    counterweight: Annotated[
        DrumBalance | None,
        Field(
            description="A weight added to the drum, and where",
            examples=["80 g at 50 mm toward shelf 4"],
        ),
    ] = None
    filled: Annotated[
        str | None,
        Choice(
            ANY_ORDER,
            PAIRS,
            BALANCED,
            also={"in pairs": PAIRS, "opposite pairs": PAIRS, "balanced order": BALANCED},
            help="How eggs come and go; a promise you make to the motor",
        ),
    ] = None
    carried_by: Annotated[
        str | None,
        Choice(
            AXLE,
            ROLLERS,
            also={"its axle": AXLE, "bearings": AXLE, "support rollers": ROLLERS},
            help="What carries the drum: its axle in bearings, or rollers under its rim",
        ),
    ] = None
    axle_diameter: Annotated[
        Length | None, Field(description="Of the axle in its bearings", examples=["8 mm"])
    ] = None
    bearing: Annotated[
        Name | None,
        Field(description="What the axle turns in", examples=["steel in bronze, oiled"]),
    ] = None
    bearing_count: Annotated[
        Count | None, Field(description="Bearings that share the drum's weight", examples=["2"])
    ] = None
    friction: Annotated[
        Friction | None,
        Field(description="Of the axle in its bearings, low to high", examples=["0.08 to 0.2"]),
    ] = None
    axle_height: Annotated[
        HeightAboveFloor | None,
        Field(description="Height of the axle's middle", examples=["150 mm above the box floor"]),
    ] = None
    from_left_wall: Annotated[
        Length | None,
        Field(description="Axle from the left wall of the box", examples=["165 mm"]),
    ] = None
    squeeze: Annotated[
        Press | None,
        Field(
            description="How hard foam or net presses on one egg, by a kitchen scale: on the "
            "smallest to on the largest",
            examples=["0.8 to 1.5 N"],
        ),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield what is taken where the builder says nothing."""
        for name in ("empty_balance", "filled", "carried_by"):
            if given.get(name) is None:
                yield assumed_default(f"drum.{name}")
        largest = context.get("eggs", {}).get("largest")
        if given.get("outside") is None and given.get("shelf_radius") and largest is not None:
            wide = 2.0 * (given["shelf_radius"] + 0.5 * largest.breadth + OVER_THE_EGG)
            yield assumed_by_rule("drum.outside", f"{1e3 * wide:.4g} mm")
        if given.get("carried_by") == ROLLERS:
            return
        if given.get("bearing_count") is None:
            yield assumed_default("drum.bearing_count")
        yield from friction_of_bearing("drum", given)

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield what does not go together, and what nobody said of the bearings."""
        yield from _carried(given, context)
        shelves, radius = given.get("shelves"), given.get("shelf_radius")
        if shelves == 1:
            message = (
                "One shelf is a swing, not a drum: what turns the eggs of one shelf is a rack."
            )
            yield "shelves", message, ("4",)
        if given.get("filled") == PAIRS and shelves and shelves % 2:
            message = f"Of {shelves} shelves none stands opposite another."
            yield "filled", message, (BALANCED, ANY_ORDER)
        for name in ("empty_balance", "counterweight"):
            side = given.get(name)
            if side is not None and shelves and side.shelf >= shelves + 1:
                message = f"The drum has {shelves} shelves, counted from 1."
                yield name, message, ()
        side, empty = given.get("empty_balance"), given.get("empty_weight")
        if side is not None and empty and side.mass > empty:
            message = (
                f"What is too much on one side is part of the drum, {1e3 * empty:.4g} g in all."
            )
            yield "empty_balance", message, ("balanced",)
        outside = given.get("outside")
        if outside and radius and outside <= 2.0 * radius:
            message = (
                f"With the eggs' middles {1e3 * radius:.4g} mm from the axle it sweeps "
                f"{2e3 * radius:.4g} mm and more."
            )
            yield "outside", message, (f"{2e3 * radius + 60:.0f} mm",)

    @classmethod
    def idle(cls, given: Given) -> tuple[str, ...]:
        """Return what only an axle in bearings needs, where rollers carry the drum."""
        bearings = ("axle_diameter", "bearing", "bearing_count", "friction")
        return bearings if given.get("carried_by") == ROLLERS else ()


def _carried(given: Given, context: Context) -> Iterable[Trouble]:
    if given.get("carried_by") == ROLLERS:
        if not context.get("rollers"):
            message = "What are the rollers like? Say it in a part of its own, [rollers]."
            yield "carried_by", message, ()
        return
    if given.get("axle_diameter") is None:
        yield "axle_diameter", "How thick is the axle? Friction grows with it.", ("8 mm",)
    if given.get("bearing") is None:
        message = "What does the axle turn in? Friction comes from it."
        yield "bearing", message, ("steel in bronze, oiled",)


class Rollers(Section):
    """[rollers]: under the drum's rim, or one that is pressed on it."""

    diameter: Annotated[Length, Field(description="Of one roller", examples=["40 mm"])]
    rim: Annotated[
        Length, Field(description="Diameter of the rim that runs on them", examples=["300 mm"])
    ]
    surfaces: Annotated[Name, Field(description="What rolls on what", examples=["rubber on wood"])]
    spacing: Annotated[
        Length | None,
        Field(
            description="Rollers that carry: the middle of one row to the middle of the other",
            examples=["180 mm"],
        ),
    ] = None
    axle_diameter: Annotated[
        Length | None, Field(description="Of a roller's own axle", examples=["8 mm"])
    ] = None
    bearing: Annotated[
        Name | None, Field(description="What a roller turns on", examples=["ball bearing"])
    ] = None
    friction: Annotated[
        Friction | None,
        Field(description="Of a roller on its axle, low to high", examples=["0.001 to 0.005"]),
    ] = None
    rolling_arm: Annotated[
        LengthRange | None,
        Field(
            description="Arm of rolling resistance of rim on roller", examples=["0.5 / 1 / 2 mm"]
        ),
    ] = None
    grip: Annotated[
        Friction | None,
        Field(description="Friction of the rim on a driven roller", examples=["0.3 to 0.7"]),
    ] = None
    driven: Annotated[
        str | None,
        Choice(
            ONE_SIDE,
            LEFT_SIDE,
            RIGHT_SIDE,
            BOTH_SIDES,
            help="Which row of rollers the motor turns, or both; one side: whichever costs more",
        ),
    ] = None
    press: Annotated[
        Force | None,
        Field(
            description="A roller that only drives: how hard it is pressed on the rim",
            examples=["20 N"],
        ),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield the grip of what rolls on what, and for rollers that carry what they cost."""
        carry = context.get("drum", {}).get("carried_by") == ROLLERS
        if given.get("surfaces"):
            pair = runner_pair(str(given["surfaces"]))
            source = f"runners.csv: {pair.name}"
            if given.get("grip") is None:
                text = to_text(pair.grip, "friction")
                yield Assumed("rollers.grip", text, source, pair.how)
        if not carry:
            return
        for name in ("rolling_arm", "driven"):
            if given.get(name) is None:
                yield assumed_default(f"rollers.{name}")
        yield from friction_of_bearing("rollers", given)

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield rollers that cannot carry the drum, or of which too little is said."""
        if context.get("drum", {}).get("carried_by") != ROLLERS:
            return
        asked = {
            "spacing": ("How far are the two rows of rollers apart?", "180 mm"),
            "axle_diameter": ("How thick is a roller's axle? Friction grows with it.", "8 mm"),
            "bearing": ("What does a roller turn on? Friction comes from it.", "ball bearing"),
        }
        for name, (message, example) in asked.items():
            if given.get(name) is None:
                yield name, message, (example,)
        apart, roller, rim = (given.get(name) for name in ("spacing", "diameter", "rim"))
        axle = given.get("axle_diameter")
        if axle and roller and axle >= roller:
            message = f"An axle as thick as the roller itself, which is {1e3 * roller:.4g} mm."
            yield "axle_diameter", message, ("8 mm",)
        if not apart or not roller or not rim:
            return
        if apart >= rim + roller:
            message = (
                f"So far apart the drum falls through: less than {1e3 * (rim + roller):.4g} mm."
            )
            yield "spacing", message, (f"{1e3 * 0.7 * (rim + roller):.0f} mm",)
        elif apart <= roller:
            message = "So near together the two rows of rollers touch each other."
            yield "spacing", message, (f"{1e3 * 0.7 * (rim + roller):.0f} mm",)

    @classmethod
    def idle(cls, given: Given) -> tuple[str, ...]:
        """Return what does not matter with what is said."""
        return () if given.get("spacing") is None else ("press",)


def half_angle(rollers: Rollers) -> float:
    """Return the angle from straight below the axle to either row of rollers [rad]."""
    return math.asin((rollers.spacing or 0.0) / (rollers.rim + rollers.diameter))


class DrumArm(Section):
    """[arm]: the lever fixed to the drum that crank, slot or actuator pushes."""

    length: Annotated[
        Length, Field(description="From the axle to the arm's pin", examples=["70 mm"])
    ]
    points: Annotated[
        str,
        Choice("right", "up", "left", "down", help="Where it points with shelf 1 on top"),
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


class DrumLoad(Section):
    """[[loads]]: one way of filling the drum."""

    default_row: ClassVar[str] = "loads.drum"

    name: Annotated[Name, Field(description="What you call it", examples=["one week's eggs"])]
    shelves: Annotated[
        list[int],
        Field(
            description="Eggs on each shelf, shelf 1 first, the others anticlockwise",
            examples=["[10, 10, 0, 0, 0, 0]"],
        ),
    ]

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield eggs on shelves that the drum does not have."""
        eggs, drum = given.get("shelves"), context.get("drum", {})
        count, room = drum.get("shelves"), drum.get("eggs_per_shelf")
        if eggs is None or not count or not room:
            return
        yield from wrong_filling("shelves", eggs, count, room, "shelf", "shelves", shown_to=40)
