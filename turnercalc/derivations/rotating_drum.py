"""Drum: mass moment of neighbouring filled stations and the torque it asks for."""

from __future__ import annotations

from typing import Any

from sympy import I, Symbol, cos, diff, exp, pi, simplify, sin, solve, symbols, trigsimp

from turnercalc.derivations.worked import Derivation

m, R, N, n, M, g, x, y, q = symbols("m R N n M g x y q")
W, A, f, F = symbols("W A f F")


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


_ON_ROLLERS = (
    "A drum of weight W on two rows of rollers, each the angle A from straight below; the driven",
    "row bears N1 and pulls F along the rim, here the way that takes weight off it. Across and up:",
    "  (N2 - N1) sin A = F cos A        (N1 + N2) cos A = W + F sin A",
)


def _rows(pull: Any) -> Any:
    """Return what the driven and the other row bear while the driven one pulls."""
    driven, other = symbols("driven other")
    across = (other - driven) * sin(A) - pull * cos(A)
    up = (driven + other) * cos(A) - pull * sin(A) - W
    return solve((across, up), (driven, other), dict=True)[0], driven, other


def roller_grip() -> Derivation:
    """Derive the pull along the rim at which one driven row of rollers slips."""
    rows, driven, _ = _rows(F)
    (pull,) = solve(F - f * rows[driven], F)
    return Derivation(
        id="roller_grip",
        title="Pull along a drum's rim at which its driven rollers slip",
        symbols={
            "W": ("weight of the drum with its eggs", "N"),
            "A": ("from straight below the axle to either row of rollers", "rad"),
            "f": ("friction coefficient of rim and roller", ""),
        },
        statement=(*_ON_ROLLERS, "It slips where F = f N1."),
        result=simplify(pull),
        source="balance of forces; checked contact by contact in the tests",
        letter="F",
        unit="N",
    )


def roller_climb() -> Derivation:
    """Derive the pull along the rim at which a drum climbs out over its driven rollers."""
    # The other way round the pull presses the driven row, and lifts the drum off the other.
    rows, _, other = _rows(-F)
    # Linear in F: the zero of c + k F.
    borne = rows[other].expand()
    pull = -borne.subs(F, 0) / diff(borne, F)
    return Derivation(
        id="roller_climb",
        title="Pull along a drum's rim at which it climbs out of its rollers",
        symbols={
            "W": ("weight of the drum with its eggs", "N"),
            "A": ("from straight below the axle to either row of rollers", "rad"),
        },
        statement=(*_ON_ROLLERS, "Pulling the other way, F is -F; it climbs out where N2 = 0."),
        result=trigsimp(simplify(pull)),
        source="balance of forces; checked contact by contact in the tests",
        letter="F",
        unit="N",
    )
