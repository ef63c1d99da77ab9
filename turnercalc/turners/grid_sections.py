"""The sections of a design file that tell of a sliding grid."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Annotated, ClassVar

from pydantic import Field

from turnercalc.fields import (
    BoolWords,
    Choice,
    Context,
    Count,
    Friction,
    FrictionField,
    Gap,
    Given,
    HeightAboveFloor,
    Length,
    LengthRange,
    Mass,
    Name,
    Section,
    Trouble,
    angle,
    words_of_table,
)
from turnercalc.findings import Assumed
from turnercalc.joints import friction_of_bearing
from turnercalc.tables import table
from turnercalc.tables.assuming import assumed_by_rule, assumed_default
from turnercalc.turners.filling import wrong_filling
from turnercalc.turners.lying_eggs import ALONG, ALONG_TOO, LopsidedEggs

SLATS, RODS = "flat slats", "round rods"
SMOOTH, ACROSS_THE_SLIDE, ALONG_THE_SLIDE = (
    "no mesh",
    "wires along the bars on top",
    "wires along the slide on top",
)


class EggsInGrid(LopsidedEggs):
    """[eggs]: what is turned, lying in the cells of the grid."""

    instead: ClassVar[tuple[str, ...]] = ("friction", "cell_wall")

    lie: Annotated[
        str,
        Choice(
            ALONG,
            also=ALONG_TOO,
            help="How the eggs lie: a grid rolls them, so they can only lie along its bars",
        ),
    ]
    held_by: Annotated[
        str,
        Choice(
            "cells",
            also={
                "grid": "cells",
                "the grid": "cells",
                "bars": "cells",
                "cells of the grid": "cells",
            },
            help="What holds an egg: the cells of the grid",
        ),
    ] = "cells"


class GridTurning(Section):
    """[turning]: how far the eggs roll, how often and until when."""

    extends: ClassVar[bool] = True
    instead: ClassVar[tuple[str, ...]] = ("tilt",)

    egg_turn: Annotated[
        float,
        angle(10.0, 1440.0, example="180 deg"),
        Field(description="Turn of the typical egg about its long axis in each stroke"),
    ]


class Grid(Section):
    """[grid]: the frame of bars that slides."""

    cells: Annotated[
        Count, Field(description="How many eggs lie behind one another along the slide")
    ]
    eggs_per_cell: Annotated[
        Count, Field(description="Eggs end to end between two bars", examples=["5"])
    ]
    bars: Annotated[
        str,
        Choice(
            SLATS,
            RODS,
            also={"slats": SLATS, "flat": SLATS, "strips": SLATS, "rods": RODS, "round": RODS},
            help="What the bars are: strips on edge, or round",
        ),
    ]
    bar_thickness: Annotated[
        Length, Field(description="Of one bar, along the slide", examples=["6 mm"])
    ]
    bar_bottom: Annotated[
        Gap,
        Field(description="Lowest part of a bar above the floor of the eggs", examples=["3 mm"]),
    ]
    bar_top: Annotated[
        Length,
        Field(description="Highest part of a bar above the floor of the eggs", examples=["35 mm"]),
    ]
    bar_surface: Annotated[
        str | None,
        words_of_table(
            "egg_friction",
            "egg surface",
            "smooth plastic",
            "What the eggs rub on.",
            as_written=True,
        ),
        Field(description="What the eggs rub on at the bars"),
    ] = None
    bar_friction: Annotated[
        Friction | None,
        Field(description="Of an egg on a bar", examples=["0.2 to 0.4"]),
    ] = None
    weight: Annotated[Mass, Field(description="The grid without eggs", examples=["420 g"])]
    length: Annotated[
        Length | None,
        Field(description="Outside, along the slide", examples=["340 mm"]),
    ] = None
    pin_height: Annotated[
        Length | None,
        Field(description="The pin above the floor of the eggs", examples=["20 mm"]),
    ] = None
    pin_from_left_end: Annotated[
        Length | None,
        Field(description="The pin from the left end of the grid", examples=["330 mm"]),
    ] = None
    from_left_wall: Annotated[
        Length | None,
        Field(
            description="The pin from the left wall of the box, half way through the stroke",
            examples=["400 mm"],
        ),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield what is taken where the builder says nothing."""
        if given.get("bar_surface") is None:
            yield assumed_default("grid.bar_surface")
        surface = given.get("bar_surface") or "any surface"
        if given.get("bar_friction") is None:
            yield _assumed_surface("grid.bar_friction", str(surface))
        room, thickness, cells = (
            context.get("eggs", {}).get("cell_room"),
            *(given.get(name) for name in ("bar_thickness", "cells")),
        )
        length = given.get("length")
        if length is None and room and thickness and cells:
            length = cells * room + (cells + 1) * thickness
            yield assumed_by_rule("grid.length", f"{1e3 * length:.6g} mm")
        top, bottom = given.get("bar_top"), given.get("bar_bottom")
        if given.get("pin_height") is None and top is not None and bottom is not None:
            yield assumed_by_rule("grid.pin_height", f"{500 * (top + bottom):.6g} mm")
        if length is None:
            return
        at = given.get("pin_from_left_end")
        if at is None:
            at = 0.5 * length
            yield assumed_by_rule("grid.pin_from_left_end", f"{1e3 * at:.6g} mm")
        width = context.get("box", {}).get("width")
        if given.get("from_left_wall") is None and width and width > length:
            place = 0.5 * (width - length) + at
            yield assumed_by_rule("grid.from_left_wall", f"{1e3 * place:.6g} mm")

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield bars that are upside down or thicker than the room, and a grid too long."""
        top, bottom = given.get("bar_top"), given.get("bar_bottom")
        if top is not None and bottom is not None and top <= bottom:
            message = "The top of a bar has to be higher than its bottom; both are measured up "
            yield "bar_top", message + "from the floor the eggs lie on.", ("35 mm",)
        length, width = given.get("length"), context.get("box", {}).get("width")
        if length and width and length >= width:
            message = (
                f"The grid is as long as the box is wide, {1e3 * width:.0f} mm: it cannot slide."
            )
            yield "length", message, (f"{1e3 * width - 100:.0f} mm",)
        at = given.get("pin_from_left_end")
        if at and length and at > length + 0.2:
            yield "pin_from_left_end", "The pin is far off the grid.", (f"{1e3 * length:.0f} mm",)


class EggFloor(Section):
    """[floor]: what the eggs roll on."""

    surface: Annotated[
        str,
        words_of_table(
            "egg_friction", "egg surface", "plywood", "What the eggs roll on.", as_written=True
        ),
        Field(description="What the eggs roll on"),
    ]
    height: Annotated[
        HeightAboveFloor | None,
        Field(description="Of what the eggs lie on", examples=["120 mm above the box floor"]),
    ] = None
    friction: Annotated[
        Friction | None,
        Field(description="Of an egg on it: it has to grip", examples=["slides at 17 deg"]),
    ] = None
    rolling_arm: Annotated[
        LengthRange | None,
        Field(description="Arm of rolling resistance of an egg", examples=["0.5 / 1 / 2 mm"]),
    ] = None
    mesh: Annotated[
        str | None,
        Choice(
            SMOOTH,
            ACROSS_THE_SLIDE,
            ALONG_THE_SLIDE,
            also={"none": SMOOTH, "no": SMOOTH, "smooth": SMOOTH},
            help="Whether it is a mesh, and which of its wires the eggs roll on",
        ),
    ] = None
    mesh_pitch: Annotated[
        Length | None,
        Field(description="From one wire to the next", examples=["12.7 mm"]),
    ] = None
    wire: Annotated[
        Length | None, Field(description="Thickness of the wires", examples=["1 mm"])
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield friction and rolling arm of the surface, and a floor that is no mesh."""
        del context
        surface = given.get("surface")
        if surface and given.get("friction") is None:
            yield _assumed_surface("floor.friction", str(surface))
        if surface and given.get("rolling_arm") is None:
            row = table("egg_friction").row(str(surface))
            low, middle, high = (
                row.number(f"rolling_arm_{level}_mm") for level in ("low", "middle", "high")
            )
            text = f"{low:g} / {middle:g} / {high:g} mm"
            yield Assumed("floor.rolling_arm", text, f"egg_friction.csv: {row.text('name')}", _HOW)
        if given.get("mesh") is None:
            taken = SMOOTH if given.get("mesh_pitch") is None else ACROSS_THE_SLIDE
            yield assumed_by_rule("floor.mesh", taken)
        if given.get("mesh_pitch") is not None and given.get("wire") is None:
            yield assumed_default("floor.wire")

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield a mesh without a pitch, and one that the eggs fall into."""
        pitch = given.get("mesh_pitch")
        if given.get("mesh") in (ACROSS_THE_SLIDE, ALONG_THE_SLIDE) and pitch is None:
            yield "mesh_pitch", "How far is it from one wire to the next?", ("12.7 mm",)
        typical = context.get("eggs", {}).get("smallest") or context.get("eggs", {}).get("typical")
        if pitch and typical is not None and pitch >= typical.breadth:
            message = "Eggs fall through a mesh as wide as they are broad."
            yield "mesh_pitch", message, ("12.7 mm",)

    @classmethod
    def idle(cls, given: Given) -> tuple[str, ...]:
        """Return what only a mesh has."""
        return ("mesh_pitch", "wire") if given.get("mesh") == SMOOTH else ()


_HOW = "our choice"


class Guides(Section):
    """[guides]: what the grid slides or rolls on."""

    bearing: Annotated[
        Name,
        Field(
            description="What slides on what; for wheels, what turns on their axles",
            examples=["wood in wood", "steel in nylon"],
        ),
    ]
    friction: FrictionField = None
    wheel_diameter: Annotated[
        Length | None, Field(description="Of wheels that carry it", examples=["20 mm"])
    ] = None
    axle_diameter: Annotated[
        Length | None, Field(description="Of the axles of these wheels", examples=["4 mm"])
    ] = None
    hold_down: Annotated[
        BoolWords | None,
        Field(description="Whether the guides keep the grid from being lifted", examples=["yes"]),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield friction from the damp column, and guides that the grid merely rests on."""
        del context
        yield from friction_of_bearing("guides", given)
        if given.get("hold_down") is None:
            yield assumed_default("guides.hold_down")

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield wheels of which one figure is missing or that are thinner than their axle."""
        del context
        wheel, axle = given.get("wheel_diameter"), given.get("axle_diameter")
        if wheel and not axle:
            message = "How thick are the axles of the wheels? Friction grows with it."
            yield "axle_diameter", message, ("4 mm",)
        elif axle and not wheel:
            yield "wheel_diameter", "How large are the wheels on these axles?", ("20 mm",)
        elif axle and wheel and axle >= wheel:
            yield "axle_diameter", "An axle is thinner than its wheel.", ("4 mm",)

    @classmethod
    def idle(cls, given: Given) -> tuple[str, ...]:
        """Return what only wheels have."""
        return () if given.get("wheel_diameter") else ("wheel_diameter", "axle_diameter")


class GridLoad(Section):
    """[[loads]]: one way of filling the cells."""

    name: Annotated[Name, Field(description="What you call it", examples=["half a batch"])]
    cells: Annotated[
        list[int],
        Field(description="Eggs in each cell, left cell first", examples=["[5, 5, 5, 0, 0, 0]"]),
    ]

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield eggs in cells that there are not, and a load without any."""
        eggs, grid = given.get("cells"), context.get("grid", {})
        count, room = grid.get("cells"), grid.get("eggs_per_cell")
        if eggs is None or not count or not room:
            return
        yield from wrong_filling("cells", eggs, count, room, "cell")
        if len(eggs) == count and not any(eggs):
            message = "No eggs at all: the empty grid is reckoned with anyway."
            yield "cells", message, (str([room] * count),)


def _assumed_surface(field: str, surface: str) -> Assumed:
    """Return the friction of an egg on a named surface, as it would stand in the file."""
    row = table("egg_friction").row(surface)
    text = " / ".join(f"{row.number(level):g}" for level in ("low", "middle", "high"))
    return Assumed(field, text, f"egg_friction.csv: {row.text('name')}", row.how)
