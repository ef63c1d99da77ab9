"""Change the lengths of crank and link, or the motor's place."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from turnercalc.advice.moves import Proposal, across_text, each_side, height_text, millimetres
from turnercalc.sizing import Sizing

LONGER = (1.5, 2.0)


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield linkages with even ends at the wanted swing, for a crank that goes round."""
    crank, link = sizing.design.get("crank"), sizing.design.get("link")
    if crank is None or link is None or crank.runs != "round and round":
        return
    yield from nearest_that_closes(sizing)
    wanted = each_side(sizing)
    if wanted is None:
        return
    for length in (link.length, *(factor * link.length for factor in LONGER)):
        yield even_ends(sizing, length, wanted, longer=length > link.length)


def nearest_that_closes(sizing: Sizing) -> Iterator[Proposal]:
    """Yield the link that would just close with a little in hand, where the given one does not."""
    if not sizing.closing.closes and "link.length" in sizing.closing.nearest:
        nearest = sizing.closing.nearest["link.length"]
        in_hand = 0.002 * np.sign(nearest - sizing.design["link"].length)
        text = millimetres(nearest + in_hand)
        yield Proposal("change_link", {"link.length": text}, f"Make the link {text} long.")


def even_ends(sizing: Sizing, link: float, swing: float, *, longer: bool) -> Proposal:
    """Return the in-line crank and link: equal ends, equal times both ways.

    With the crank centre arm cos(swing) along the arm in its middle and link' square to it the
    two ends lie on one line with the crank centre, so that crank = arm sin(swing) and
    link2 + arm2 = crank2 + ground2 (E. Soylemez, Mechanisms, on the in-line crank-rocker; from
    memory, and checked in the tests). Of the two places, on either side of the arm, the one
    nearer to where the shaft is now is taken.
    """
    crank, (pin_x, pin_y) = sizing.design["crank"], sizing.turner.path().point(0.0)
    pin = complex(float(pin_x), float(pin_y))
    arm = abs(pin)
    radius, along = arm * np.sin(swing), arm * np.cos(swing)
    square = np.sqrt(link**2 + arm**2 - radius**2 - along**2)
    place = min(
        (pin / arm * complex(along, side * square) for side in (-1.0, 1.0)),
        key=lambda one: abs(one - complex(crank.across, crank.height)),
    )
    across, height = across_text(sizing, place.real), height_text(sizing, place.imag)
    settings = {
        "crank.radius": millimetres(radius),
        "crank.across": across,
        "crank.height": height,
    }
    say = f"Set the motor shaft {across} and {height}, with a crank of {millimetres(radius)}"
    if longer:
        settings["link.length"] = millimetres(link)
        return Proposal("longer_link", settings, f"{say} and a link of {millimetres(link)}.")
    return Proposal("even_ends", settings, f"{say}.")
