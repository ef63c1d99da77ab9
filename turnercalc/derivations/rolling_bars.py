"""Egg between two bars: nest angle, force on each bar, loss by rolling."""

from __future__ import annotations

from sympy import asin, cos, sin, solve, symbols

from turnercalc.derivations.worked import Derivation

R, r, s, W, A, N, f = symbols("R r s W A N f")

_EGG_ON_BARS = {
    "R": ("radius of the egg where it touches", "m"),
    "r": ("radius of the bars", "m"),
}


def nest_angle() -> Derivation:
    """Derive the nest angle from the triangle of the three centres."""
    return Derivation(
        id="nest_angle",
        title="Nest angle of an egg between two bars",
        symbols={**_EGG_ON_BARS, "s": ("bar spacing, middle to middle", "m")},
        statement=(
            "The middles of egg and bar are R + r apart, and half the spacing is the side across:",
            "  sin A = (s/2)/(R + r). Beyond 1 the egg drops through.",
        ),
        result=asin(s / 2 / (R + r)),
        source="geometry",
        letter="A",
        unit="rad",
    )


def nest_force() -> Derivation:
    """Derive the force on a bar from the balance of the egg."""
    left, right = symbols("left right")
    balance = solve([(left - right) * sin(A), (left + right) * cos(A) - W], [left, right])
    return Derivation(
        id="nest_force",
        title="Force of an egg on each of its two bars",
        symbols={"W": ("weight of the egg", "N"), "A": ("nest angle", "rad")},
        statement=(
            "Both bars push along the line to the egg's middle, A from upright:",
            "  sideways  (N1 - N2) sin A = 0,   upwards  (N1 + N2) cos A = W.",
        ),
        result=balance[left],
        source="statics",
        letter="N",
        unit="N",
    )


def rolling_loss() -> Derivation:
    """Derive the torque at the bar that one rolling contact costs."""
    bar_turn, T = symbols("bar_turn T")
    egg_turn = bar_turn * r / R
    (torque,) = solve(T * bar_turn - N * f * (bar_turn + egg_turn), T)
    return Derivation(
        id="rolling_loss",
        title="Torque a bar loses at one contact with a rolling egg",
        symbols={
            "N": ("force at the contact", "N"),
            "f": ("arm of rolling friction", "m"),
            **_EGG_ON_BARS,
        },
        statement=(
            "Turning the bar by w turns the egg by w r/R the other way. The contact eats N f for",
            "each radian the two turn against each other, and the bar pays for it:",
            "  T w = N f (w + w r/R)",
        ),
        result=torque.factor(),
        source="rolling friction with an arm, e.g. McLean, Engineering Mechanics, chapter 9",
        letter="T",
        unit="N·m",
    )
