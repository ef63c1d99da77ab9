"""Cut a cradle's runners to another radius: the nearer its middle is to the eggs', the lighter."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace

from turnercalc.advice.moves import Proposal, millimetres
from turnercalc.advice.moves.on_runners import (
    cradle_of,
    even_lengths,
    length_settings,
    width_text,
)
from turnercalc.checks.runner_ends import wide_enough
from turnercalc.drives.crank_link import CrankLink
from turnercalc.sizing import Sizing
from turnercalc.turners.arc_on_rollers import ArcOnRollers
from turnercalc.turners.rocking_cradle import RockingCradle

SHARES = (0.95, 0.85, 0.7, 1.1)


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield other radii, with runners wide enough and crank and link that fit."""
    cradle = cradle_of(sizing)
    if cradle is None or sizing.design["turning"].tilt is None:
        return
    tilt = sizing.design["turning"].tilt
    for share in SHARES:
        radius = round(1e3 * share * float(cradle.runner_radius)) / 1e3
        cut = cut_to(cradle, radius)
        width = wide_enough(cut, -tilt, tilt)
        if width is None:
            continue
        settings = {
            "cradle.runner_radius": millimetres(radius),
            "cradle.runner_width": width_text(width, radius),
            **_lengths(sizing, cut, tilt),
        }
        say = f"Cut the runners to a radius of {millimetres(radius)}"
        if "crank.radius" in settings:
            say += (
                f", with a crank of {settings['crank.radius']} and a link of "
                f"{settings['link.length']}"
            )
        yield Proposal("runner_radius", settings, f"{say}.")


def cut_to(cradle: RockingCradle, radius: float) -> RockingCradle:
    """Return the cradle with other runners, their width still open; fixed rollers stay put."""
    cut = replace(cradle, runner_radius=radius, runner_half_angle=0.0)
    if not isinstance(cut, ArcOnRollers):
        return cut
    beside = (float(cradle.runner_radius) + cut.roller_radius) * math.sin(cut.roller_angle)
    share = beside / (radius + cut.roller_radius)
    return replace(cut, roller_angle=math.asin(min(share, 1.0)))


def _lengths(sizing: Sizing, cradle: RockingCradle, tilt: float) -> Mapping[str, str]:
    """Return the crank and link that bring the new runners to the same tilt."""
    drive, crank = sizing.drive, sizing.design.get("crank")
    if not isinstance(drive, CrankLink) or crank is None or crank.runs != "round and round":
        return {}
    return length_settings(
        *even_lengths(cradle.path(), float(drive.across), float(drive.height), tilt)
    )
