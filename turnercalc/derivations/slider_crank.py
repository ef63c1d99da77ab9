"""Crank, link and a slide: place of the slider and derivatives."""

from __future__ import annotations

from typing import Any

import sympy
from sympy import cos, diff, sin, solve, symbols

from turnercalc.derivations.worked import Derivation

r, L, e, t, b = symbols("r L e t b")

_SYMBOLS = {
    "r": ("crank radius", "m"),
    "L": ("link length", "m"),
    "e": ("height of the slide above the crank centre", "m"),
    "t": ("crank angle from the slide's direction", "rad"),
    "b": ("+1 or -1: slider ahead of the crank pin or behind it", ""),
}
_SOURCE = "R. L. Norton, Design of Machinery, chapters 4, 6 and 7"


def _position() -> Any:
    """Solve the closed loop for the slider's place; b picks the root."""
    s = sympy.Symbol("s")
    loop = (s - r * cos(t)) ** 2 + (e - r * sin(t)) ** 2 - L**2
    one, other = solve(loop, s)
    half = sympy.expand((one - other) ** 2 / 4)
    return sympy.simplify((one + other) / 2) + b * sympy.sqrt(half)


def slider_position() -> Derivation:
    """Derive the slider's place from the closed loop."""
    return Derivation(
        id="slider_position",
        title="Place of the slider",
        symbols=_SYMBOLS,
        statement=(
            "The slider stays a link away from the crank pin (r cos t, r sin t):",
            "  (s - r cos t)² + (e - r sin t)² = L², a quadratic equation for s.",
        ),
        result=_position(),
        source=_SOURCE,
        letter="s",
        unit="m",
    )


def slider_rate() -> Derivation:
    """Derive ds/dt."""
    return Derivation(
        id="slider_rate",
        title="Travel of the slider per crank angle",
        symbols=_SYMBOLS,
        statement=("The slope of s. Shaft torque = pushing force x s'.",),
        result=diff(_position(), t),
        source=_SOURCE,
        letter="s'",
        unit="m/rad",
    )


def slider_second() -> Derivation:
    """Derive d²s/dt²."""
    return Derivation(
        id="slider_second",
        title="Change of that: the slider's second derivative",
        symbols=_SYMBOLS,
        statement=("The slope of s'. At a steady crank speed w the slider accelerates by s'' w².",),
        result=diff(_position(), t, 2),
        source=_SOURCE,
        letter="s''",
        unit="m/rad²",
    )
