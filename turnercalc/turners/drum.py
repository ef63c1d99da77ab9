"""Rotating drum, as a design file tells it."""

from __future__ import annotations

from collections.abc import Sequence
from types import MappingProxyType
from typing import Any

import numpy as np

from turnercalc.errors import Complaint, DesignError
from turnercalc.fields import FROM_AXLE, HeavySide
from turnercalc.ingredients import Ingredients
from turnercalc.joints import FRICTIONLESS, JointFriction
from turnercalc.turners.base import Growing, LoadCase, Outline, TurnerKind
from turnercalc.turners.drum_loads import drum_load_cases, loading_order
from turnercalc.turners.drum_sections import (
    BOTH_SIDES,
    LEFT_SIDE,
    ONE_SIDE,
    RIGHT_SIDE,
    ROLLERS,
    TO_AND_FRO,
    Drum,
    DrumArm,
    DrumLoad,
    DrumTurning,
    EggsOnDrum,
    Rollers,
    half_angle,
)
from turnercalc.turners.rack import DIRECTIONS
from turnercalc.turners.rotating_drum import RimWeight, RotatingDrum, shelf_angles
from turnercalc.turners.support_rollers import BOTH, LEFT, NEITHER, RIGHT, SupportRollers

#: A stage that turns the drum by its rim.
FRICTION_ROLLER = "friction roller"
#: How far the ratio of that stage may be from the two diameters of [rollers] [-].
RATIO_AGREES = 0.02
CIRCLE_POINTS = 48
#: What is said of the rows that are driven -> which these may be.
TURNED = {
    ONE_SIDE: (LEFT, RIGHT),
    LEFT_SIDE: (LEFT,),
    RIGHT_SIDE: (RIGHT,),
    BOTH_SIDES: (BOTH,),
}


def circle(radius: float, middle: tuple[float, float] = (0.0, 0.0)) -> tuple[Any, Any]:
    """Return a polygon that encloses a circle about a middle, across and height [m]."""
    turn = np.arange(CIRCLE_POINTS) * (2.0 * np.pi / CIRCLE_POINTS)
    corner = radius / np.cos(np.pi / CIRCLE_POINTS)
    return middle[0] + corner * np.cos(turn), middle[1] + corner * np.sin(turn)


def shapes(ingredients: Ingredients) -> tuple[Outline, ...]:
    """Return the circle that the drum sweeps, and the largest egg on every shelf."""
    drum, largest = ingredients.sections["drum"], ingredients.lot.largest
    eggs = [
        Outline(
            "egg",
            *circle(
                0.5 * largest.breadth,
                (drum.shelf_radius * np.cos(at), drum.shelf_radius * np.sin(at)),
            ),
        )
        for at in shelf_angles(drum.shelves)
    ]
    return (Outline("drum", *circle(0.5 * drum.outside)), *eggs)


def rim_weight(side: HeavySide | None) -> RimWeight | None:
    """Return a weight on the drum, or None where there is none."""
    if side is None or not side.mass * side.radius:
        return None
    return RimWeight(side.mass, side.radius, side.shelf)


def support_rollers(rollers: Rollers | None, *, pull: bool) -> SupportRollers | None:
    """Return the rollers that carry a drum, and by which it is pulled round, if it is."""
    if rollers is None:
        return None
    return SupportRollers(
        rim_radius=0.5 * rollers.rim,
        roller_radius=0.5 * rollers.diameter,
        half_angle=half_angle(rollers),
        axle_diameter=rollers.axle_diameter or 0.0,
        friction=JointFriction.of(str(rollers.bearing), rollers.friction),  # type: ignore[arg-type]
        rolling_arm=rollers.rolling_arm,  # type: ignore[arg-type]
        turned=TURNED[rollers.driven or ONE_SIDE] if pull else (NEITHER,),
    )


def pulled_by_rim(sections: Any) -> bool:
    """Return whether a friction roller turns the drum."""
    return FRICTION_ROLLER in [stage.kind for stage in sections.get("gearing", ())]


