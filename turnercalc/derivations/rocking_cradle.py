"""Cradle on arc runners: height of its balance point and the torque that rolls it."""

from __future__ import annotations

from typing import Any

from sympy import cos, diff, sin, solve, symbols

from turnercalc.derivations.worked import Derivation

M, g, R, h, a, q = symbols("M g R h a q")
Q, X, Y, b, F, N, H, f, W, B, P = symbols("Q X Y b F N H f W B P")

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


def cradle_grip() -> Derivation:
    """Derive the friction coefficient that keeps a driven cradle from sliding."""
    balance = solve([F * (X * sin(b) - Y * cos(b)) - Q, N - M * g + F * sin(b)], [F, N])
    return Derivation(
        id="cradle_grip",
        title="Friction coefficient that rolling needs, without rolling resistance",
        symbols={
            "Q": ("torque that rolls it", "N·m"),
            "M": ("cradle and eggs", "kg"),
            "g": ("gravity", "m/s²"),
            "X": ("driven pin right of the contact, as it stands", "m"),
            "Y": ("driven pin above the floor, as it stands", "m"),
            "b": ("direction of link or rod, from pointing right", "rad"),
        },
        statement=(
            "The drive pushes the pin with F in the direction b. About the contact it has to bring",
            "  F (X sin b - Y cos b) = Q",
            "The floor presses with N = M g - F sin b and holds the runners with F cos b along it.",
            "Their ratio is the coefficient of friction that is needed; its sign tells the way. A",
            "drive that pulls straight up or down, with cos b = 0, needs none.",
        ),
        result=(balance[F] * cos(b) / balance[N]).simplify(),
        source="balance of forces on the cradle",
        letter="f",
        unit="",
    )


def arc_roller_press() -> Derivation:
    """Derive what either of two fixed rollers bears of an arc."""
    balance = solve(
        [(P - N) * sin(B) + H, (P + N) * cos(B) - W],
        [P, N],
    )
    return Derivation(
        id="arc_roller_press",
        title="Press of the left one of two fixed rollers under an arc",
        symbols={
            "W": ("what presses down: weight less the drive's upward pull", "N"),
            "H": ("push of the drive to the right", "N"),
            "B": ("direction of a roller, from straight below the arc's middle", "rad"),
        },
        statement=(
            "Both presses point at the arc's middle. Up and down (P + N) cos B = W, along the",
            "floor (P - N) sin B + H = 0, with N the press of the right one. Where P or N comes",
            "out negative the drive lifts the arc off that roller.",
        ),
        result=balance[P].simplify(),
        source="balance of forces on the arc, rolling resistance left out",
        letter="P",
        unit="N",
    )
