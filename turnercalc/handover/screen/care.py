"""BUILD WITH CARE: which lengths matter, what a jam does."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from turnercalc.drives.wording import wording_of
from turnercalc.handover.display import Style
from turnercalc.handover.layout import labelled, wrap
from turnercalc.swing import sensitivities
from turnercalc.turners.wording import wording_of as words_of_turner

if TYPE_CHECKING:
    from turnercalc.sizing import Sizing
    from turnercalc.swing import EndSensitivity

_COLUMN = 32
#: Less than this per millimetre nobody can measure with a phone or a ruler [deg or mm].
WORTH_TELLING = 0.1
M6_PITCH = 1.0  # mm, the coarse thread of ISO 261


def build_with_care(sizing: Sizing, style: Style) -> list[str]:
    """Return how the ends move with each length, what is in hand, and what a jam does."""
    lines: list[str] = []
    for label, text in care_items(sizing):
        shown = style.words(text) if label == "" else style.letters(text)
        lines += labelled(label, shown, margin=2, column=_COLUMN) if label else wrap(shown, 2)
    return ["BUILD WITH CARE", *lines] if lines else []


def care_items(sizing: Sizing) -> list[tuple[str, str]]:
    """Return the same as pairs of label and text; the label is empty for a plain sentence."""
    told: list[tuple[str, str]] = []
    effects: dict[str, list[str]] = {}
    if sizing.cycle is not None and sizing.turner.coordinate_unit == "m":
        told += _stroke(sizing)
    elif sizing.cycle is not None:
        found = sensitivities(sizing.turner, sizing.drive)
        for one in sorted(found, key=lambda s: -max(abs(s.low), abs(s.high))):
            if max(_per_mm(one.low), _per_mm(one.high)) >= WORTH_TELLING:
                effects.setdefault(_words(sizing, one), []).append(_field(one.field))
        for words, fields in effects.items():
            told.append((" or ".join(fields).capitalize(), words))
        told += [("", text) for text in (*_in_hand(sizing), *_thread(found))]
    return told + [("", text) for text in _jam(sizing)]


def _stroke(sizing: Sizing) -> list[tuple[str, str]]:
    """Return how the stroke of a part that slides moves with each length."""
    told: dict[str, list[str]] = {}
    for one in sensitivities(sizing.turner, sizing.drive):
        change = one.high - one.low
        if abs(change) >= WORTH_TELLING:
            words = f"1 mm more: {abs(change):.1f} mm {'more' if change > 0.0 else 'less'} stroke"
            told.setdefault(words, []).append(_field(one.field))
    pairs = [(" or ".join(fields).capitalize(), words) for words, fields in told.items()]
    return pairs + [("", text) for text in _in_hand(sizing)]


def _per_mm(slope: float) -> float:
    """Return a change of tilt per metre [rad/m] in degrees per millimetre."""
    return abs(math.degrees(slope)) * 1e-3


def _field(path: str) -> str:
    return path.replace(".", " ").replace("_", " ")


def _words(sizing: Sizing, one: EndSensitivity) -> str:
    """Return what a millimetre more does to either end."""
    left, right = math.degrees(one.high) * 1e-3, -math.degrees(one.low) * 1e-3
    if abs(left - right) < 0.05 * max(abs(left), abs(right)):
        more = "more" if left > 0.0 else "less"
        return f"1 mm more: {abs(left):.1f}° {more} to both sides"
    parts = [
        f"{abs(change):.1f}° {'more' if change > 0.0 else 'less'} {side}"
        for side, change in zip(words_of_turner(sizing.turner).sides, (left, right), strict=True)
    ]
    return f"1 mm more: {', '.join(parts)}"


def _in_hand(sizing: Sizing) -> list[str]:
    words = wording_of(sizing.drive)
    spare = -1e3 * sizing.closing.missing
    if spare <= 0.0 or not math.isfinite(spare):
        return []
    text = f"{spare:.0f} mm off in {words.set_by}, and {words.stays}."
    return [text]


def _thread(found: tuple[EndSensitivity, ...]) -> list[str]:
    """Return what a thread on the link is worth, where the link's length moves the ends."""
    link = next((one for one in found if one.field == "link.length"), None)
    if link is None or _per_mm(link.high) < WORTH_TELLING:
        return []
    text = (
        f"Give the link a thread: one turn of an M6 nut is {M6_PITCH:.0f} mm, which moves the "
        f"ends {_per_mm(link.high) * M6_PITCH:.1f}°."
    )
    return [text]


def _jam(sizing: Sizing) -> list[str]:
    stall = sizing.chosen.finding("motor_stall") if sizing.chosen else None
    if stall is None:
        return []
    return [f"If something jams: {stall.text}"]
