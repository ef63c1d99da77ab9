"""Rolling bars, as a design file tells them: from its sections to the turner."""

from __future__ import annotations

import math
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from turnercalc.errors import DesignError
from turnercalc.ingredients import Ingredients
from turnercalc.joints import JointFriction
from turnercalc.mechanics.rolling import nest_angle
from turnercalc.tables import Range3, table
from turnercalc.turners.bar_sections import (
    ALTERNATE,
    JOININGS,
    BarLoad,
    Bars,
    EggsOnBars,
    EggTurning,
    bore,
    drops_through,
    rolls_out,
)
from turnercalc.turners.base import Growing, TurnerKind
from turnercalc.turners.joining import LOSSLESS, Belt, Joining
from turnercalc.turners.lane_loads import lane_load_cases
from turnercalc.turners.rolling_bars import RollingBars


def joining(bars: Any) -> Joining:
    """Return how the bars are joined."""
    way = JOININGS[bars.joined_by]
    pull = bars.belt_pull if way.pull else 0.0
    return Joining(
        bar_to_bar=way.bar_to_bar,
        one_each=way.one_each,
        efficiency=bars.belt_efficiency or LOSSLESS,
        end_pull=2.0 * pull,
        inner_pull=pull if way.wraps else 0.0,
        belt=Belt(pull, 0.5 * bars.belt_runs_on, bars.belt_friction) if way.by_friction else None,
    )


def surface_friction(surface: str) -> Range3:
    """Return the sliding friction of an egg on a surface of the table."""
    row = table("egg_friction").row(surface)
    return Range3(row.number("low"), row.number("middle"), row.number("high"))


def build(ingredients: Ingredients) -> RollingBars:
    """Return the bars a design file tells of; refuses a typical egg that drops through."""
    sections, lot = ingredients.sections, ingredients.lot
    bars, eggs, box = sections["bars"], sections["eggs"], sections["box"]
    radius, egg = 0.5 * bars.diameter, lot.typical
    depth = float(nest_angle(0.5 * egg.breadth, radius, bars.pitch))
    if math.isnan(depth):
        raise DesignError(drops_through(egg.breadth, bars.pitch - bars.diameter))
    if abs(box.leans) >= depth:
        raise DesignError(rolls_out(box.leans, depth))
    inner = 0.5 * bore(bars.diameter, bars.wall)
    wide = (bars.count - 1) * bars.pitch
    turner = RollingBars(
        count=bars.count,
        pitch=bars.pitch,
        bar_radius=radius,
        egg_radius=0.5 * egg.breadth,
        egg_mass=egg.mass,
        egg_inertia=egg.inertia_long,
        largest_radius=0.5 * lot.largest.breadth,
        egg_friction=surface_friction(bars.surface),
        egg_turn=sections["turning"].egg_turn,
        bar_mass=bars.weight,
        bar_inertia=0.5 * bars.weight * (radius**2 + inner**2),
        journal_diameter=bars.journal_diameter,
        journal_friction=JointFriction.of(bars.journal, bars.journal_friction),
        rolling_arm=bars.rolling_arm,
        off_centre=eggs.off_centre,
        joining=joining(bars),
        driven_bar=(bars.driven_bar or 1) - 1,
        turns_back=sections["turning"].sense == ALTERNATE,
        lean=box.leans,
        from_left_wall=0.5 * (box.width - wide),
    )
    cases = lane_load_cases(
        turner,
        bars.eggs_per_lane,
        planned=eggs.heavy_sides,
        given=[(load.name, load.lanes) for load in ingredients.loads],
    )
    return replace(turner, cases=cases)


KIND = TurnerKind(
    id="rolling_bars",
    words=("rolling bars", "bars", "rollers"),
    starter="bars",
    says="eggs on their side between bars that all turn the same way",
    sections=MappingProxyType({"eggs": EggsOnBars, "turning": EggTurning, "bars": Bars}),
    load_entry=BarLoad,
    drives=("turning_shaft",),
    build=build,
    checks=(
        "species_turned",
        "egg_turn",
        "sense",
        "neighbours_touch",
        "drop_through",
        "nest",
        "climbing_out",
        "traction",
        "cross_stops",
        "under_bars",
        "bar_sag",
        "air_gap",
        "belt_grip",
        "wedging",
        "driven_bar",
        "gentleness",
        "turns_per_day",
        "last_day",
    ),
    grows=(Growing("bars.count", "bars", "bar", ("under_bars",)),),
)
