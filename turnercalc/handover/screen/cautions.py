"""CAUTIONS: short, and always deferring to local codes and licensed practice."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from turnercalc.drives.wording import wording_of as words_of_drive
from turnercalc.handover.display import Style
from turnercalc.handover.layout import wrap
from turnercalc.turners.wording import wording_of

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing

HYGIENE = (
    "Warmth and damp breed germs: wash your hands after the eggs, make what touches them easy to "
    "take out and clean, and keep disinfectant off gears and bearings."
)
MAINS = (
    "Mains in a warm damp box can kill. Keep it outside where you can; use a low-voltage motor, a "
    "residual-current device, earthed metal and a fuse. Have it wired or checked by somebody "
    "licensed to, by your local code."
)
PINCH = (
    "Moving parts crush fingers and close without warning. Guard them from children and switch "
    "off at the plug before you reach in."
)
FALLING = (
    "With the {bar} off, or a motor that does not hold, {falling} before you take anything apart."
)


def cautions(sizing: Sizing, style: Style) -> list[str]:
    """Return the cautions that belong to this design."""
    lines = ["CAUTIONS"]
    for text in caution_texts(sizing):
        lines += wrap(style.letters(text), 4, "  ")
    return lines


def caution_texts(sizing: Sizing) -> Iterator[str]:
    """Yield the cautions that belong to a design, a paragraph each."""
    yield PINCH
    if wording_of(sizing.turner).falls:
        bar = words_of_drive(sizing.drive).bar or "drive"
        yield FALLING.format(bar=bar, falling=wording_of(sizing.turner).falling)
    if sizing.design["motor"].supply.ac_volts:
        yield MAINS
    yield HYGIENE
