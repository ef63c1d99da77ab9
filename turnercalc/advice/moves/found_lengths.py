"""Take other lengths altogether, as the search for lengths finds them."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.sizing import Sizing

#: Suggestions that are tried.
TRIED = 2


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield found lengths, where what lengths decide is what stands in the way.

    That friction jams the drive is told of the motor, and is the lengths' doing too. The search
    takes a second or two, so it is not made where something else is wrong.
    """
    from turnercalc.advice.lengths import Wish, find_lengths
    from turnercalc.advice.lengths.choosing import LENGTHS_DECIDE

    jams = sizing.chosen is not None and sizing.chosen.jammed
    if sizing.reason.id not in LENGTHS_DECIDE and not jams:
        return
    for one in find_lengths(sizing.design, Wish(count=TRIED)).suggestions:
        lengths = ", ".join(f"{path} {text}" for path, text in one.settings.items())
        yield Proposal("other_lengths", one.settings, f"Make it to other lengths: {lengths}.")
