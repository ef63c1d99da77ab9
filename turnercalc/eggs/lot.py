"""The eggs of one batch: a typical, a largest and a smallest one.

The typical egg stands for torque (there are many of them), the largest for clearance and the
smallest for staying in its seat.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType

from turnercalc.eggs.allometry import hoyt_gap
from turnercalc.eggs.mass_properties import SolidOfRevolution, mass_properties
from turnercalc.eggs.shape import asymmetry, pear_diameter
from turnercalc.eggs.species import Species
from turnercalc.errors import Complaint, DesignError

# Rounder than long, or two and a half times as long as broad: no bird lays that.
_SLENDEREST = 2.5


@dataclass(frozen=True)
class Egg:
    """One egg.

    Attributes
    ----------
    length, breadth : float
        Length and greatest breadth [m].
    mass : float
        [kg].
    w : float
        Distance of the greatest breadth from half length, toward the blunt end [m].
    D : float or None
        Diameter a quarter of the length from the pointed end [m]; None takes the
        Hügelschäffer ovoid's own.

    Raises
    ------
    DesignError
        The figures are those of no egg; the message says which and what would be.
    """

    length: float
    breadth: float
    mass: float
    w: float
    D: float | None = None

    def __post_init__(self) -> None:
        problem = _egg_problem(self)
        if problem:
            raise DesignError(problem)

    @classmethod
    def of_size(cls, length: float, breadth: float, mass: float) -> Egg:
        """Return an egg of usual asymmetry from its length, breadth [m] and mass [kg]."""
        return cls(length, breadth, mass, w=max(0.0, float(asymmetry(length, breadth))))

    @cached_property
    def solid(self) -> SolidOfRevolution:
        """Volume, surface, centre and radii of gyration."""
        return mass_properties(self.length, self.breadth, self.w, self.D)

    @property
    def density(self) -> float:
        """Mass over the volume of the shape [kg/m3]; about 1090 for a fresh hen's egg."""
        return self.mass / float(self.solid.volume)

    @property
    def centre_from_blunt(self) -> float:
        """Distance of the centre of mass from the blunt tip [m]."""
        return self.length / 2 + float(self.solid.centre)

    @property
    def centre_from_pointed(self) -> float:
        """Distance of the centre of mass from the pointed tip [m]."""
        return self.length / 2 - float(self.solid.centre)

    @property
    def inertia_long(self) -> float:
        """Moment of inertia about the long axis [kg m2]."""
        return self.mass * float(self.solid.gyration_long) ** 2

    @property
    def inertia_cross(self) -> float:
        """Moment of inertia about an axis square to the long one, through the centre [kg m2]."""
        return self.mass * float(self.solid.gyration_cross) ** 2

    def scaled(self, mass: float) -> Egg:
        """Return an egg of the same shape and density and another mass [kg]."""
        s = (mass / self.mass) ** (1 / 3)
        quarter = None if self.D is None else self.D * s
        return Egg(self.length * s, self.breadth * s, mass, self.w * s, quarter)

    def resized(self, length: float, breadth: float) -> Egg:
        """Return an egg of another size [m], the same density and proportionate asymmetry."""
        mass = self.mass * (length * breadth**2) / (self.length * self.breadth**2)
        return Egg.of_size(length, breadth, mass)


def _egg_problem(egg: Egg) -> str:
    sizes = {"length": egg.length, "breadth": egg.breadth, "mass": egg.mass}
    for name, value in sizes.items():
        if not (math.isfinite(value) and value > 0):
            return f"An egg's {name} must be more than nothing; {value:g} was read."
    ratio = egg.length / egg.breadth
    if ratio < 1:
        return (
            f"An egg is longer than broad; {egg.length * 1e3:.1f} x {egg.breadth * 1e3:.1f} mm "
            "was read. Write the length first."
        )
    if ratio > _SLENDEREST:
        return (
            f"No bird's egg is {ratio:.1f} times as long as broad; "
            f"{egg.length * 1e3:.1f} x {egg.breadth * 1e3:.1f} mm was read."
        )
    if not 0 <= egg.w < egg.length / 4:
        return (
            f"The greatest breadth of an egg lies toward the blunt end, less than a quarter of "
            f"its length from the middle; {egg.w * 1e3:.1f} mm was read."
        )
    if egg.D is not None:
        least = float(pear_diameter(egg.length, egg.breadth, egg.w))
        if not least * (1 - 1e-9) <= egg.D < egg.breadth:
            return (
                "The diameter a quarter of the length from the pointed end lies between "
                f"{least * 1e3:.1f} mm (pear-shaped) and the breadth; "
                f"{egg.D * 1e3:.1f} mm was read."
            )
    return ""


