"""[eggs]: what is turned, and how it is held."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Annotated

from pydantic import Field

from turnercalc.design.sectioning import as_it_is, constants
from turnercalc.eggs.holders import CELLS, CUPS, HOLDERS, HOLES, LIES, TROUGHS, Seat
from turnercalc.eggs.lot import EggLot, make_lot
from turnercalc.eggs.species import NotTurned, Species, look_up, nearest
from turnercalc.errors import DesignError, UnitError, UnknownNameError
from turnercalc.fields import (
    Choice,
    Context,
    EggMass,
    EggSize,
    Friction,
    Given,
    Phrase,
    Section,
    Size,
    Trouble,
    angle,
    positive_length,
    to_text,
)
from turnercalc.findings import Assumed


def _read_species(text: str) -> str:
    try:
        return look_up(text).name
    except UnknownNameError as error:
        near = nearest(text)
        raise UnitError(str(error), text=text, choices=near or ("chicken",)) from None


SPECIES = Phrase("species", _read_species, as_it_is, "chicken", "Whose eggs they are.")

_LIE_WORDS = {
    "on end": "big end up",
    "upright": "big end up",
    "blunt end up": "big end up",
    "large end up": "big end up",
    "point down": "big end up",
    "pointed end down": "big end up",
    "along the axis": "on the side, along the axis",
    "on the side, along the axle": "on the side, along the axis",
    "along the axle": "on the side, along the axis",
    "along": "on the side, along the axis",
    "on the side, across the axis": "on the side, across",
    "across the axis": "on the side, across",
    "across": "on the side, across",
}
_HOLDER_WORDS = {
    "cell": CELLS,
    "holes": HOLES,
    "round hole": HOLES,
    "cups": CUPS,
    "foam": CUPS,
    "trough": TROUGHS,
    "net": "foam and net",
}
#: Fields that matter only with one way of holding.
_ONLY_WITH: Mapping[str, str] = MappingProxyType(
    {
        "cell_room": CELLS,
        "cell_wall": CELLS,
        "hole": HOLES,
        "cup_depth": CUPS,
        "trough_angle": TROUGHS,
        "trough_radius": TROUGHS,
        "trough_depth": TROUGHS,
    }
)
_MILLIMETRE_TO_30_CM = (0.001, 0.3)


class Eggs(Section):
    """[eggs]: what is turned, and how it is held."""

    kind: Annotated[str, SPECIES]
    weighed: Annotated[EggMass | None, Field(description="Some eggs on the scale together")] = None
    typical: Annotated[EggSize | None, Field(description="A typical egg, length x breadth")] = None
    largest: Annotated[
        EggSize | None, Field(description="The largest egg you set", examples=["61 x 45.8 mm"])
    ] = None
    smallest: Annotated[
        EggSize | None, Field(description="The smallest egg you set", examples=["54 x 41 mm"])
    ] = None
    lie: Annotated[str, Choice(*LIES, also=_LIE_WORDS, help="How the eggs lie")]
    held_by: Annotated[str, Choice(*HOLDERS, also=_HOLDER_WORDS, help="What holds an egg")]
    cell_room: Annotated[
        float | None,
        positive_length(*_MILLIMETRE_TO_30_CM, example="46 mm"),
        Field(description="Clear width inside a cell"),
    ] = None
    cell_wall: Annotated[
        float | None,
        positive_length(*_MILLIMETRE_TO_30_CM, example="25 mm"),
        Field(description="Height of a cell's wall above the egg floor"),
    ] = None
    hole: Annotated[
        float | None,
        positive_length(*_MILLIMETRE_TO_30_CM, example="35 mm"),
        Field(description="Diameter of the round hole an egg stands in"),
    ] = None
    cup_depth: Annotated[
        float | None,
        positive_length(*_MILLIMETRE_TO_30_CM, example="20 mm"),
        Field(description="How deep an egg sits in its foam cup"),
    ] = None
    trough_angle: Annotated[
        float | None,
        angle(20.0, 170.0, example="80 deg"),
        Field(description="Opening angle of a V-shaped trough"),
    ] = None
    trough_radius: Annotated[
        float | None,
        positive_length(*_MILLIMETRE_TO_30_CM, example="30 mm"),
        Field(description="Radius of a round trough"),
    ] = None
    trough_depth: Annotated[
        float | None,
        positive_length(*_MILLIMETRE_TO_30_CM, example="25 mm"),
        Field(description="Height of a trough's edges above its bottom"),
    ] = None
    friction: Annotated[
        Friction | None,
        Field(description="Of an egg on what it stands on", examples=["0.25 to 0.45"]),
    ] = None

    @classmethod
    def assume(cls, given: Given, context: Context) -> Iterable[Assumed]:
        """Yield mass and sizes from the species table, scaled to what was weighed."""
        del context
        yield from constants("eggs", given, ("friction",))
        try:
            lot = lot_of(given)
        except DesignError:
            return  # `check` complains of it
        for path, source in lot.assumed.items() if lot is not None else ():
            name = path.removeprefix("eggs.")
            yield Assumed(path, _egg_text(lot, name), source, _how(source))

    @classmethod
    def check(cls, given: Given, context: Context) -> Iterable[Trouble]:
        """Yield what is no egg, and a way of holding that does not go or lacks its size."""
        del context
        try:
            lot_of(given)
        except DesignError as error:
            yield from _troubles(error)
        if given.get("lie") is None or given.get("held_by") is None:
            return
        try:
            seat_of(given)
        except DesignError as error:
            yield from _troubles(error)
        if given["held_by"] == CELLS and given.get("cell_room") is None:
            yield "cell_room", "Eggs stand in cells: how wide is one, clear inside?", ("46 mm",)

    @classmethod
    def idle(cls, given: Given) -> tuple[str, ...]:
        """Return the sizes that another way of holding would need."""
        return tuple(name for name, held in _ONLY_WITH.items() if held != given.get("held_by"))


def species_of(given: Given) -> Species | None:
    """Return the species of an eggs section; None for animals whose eggs are not turned."""
    if not given.get("kind"):
        return None
    found = look_up(given["kind"])
    return None if isinstance(found, NotTurned) else found


def lot_of(given: Given) -> EggLot | None:
    """Return the eggs of an eggs section, with the species table for what is not given.

    Parameters
    ----------
    given : mapping
        Fields of the section in SI.

    Returns
    -------
    EggLot or None
        None where the species is not known, or its eggs are not turned.

    Raises
    ------
    DesignError
        The figures are those of no egg.
    """
    species = species_of(given)
    if species is None:
        return None
    sizes = {
        name: (size.length, size.breadth)
        for name in ("typical", "largest", "smallest")
        if isinstance(size := given.get(name), Size)
    }
    return make_lot(species, given.get("weighed"), **sizes)


def seat_of(given: Given) -> Seat:
    """Return what holds one egg, from the fields of an eggs section in SI.

    Raises
    ------
    DesignError
        An egg that lies so cannot be held so, or a size is missing that decides its height.
    """
    held = given["held_by"]
    walls = {CELLS: "cell_wall", CUPS: "cup_depth", TROUGHS: "trough_depth"}
    return Seat(
        lie=given["lie"],
        held_by=held,
        room=given.get("cell_room"),
        wall=given.get(walls[held]) if held in walls else None,
        hole=given.get("hole"),
        trough_angle=given.get("trough_angle"),
        trough_radius=given.get("trough_radius"),
        friction=given.get("friction"),
    )


def _troubles(error: DesignError) -> Iterable[Trouble]:
    for complaint in error.complaints:
        name = complaint.field.removeprefix("eggs.")
        own = [text for text in complaint.accepted if "=" not in text or text.startswith(name)]
        yield name, complaint.message, tuple(text.rpartition("= ")[2].strip('"') for text in own)


def _egg_text(lot: EggLot | None, name: str) -> str:
    if lot is None:
        return ""
    if name == "weighed":
        return to_text(lot.typical.mass, "egg mass", "metric", 4)
    egg = getattr(lot, name)
    return f"{1e3 * egg.length:.4g} x {1e3 * egg.breadth:.4g} mm"


def _how(source: str) -> str:
    """Return how a figure came to us; the lot names it in brackets behind the table."""
    return source.rpartition("(")[2].rstrip(")") if source.endswith(")") else "computed"
