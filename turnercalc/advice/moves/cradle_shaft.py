"""Make a cradle's crank and link so that both ends are alike, or move the motor's shaft."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

import numpy as np

from turnercalc.advice.moves import Proposal
from turnercalc.advice.moves.linkage import nearest_that_closes
from turnercalc.advice.moves.on_runners import (
    across_text,
    cradle_of,
    even_lengths,
    height_text,
    length_settings,
    places,
    refitted,
)
from turnercalc.checks.link_to_arm import link_to_arm
from turnercalc.cycle import TurnCycle, turn_cycle
from turnercalc.drives.crank_link import CrankLink
from turnercalc.parts.clearances import LINK_END
from turnercalc.parts.footing import grip_needed, lightest_roller
from turnercalc.sizing import Sizing
from turnercalc.tables import limit
from turnercalc.turners.rocking_cradle import RockingCradle

POSITIONS = 36
MARGIN = 0.006  # m in hand that a linkage worth trying has
NEARBY = 0.02  # m: nearer than this to its present place is no other place
NEARLY = 0.95  # of the wanted tilt, at so few positions
KEPT = 2


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield lengths for the shaft where it stands, and the best places for it."""
    cradle, crank = cradle_of(sizing), sizing.design.get("crank")
    tilt = sizing.design["turning"].tilt
    drive = sizing.drive
    if cradle is None or not isinstance(drive, CrankLink) or crank.runs != "round and round":
        return
    yield from nearest_that_closes(sizing)
    here = length_settings(
        *even_lengths(cradle.path(), float(drive.across), float(drive.height), tilt)
    )
    say = f"Make the crank {here['crank.radius']} and the link {here['link.length']}."
    yield Proposal("even_ends", here, say)
    for across, height in best_places(sizing, cradle, drive, tilt):
        lengths = length_settings(*even_lengths(cradle.path(), across, height, tilt))
        settings = {
            "crank.across": across_text(across),
            "crank.height": height_text(height),
            **lengths,
        }
        say = (
            f"Set the motor shaft {settings['crank.across']} and {settings['crank.height']}, with "
            f"a crank of {lengths['crank.radius']} and a link of {lengths['link.length']}."
        )
        yield Proposal("move_shaft", settings, say)


def best_places(
    sizing: Sizing, cradle: RockingCradle, drive: CrankLink, tilt: float
) -> list[tuple[float, float]]:
    """Return the places of the shaft that ask least of what the cradle stands on, best first."""
    path, found = cradle.path(), []
    for across, height in places(sizing, LINK_END):
        beside = abs(across - float(drive.across)) + abs(height - float(drive.height))
        tried = refitted(drive, path, across, height, tilt)
        if beside < NEARBY or not _crank_fits(sizing, cradle, tried):
            continue
        asked = strain(cradle, tried, tilt)
        if asked is not None:
            found.append((asked, across, height, tried))
    # Whether it gets round with something in hand takes longest to say, so it is asked last.
    best = sorted(found, key=lambda place: place[:3])
    rounds = (place for place in best if place[3].closing(path).missing <= -MARGIN)
    return [(across, height) for _, across, height, _ in islice(rounds, KEPT)]


def strain(cradle: RockingCradle, drive: CrankLink, tilt: float) -> float | None:
    """Return what a linkage asks of floor or rollers.

    None where it does not reach the tilt to both sides, or turns its arm too flatly.
    """
    loads = [case for case in cradle.load_cases() if case.family in ("full", "empty")]
    cycle = turn_cycle(cradle, drive, loads, levels=("middle",), count=POSITIONS)
    flattest = np.degrees(np.nanmin(link_to_arm(cycle.motion, cradle.path())))
    wanted = limit("link_to_arm").fine
    reached = min(np.nanmax(cycle.motion.coordinate), -np.nanmin(cycle.motion.coordinate))
    if cycle.jams.any() or wanted is None or flattest < wanted or reached < NEARLY * tilt:
        return None
    return _asked(cradle, cycle)


def _asked(cradle: RockingCradle, cycle: TurnCycle) -> float:
    if cradle.rolls_on_floor:
        return grip_needed(cycle, (0, 1)).value
    return -lightest_roller(cycle, (0, 1)).value


def _crank_fits(sizing: Sizing, cradle: RockingCradle, drive: CrankLink) -> bool:
    """Tell whether the whole circle of the crank is inside the box."""
    box = sizing.design["box"]
    left = 0.5 * box.width if cradle.origin_from_left is None else cradle.origin_from_left
    floor, round_about = cradle.origin_height or 0.0, float(drive.crank) + LINK_END
    across, height = left + float(drive.across), floor + float(drive.height)
    sides = (across, box.width - across, height, box.height - height)
    return bool(min(sides) >= round_about)