def build(ingredients: Ingredients) -> RotatingDrum:
    """Return the drum a design file tells of."""
    sections = ingredients.sections
    drum, turning, arm = sections["drum"], sections["turning"], sections.get("arm")
    _check_ratio(sections)
    on_rollers = drum.carried_by == ROLLERS
    to_and_fro = turning.motion == TO_AND_FRO
    egg = ingredients.lot.typical
    empty = RotatingDrum(
        shelves=drum.shelves,
        eggs_per_shelf=drum.eggs_per_shelf,
        shelf_radius=drum.shelf_radius,
        egg_mass=egg.mass,
        egg_inertia=egg.inertia_long,
        drum_mass=drum.empty_weight,
        drum_inertia=drum.empty_weight * drum.shelf_radius**2,  # as if all of it sat out there
        heavy_side=rim_weight(drum.empty_balance),
        counterweight=rim_weight(drum.counterweight),
        axle_diameter=0.0 if on_rollers else drum.axle_diameter,
        bearing_count=2 if on_rollers else drum.bearing_count,
        friction=FRICTIONLESS if on_rollers else JointFriction.of(drum.bearing, drum.friction),
        rollers=support_rollers(sections.get("rollers"), pull=pulled_by_rim(sections))
        if on_rollers
        else None,
        arm_length=arm.length if arm else 0.0,
        arm_angle=DIRECTIONS[arm.points] + arm.angle if arm else 0.0,
        wanted=(-turning.swing, turning.swing) if to_and_fro else (0.0, turning.step),
        endless=not to_and_fro,
        lean=sections["box"].leans,
        axle_height=drum.axle_height,
        origin_from_left=drum.from_left_wall,
        shapes=shapes(ingredients),
    )
    return empty.with_cases(load_cases(empty, drum.filled, ingredients.loads))


def load_cases(empty: RotatingDrum, filled: str, loads: Sequence[Any]) -> tuple[LoadCase, ...]:
    """Return every load case of a drum that is filled so."""
    return drum_load_cases(
        empty.shelves,
        empty.eggs_per_shelf,
        filled=filled,
        order=loading_order(empty.shelves, 1.0, empty.empty_in_shelves),
        given=[(load.name, load.shelves) for load in loads],
    )


def _check_ratio(sections: Any) -> None:
    """Refuse a friction roller that does not turn the rim, or not in its ratio."""
    rollers, stages = sections.get("rollers"), sections.get("gearing", ())
    if rollers is None or not pulled_by_rim(sections):
        return
    if stages[-1].kind != FRICTION_ROLLER:
        message = "The friction roller turns the drum's rim itself, so it is the last stage."
        last = f"gearing.{len(stages)}.kind"
        complaint = Complaint(None, last, stages[-1].kind, message, (FRICTION_ROLLER,))
        raise DesignError(message, complaints=(complaint,))
    ratio, wanted = stages[-1].speed_ratio, rollers.rim / rollers.diameter
    if abs(ratio / wanted - 1.0) <= RATIO_AGREES:
        return
    message = (
        f"The friction roller makes it {ratio:.3g} times slower, but rim and roller of [rollers] "
        f"make it {wanted:.3g} times."
    )
    field = f"gearing.{len(stages)}.driven_diameter"
    nearer = (f"{1e3 * rollers.rim:.6g} mm, with motor_diameter {1e3 * rollers.diameter:.6g} mm",)
    raise DesignError(message, complaints=(Complaint(None, field, "", message, nearer),))


KIND = TurnerKind(
    id="rotating_drum",
    words=("rotating drum", "drum", "turning drum"),
    starter="drum",
    says="shelves fixed round an axle, the eggs held by foam and net as they go over",
    sections=MappingProxyType(
        {
            "eggs": EggsOnDrum,
            "turning": DrumTurning,
            "drum": Drum,
            "rollers": Rollers,
            "arm": DrumArm,
        }
    ),
    pin_sections=("arm",),
    optional_sections=("rollers",),
    load_entry=DrumLoad,
    drives=("turning_shaft", "crank_and_link", "slotted_lever", "linear_actuator"),
    build=build,
    checks=(
        "species_turned",
        "closes",
        "jam",
        "drum_move",
        "sense",
        "held_over",
        "shell_squeeze",
        "eggs_apart",
        "shelf_length",
        "room",
        "imbalance",
        "loading_order",
        "roller_grip",
        "link_to_arm",
        "slot_wall",
        "push_and_pull",
        "gentleness",
        "knock",
        "turns_per_day",
        "stops",
        "last_day",
        "holding",
        "link_strength",
        "pin_strength",
        "jam_force",
    ),
    measured_from=FROM_AXLE,
    grows=(
        Growing(
            "drum.eggs_per_shelf", "eggs on each shelf", "egg on each shelf", ("shelf_length",)
        ),
        Growing("drum.shelves", "shelves", "shelf", ("eggs_apart",)),
    ),
)
