"""What links, pins, rails and shafts stand, by the working stresses of their materials.

Working stresses have their factor in them already (see `tables/materials.csv`), so a part does
where its stress is no more than that; what bows out has no such stress and wants a factor of its
own.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from turnercalc.errors import UnknownNameError
from turnercalc.mechanics.beams import (
    bending_stress,
    rectangle_second_moment,
    round_second_moment,
    uniform_load_moment,
    uniform_load_sag,
)
from turnercalc.mechanics.buckling import euler_load
from turnercalc.mechanics.pins import pin_shear_stress
from turnercalc.mechanics.torsion import shaft_twist, torsion_stress
from turnercalc.tables import Material, material

#: A force acts on a pin this many of its diameters outside the hole that holds it: half of
#: the bar and half of what is between them (our choice).
PIN_LEVER = 1.0
#: Working stresses are about half of what bends a part for good (from memory).
YIELD_OVER_WORKING = 2.0
STEEL = "steel"


def material_of(name: str | None) -> Material | None:
    """Return what a part is made of; None where nobody says, or the table does not know it."""
    if name is None:
        return None
    try:
        return material(name)
    except UnknownNameError:
        return None


def pin_material(bearing: str | None) -> Material:
    """Return what a pin is made of, out of the words for its bearing: ``steel in nylon``."""
    first = (bearing or "").split(" in ")[0]
    return material_of(first) or material(STEEL)


# -- a bar that is pushed and pulled ------------------------------------------------------------


@dataclass(frozen=True)
class Bar:
    """A straight bar between two pins.

    Attributes
    ----------
    length : float
        Hole to hole [m].
    thickness : float
        At its thinnest [m].
    width : float or None
        The other way, where it is flat [m]; None: round, which of all bars of that thickness is
        the weakest.
    made_of : Material
    """

    length: float
    thickness: float
    width: float | None
    made_of: Material

    @property
    def second_moment(self) -> float:
        """About the axis it bows out over most easily [m4]."""
        if self.width is None:
            return float(round_second_moment(self.thickness))
        flat, high = sorted((self.thickness, self.width))
        return float(rectangle_second_moment(high, flat))

    @property
    def area(self) -> float:
        """Cross-section [m2]."""
        if self.width is None:
            return float(0.25 * np.pi * self.thickness**2)
        return self.thickness * self.width

    @property
    def bows_at(self) -> float:
        """Push at which it bows out, with what creep leaves of its stiffness [N] (Euler)."""
        modulus = self.made_of.standing_modulus
        return float(euler_load(modulus, self.second_moment, self.length))

    @property
    def stands(self) -> float:
        """Push or pull at the working stress [N]."""
        return self.made_of.bending_allowable * self.area


def rod_that_bears(push: float, length: float, made_of: Material, factor: float) -> float:
    """Return the diameter of a round rod that bows out only at `factor` times a push [m]."""
    needed = factor * push * length**2 / (np.pi**2 * made_of.standing_modulus)
    return float((64.0 * needed / np.pi) ** 0.25)


# -- a pin across a joint -----------------------------------------------------------------------


def pin_use(force: float, diameter: float, made_of: Material) -> float:
    """Return the share of its working stress that a pin uses: bending or shear, the larger [-].

    The pin sticks out of one hole and is loaded `PIN_LEVER` diameters outside it.
    """
    moment = force * PIN_LEVER * diameter
    bending = bending_stress(moment, round_second_moment(diameter), 0.5 * diameter)
    shear = pin_shear_stress(force, diameter)
    return float(max(bending / made_of.bending_allowable, shear / made_of.shear_allowable))


def pin_for(force: float, made_of: Material) -> float:
    """Return the diameter of a pin that uses just its working stress [m]."""
    bending = 32.0 * PIN_LEVER * force / (np.pi * made_of.bending_allowable)
    shear = 4.0 * force / (np.pi * made_of.shear_allowable)
    return float(np.sqrt(max(bending, shear)))


def pin_gives_at(diameter: float, made_of: Material) -> float:
    """Return the force that bends or shears a pin for good [N]."""
    return YIELD_OVER_WORKING / pin_use(1.0, diameter, made_of)


# -- rails and shafts ---------------------------------------------------------------------------


@dataclass(frozen=True)
class Rail:
    """A rail that carries its share of a load spread along it, resting at both ends.

    Attributes
    ----------
    span, height, thickness : float
        [m]
    load : float
        On this rail [N].
    made_of : Material
    """

    span: float
    height: float
    thickness: float
    load: float
    made_of: Material

    @property
    def _second_moment(self) -> float:
        return float(rectangle_second_moment(self.thickness, self.height))

    @property
    def sag(self) -> float:
        """In the middle, with what creep leaves of its stiffness in the warm box [m]."""
        modulus = self.made_of.standing_modulus
        return float(
            uniform_load_sag(self.load / self.span, self.span, modulus, self._second_moment)
        )

    @property
    def use(self) -> float:
        """Share of its working stress [-]."""
        moment = uniform_load_moment(self.load / self.span, self.span)
        stress = bending_stress(moment, self._second_moment, 0.5 * self.height)
        return float(stress / self.made_of.bending_allowable)


@dataclass(frozen=True)
class TwistedShaft:
    """A round shaft that carries a torque from end to end.

    Attributes
    ----------
    torque : float
        [N·m]
    length, diameter : float
        [m]
    made_of : Material
    """

    torque: float
    length: float
    diameter: float
    made_of: Material

    @property
    def twist(self) -> float:
        """From end to end [rad]; a shaft that creeps is taken with what is left of G."""
        modulus = self.made_of.shear_modulus * self.made_of.creep_factor
        return float(shaft_twist(self.torque, self.length, modulus, self.diameter))

    @property
    def use(self) -> float:
        """Share of its working stress [-]."""
        stress = torsion_stress(self.torque, self.diameter)
        return float(stress / self.made_of.shear_allowable)
