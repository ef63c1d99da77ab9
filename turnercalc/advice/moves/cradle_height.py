"""Mount a cradle's tray higher or lower on its runners."""

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal, millimetres
from turnercalc.advice.moves.on_runners import cradle_of, height_text
from turnercalc.sizing import Sizing

STEPS = (-0.015, 0.010, 0.020, 0.030)  # m, up is +


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield a tray a few millimetres higher or lower; the empty cradle's balance goes half way."""
    if cradle_of(sizing) is None:
        return
    section = sizing.design["cradle"]
    for step in STEPS:
        heights = {
            "egg_floor": section.egg_floor + step,
            "underside": section.underside + step,
            "balance": section.balance + 0.5 * step,
        }
        if min(heights.values()) <= 0.0:
            continue
        way = "higher" if step > 0.0 else "lower"
        yield Proposal(
            "mount_tray",
            {f"cradle.{name}": height_text(height) for name, height in heights.items()},
            f"Mount the tray {millimetres(abs(step))} {way} on its runners.",
        )
