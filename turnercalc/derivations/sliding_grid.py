"""Sliding grid: how far it slides, and the push that keeps one egg rolling."""

from __future__ import annotations

from sympy import asin, collect, cos, fraction, sin, solve, sqrt, symbols, together

from turnercalc.derivations.worked import Derivation

W, R, f, k, P, N = symbols("W R f k P N")
d, A, b, T, u, p, a, w = symbols("d A b T u p a w")

_EGG = {
    "W": ("weight of the egg", "N"),
    "R": ("radius of the egg", "m"),
    "f": ("arm of rolling friction on the floor", "m"),
    "k": ("friction coefficient of egg on bar", ""),
}


def grid_stroke() -> Derivation:
    """Derive the stroke from the way an egg rolls."""
    stroke = symbols("S")
    (result,) = solve((stroke - p) - u * R, stroke)
    return Derivation(
        id="grid_stroke",
        title="Stroke of a grid for a turn of its eggs",
        symbols={
            "u": ("turn of the egg", "rad"),
            "R": ("radius of the egg", "m"),
            "p": ("play: how much wider its cell is", "m"),
        },
        statement=(
            "The grid slides alone until the bar behind has crossed the play. Then the egg rolls",
            "along with it without slipping:",
            "  S - p = u R",
        ),
        result=result,
        source="rolling without slip",
        letter="S",
        unit="m",
    )


def grid_push() -> Derivation:
    """Derive the push from the balance of an egg between floor and bar."""
    balance = solve([N - W - k * P, P * R - N * f - k * P * R], [P, N], dict=True)
    above, below = fraction(together(balance[0][P]))
    if above.could_extract_minus_sign():
        above, below = -above, -below
    return Derivation(
        id="grid_push",
        title="Push of a grid bar on one rolling egg",
        symbols=_EGG,
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


def grid_push_anywhere() -> Derivation:
    """Derive the push of a bar that is too high or too low, on a slope, up a wire."""
    bar, hold = symbols("B F")
    balance = solve(
        [
            # along the floor and away from it, and turning about the middle of the egg
            bar * (cos(d) - k * sin(d)) - hold - W * sin(b),
            N - W * cos(b) - bar * (sin(d) + k * cos(d)),
            hold * R * cos(A) - N * R * sin(A) - N * f - k * bar * R - T,
        ],
        [bar, hold, N],
        dict=True,
    )[0]
    return Derivation(
        id="grid_push_anywhere",
        title="Push of a grid bar on one rolling egg, wherever it touches",
        symbols={
            **_EGG,
            "d": ("how far above the egg's middle height the bar touches", "rad"),
            "A": ("how far ahead of straight below the floor touches", "rad"),
            "b": ("how much the floor rises the way it rolls", "rad"),
            "T": ("moment that turns it back: a heavy side", "N·m"),
        },
        statement=(
            "B is the bar's force square to the egg, F what holds the egg back at the floor and N",
            "what carries it there:",
            "  along        B (cos d - k sin d) = F + W sin b",
            "  away         N = W cos b + B (sin d + k cos d)",
            "  turning      F R cos A = N (R sin A + f) + k B R + T",
            "The push along the floor is B (cos d - k sin d).",
        ),
        result=(balance[bar] * (cos(d) - k * sin(d))).simplify(),
        source="statics of a rolling body",
        letter="P",
        unit="N",
    )


def grid_mesh_drop() -> Derivation:
    """Derive how far an egg drops between two wires."""
    big = R + w
    return Derivation(
        id="grid_mesh_drop",
        title="Drop of an egg between two wires of a mesh floor",
        symbols={
            "R": ("radius of the egg", "m"),
            "a": ("from one wire to the next", "m"),
            "w": ("radius of the wires", "m"),
        },
        statement=(
            "Over a wire the middle of the egg is R + w above the wires; in its nest the middle,",
            "a wire and the point half way to the next make a right-angled triangle:",
            "  drop = (R + w) - sqrt((R + w)^2 - (a/2)^2)",
        ),
        result=big - sqrt(big**2 - (a / 2) ** 2),
        source="geometry",
        letter="drop",
        unit="m",
    )


def grid_climb() -> Derivation:
    """Derive the angle at which a wire stands before an egg in its nest."""
    return Derivation(
        id="grid_climb",
        title="How far ahead of straight below an egg the wire is that it has to climb",
        symbols={
            "R": ("radius of the egg", "m"),
            "a": ("from one wire to the next", "m"),
            "w": ("radius of the wires", "m"),
        },
        statement=("The same triangle:", "  sin A = (a/2)/(R + w)"),
        result=asin(a / 2 / (R + w)),
        source="geometry",
        letter="A",
        unit="rad",
    )
