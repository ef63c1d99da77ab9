"""What a design hands to a turner or a drive that is to be built from it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from turnercalc.eggs.lot import EggLot
from turnercalc.eggs.seats import Seating


@dataclass(frozen=True)
class Ingredients:
    """The read sections, the eggs and how they sit.

    Attributes
    ----------
    sections : mapping
        Section name -> the read section, everything in SI and no default missing.
    lot : EggLot
        The eggs: typical, largest and smallest.
    seating : Seating
        Where a held egg's centre is, how far it leans and shifts, and when it leaves its seat.
    loads : tuple
        The builder's own load cases, as read.
    """

    sections: Mapping[str, Any]
    lot: EggLot
    seating: Seating
    loads: tuple[Any, ...] = ()
