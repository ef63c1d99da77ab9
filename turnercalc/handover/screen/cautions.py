"""CAUTIONS: short, and always deferring to local codes and licensed practice."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from turnercalc import units
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
    "licensed to, by your local code. IEC 60335-2-71 is about the safety of household incubators, "
    "IEC 60529 about what IP codes say of water and fingers."
)
PINCH = "Moving parts crush fingers and close without warning."
HELD = "Held fast, {motor} pushes with up to {what}."
GUARD = "Guard them from children and switch off at the plug before you reach in."
FALLING = (
    "With the {bar} off, or a motor that does not hold, {falling} before you take anything apart."
)


def cautions(sizing: Sizing, style: Style) -> list[str]:
    """Return the cautions that belong to this design."""
    lines = ["CAUTIONS"]
    for text in caution_texts(sizing):
        lines += wrap(style.words(text), 4, "  ")
    return lines


def caution_texts(sizing: Sizing) -> Iterator[str]:
    """Yield the cautions that belong to a design, a paragraph each."""
    yield " ".join(text for text in (PINCH, _held(sizing), GUARD) if text)
    if wording_of(sizing.turner).falls:
        bar = words_of_drive(sizing.drive).bar or "drive"
        yield FALLING.format(bar=bar, falling=wording_of(sizing.turner).falling)
    if sizing.design["motor"].supply.ac_volts:
        yield MAINS
    yield HYGIENE


def _held(sizing: Sizing) -> str:
    """Return what a finger in the way takes, where a motor is chosen and its stall is known."""
    if sizing.chosen is None:
        return ""
    motor = sizing.chosen.motor.id
    force = next((f.value for f in sizing.findings if f.id == "jam_force"), None)
    if force:
        return HELD.format(motor=motor, what=_two_figures(force, "force"))
    stall = sizing.chosen.finding("motor_stall")
    if stall is None or not stall.value:
        return ""
    if stall.unit == "N":
        return HELD.format(motor=motor, what=_two_figures(stall.value, "force"))
    return HELD.format(motor=motor, what=f"{_two_figures(stall.value, 'torque')} at its shaft")


def _two_figures(value: float, kind: str) -> str:
    """Return a quantity to two figures: nobody knows a stall better."""
    return units.show(float(f"{value:.2g}"), kind)
