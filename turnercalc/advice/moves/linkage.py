"""Change the lengths of crank and link, or the motor's place."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from turnercalc.advice.moves import Proposal, beside_pivot, from_pivot, millimetres
from turnercalc.sizing import Sizing

LONGER = (1.5, 2.0)


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield linkages with even ends at the wanted tilt, for a crank that goes round."""
    crank, arm = sizing.design.get("crank"), sizing.design.get("arm")
    link = sizing.design.get("link")
    if crank is None or arm is None or link is None or crank.runs != "round and round":
        return
    yield from nearest_that_closes(sizing)
    wanted = sizing.design["turning"].tilt
    side = np.sign(crank.across) or 1.0
    for length in (link.length, *(factor * link.length for factor in LONGER)):
        yield even_ends(length, arm.length, wanted, side, longer=length > link.length)


def nearest_that_closes(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the link that would just close with a little in hand, where the given one does not."""
    if not sizing.closing.closes and "link.length" in sizing.closing.nearest:
        nearest = sizing.closing.nearest["link.length"]
        in_hand = 0.002 * np.sign(nearest - sizing.design["link"].length)
        text = millimetres(nearest + in_hand)
        yield Proposal("change_link", {"link.length": text}, f"Make the link {text} long.")


def even_ends(link: float, arm: float, tilt: float, side: float, *, longer: bool) -> Proposal:
    """Return the in-line crank and link: equal ends, equal times both ways.

    With the arm level and the crank centre at (arm cos(tilt), -link') the two ends lie on one
    line with the crank centre, so that crank = arm sin(tilt) and link2 + arm2 = crank2 + ground2
    (E. Soylemez, Mechanisms, on the in-line crank-rocker; from memory, and checked in the tests).
    """
    radius, across = arm * np.sin(tilt), side * arm * np.cos(tilt)
    height = -np.sqrt(link**2 + arm**2 - radius**2 - across**2)
    settings = {
        "crank.radius": millimetres(radius),
        "crank.across": beside_pivot(across),
        "crank.height": from_pivot(height),
    }
    say = (
        f"Set the motor shaft {beside_pivot(across)} and {from_pivot(height)}, with a crank of "
        f"{millimetres(radius)}"
    )
    if longer:
        settings["link.length"] = millimetres(link)
        return Proposal("longer_link", settings, f"{say} and a link of {millimetres(link)}.")
    return Proposal("even_ends", settings, f"{say}.")
