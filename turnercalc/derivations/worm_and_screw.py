"""Worms, screws and plain stages: what friction makes of torque, both ways."""

from __future__ import annotations

from typing import Any

from sympy import cos, pi, simplify, sin, solve, symbols, tan

from turnercalc.derivations.worked import Derivation

f, c, u, F, d, L, v, eta = symbols("f c u F d L v eta")

_WORM = {
    "f": ("sliding friction coefficient", ""),
    "c": ("pressure angle square to the thread", "rad"),
    "u": ("lead angle", "rad"),
}
_SCREW = {
    "d": ("mean diameter of the thread", "m"),
    "L": ("travel per turn", "m"),
    "f": ("friction coefficient of the thread", ""),
    "v": ("half the angle of the thread", "rad"),
}
_SHIGLEY = "Shigley's Mechanical Engineering Design, chapters 8 and 13"


def _tooth_forces(rub: Any) -> tuple[Any, Any]:
    """Return worm's pull and wheel's pull for a unit force square to the tooth."""
    return cos(c) * sin(u) + rub * cos(u), cos(c) * cos(u) - rub * sin(u)


def worm_efficiency() -> Derivation:
    """Derive the efficiency of a driving worm from the forces on one tooth."""
    worm, wheel = _tooth_forces(f)
    return Derivation(
        id="worm_efficiency",
        title="Efficiency of a worm that drives its wheel",
        symbols=_WORM,
        statement=(
            "A force 1 square to the tooth and f along the thread. Round the worm it pulls",
            "  cos c sin u + f cos u,   along the worm (round the wheel)  cos c cos u - f sin u.",
            "While the worm's rim goes 1 forward, the wheel's goes tan u: work out over work in.",
        ),
        result=_tidy(wheel * tan(u) / worm),
        source=_SHIGLEY,
        letter="eta",
        unit="",
    )


def worm_back_efficiency() -> Derivation:
    """Derive the efficiency of a worm driven by its wheel; friction turned round."""
    worm, wheel = _tooth_forces(-f)
    return Derivation(
        id="worm_back_efficiency",
        title="Efficiency of a worm driven by its wheel",
        symbols=_WORM,
        statement=(
            "The same forces with the friction the other way, and the work the other way.",
            "Nought or less: the worm holds its load (self-locking), f >= cos c tan u.",
        ),
        result=_tidy(worm / (wheel * tan(u))),
        source=_SHIGLEY,
        letter="eta_back",
        unit="",
    )


def _tidy(quotient: Any) -> Any:
    """Write a quotient of sines in terms of tan u alone."""
    slope = symbols("slope", positive=True)
    above, below = simplify(
        quotient.subs(sin(u), slope * cos(u)).subs(tan(u), slope)
    ).as_numer_denom()
    return (above / below).subs(slope, tan(u))


def _screw_pull() -> Any:
    """Solve the wedge of the unrolled thread for the pull round the screw."""
    pull, normal = symbols("pull normal")
    slope = L / (pi * d)
    rub = f / cos(v)
    # unit lengths along the thread cancel: forces along and square to the axis
    balance = solve(
        [normal * (1 - rub * slope) - F, normal * (slope + rub) - pull], [pull, normal], dict=True
    )
    return balance[0][pull]


def screw_torque() -> Derivation:
    """Derive the thread torque of a screw that moves its load."""
    return Derivation(
        id="screw_torque",
        title="Thread torque of a screw that pushes its load",
        symbols={"F": ("load along the screw", "N"), **_SCREW},
        statement=(
            "Unrolled, a turn of the thread is a wedge, L up on pi d along. Balance of a nut on",
            "it, friction f/cos v along the thread:",
            "  along the screw  F = N (1 - f/cos v L/(pi d))",
            "  round the screw  pull = N (L/(pi d) + f/cos v),   T = pull d/2",
        ),
        result=simplify(_screw_pull() * d / 2),
        source=_SHIGLEY,
        letter="T",
        unit="N·m",
    )


def screw_efficiency() -> Derivation:
    """Derive the efficiency of a driving screw."""
    torque = _screw_pull() * d / 2
    return Derivation(
        id="screw_efficiency",
        title="Efficiency of a screw that pushes its load",
        symbols=_SCREW,
        statement=("Work out over work in for one turn: F L/(2 pi T).",),
        result=simplify(F * L / (2 * pi * torque)),
        source=_SHIGLEY,
        letter="eta",
        unit="",
    )


def stage_back_efficiency() -> Derivation:
    """Derive the back-driven efficiency of a stage whose loss grows with its load."""
    load, out = symbols("load out")
    friction = load / eta - load
    (arrives,) = solve(out - (load - friction), out)
    return Derivation(
        id="stage_back_efficiency",
        title="Efficiency of a chain, belt or gear stage with the load driving",
        symbols={"eta": ("efficiency with the motor driving", "")},
        statement=(
            "Driving a load T takes T/eta, so friction is T/eta - T. With the load driving the",
            "same friction is taken off what arrives. Below nought the stage holds its load.",
        ),
        result=simplify(arrives / load),
        source="Coulomb friction in proportion to the load; from memory",
        letter="eta_back",
        unit="",
    )
