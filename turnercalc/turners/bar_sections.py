"""The sections of a design file with rolling bars: eggs, turning, bars, loads."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Annotated, ClassVar

from pydantic import Field

from turnercalc.fields import (
    Choice,
    Context,
    Count,
    Efficiency,
    Force,
    Friction,
    FrictionField,
    Given,
    HeightFromBars,
    Length,
    LengthRange,
    Mass,
    Name,
    Section,
    Trouble,
    angle,
    to_text,
    words_of_table,
)
from turnercalc.findings import Assumed
from turnercalc.joints import friction_of_bearing
from turnercalc.mechanics.rolling import nest_angle
from turnercalc.tables import material, stage_losses
from turnercalc.tables.assuming import assumed_by_rule, assumed_default
from turnercalc.turners.lying_eggs import ALONG, ALONG_TOO, LopsidedEggs

ALTERNATE = "alternate"
BAR_TO_BAR = "bar to bar"
#: Past the largest egg, both ends together [m].
STOP_PLAY = 0.006


@dataclass(frozen=True)
class WayOfJoining:
    """How the bars are joined: what of it is taken for granted.

    Attributes
    ----------
    stage : str or None
        Its row in the stage table.
    bar_to_bar, one_each : bool
        As in `Joining`.
    pull : float
        What is taken for the pull of one strand [N].
    wraps : bool
        Whether the belt is pressed onto the bars between the ends; with a wrap of 60 degrees
        that presses them as hard as one strand pulls.
    by_friction : bool
        Whether it slips where more is asked than it grips.
    """

    stage: str | None
    bar_to_bar: bool = False
    one_each: bool = False
    pull: float = 0.0
    wraps: bool = False
    by_friction: bool = False

    def usual_bar(self, bars: int) -> int | None:
        """Return the bar to drive, from 1, where it does not matter what is lost on the way.

        A belt round all grips most where it goes half round, at an end. None: it matters.
        """
        return None if self.bar_to_bar else 1 if self.wraps else (bars + 1) // 2


JOININGS: Mapping[str, WayOfJoining] = MappingProxyType(
    {
        f"round belts, {BAR_TO_BAR}": WayOfJoining(
            "round belt", bar_to_bar=True, pull=10.0, by_friction=True
        ),
        f"toothed belts, {BAR_TO_BAR}": WayOfJoining("toothed belt", bar_to_bar=True, pull=30.0),
        "one belt round all": WayOfJoining("round belt", pull=10.0, wraps=True, by_friction=True),
        "chain": WayOfJoining("chain"),
        "one motor each": WayOfJoining(None, one_each=True),
    }
)


class EggsOnBars(LopsidedEggs):
    """[eggs]: what is turned, lying between the bars."""

    instead: ClassVar[tuple[str, ...]] = ("friction",)

    lie: Annotated[
        str,
        Choice(
            ALONG,
            also=ALONG_TOO,
            help="How the eggs lie: between bars they can only lie along them",
        ),
    ]
    held_by: Annotated[
        str, Choice("bars", also={"rollers": "bars"}, help="What holds an egg: the bars")
    ] = "bars"


class EggTurning(Section):
    """[turning]: how far the eggs turn, how often and until when."""

    extends: ClassVar[bool] = True
    instead: ClassVar[tuple[str, ...]] = ("tilt",)

    egg_turn: Annotated[
        float,
        angle(10.0, 1440.0, example="180 deg"),
        Field(description="Turn of the typical egg about its long axis in each move"),
    ]
    sense: Annotated[
        str | None,
        Choice(
            ALTERNATE,
            "always the same",
            also={"to and fro": ALTERNATE, "one way": "always the same"},
            help="Whether the eggs are turned back in the next move",
        ),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield turning to and fro."""
        del context
        if given.get("sense") is None:
            yield assumed_default("turning.sense")