@dataclass(frozen=True)
class EggLot:
    """The eggs of one batch.

    Attributes
    ----------
    species : Species
        What the table knows of them.
    typical, largest, smallest : Egg
        For torque, for clearance, for staying in.
    assumed : mapping of str to str
        Field path -> where its figure was taken from, for everything the builder did not say.
    """

    species: Species
    typical: Egg
    largest: Egg
    smallest: Egg
    assumed: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))

    @property
    def hoyt_gap(self) -> float:
        """How far Hoyt's mass for the typical size is above its weighed mass, as a share."""
        return float(hoyt_gap(self.typical.length, self.typical.breadth, self.typical.mass))


Size = tuple[float, float]


def make_lot(
    species: Species,
    weighed: float | None = None,
    typical: Size | None = None,
    largest: Size | None = None,
    smallest: Size | None = None,
) -> EggLot:
    """Return the lot of a species, with whatever of it was weighed and measured.

    Parameters
    ----------
    species : Species
        Fills in what is not given; each figure taken from it is named in `EggLot.assumed`.
    weighed : float or None
        Mass of the typical egg [kg].
    typical, largest, smallest : tuple of float or None
        Length and breadth [m].

    Raises
    ------
    DesignError
        A size or mass is that of no egg, or the three are not in order. Its complaints carry
        the field paths.

    Notes
    -----
    An egg grows alike in all directions, so its lengths go with the cube root of its mass. The
    largest egg is that of the heavy end of the species' range, the smallest that of the light
    end; where the weighed eggs lie outside the range, the whole range moves with them.
    """
    assumed: dict[str, str] = {}
    mass = species.mass if weighed is None else weighed
    if weighed is None:
        assumed["eggs.weighed"] = _taken("mass", species)
    size = species.size_at(mass) if typical is None and mass > 0 else typical
    if typical is None:
        assumed["eggs.typical"] = _taken("length", species)
    middle = _egg("eggs.typical", size, mass)
    low, high = _mass_range(species, mass)
    big = _other("eggs.largest", largest, middle, high)
    small = _other("eggs.smallest", smallest, middle, low)
    for name, given, column in (
        ("eggs.largest", largest, "mass_max"),
        ("eggs.smallest", smallest, "mass_min"),
    ):
        if given is None:
            assumed[name] = _taken(column, species)
    _check_order(small, middle, big)
    return EggLot(species, middle, big, small, MappingProxyType(assumed))


def _mass_range(species: Species, mass: float) -> tuple[float, float]:
    moved = mass / species.mass if not species.mass_min <= mass <= species.mass_max else 1.0
    return species.mass_min * moved, species.mass_max * moved


def _taken(figure: str, species: Species) -> str:
    return f"species table: {species.name} ({species.how(figure)})"


def _other(path: str, size: Size | None, middle: Egg, mass: float) -> Egg:
    if size is None:
        return middle.scaled(mass)
    try:
        return middle.resized(*size)
    except DesignError as error:
        raise _complain(path, size, str(error)) from error


def _egg(path: str, size: Size | None, mass: float) -> Egg:
    length, breadth = size or (math.nan, math.nan)
    if not (math.isfinite(mass) and mass > 0):
        raise _complain(
            "eggs.weighed", (mass,), f"An egg's mass must be more than nothing; {mass:g} was read."
        )
    try:
        return Egg.of_size(length, breadth, mass)
    except DesignError as error:
        raise _complain(path, (length, breadth), str(error)) from error


def _check_order(small: Egg, middle: Egg, big: Egg) -> None:
    for path, lesser, greater in (
        ("eggs.largest", middle, big),
        ("eggs.smallest", small, middle),
    ):
        if lesser.length > greater.length or lesser.breadth > greater.breadth:
            egg = big if path == "eggs.largest" else small
            word = "larger" if path == "eggs.largest" else "smaller"
            raise _complain(
                path,
                (egg.length, egg.breadth),
                f"The {path.removeprefix('eggs.')} egg must be {word} than the typical one, "
                f"{_mm(middle.length, middle.breadth)}, or just like it.",
            )


def _mm(*sizes: float) -> str:
    return " x ".join(f"{s * 1e3:.1f}" for s in sizes) + " mm"


def _complain(path: str, read: tuple[float, ...], message: str) -> DesignError:
    text = _mm(*read) if len(read) > 1 else f"{read[0]:g}"
    return DesignError(message, complaints=(Complaint(None, path, text, message),))
