"""BUILD WITH CARE: which lengths matter, what a jam does."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from turnercalc.drives.wording import wording_of
from turnercalc.handover.display import Style
from turnercalc.handover.layout import labelled, wrap
from turnercalc.swing import sensitivities

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing
    from turnercalc.swing import EndSensitivity

_COLUMN = 32
#: Less than this per millimetre nobody can measure with a phone [deg].
WORTH_TELLING = 0.1
M6_PITCH = 1.0  # mm, the coarse thread of ISO 261


def build_with_care(sizing: Sizing, style: Style) -> list[str]:
    """Return how the ends move with each length, what is in hand, and what a jam does."""
    told: list[str] = []
    effects: dict[str, list[str]] = {}
    if sizing.cycle is not None and sizing.turner.coordinate_unit == "rad":
        found = sensitivities(sizing.turner, sizing.drive)
        for one in sorted(found, key=lambda s: -max(abs(s.low), abs(s.high))):
            if max(_per_mm(one.low), _per_mm(one.high)) >= WORTH_TELLING:
                effects.setdefault(_words(one), []).append(_field(one.field))
        for words, fields in effects.items():
            label = " or ".join(fields).capitalize()
            told += labelled(label, style.letters(words), margin=2, column=_COLUMN)
        told += _in_hand(sizing, style) + _thread(found, style)
    told += _jam(sizing, style)
    return ["BUILD WITH CARE", *told] if told else []


def _per_mm(slope: float) -> float:
    """Return a change of tilt per metre [rad/m] in degrees per millimetre."""
    return abs(math.degrees(slope)) * 1e-3


def _field(path: str) -> str:
    return path.replace(".", " ").replace("_", " ")


def _words(one: EndSensitivity) -> str:
    """Return what a millimetre more does to either end."""
    left, right = math.degrees(one.high) * 1e-3, -math.degrees(one.low) * 1e-3
    if abs(left - right) < 0.05 * max(abs(left), abs(right)):
        more = "more" if left > 0.0 else "less"
        return f"1 mm more: {abs(left):.1f}° {more} to both sides"
    parts = [
        f"{abs(change):.1f}° {'more' if change > 0.0 else 'less'} {side}"
        for side, change in (("left", left), ("right", right))
    ]
    return f"1 mm more: {', '.join(parts)}"


def _in_hand(sizing: Sizing, style: Style) -> list[str]:
    words = wording_of(sizing.drive)
    spare = -1e3 * sizing.closing.missing
    if spare <= 0.0 or not math.isfinite(spare):
        return []
    text = f"{spare:.0f} mm off in {words.set_by}, and {words.stays}."
    return wrap(style.words(text), 2)


def _thread(found: tuple[EndSensitivity, ...], style: Style) -> list[str]:
    """Return what a thread on the link is worth, where the link's length moves the ends."""
    link = next((one for one in found if one.field == "link.length"), None)
    if link is None or _per_mm(link.high) < WORTH_TELLING:
        return []
    text = (
        f"Give the link a thread: one turn of an M6 nut is {M6_PITCH:.0f} mm, which moves the "
        f"ends {_per_mm(link.high) * M6_PITCH:.1f}°."
    )
    return wrap(style.letters(text), 2)


def _jam(sizing: Sizing, style: Style) -> list[str]:
    stall = sizing.chosen.finding("motor_stall") if sizing.chosen else None
    if stall is None:
        return []
    return wrap(style.words(f"If something jams: {stall.text}"), 2)