class Bars(Section):
    """[bars]: the equal bars the eggs lie between."""

    count: Annotated[
        Count, Field(description="How many bars; there is one lane fewer", examples=["7"])
    ]
    diameter: Annotated[Length, Field(description="Of a bar", examples=["25 mm"])]
    pitch: Annotated[
        Length,
        Field(description="Middle of one bar to the middle of the next", examples=["68 mm"]),
    ]
    length: Annotated[Length, Field(description="Between its bearings", examples=["420 mm"])]
    weight: Annotated[
        Mass | None, Field(description="One bar with its stub axles", examples=["130 g"])
    ] = None
    material: Annotated[
        str,
        words_of_table(
            "materials", "material", "aluminium tube", "What the bars are made of.", as_written=True
        ),
        Field(description="What the bars are made of"),
    ]
    wall: Annotated[Length | None, Field(description="Wall of a tube", examples=["1.5 mm"])] = None
    surface: Annotated[
        str | None,
        words_of_table(
            "egg_friction",
            "egg surface",
            "bare aluminium",
            "What the eggs lie on.",
            as_written=True,
        ),
        Field(description="What the eggs lie on"),
    ] = None
    eggs_per_lane: Annotated[Count, Field(description="Eggs in one lane", examples=["4"])]
    stop_spacing: Annotated[
        Length | None,
        Field(description="From one cross stop to the next, so that no egg creeps along"),
    ] = None
    under_bars: Annotated[
        HeightFromBars | None,
        Field(
            description="The first thing under the bars an egg could touch",
            examples=["18 mm below the bar middles"],
        ),
    ] = None
    journal_diameter: Annotated[
        Length, Field(description="Of the stub axles in their bearings", examples=["8 mm"])
    ]
    journal: Annotated[Name, Field(description="What turns in what", examples=["steel in nylon"])]
    journal_friction: FrictionField = None
    joined_by: Annotated[
        str,
        Choice(
            *JOININGS,
            also={"round belts": f"round belts, {BAR_TO_BAR}"},
            help="How the bars are joined, so that they all turn",
        ),
    ]
    driven_bar: Annotated[
        Count | None,
        Field(description="The bar the motor turns, counted from the left", examples=["4"]),
    ] = None
    belt_pull: Annotated[
        Force | None, Field(description="Pull of one strand of a belt", examples=["12 N"])
    ] = None
    belt_runs_on: Annotated[
        Length | None,
        Field(description="Diameter that the belts run on: a groove, a pulley, the bar itself"),
    ] = None
    belt_friction: Annotated[
        Friction | None,
        Field(description="Of a belt on what it runs on", examples=["0.3 to 0.6"]),
    ] = None
    belt_efficiency: Annotated[
        Efficiency | None,
        Field(description="Share of the work that one belt, or the chain, lets through"),
    ] = None
    rolling_arm: Annotated[
        LengthRange | None,
        Field(description="Arm of rolling resistance of an egg", examples=["0.5 / 1 / 2 mm"]),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield what is taken where the builder says nothing."""
        for name in ("surface", "rolling_arm"):
            if given.get(name) is None:
                yield assumed_default(f"bars.{name}")
        yield from friction_of_bearing(
            "bars", given, bearing="journal", friction="journal_friction"
        )
        if given.get("joined_by"):
            yield from _assumed_joining(given, JOININGS[given["joined_by"]])
        yield from _assumed_body(given)
        largest = context.get("eggs", {}).get("largest")
        if given.get("stop_spacing") is None and largest is not None:
            spacing = largest.length + STOP_PLAY
            yield assumed_by_rule("bars.stop_spacing", f"{1e3 * spacing:.4g} mm")

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield bars that are none, do not fit the box, or of which none is driven."""
        count, joined = given.get("count"), given.get("joined_by")
        if count == 1:
            yield "count", "Eggs lie between two bars, so there are at least 2.", ("2",)
        driven = given.get("driven_bar")
        if joined and JOININGS[joined].bar_to_bar and driven is None and count:
            message = "Which bar does the motor turn? The middle one is kindest to the belts."
            yield "driven_bar", message, (str((count + 1) // 2),)
        if driven and count and 1 < count < driven:
            yield "driven_bar", f"There are {count} bars, counted from the left.", (str(count),)
        wall, diameter, pitch = (given.get(name) for name in ("wall", "diameter", "pitch"))
        if wall and diameter and wall >= 0.5 * diameter:
            yield "wall", "A wall of half the diameter makes it solid: leave it out.", ()
        if diameter and pitch and pitch <= diameter:
            message = "Bars so close together touch: the pitch is measured middle to middle."
            yield "pitch", message, (f"{1e3 * diameter + 40:.0f} mm",)
        yield from _too_big(given, context.get("box", {}))
        yield from _no_nest(given, context)

    @classmethod
    def idle(cls, given: Given) -> tuple[str, ...]:
        """Return what does not matter with this way of joining the bars."""
        way = JOININGS.get(given.get("joined_by", ""))
        if way is None:
            return ()
        matters = {
            "belt_pull": way.pull > 0.0,
            "belt_runs_on": way.by_friction,
            "belt_friction": way.by_friction,
            "driven_bar": not way.one_each,
            "belt_efficiency": way.stage is not None,
        }
        return tuple(name for name, does in matters.items() if not does)


def _too_big(given: Given, box: Given) -> Iterable[Trouble]:
    """Yield bars that are longer than the box is deep, or more than go into its width."""
    length, depth, width = given.get("length"), box.get("depth"), box.get("width")
    if length and depth and length > depth:
        message = f"The box is {1e3 * depth:.0f} mm deep, along the bars."
        yield "length", message, (f"{1e3 * depth - 40:.0f} mm",)
    count, pitch, diameter = (given.get(name) for name in ("count", "pitch", "diameter"))
    if not (count and pitch and diameter and width):
        return
    wide = (count - 1) * pitch + diameter
    if count > 1 and wide > width:
        fit = max(int((width - diameter) / pitch) + 1, 2)
        message = f"{count} bars are {1e3 * wide:.0f} mm wide; the box is {1e3 * width:.0f} mm."
        yield "count", message, (str(fit),)


def _no_nest(given: Given, context: Context) -> Iterable[Trouble]:
    """Yield bars between which a typical egg drops through, or over which it rolls out."""
    pitch, diameter = given.get("pitch"), given.get("diameter")
    egg, lean = context.get("eggs", {}).get("typical"), context.get("box", {}).get("leans")
    if not (pitch and diameter and egg) or pitch <= diameter:
        return
    deeper = (f"{math.floor(1e3 * (diameter + 0.75 * egg.breadth))} mm",)
    if pitch - diameter >= egg.breadth:
        yield "pitch", drops_through(egg.breadth, pitch - diameter), deeper
        return
    nest = float(nest_angle(0.5 * egg.breadth, 0.5 * diameter, pitch))
    if lean and abs(lean) >= nest:
        yield "pitch", rolls_out(lean, nest), deeper


def drops_through(breadth: float, gap: float) -> str:
    """Return the sentence for an egg that no two bars hold up."""
    return (
        f"A typical egg, {1e3 * breadth:.1f} mm broad, drops through the gap of "
        f"{1e3 * gap:.1f} mm between the bars."
    )


def rolls_out(lean: float, nest: float) -> str:
    """Return the sentence for a box that leans more than its nests are deep."""
    return (
        f"The box leans {math.degrees(abs(lean)):g} degrees and the nests are only "
        f"{math.degrees(nest):.0f} deep: a typical egg rolls out over a bar."
    )


def _assumed_joining(given: Given, way: WayOfJoining) -> Iterable[Assumed]:
    """Yield the pull and the grip of belts, and the driven bar where it does not matter."""
    if given.get("belt_pull") is None and way.pull:
        yield assumed_by_rule("bars.belt_pull", f"{way.pull:g} N")
    usual = way.usual_bar(given.get("count") or 1)
    if given.get("driven_bar") is None and usual is not None and not way.one_each:
        yield assumed_by_rule("bars.driven_bar", f"{usual}")
    if way.stage is not None and given.get("belt_efficiency") is None:
        losses = stage_losses(way.stage)
        text = to_text(losses.efficiency, "efficiency")
        yield Assumed("bars.belt_efficiency", text, f"stages table: {way.stage}", losses.how)
    if way.by_friction:
        if given.get("belt_runs_on") is None and given.get("diameter"):
            yield assumed_by_rule("bars.belt_runs_on", f"{1e3 * given['diameter']:.6g} mm")
        if given.get("belt_friction") is None:
            yield assumed_default("bars.belt_friction")


def _assumed_body(given: Given) -> Iterable[Assumed]:
    """Yield a solid bar where no wall is given, and the weight from size and material."""
    diameter, length, what = (given.get(name) for name in ("diameter", "length", "material"))
    if not diameter or not length or not what:
        return
    if given.get("weight") is None:
        weight = material(what).density * length * _section_area(diameter, given.get("wall"))
        yield assumed_by_rule("bars.weight", f"{1e3 * weight:.4g} g")


def _section_area(diameter: float, wall: float | None) -> float:
    return 0.25 * math.pi * (diameter**2 - bore(diameter, wall) ** 2)


def bore(diameter: float, wall: float | None) -> float:
    """Return the inner diameter of a bar; a bar without a wall is solid [m]."""
    return 0.0 if wall is None else diameter - 2.0 * wall


class BarLoad(Section):
    """[[loads]]: one way of filling the lanes."""

    name: Annotated[Name, Field(description="What you call it", examples=["first clutch"])]
    lanes: Annotated[
        list[int],
        Field(description="Eggs in each lane, left lane first", examples=["[4, 4, 0, 0, 0, 0]"]),
    ]

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield eggs in lanes that there are not."""
        eggs, bars = given.get("lanes"), context.get("bars", {})
        count, room = bars.get("count"), bars.get("eggs_per_lane")
        if eggs is None or not count or count < 2 or not room:
            return
        example = (str([room] * (count - 1)),)
        if len(eggs) != count - 1:
            yield "lanes", f"Between {count} bars the number of lanes is {count - 1}.", example
        elif not all(0 <= lane <= room for lane in eggs):
            yield "lanes", f"A lane holds 0 to {room} eggs.", example
