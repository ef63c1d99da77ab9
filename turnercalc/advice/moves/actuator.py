"""Set a linear actuator's end switches by the tilt, or its fixed eye square to the arm."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from turnercalc.advice.moves import Proposal, across_text, each_side, height_text, in_box
from turnercalc.parts.clearances import LINK_END
from turnercalc.sizing import Sizing

SWITCHED = "between end switches"


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield end switches at the wanted ends, and a fixed eye from which both ends are alike."""
    rod, arm = sizing.design.get("actuator"), sizing.design.get("arm")
    if rod is None:
        return
    switches = {"actuator.runs": SWITCHED, "motor.stopped_by": "end switches"}
    if rod.runs != SWITCHED:
        say = "Let end switches stop the rod at the wanted ends."
        yield Proposal("end_switches", switches, say)
    level = arm is not None and arm.points in ("right", "left") and not arm.angle
    wanted = each_side(sizing)
    if not level or wanted is None:
        return
    # With the eye straight below both ends of the arm pin's way, the rod stands upright at both
    # ends and the pin's rise is the stroke that is used; the eye's depth puts that in the middle
    # of the stroke there is.
    rise = 2.0 * arm.length * np.sin(wanted)
    if rise > rod.stroke:
        return
    across = (1.0 if arm.points == "right" else -1.0) * arm.length * np.cos(wanted)
    side = 1.0 if rod.eye_height > 0.0 else -1.0
    height = side * (rod.shortest + 0.5 * rod.stroke)
    if not in_box(sizing, across, height, LINK_END):
        return
    places = {
        "actuator.eye_across": across_text(sizing, across),
        "actuator.eye_height": height_text(sizing, height),
    }
    say = f"Put the fixed eye {' and '.join(places.values())}"
    if rod.runs == SWITCHED:
        yield Proposal("fixed_eye", places, f"{say}.")
    else:
        yield Proposal(
            "fixed_eye", places | switches, f"{say}, with end switches at the wanted ends."
        )
