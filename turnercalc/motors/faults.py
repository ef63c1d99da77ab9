"""What is wrong with a motor, or not known of it, in two or three words for a picture or a list.

The title of a check asks whether all is well; beside a verdict of no it would say the opposite.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from turnercalc.findings import Answer, Finding

_WRONG: Mapping[str, str] = MappingProxyType(
    {
        "motor_strength": "not strong enough",
        "motor_corner": "too weak from rest",
        "motor_starting": "may not start",
        "motor_speed": "wrong speed",
        "motor_stroke": "wrong stroke",
        "motor_reverses": "cannot be told to turn back",
        "motor_travel": "does not turn far enough",
        "motor_supply": "other supply wanted",
        "motor_frequency": "made for another mains frequency",
        "motor_holding": "does not hold where it parks",
        "motor_rms": "gets hot over the move",
        "motor_duty": "may not run so long",
        "motor_ambient": "too warm for it there",
        "motor_damp": "too damp for it there",
        "motor_heat_in_box": "heats the box too much",
        "motor_side_load": "too much pull on its shaft",
        "motor_stall": "a blocked one is not switched off",
        "motor_motion": "moves the wrong way",
    }
)
_OPEN: Mapping[str, str] = MappingProxyType(
    {
        "motor_strength": "its torque",
        "motor_torque_kind": "which torque is listed",
        "motor_starting": "what it starts against",
        "motor_speed": "its speed",
        "motor_speed_basis": "what its speed holds for",
        "motor_stroke": "its stroke",
        "motor_own_length": "its length from eye to eye",
        "motor_reverses": "whether it can be told to turn back",
        "motor_travel": "how far it turns",
        "motor_supply": "what it runs on",
        "motor_frequency": "its mains frequency",
        "motor_holding": "whether it holds where it parks",
        "motor_rms": "what it may give for long",
        "motor_duty": "how long it may run",
        "motor_ambient": "how warm it may be",
        "motor_damp": "whether it bears the damp",
        "motor_heat_in_box": "how much it heats the box",
        "motor_side_load": "what pull its shaft bears",
        "motor_stall": "what it does when blocked",
        "motor_class": "its class",
        "motor_reading": "which figures are meant",
    }
)


def in_short(finding: Finding) -> str:
    """Return what a finding that is not fine says, in a few words.

    Parameters
    ----------
    finding : Finding
        Of a motor.

    Returns
    -------
    str
        ``does not hold where it parks``; for an unknown ``whether it holds where it parks``, to
        stand after "not known:". Empty where all is well.
    """
    if finding.answer in (Answer.FINE, Answer.NOTE):
        return ""
    words = _OPEN if finding.answer is Answer.UNKNOWN else _WRONG
    return words.get(finding.id, finding.text.split(".")[0])
