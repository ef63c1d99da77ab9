"""Sliding grid: the push that keeps one egg rolling."""

from __future__ import annotations

from sympy import collect, fraction, solve, symbols, together

from turnercalc.derivations.worked import Derivation

W, R, f, k, P, N = symbols("W R f k P N")


def grid_push() -> Derivation:
    """Derive the push from the balance of an egg between floor and bar."""
    balance = solve([N - W - k * P, P * R - N * f - k * P * R], [P, N], dict=True)
    above, below = fraction(together(balance[0][P]))
    if above.could_extract_minus_sign():
        above, below = -above, -below
    return Derivation(
        id="grid_push",
        title="Push of a grid bar on one rolling egg",
        symbols={
            "W": ("weight of the egg", "N"),
            "R": ("radius of the egg", "m"),
            "f": ("arm of rolling friction on the floor", "m"),
            "k": ("friction coefficient of egg on bar", ""),
        },
        statement=(
            "The back of the rolling egg climbs along the bar; the bar rubs it down with k P:",
            "  upwards          N = W + k P",
            "  turning          P R = N f + k P R     (the floor holds it back with P)",
            "Solved for P. Where the divisor is nought or less the egg jams and is dragged.",
        ),
        result=above / collect(below, R),
        source="statics of a rolling body",
        letter="P",
        unit="N",
    )
