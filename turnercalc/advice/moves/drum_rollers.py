"""Give the rollers of a drum more grip."""

from __future__ import annotations

from collections.abc import Iterator

from turnercalc.advice.moves import Proposal, millimetres
from turnercalc.sizing import Sizing
from turnercalc.turners.drum_sections import BOTH_SIDES
from turnercalc.turners.rotating_drum import RotatingDrum

WIDER = (1.15, 1.3)
#: So far apart a drum sits deep in its rollers, and every newton of weight presses twice [-].
WIDEST = 0.85
HARDER = 2.0


def propose(sizing: Sizing) -> Iterator[Proposal]:
    """Yield both rows driven, rollers further apart, or more press on a roller that only drives."""
    drum, rollers = sizing.turner, sizing.design.get("rollers")
    if not isinstance(drum, RotatingDrum) or rollers is None:
        return
    if drum.rollers is None:
        if rollers.press is not None:
            press = f"{HARDER * rollers.press:.3g} N"
            yield Proposal(
                "press_harder",
                {"rollers.press": press},
                f"Press the roller on the rim with {press}.",
            )
        return
    if rollers.driven != BOTH_SIDES:
        yield Proposal(
            "drive_both_rows", {"rollers.driven": BOTH_SIDES}, "Drive both rows of rollers."
        )
    for factor in WIDER:
        spacing = factor * rollers.spacing
        if spacing < WIDEST * (rollers.rim + rollers.diameter):
            text = millimetres(spacing)
            yield Proposal(
                "wider_rollers", {"rollers.spacing": text}, f"Set the rollers {text} apart."
            )
