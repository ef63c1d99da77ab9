"""Crank and link on an arm: angle, derivatives, torque and the angle that decides about jamming.

Frame: the arm's pivot at the origin, the crank centre X right of it and Y above it; all angles
anticlockwise from +x.
"""

from __future__ import annotations

from typing import Any

import sympy
from sympy import acos, atan2, cos, diff, factor_terms, sin, solve, sqrt, symbols, trigsimp

from turnercalc.derivations.worked import Derivation

r, L, a, X, Y, t, p, p1, b = symbols("r L a X Y t p p1 b")
M, g, x, y, q = symbols("M g x y q")

_LENGTHS = {
    "r": ("crank radius", "m"),
    "L": ("link length", "m"),
    "a": ("arm length", "m"),
    "X": ("crank centre right of the arm's pivot", "m"),
    "Y": ("crank centre above the arm's pivot", "m"),
    "t": ("crank angle", "rad"),
}
_NORTON = "R. L. Norton, Design of Machinery, chapters 4, 6 and 7 (vector loop)"


def _crank_pin() -> tuple[Any, Any]:
    return X + r * cos(t), Y + r * sin(t)


def _loop() -> Any:
    """Square of the distance of the two pins less the square of the link: nought."""
    across, height = _crank_pin()
    return (a * cos(p) - across) ** 2 + (a * sin(p) - height) ** 2 - L**2


def crank_and_link_angle() -> Derivation:
    """Derive the direction of the arm from the triangle pivot, crank pin, arm pin."""
    across, height = _crank_pin()
    away, opening = symbols("D u")
    (cosine,) = solve(a**2 + away**2 - 2 * a * away * opening - L**2, opening)
    distance = sqrt(across**2 + height**2)
    return Derivation(
        id="crank_and_link_angle",
        title="Direction of the arm for a crank angle",
        symbols={**_LENGTHS, "b": ("+1 or -1: how it is bolted together", "")},
        statement=(
            "The crank pin stands at (X + r cos t, Y + r sin t), a distance D from the arm's",
            "pivot. Pivot, crank pin and arm pin make a triangle with the sides a, D and L:",
            "  L² = a² + D² - 2 a D cos u     (law of cosines, u the angle at the pivot)",
            "The arm points u to one side or the other of the line to the crank pin. Where the",
            "cosine comes out beyond 1 the link cannot reach, and there is no angle.",
        ),
        result=atan2(height, across) + b * acos(cosine.subs(away, distance)),
        source=_NORTON,
        letter="p",
        unit="rad",
    )


def crank_and_link_rate() -> Derivation:
    """Derive d arm/d crank by differentiating the closed loop implicitly."""
    loop = _loop()
    above = trigsimp(sympy.expand(-diff(loop, t) / 2))
    below = trigsimp(sympy.expand(diff(loop, p) / 2))
    return Derivation(
        id="crank_and_link_rate",
        title="How fast the arm turns: its angle per crank angle",
        symbols={
            **{name: meaning for name, meaning in _LENGTHS.items() if name != "L"},
            "p": ("direction of the arm", "rad"),
        },
        statement=(
            "The pins stay a link apart while both angles change:",
            "  F(t, p) = (a cos p - X - r cos t)² + (a sin p - Y - r sin t)² - L² = 0",
            "  dF = F_t dt + F_p dp = 0, so p' = dp/dt = -F_t/F_p",
            "The tray turns with its arm, q' = p'. It is nought where crank and link are in line",
            "(rest points); it has no bound where link and arm are (jam points): F_p = 0.",
        ),
        result=factor_terms(above) / factor_terms(below),
        source=_NORTON,
        letter="p'",
        unit="",
    )


def crank_and_link_second() -> Derivation:
    """Derive d² arm/d crank² by differentiating the closed loop twice."""
    loop = _loop()
    twice = diff(loop, t, 2) + 2 * diff(loop, t, p) * p1 + diff(loop, p, 2) * p1**2
    above = trigsimp(sympy.expand(-twice / 2))
    below = trigsimp(sympy.expand(diff(loop, p) / 2))
    return Derivation(
        id="crank_and_link_second",
        title="How that changes: the arm's second derivative by the crank angle",
        symbols={
            **{name: meaning for name, meaning in _LENGTHS.items() if name != "L"},
            "p": ("direction of the arm", "rad"),
            "p1": ("arm angle per crank angle, p'", ""),
        },
        statement=(
            "The loop F(t, p) = 0 differentiated once more:",
            "  F_tt + 2 F_tp p' + F_pp p'² + F_p p'' = 0",
            "At a steady crank speed w the arm accelerates with p'' w².",
        ),
        result=sympy.collect(above, p1) / factor_terms(below),
        source=_NORTON,
        letter="p''",
        unit="",
    )


def crank_and_link_torque() -> Derivation:
    """Derive the frictionless shaft torque of the weights from their potential."""
    height = x * sin(q) + y * cos(q)
    return Derivation(
        id="crank_and_link_torque",
        title="Shaft torque that lifts the weights, without friction",
        symbols={
            "M": ("everything that tilts: eggs, trays, what hangs on the arms", "kg"),
            "g": ("gravity", "m/s²"),
            "x": ("its balance point right of the pivot, trays level", "m"),
            "y": ("its balance point above the pivot, trays level (below: minus)", "m"),
            "q": ("tilt, left side down positive", "rad"),
            "p1": ("tilt per crank angle, q' = p'", ""),
        },
        statement=(
            "Tilted by q the balance point stands x sin q + y cos q above the pivot, so the",
            "weights hold the energy V = M g (x sin q + y cos q).",
            "A small turn dt of the crank tilts the trays by q' dt. What the shaft puts in is",
            "what the weights gain (virtual work): T dt = dV = (dV/dq) q' dt.",
        ),
        result=diff(M * g * height, q) * p1,
        source="principle of virtual work, e.g. Beer and Johnston, Statics, chapter 10",
        letter="T",
        unit="N·m",
    )


def link_to_arm_angle() -> Derivation:
    """Derive the angle between link and arm from the same triangle."""
    across, height = _crank_pin()
    away, opening = symbols("D u")
    (cosine,) = solve(L**2 + a**2 - 2 * L * a * opening - away**2, opening)
    return Derivation(
        id="link_to_arm_angle",
        title="Angle between link and arm",
        symbols=dict(_LENGTHS),
        statement=(
            "In the triangle of pivot, crank pin and arm pin, D apart from pivot to crank pin:",
            "  D² = L² + a² - 2 L a cos m",
            "Only the part sin m of the link's force turns the arm, the rest loads its pivot. At",
            "0 and 180 degrees nothing turns it: the jam points.",
        ),
        result=acos(cosine.subs(away, sqrt(across**2 + height**2))),
        source="R. L. Norton, Design of Machinery, chapter 4 (transmission angle)",
        letter="m",
        unit="rad",
    )
