"""Errors as sentences to the builder, in metric; a page restates them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from turnercalc.advice.diagnose.measured import ANGLE, LENGTH
from turnercalc.checks.wording import amount, degrees
from turnercalc.turners.wording import wording_of

if TYPE_CHECKING:
    from turnercalc.advice.diagnose.ends import EndError, Setting
    from turnercalc.advice.diagnose.running import RunError
    from turnercalc.sizing import Sizing

#: What is left over may be so many times what a reading may be off before it is called wrong.
ENOUGH = 1.5
RPM = 30.0 / math.pi


def end_words(one: EndError, sizing: Sizing) -> str:
    """Return one error of the ends in a sentence."""
    if one.kind == "length":
        way = "more" if one.error > 0.0 else "less"
        return f"{_field(one.field)} is {_about(one)} {way} than drawn."
    if one.kind == "level":
        side = wording_of(sizing.turner).sides[0 if one.error > 0.0 else 1]
        return (
            f"Everything reads {degrees(abs(one.error))} too far to the {side}: the box or the "
            "phone is not level, or the arm sits that much off on its tray."
        )
    if one.kind == "play":
        return f"{_millimetres(one.error)} of play in the pins: it stays behind on both sides."
    side = wording_of(sizing.turner).sides[0 if one.field == "high" else 1]
    early = "early" if one.error < 0.0 else "late"
    size = amount(sizing.turner, abs(one.error))
    if sizing.design["motor"].stopped_by == "end switches":
        return f"The end switch at the {side} end acts {size} {early}."
    return f"It stops {size} {early} at the {side} end."


def _about(one: EndError) -> str:
    least, most = sorted((abs(one.least), abs(one.most)))
    if least * 1e3 < 0.05 or most - least < 0.3e-3:
        return f"about {_millimetres(one.error)}"
    return f"about {_millimetres(one.error)} ({1e3 * least:.1f} mm to {1e3 * most:.1f} mm)"


def _millimetres(length: float) -> str:
    return f"{abs(1e3 * length):.1f} mm"


def _field(path: str) -> str:
    section, _, name = path.partition(".")
    return f"{section} {name}".replace("_", " ").strip().capitalize()


_RUN = {
    ("time", "frequency"): "The motor runs on {value:.0f} Hz, and {meant:.0f} Hz was taken.",
    ("time", "voltage"): "The motor gets about {value:.3g} V where {meant:.3g} V is meant: "
    "measure at its terminals while it moves.",
    ("time", "ratio"): "The stages gear {value:.3g} to 1 and not {meant:.3g}: count the teeth.",
    ("time", "load"): "It turns about {value:.1f} times as hard as worked out: something rubs.",
    ("current", "load"): "It turns about {value:.1f} times as hard as worked out: something rubs.",
    ("current", "voltage"): "The motor gets about {value:.3g} V where {meant:.3g} V is meant.",
    ("current", "stalled"): "It is blocked: {value:.3g} A is what it draws standing. Switch off.",
    ("current", "idle"): "{value:.3g} A is less than it needs to turn the eggs: the link may be "
    "off, or it turns without them.",
    ("count", "half"): "The counter counts a turn over and back as one: double what it shows.",
    ("count", "double"): "The counter counts every move twice: both switches, or a contact that "
    "bounces.",
    ("count", "missed"): "{value:.0f} moves were missed: a power cut, or the motor did not start.",
}


def run_words(one: RunError) -> str:
    """Return one error of time, count or current in a sentence."""
    if one.kind == "speed":
        return (
            f"The motor turns at about {one.value * RPM:.3g} rpm without load and not "
            f"{one.meant * RPM:.3g}: time ten turns."
        )
    if one.kind == "travel":
        return (
            f"The rod moves at about {1e3 * one.value:.3g} mm/s without load and not "
            f"{1e3 * one.meant:.3g}: time it over its stroke."
        )
    if one.kind == "interval":
        return (
            f"The timer goes off every {one.value / 60.0:.3g} min and not every "
            f"{one.meant / 60.0:.3g}."
        )
    return _RUN[(one.about, one.kind)].format(value=one.value, meant=one.meant)


def adjusting(best: Setting, sizing: Sizing) -> str:
    """Return what to adjust first, in a sentence."""
    words = wording_of(sizing.turner)
    way = "more" if best.by > 0.0 else "less"
    if best.high is None or best.low is None:
        then = f"{amount(sizing.turner, best.total)} from end to end"
    else:
        high, low = (amount(sizing.turner, end) for end in (best.high, best.low))
        then = f"{high} {words.high} and {low} {words.low}"
    text = f"Begin with {_field(best.field).lower()}: {_millimetres(best.by)} {way}. Then {then}."
    if best.left <= ENOUGH * (ANGLE if sizing.turner.coordinate_unit == "rad" else LENGTH):
        return text
    ends = sizing.ends
    if best.high is None or best.low is None:
        meant = f"{amount(sizing.turner, ends.total)} are meant"
    else:
        high, low = (amount(sizing.turner, end) for end in (ends.high, -ends.low))
        meant = f"{high} and {low} are meant"
    return (
        f"{text} That is still wrong: {meant}, and no one length brings it there. Measure again "
        "after it, look for a second error, and compare every hole with the drawing."
    )
