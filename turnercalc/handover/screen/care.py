"""BUILD WITH CARE: which lengths matter, what a jam does."""

from __future__ import annotations

import math
from dataclasses import dataclass
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


@dataclass(frozen=True)
class Made:
    """What a builder measures with: a step on the rule, and what one turn of a nut is.

    Attributes
    ----------
    step : float
        [mm].
    says : str
    pitch : float
        [mm].
    nut : str
    turn : str
        The pitch in words.
    """

    step: float
    says: str
    pitch: float
    nut: str
    turn: str


#: The coarse threads of ISO 261 and of ASME B1.1 (20 to the inch).
_METRIC = Made(1.0, "1 mm", 1.0, "an M6 nut", "1 mm")
_US = Made(25.4 / 16, "1/16 in", 25.4 / 20, "a 1/4-20 nut", "0.05 in")


def build_with_care(sizing: Sizing, style: Style) -> list[str]:
    """Return how the ends move with each length, what is in hand, and what a jam does."""
    lines: list[str] = []
    for label, text in care_items(sizing, style.system):
        shown = style.words(text)
        lines += labelled(label, shown, margin=2, column=_COLUMN) if label else wrap(shown, 2)
    return ["BUILD WITH CARE", *lines] if lines else []


def care_items(sizing: Sizing, system: str = "metric") -> list[tuple[str, str]]:
    """Return the same as pairs of label and text; the label is empty for a plain sentence."""
    told: list[tuple[str, str]] = []
    made = _US if system == "us" else _METRIC
    effects: dict[str, list[str]] = {}
    if sizing.cycle is not None and sizing.turner.coordinate_unit == "m":
        told += _stroke(sizing, made)
    elif sizing.cycle is not None:
        found = sensitivities(sizing.turner, sizing.drive)
        for one in sorted(found, key=lambda s: -max(abs(s.low), abs(s.high))):
            if max(_per_mm(one.low), _per_mm(one.high)) >= WORTH_TELLING:
                effects.setdefault(_words(sizing, one, made), []).append(_field(one.field))
        for words, fields in effects.items():
            told.append((" or ".join(fields).capitalize(), words))
        told += [("", text) for text in (*_in_hand(sizing), *_thread(found, made))]
    return told + [("", text) for text in _jam(sizing)]


def _stroke(sizing: Sizing, made: Made) -> list[tuple[str, str]]:
    """Return how the stroke of a part that slides moves with each length."""
    told: dict[str, list[str]] = {}
    for one in sensitivities(sizing.turner, sizing.drive):
        change = one.high - one.low
        if abs(change) >= WORTH_TELLING:
            more = "more" if change > 0.0 else "less"
            words = f"{made.says} more: {abs(made.step * change):.1f} mm {more} stroke"
            told.setdefault(words, []).append(_field(one.field))
    pairs = [(" or ".join(fields).capitalize(), words) for words, fields in told.items()]
    return pairs + [("", text) for text in _in_hand(sizing)]


def _per_mm(slope: float) -> float:
    """Return a change of tilt per metre [rad/m] in degrees per millimetre."""
    return abs(math.degrees(slope)) * 1e-3


def _field(path: str) -> str:
    return path.replace(".", " ").replace("_", " ")


def _words(sizing: Sizing, one: EndSensitivity, made: Made) -> str:
    """Return what a little more on the rule does to either end."""
    per = made.step * 1e-3
    left, right = math.degrees(one.high) * per, -math.degrees(one.low) * per
    if abs(left - right) < 0.05 * max(abs(left), abs(right)):
        more = "more" if left > 0.0 else "less"
        return f"{made.says} more: {abs(left):.1f}° {more} to both sides"
    parts = [
        f"{abs(change):.1f}° {'more' if change > 0.0 else 'less'} {side}"
        for side, change in zip(words_of_turner(sizing.turner).sides, (left, right), strict=True)
    ]
    return f"{made.says} more: {', '.join(parts)}"


def _in_hand(sizing: Sizing) -> list[str]:
    words = wording_of(sizing.drive)
    spare = -1e3 * sizing.closing.missing
    if spare <= 0.0 or not math.isfinite(spare):
        return []
    text = f"{spare:.0f} mm off in {words.set_by}, and {words.stays}."
    return [text]


def _thread(found: tuple[EndSensitivity, ...], made: Made) -> list[str]:
    """Return what a thread on the link is worth, where the link's length moves the ends."""
    link = next((one for one in found if one.field == "link.length"), None)
    if link is None or _per_mm(link.high) < WORTH_TELLING:
        return []
    text = (
        f"Give the link a thread: one turn of {made.nut} is {made.turn}, which moves the "
        f"ends {_per_mm(link.high) * made.pitch:.1f}°."
    )
    return [text]


def _jam(sizing: Sizing) -> list[str]:
    stall = sizing.chosen.finding("motor_stall") if sizing.chosen else None
    if stall is None:
        return []
    return [f"If something jams: {stall.text}"]
