"""Let a drum go to and fro, far enough, and stop at its ends."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal
from turnercalc.eggs.practice import is_turn, left_of_turn
from turnercalc.sizing import Sizing
from turnercalc.turners.drum_sections import TO_AND_FRO
from turnercalc.turners.rotating_drum import RotatingDrum

USUAL = "90 deg each side"


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield half a turn over and back, and end switches instead of a clock."""
    drum = sizing.turner
    if not isinstance(drum, RotatingDrum):
        return
    if drum.endless:
        yield Proposal(
            "to_and_fro",
            {"turning.motion": TO_AND_FRO, "turning.swing": USUAL},
            "Let it go to and fro, half a turn over and half a turn back.",
        )
    elif sizing.design.get("arm") is None and not is_turn(left_of_turn(sizing.ends.total)):
        yield Proposal(
            "half_a_turn", {"turning.swing": USUAL}, "Let it go half a turn over and back."
        )
    if drum.endless and sizing.design["motor"].stopped_by == "end switches":
        yield Proposal(
            "park_switch",
            {"motor.stopped_by": "park switch"},
            "Let a park switch stop it, with a notch for every step.",
        )
    if sizing.drive.both_ways and sizing.design["motor"].stopped_by == "timer":
        yield Proposal(
            "end_switches",
            {"motor.stopped_by": "end switches"},
            "Let two end switches stop it, and not the clock alone.",
        )
