"""Cut a cradle's runners wider, so that the arc reaches as far as it tilts."""

import math
from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.advice.moves.on_runners import cradle_of, width_text
from turnercalc.checks.runner_ends import wide_enough
from turnercalc.sizing import Sizing


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield runners just wide enough, where they are too narrow."""
    cradle, tilt = cradle_of(sizing), sizing.design["turning"].tilt
    if cradle is None or tilt is None:
        return
    ends = sizing.ends
    reached = (-tilt, tilt) if math.isnan(ends.total) else (ends.low, ends.high)
    width = wide_enough(cradle, *reached)
    now = sizing.design["cradle"].runner_width
    if width is not None and now is not None and width > now:
        text = width_text(width, float(cradle.runner_radius))
        yield Proposal(
            "wider_runners",
            {"cradle.runner_width": text},
            f"Cut the runners {text} across, from end to end of the arc.",
        )
