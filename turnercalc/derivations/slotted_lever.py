"""Crank pin in the slot of a lever: angle and derivatives."""

from __future__ import annotations

from typing import Any

from sympy import atan2, cos, diff, factor, simplify, sin, symbols

from turnercalc.derivations.worked import Derivation

r, d, t = symbols("r d t")

_SYMBOLS = {
    "r": ("crank radius", "m"),
    "d": ("lever pivot to crank centre", "m"),
    "t": ("crank angle from the line of centres", "rad"),
}
_SOURCE = "R. S. Khurmi and J. K. Gupta, Theory of Machines, chapter 5; geometry"


def _angle() -> Any:
    return atan2(r * sin(t), d + r * cos(t))


def slotted_lever_angle() -> Derivation:
    """Derive the lever's angle: it points at the crank pin."""
    return Derivation(
        id="slotted_lever_angle",
        title="Angle of a slotted lever from the line of centres",
        symbols=_SYMBOLS,
        statement=(
            "Seen from the lever's pivot the crank pin stands d + r cos t along the line of",
            "centres and r sin t beside it. The slot points at it.",
        ),
        result=_angle(),
        source=_SOURCE,
        letter="s",
        unit="rad",
    )


def slotted_lever_rate() -> Derivation:
    """Derive d lever/d crank."""
    return Derivation(
        id="slotted_lever_rate",
        title="Turn of the lever per turn of the crank",
        symbols=_SYMBOLS,
        statement=(
            "The slope of s = atan2(r sin t, d + r cos t). Shaft torque = load torque x s'.",
            "Fastest at t = 180 degrees, on the short way back: r/(d - r).",
        ),
        result=factor(simplify(diff(_angle(), t))),
        source=_SOURCE,
        letter="s'",
        unit="",
    )


def slotted_lever_second() -> Derivation:
    """Derive d² lever/d crank²."""
    return Derivation(
        id="slotted_lever_second",
        title="Change of that: the lever's second derivative",
        symbols=_SYMBOLS,
        statement=("The slope of s'. At a steady crank speed w the lever accelerates by s'' w².",),
        result=factor(simplify(diff(_angle(), t, 2))),
        source=_SOURCE,
        letter="s''",
        unit="",
    )
