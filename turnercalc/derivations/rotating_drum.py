"""Drum: mass moment of neighbouring filled stations and the torque it asks for."""

from __future__ import annotations

from typing import Any

from sympy import I, Symbol, cos, diff, exp, pi, simplify, sin, symbols, trigsimp

from turnercalc.derivations.worked import Derivation

m, R, N, n, M, g, x, y, q = symbols("m R N n M g x y q")


def _run() -> Any:
    """Length of the sum of n unit arrows 2π/N apart, from the geometric series."""
    step, count = symbols("phi k", real=True)

    def square(turns: Any) -> Any:
        """Square of abs(1 - exp(i turns)), which is four sines squared."""
        one = 1 - exp(I * turns)
        return trigsimp(simplify((one * one.conjugate()).rewrite(cos)))

    half = Symbol("half", real=True)
    # 2 - 2 cos(2 half) = 4 sin²(half): check it, then take the root that is positive
    doubled = square(2 * half)
    if simplify(doubled - 4 * sin(half) ** 2) != 0:
        message = "the geometric series of arrows did not close"
        raise ArithmeticError(message)
    above, below = 2 * sin(count * step / 2), 2 * sin(step / 2)
    return (above / below).subs({count: n, step: 2 * pi / N})


def drum_imbalance() -> Derivation:
    """Derive the mass moment of a run of neighbouring filled stations."""
    return Derivation(
        id="drum_imbalance",
        title="Mass moment of neighbouring filled stations of a drum",
        symbols={
            "m": ("mass on each filled station", "kg"),
            "R": ("radius of the stations", "m"),
            "N": ("number of stations", ""),
            "n": ("neighbours filled", ""),
        },
        statement=(
            "Arrows of length m R, one for each filled station, 2 pi/N apart; as complex numbers",
            "a geometric series:  sum z^k = (1 - z^n)/(1 - z),  z = exp(2 pi i/N),",
            "and abs(1 - exp(i u)) = 2 sin(u/2).",
        ),
        result=m * R * _run(),
        source="geometric series; checked station by station in the tests",
        letter="K",
        unit="kg·m",
    )


def drum_torque() -> Derivation:
    """Derive the torque an unbalanced drum asks for."""
    height = x * sin(q) + y * cos(q)
    return Derivation(
        id="drum_torque",
        title="Torque that turns an unbalanced drum, without friction",
        symbols={
            "M": ("everything that turns", "kg"),
            "g": ("gravity", "m/s²"),
            "x": ("its balance point right of the axle, unturned", "m"),
            "y": ("its balance point above the axle, unturned", "m"),
            "q": ("how far it is turned, anticlockwise positive", "rad"),
        },
        statement=("The slope of the energy V = M g (x sin q + y cos q).",),
        result=diff(M * g * height, q),
        source="principle of virtual work",
        letter="Q",
        unit="N·m",
    )
