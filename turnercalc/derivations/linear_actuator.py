"""Actuator between two eyes across a pivot: length, moment arm, force."""

from __future__ import annotations

from typing import Any

from sympy import cos, diff, sqrt, symbols

from turnercalc.derivations.worked import Derivation

p, q, u, T = symbols("p q u T")

_SYMBOLS = {
    "p": ("pivot to the fixed eye", "m"),
    "q": ("pivot to the moving eye", "m"),
    "u": ("angle at the pivot between the two", "rad"),
}
_SOURCE = "law of cosines; principle of virtual work"


def _length() -> Any:
    return sqrt(p**2 + q**2 - 2 * p * q * cos(u))


def actuator_length() -> Derivation:
    """State the third side of the triangle of pivot and eyes."""
    return Derivation(
        id="actuator_length",
        title="Length of the actuator, eye to eye",
        symbols=_SYMBOLS,
        statement=("Pivot and eyes make a triangle; the actuator is its third side.",),
        result=_length(),
        source=_SOURCE,
        letter="l",
        unit="m",
    )


def actuator_moment_arm() -> Derivation:
    """Derive the moment arm as the slope of the length."""
    return Derivation(
        id="actuator_moment_arm",
        title="Moment arm of the actuator about the pivot",
        symbols=_SYMBOLS,
        statement=(
            "Virtual work: a force F that lengthens the actuator by dl turns the tray by du",
            "against a torque, F dl = F h du. So the moment arm is h = dl/du.",
        ),
        result=diff(_length(), u),
        source=_SOURCE,
        letter="h",
        unit="m",
    )


def actuator_force() -> Derivation:
    """Derive the force for a torque at the pivot."""
    return Derivation(
        id="actuator_force",
        title="Force of the actuator for a torque at the pivot, without friction",
        symbols={"T": ("torque about the pivot", "N·m"), **_SYMBOLS},
        statement=("F h = T with the moment arm h = dl/du.",),
        result=T / diff(_length(), u),
        source=_SOURCE,
        letter="F",
        unit="N",
    )
