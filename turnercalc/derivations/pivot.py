"""Pin in a hole: friction torque."""

from __future__ import annotations

from sympy import solve, symbols

from turnercalc.derivations.worked import Derivation

F, r, f = symbols("F r f")


def pivot_friction() -> Derivation:
    """Derive the friction torque of a pin from normal force and friction at its contact."""
    force, coefficient, normal = symbols("force coefficient normal", positive=True)
    (root,) = solve(normal**2 + (coefficient * normal) ** 2 - force**2, normal)
    letters = {force: F, coefficient: f}
    return Derivation(
        id="pivot_friction",
        title="Friction torque of a pin in its hole",
        symbols={
            "F": ("whole force on the pin", "N"),
            "r": ("radius of the pin", "m"),
            "f": ("friction coefficient", ""),
        },
        statement=(
            "The pin climbs in its hole until the force N square to the wall and the friction",
            "f N along it make up the whole force:  N² + (f N)² = F².  Torque T = f N r.",
            "This is F r sin(atan f): the friction circle.",
        ),
        result=f * root.subs(letters) * r,
        source="Beer and Johnston, Vector Mechanics: Statics, section 8.3",
        letter="T",
        unit="N·m",
    )
