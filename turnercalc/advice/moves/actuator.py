"""Set a linear actuator's end switches by the tilt, or its fixed eye square to the arm."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from turnercalc.advice.moves import Proposal, beside_pivot, from_pivot
from turnercalc.sizing import Sizing

SWITCHED = "between end switches"


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield end switches at the wanted tilt, and a fixed eye from which both ends are alike."""
    rod, arm = sizing.design.get("actuator"), sizing.design.get("arm")
    if rod is None:
        return
    switches = {"actuator.runs": SWITCHED, "motor.stopped_by": "end switches"}
    if rod.runs != SWITCHED:
        say = "Let end switches stop the rod at the wanted tilt."
        yield Proposal("end_switches", switches, say)
    level = arm is not None and arm.points in ("right", "left") and not arm.angle
    if not level or sizing.design["turning"].tilt is None:
        return
    # With the eye straight below both ends of the arm pin's way, the rod stands upright at both
    # ends and the pin's rise is the stroke that is used; the eye's depth puts that in the middle
    # of the stroke there is.
    tilt = sizing.design["turning"].tilt
    rise = 2.0 * arm.length * np.sin(tilt)
    if rise > rod.stroke:
        return
    across = (1.0 if arm.points == "right" else -1.0) * arm.length * np.cos(tilt)
    side = 1.0 if rod.eye_height > 0.0 else -1.0
    height = side * (rod.shortest + 0.5 * rod.stroke)
    places = {
        "actuator.eye_across": beside_pivot(across),
        "actuator.eye_height": from_pivot(height),
    }
    say = f"Put the fixed eye {beside_pivot(across)} and {from_pivot(height)}"
    if rod.runs == SWITCHED:
        yield Proposal("fixed_eye", places, f"{say}.")
    else:
        yield Proposal("fixed_eye", places | switches, f"{say}, with end switches at the tilt.")
