"""What the species table knows, as one frozen record for each species."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches

from turnercalc.errors import UnknownNameError
from turnercalc.tables import Row, table


@dataclass(frozen=True)
class Species:
    """One species whose eggs are turned.

    Attributes
    ----------
    name, scientific_name : str
        As shown to people.
    aliases : tuple of str
        Other names it answers to.
    mass, mass_min, mass_max : float
        Typical fresh egg and the usual range [kg].
    length, breadth : float
        Size of the typical egg [m].
    incubation_days, last_turning_day : float
        Counted from setting, which is day 0.
    hand_turns_per_day, turns_per_day : float
        Least by hand, and usual for machines.
    tilt, tilt_low : float
        Usual tilt each side of level, and the least that is usual [rad].
    temperature : float
        Usual setting in moving air [degC].
    water_loss : float or None
        Wanted share of the fresh mass lost as water; None where nothing special is known.
    note : str
        What a builder should know beyond the figures; may be empty.
    source : str
        Where the figures come from.
    """

    name: str
    scientific_name: str
    aliases: tuple[str, ...]
    mass: float
    mass_min: float
    mass_max: float
    length: float
    breadth: float
    incubation_days: float
    last_turning_day: float
    hand_turns_per_day: float
    turns_per_day: float
    tilt: float
    tilt_low: float
    temperature: float
    water_loss: float | None
    note: str
    source: str

    def how(self, figure: str) -> str:
        """Return how a figure came to us: ``how("length")`` is ``from memory`` for most birds."""
        row = table("species").row(self.name)
        columns = (figure, *(f"{figure}_{unit}" for unit in ("g", "mm", "deg", "degC")))
        for column in columns:
            if column in row:
                return row.how_of(column)
        raise UnknownNameError(f"The species table has no figure {figure!r}.")

    def size_at(self, mass: float) -> tuple[float, float]:
        """Return length and breadth [m] of an egg of another mass [kg] and the same shape."""
        scale = (mass / self.mass) ** (1 / 3)
        return self.length * scale, self.breadth * scale


@dataclass(frozen=True)
class NotTurned:
    """An animal whose eggs are left as they lie, and why."""

    name: str
    reason: str
    source: str
    how: str


def look_up(name: str) -> Species | NotTurned:
    """Return what is known of an egg by the name of its animal, or that it is not turned.

    Raises
    ------
    UnknownNameError
        Nobody of that name is known; the message offers the nearest.
    """
    if name in table("species"):
        return _species(table("species").row(name))
    known = table("not_turned")
    # A ball python is a python: what is not turned is known by any word of its name.
    kin = next((word for word in (name, *_words(name)) if word in known), None)
    if kin is not None:
        row = known.row(kin)
        return NotTurned(row.text("name"), row.text("reason"), row.source, row.how)
    raise UnknownNameError(_nobody(name))


def _words(name: str) -> list[str]:
    return name.replace("_", " ").replace("-", " ").split()


def species(name: str) -> Species:
    """Return the species of a name or alias.

    Raises
    ------
    UnknownNameError
        Nobody of that name is known, or its eggs are not turned; the message says which.
    """
    found = look_up(name)
    if isinstance(found, NotTurned):
        raise UnknownNameError(f"{found.reason} No turner is needed for {name.strip()}.")
    return found


def all_species() -> tuple[Species, ...]:
    """Return every species of the table."""
    return tuple(_species(row) for row in table("species").rows)


def _species(row: Row) -> Species:
    return Species(
        name=row.text("name"),
        scientific_name=row.text("scientific_name"),
        aliases=row.names(),
        mass=row.si("mass"),
        mass_min=row.si("mass_min"),
        mass_max=row.si("mass_max"),
        length=row.si("length"),
        breadth=row.si("breadth"),
        incubation_days=row.number("incubation_days"),
        last_turning_day=row.number("last_turning_day"),
        hand_turns_per_day=row.number("hand_turns_per_day"),
        turns_per_day=row.number("turns_per_day"),
        tilt=row.si("tilt"),
        tilt_low=row.si("tilt_low"),
        temperature=row.si("temperature"),
        water_loss=row.maybe("water_loss"),
        note=row.text("note"),
        source=row.source,
    )


def nearest(name: str) -> tuple[str, ...]:
    """Return the species whose names are spelt most alike, nearest first; perhaps none."""
    known = {
        alias.casefold(): one.name for one in all_species() for alias in (one.name, *one.aliases)
    }
    near = get_close_matches(name.strip().casefold(), known, n=3, cutoff=0.6)
    return tuple(dict.fromkeys(known[n] for n in near))


def _nobody(name: str) -> str:
    wanted, near = name.strip(), nearest(name)
    if near:
        return f'No eggs of "{wanted}" are known. Nearest: {", ".join(near)}.'
    return f'No eggs of "{wanted}" are known. Known: {", ".join(table("species").names())}.'
