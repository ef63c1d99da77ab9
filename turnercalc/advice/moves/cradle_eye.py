"""Move the fixed eye of the actuator that rocks a cradle."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice, product

import numpy as np

from turnercalc.advice.moves import Proposal
from turnercalc.advice.moves.on_runners import across_text, cradle_of, height_text, places
from turnercalc.checks.link_to_arm import link_to_arm
from turnercalc.cycle import turn_cycle
from turnercalc.drives.linear_actuator import LinearActuator
from turnercalc.parts.clearances import LINK_END
from turnercalc.parts.footing import grip_needed, lightest_roller
from turnercalc.sizing import Sizing
from turnercalc.tables import limit
from turnercalc.turners.rocking_cradle import RockingCradle

POSITIONS = 25
KEPT = 3
IN_HAND = 0.005  # m of the stroke left over at both ends together
#: How far beside its present place the eye is tried, besides places all over the box [m].
NEARBY = (-0.04, -0.02, -0.01, 0.0, 0.01, 0.02, 0.04)
SWITCHED = {"actuator.runs": "between end switches", "motor.stopped_by": "end switches"}


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the places of the eye from which the stroke reaches both ends, gentlest first."""
    cradle, rod = cradle_of(sizing), sizing.drive
    if cradle is None or not isinstance(rod, LinearActuator):
        return
    for across, height in best_eyes(sizing, cradle, rod):
        settings = {
            "actuator.eye_across": across_text(across),
            "actuator.eye_height": height_text(height),
        }
        say = f"Put the fixed eye {' and '.join(settings.values())}"
        if rod.whole_stroke:
            yield Proposal("fixed_eye", settings | SWITCHED, f"{say}, with end switches.")
        else:
            yield Proposal("fixed_eye", settings, f"{say}.")


def best_eyes(
    sizing: Sizing, cradle: RockingCradle, rod: LinearActuator
) -> list[tuple[float, float]]:
    """Return the places that ask least of rod and floor, best first."""
    free = replace(rod, whole_stroke=False, stop_in=None, stop_out=None)
    beside = [
        (float(rod.across) + dx, float(rod.height) + dy) for dx, dy in product(NEARBY, repeat=2)
    ]
    path, found = cradle.path(), []
    for across, height in (*beside, *places(sizing, LINK_END)):
        tried = replace(free, across=across, height=height)
        far, near = tried.eye_distance(path, np.array(cradle.travel))
        if abs(far - near) + IN_HAND > rod.stroke or min(far, near) < float(rod.shortest):
            continue
        tried = tried.assemble(path, cradle.travel)
        asked = strain(cradle, tried)
        if asked is not None:
            found.append((asked, across, height, tried))
    best = sorted(found, key=lambda place: place[:3])
    reaches = (place for place in best if place[3].closing(path).missing <= -IN_HAND)
    return [(across, height) for _, across, height, _ in islice(reaches, KEPT)]


def strain(cradle: RockingCradle, rod: LinearActuator) -> tuple[float, float] | None:
    """Return what an eye asks of the floor and of the rod; None where it stands too flat.

    Crossed straps hold whatever the floor does not, so that only the push counts with them.
    """
    loads = [case for case in cradle.load_cases() if case.family in ("full", "empty")]
    cycle = turn_cycle(cradle, rod, loads, levels=("middle",), count=POSITIONS)
    if not cycle.motion.closes.any():
        return None
    flattest = np.degrees(np.nanmin(link_to_arm(cycle.motion, cradle.path())))
    wanted = limit("link_to_arm").fine
    if cycle.jams.any() or wanted is None or flattest < wanted:
        return None
    push = float(np.abs(cycle.shaft_torque).max())
    if cradle.strapped:
        return 0.0, push
    if cradle.rolls_on_floor:
        return grip_needed(cycle, (0, 1)).value, push
    return -lightest_roller(cycle, (0, 1)).value, push
