"""Cradle on arc runners: height of its balance point and the torque that rolls it."""

from __future__ import annotations

from typing import Any

from sympy import cos, diff, sin, symbols

from turnercalc.derivations.worked import Derivation

M, g, R, h, a, q = symbols("M g R h a q")

_SYMBOLS = {
    "R": ("radius of the runners", "m"),
    "h": ("balance point above the floor, level", "m"),
    "a": ("balance point right of the contact, level", "m"),
    "q": ("tilt, anticlockwise positive", "rad"),
}
_SOURCE = "a rolling body; principle of virtual work"


def _height() -> Any:
    """Turn the balance point about the arc's centre, which stays R above the floor."""
    across, above = a, h - R
    return R + across * sin(q) + above * cos(q)


def cradle_height() -> Derivation:
    """Derive the height of the balance point of a rolled cradle."""
    return Derivation(
        id="cradle_height",
        title="Height of a cradle's balance point",
        symbols=_SYMBOLS,
        statement=(
            "Rolling keeps the centre of the arc R above the floor. The balance point, a right",
            "of it and h - R above it when level, turns about it by q.",
        ),
        result=_height(),
        source=_SOURCE,
        letter="y",
        unit="m",
    )


def cradle_torque() -> Derivation:
    """Derive the torque that rolls a cradle against its weight."""
    return Derivation(
        id="cradle_torque",
        title="Torque that rolls a cradle against its weight",
        symbols={
            "M": ("cradle and eggs", "kg"),
            "g": ("gravity", "m/s²"),
            **_SYMBOLS,
        },
        statement=(
            "The weight holds the energy V = M g y; the torque about the contact is its slope.",
            "With h < R it rights itself, with h > R it falls over.",
        ),
        result=diff(M * g * _height(), q),
        source=_SOURCE,
        letter="Q",
        unit="N·m",
    )
